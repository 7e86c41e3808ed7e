"""What is taken, asked or left alone of the many ways in which people put a thing."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, short_form, understand
from grammar.commands import Change
from grammar.framed import framed
from grammar.gist import any_command, gist
from grammar.words import split_words

TAKEN = (
    ("minus 12 here", "-12"),
    ("this one's minus 12", "-12"),
    ("log B2 minus 12", "B2 -12"),
    ("overwrite B1 with minus 10", "correct B1 -10"),
    ("B1 is wrong, it's minus 10", "correct B1 -10"),
    ("actually minus 16", "no -16"),
    ("B1 doesn't count", "strike B1"),
    ("I cannot measure A2", "skip A2"),
    ("D4 next", "go to D4"),
    ("A2 reads like B1", "A2 same as B1"),
    ("client = Here and There", "client = Here and There"),
)
GUESSED = (
    ("there's three of us today", "crew 3"),
    ("a batch takes six minutes", "minutes per batch 6"),
    ("we're using 5 litres per bag", "water 5 litres a bag"),
    ("leading edge is at column C", "front at column C"),
    ("put a bulkhead at row 4", "dam at row 4"),
    ("strip two's finished", "strip 2 done"),
    ("how many bags for the kitchen", "tally kitchen"),
    ("lose the kitchen zone", "drop zone kitchen"),
    ("drummy spot at C3", "hollow at C3"),
    ("is it within tolerance", "verdicts"),
    ("write up a report", "report"),
    ("which places are too high", "high spots"),
    ("show me all my readings", "readings"),
    ("do I need to do it in two goes", "lifts"),
)
NOT_TAKEN = (
    "D1 is about nine under",
    "B2 roughly minus 9",
    "A1 -12. 5",
    "client is here",
    "client is not happy",
    "put F1 two lower",
    "go back one",
)
LEFT = (
    "they only had fourteen bags left",
    "they lost by four wickets",
    "you could buy most of a bag of leveller for that",
    "he's mean, that's what he is",
    "what was that noise",
    "will it crack",
    "set the room to 5 litres",
)


def _first(line: str) -> str:
    return short_form(understand(line)[0])


def _guessed(line: str) -> str | None:
    found = gist(line)
    return short_form(found.command) if found and found.command else None


def test_typed_ways_are_taken() -> None:
    assert [(line, _first(line)) for line, _ in TAKEN] == [*TAKEN]


def test_what_is_meant_is_found_by_its_concepts() -> None:
    assert [(line, _guessed(line)) for line, _ in GUESSED] == [*GUESSED]


@pytest.mark.parametrize("line", NOT_TAKEN)
def test_what_is_no_value_or_can_mean_two_things_is_not_taken(line: str) -> None:
    with pytest.raises(Misunderstood):
        understand(line)


def test_a_decimal_that_a_phone_parted_is_told_so() -> None:
    with pytest.raises(Misunderstood) as missed:
        understand("A1 -12. 5")
    assert "A decimal takes one point" in missed.value.explain()
    assert missed.value.nearest is None


def test_what_is_told_of_others_or_is_ours_to_judge_is_left_alone() -> None:
    assert [(line, _guessed(line)) for line in LEFT] == [(line, None) for line in LEFT]


def test_what_was_counted_in_minutes_fills_no_other_gap() -> None:
    found = framed("", split_words("raise the finish 6 minutes"), any_command, ())
    assert found is None or not isinstance(found.command, Change)
