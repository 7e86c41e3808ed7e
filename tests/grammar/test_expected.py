"""What would have been taken, in an installer's words: never a rule's name."""

from __future__ import annotations

import pytest

from grammar import hint
from grammar.expected import expected_in_words
from grammar.phrases import PHRASES
from grammar.template import Literal


@pytest.mark.parametrize(
    ("before", "named"),
    [
        ("B3", ("a number", "below or above", "level", "minus or plus")),
        ("B3 minus", ("a number",)),
        ("B3 minus 18", ("a unit: mm, cm, m, in or ft",)),
        ("wall", ("a direction: north, south east …",)),
        ("product", ("a name",)),
        ("waste 7", ("percent",)),
        ("room 12", ("a unit: mm, cm, m, in or ft", "by")),
        ("strike", ("a point (like B3)", "that")),
        ("readings in", ("inches or millimetres",)),
    ],
)
def test_a_gap_is_named(before: str, named: tuple[str, ...]) -> None:
    assert set(named) <= set(hint(before)), hint(before)


@pytest.mark.parametrize("before", ["", "B3", "B3 minus", "wall", "slab temperature", "what if"])
def test_no_rule_of_the_parser_shows(before: str) -> None:
    for name in hint(before):
        assert "_" not in name, name
        assert not name.isupper(), name


def test_values_stand_before_words_each_once() -> None:
    named = hint("strike")
    assert named.index("a point (like B3)") < named.index("that")
    assert len(named) == len(set(named))


def test_a_word_that_stands_before_a_point_is_not_named_beside_it() -> None:
    assert "a point (like B3)" in hint("")
    assert "point" not in hint("")


def test_nothing_is_named_where_nothing_may_follow() -> None:
    assert hint("zzz") == ()
    assert expected_in_words([]) == ()
    assert expected_in_words([("no_such_rule", "T0")]) == ()


def test_every_opening_word_is_named_at_the_start() -> None:
    named = set(hint(""))
    for phrase in PHRASES:
        first = phrase.nodes[0]
        # "point" may only stand before a point, which is named already.
        if isinstance(first, Literal) and first.word != "point":
            assert first.word.lower() in named, phrase.template
