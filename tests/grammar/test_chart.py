"""The forest of what a row of tokens can be, held against lark's own Earley parser.

Source of the check values: lark (https://github.com/lark-parser/lark), given the same grammar as
text. It keeps every ambiguity.
"""

from __future__ import annotations

from itertools import product

import pytest
from lark import Lark, Token, Tree
from lark.exceptions import UnexpectedEOF, UnexpectedToken

from grammar.chart import Chart, DottedRule, Predictions, beginning_of
from grammar.lookahead import Lookahead, NoLine
from grammar.productions import productions_of
from grammar.rule_table import RuleTable

GRAMMARS = {
    "sums": "start: sum\nsum: sum A sum | B",
    "pieces": "start: one two | two one | one\none: A | A A | B one\ntwo: B | A B | B A | one A",
    "inlined": "start: _some B | A _some\n_some: A | A A | _more B\n_more: A | B",
    "nested": "start: A start B | A B | start start",
}
LINES = ["".join(letters) for count in range(1, 7) for letters in product("AB", repeat=count)]


def readings(tree: Tree[Token] | Token) -> set[str]:
    """Every tree that a tree with ambiguous pieces stands for."""
    if not isinstance(tree, Tree):
        return {str(tree)}
    if tree.data == "_ambig":
        return set().union(*map(readings, tree.children))
    parts = product(*map(readings, tree.children))
    return {f"{tree.data}({' '.join(part)})" for part in parts}


def by_lark(rules: str) -> Lark:
    terminals = '\nA: "a"\nB: "b"\n'
    return Lark(rules + terminals, parser="earley", lexer="basic", ambiguity="explicit",
                keep_all_tokens=True)  # fmt: skip


@pytest.mark.parametrize("name", GRAMMARS)
def test_trees_and_misses_are_those_of_lark(name: str) -> None:
    theirs, ours = by_lark(GRAMMARS[name]), Lookahead(RuleTable(productions_of(GRAMMARS[name])))
    amiss, taken, several = [], 0, 0
    for line in LINES:
        expected: object
        found: object
        try:
            expected = readings(theirs.parse(line.lower()))
            taken, several = taken + 1, several + (len(expected) > 1)
        except UnexpectedToken as stop:
            expected = stop.pos_in_stream
        except UnexpectedEOF:
            expected = len(line)
        try:
            found = readings(ours.tree([Token(kind, kind.lower()) for kind in line]))
        except NoLine as stop:
            found = stop.at
        if found != expected:
            amiss.append(f"{line}: {found}, not {expected}")
    assert not amiss, "\n".join(amiss[:5])
    # Pieces that are left out of the trees make no other tree.
    assert several >= (name != "inlined")
    assert several < taken < len(LINES)


def test_what_is_said_in_two_ways_is_read_by_the_earlier_rule_first() -> None:
    ours = Lookahead(RuleTable(productions_of("start: late | soon\nsoon: A B\nlate: A B")))
    tree = ours.tree([Token("A", "a"), Token("B", "b")])
    assert [way.children[0].data for way in tree.children] == ["late", "soon"]


def test_each_kind_is_predicted_once_at_a_word() -> None:
    """Not once for every rule that leads to it: that was nine times over, in a reading."""
    looked_up: list[str] = []

    class Noted(Predictions):
        def __missing__(self, kind: str) -> list[DottedRule]:
            looked_up.append(kind)
            rules = productions_of(GRAMMARS["sums"])
            return [beginning_of(rule) for rule in rules if rule.origin.name == kind]

    noted = Noted()
    chart = Chart(noted["start"])
    for letter in "BABA":
        looked_up.clear()
        chart.advance(noted)
        assert looked_up == (["sum"] if letter == "B" else [])
        assert chart.take(Token(letter, letter))
    assert not chart.take(Token("A", "A"))


def test_a_place_in_a_rule_says_what_comes_next() -> None:
    (rule,) = productions_of("ask: A other B")
    place = beginning_of(rule)
    wanted = []
    while place.following is not None:
        wanted.append((place.at, place.terminal, place.kind))
        place = place.following
    assert wanted == [(0, "A", None), (1, None, "other"), (2, "B", None)]
    assert (place.terminal, place.kind, place.symbol) == (None, None, rule.origin)
