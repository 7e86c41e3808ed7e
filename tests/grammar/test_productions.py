"""Productions: what lark makes of the same rules written as its text, and no more of wide ones."""

from __future__ import annotations

from collections.abc import Iterable

import pytest
from lark import Lark, Token, Tree
from lark.grammar import Rule

from grammar.language import rule_table, terminals
from grammar.lookahead import Lookahead
from grammar.productions import productions, productions_of, symbol_of
from grammar.rule_table import RuleTable
from grammar.slots import RULES
from grammar.template import read_template
from tests.grammar.every_rule import every_rule


def as_text(some: Iterable[Rule]) -> list[str]:
    return [f"{r.origin.name}: {' '.join(symbol.name for symbol in r.expansion)}" for r in some]


def made_by_lark(text: str, *terminals: str) -> list[str]:
    """Productions of rules that lark itself reads."""
    lark = Lark(f"{text}\n%declare {' '.join(terminals)}", parser="earley", lexer="basic")
    return as_text(lark.rules)


def test_slots_come_to_what_lark_makes_of_their_rules() -> None:
    """Lark reads the rules as text; it leaves out, of all rules, those that none of ours uses."""
    starts = {line.partition(":")[0] for line in RULES.splitlines() if line[:1].isalpha()}
    roles = {part for part in RULES.replace("[", " ").replace("]", " ").split() if part[:2] == "r_"}
    text = "\n".join(
        [
            f"start: {' | '.join(sorted(starts))}",
            RULES,
            *(f"{role}: WORD" for role in sorted(roles)),
            "change: WORD",  # of the phrases that change the job
        ]
    )
    by_lark = made_by_lark(
        text, "WORD", "NUMERAL", "FRACTION", "LABEL", "LETTERS", "ANY", "UNKNOWN"
    )
    ours = as_text(productions_of(RULES))
    assert len(ours) > 100
    assert sorted(set(ours)) == sorted(
        {line for line in by_lark if not line.startswith(("r_", "start:", "change:"))}
    )


@pytest.mark.parametrize(
    ("template", "as_lark_writes_it"),
    [
        ("A [B] C", "A B? C"),
        ("(A | B [C]) [D | B] A", "(A | B C?) (D | B)? A"),
        ("[A] [B] [C] D", "A? B? C? D"),
        ("(A | A) B", "(A | A) B"),
    ],
)
def test_choices_are_in_the_order_that_lark_has_them_in(
    template: str, as_lark_writes_it: str
) -> None:
    expected = made_by_lark(f"start: {as_lark_writes_it}", *"ABCD")
    found = productions("start", read_template(template), symbol_of)
    assert as_text(found) == expected
    assert [rule.order for rule in found] == list(range(len(found)))


def test_of_nothing_but_what_may_be_left_out_no_rule_is_made() -> None:
    with pytest.raises(ValueError, match="all of greeting may be left out"):
        productions("greeting", read_template("[A] [B | C]"), symbol_of)


def test_a_rule_that_is_not_there_is_named() -> None:
    with pytest.raises(ValueError, match="p_rows"):
        every_rule(RuleTable(productions_of("start: p_column p_rows\np_column: LABEL")))


def trees(parser: Lookahead, *kinds: str) -> Tree[Token]:
    tree: Tree[Token] = parser.tree([Token(kind, kind.lower()) for kind in kinds])
    return tree


def test_a_wide_template_grows_by_what_is_added_and_means_the_same() -> None:
    """Six pairs of words, each to be left out: 729 ways in a row, and one rule of a few."""
    pairs = [(f"A{i}", f"B{i}") for i in range(6)]
    wide = " ".join(f"[{one} | {other}]" for one, other in pairs) + " LAST"
    found = productions("start", read_template(wide), symbol_of)
    twice = productions("start", read_template(wide.replace(" LAST", f" {wide}")), symbol_of)
    assert len(found) < 60
    assert len(twice) < 2.5 * len(found)
    parser = Lookahead(RuleTable(found))
    for said in (
        ["LAST"],
        ["A0", "LAST"],
        ["B2", "A5", "LAST"],
        [one for one, _ in pairs] + ["LAST"],
    ):
        tree = trees(parser, *said)
        assert tree.data == "start"
        assert [str(leaf) for leaf in tree.children] == [kind.lower() for kind in said]


def test_the_language_is_made_of_rules_that_are_all_there() -> None:
    made = every_rule(rule_table())
    assert len(set(made)) == len(made)
    named = {symbol.name for rule in made for symbol in rule.expansion if symbol.is_term}
    assert named <= {
        *terminals().values(),
        "NUMERAL",
        "FRACTION",
        "LABEL",
        "LETTERS",
        "ANY",
        "UNKNOWN",
    }


def test_thirty_two_ways_are_written_out_and_more_are_two_rules_of_their_own() -> None:
    eight = "(A | B | C | D | E | F | G | H)"
    for template, count, first in (
        (f"{eight} (A | B | C | D)", 32, "x: A A"),
        (f"{eight} (A | B | C | D | E)", 14, "x: _x_1 _x_2"),
        (f"{eight} (A | B) (C | D)", 32, "x: A A C"),
        # Of two ways no rule is made.
        (f"(A | B) {eight} (A | B | C)", 2 + 8 * 3, "x: A _x_1"),
    ):
        made = as_text(productions("x", read_template(template), symbol_of))
        assert (len(made), made[0]) == (count, first), template
