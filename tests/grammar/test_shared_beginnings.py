"""Rules that share their beginnings take the same lines and come to the same trees."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from itertools import product

import pytest
from lark import Token
from lark.grammar import NonTerminal, Rule, Symbol

from grammar.language import rule_table
from grammar.lookahead import Lookahead
from grammar.phrases import PHRASES
from grammar.productions import productions_of
from grammar.rule_table import RuleTable
from grammar.shared_beginnings import with_shared_beginnings

RULES = "start: A B | A C B | A B C [D] | A (B | C) what | B A\nwhat: D | C D"


def written_out(table: RuleTable, origin: Symbol) -> set[tuple[Symbol, ...]]:
    """All ways of one rule, with those of its parts in their places."""
    ways: set[tuple[Symbol, ...]] = set()
    for rule in table.made_of(origin):
        steps = [
            written_out(table, step) if step.name.startswith("_") else {(step,)}
            for step in rule.expansion
        ]
        ways |= {tuple(leaf for part in way for leaf in part) for way in product(*steps)}
    return ways


def most_alike(rules: Iterable[Rule]) -> int:
    """How many of some rules begin with the same symbol, at most."""
    return max(Counter(rule.expansion[0] for rule in rules).values())


@pytest.mark.slow
def test_every_phrase_has_the_ways_it_had(monkeypatch: pytest.MonkeyPatch) -> None:
    shared, plain = rule_table(), rule_table()
    before = 0
    for number, phrase in enumerate(PHRASES):
        made = NonTerminal(f"ph_{number}")
        parts = [rule.expansion[0] for rule in shared.made_of(made)]
        assert all(most_alike(shared.made_of(part)) <= 2 for part in parts), phrase.template
        with monkeypatch.context() as patch:
            patch.setattr("grammar.rule_table.with_shared_beginnings", list)
            assert [rule.expansion[0] for rule in plain.made_of(made)] == parts
            before = max(before, *(most_alike(plain.made_of(part)) for part in parts))
        assert written_out(shared, made) == written_out(plain, made), phrase.template
    assert before > 20  # else there was nothing to share


@pytest.mark.parametrize("said", ["AB", "ACB", "ABC", "ABCD", "ACCD", "BA", "ABD", "A", "ABB", ""])
def test_trees_are_the_same(said: str) -> None:
    def told(rules: list[Rule]) -> set[str]:
        try:
            tree = Lookahead(RuleTable(rules)).tree([Token(kind, kind.lower()) for kind in said])
        except Exception as stop:
            return {type(stop).__name__}
        return {str(way) for way in (tree.children if tree.data == "_ambig" else [tree])}

    rules = list(productions_of(RULES))
    assert told(with_shared_beginnings(rules)) == told(rules)
    # One line of these can be meant in two ways, and keeps both.
    assert (len(told(rules)) == 2) == (said == "ABCD")


def test_few_that_begin_alike_stay_as_they_are() -> None:
    rules = list(productions_of("start: A B | A C | B"))
    assert with_shared_beginnings(rules) == rules
