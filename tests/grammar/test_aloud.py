"""A command to the words it is said in: what a recogniser weighs must mean that command."""

from __future__ import annotations

from decimal import Decimal

import pytest

from grammar import understand
from grammar.aloud import _token, first_way, said_aloud, written_ways
from grammar.commands import Measure, Reading
from grammar.commands.finish import RaiseFinish
from grammar.commands.readings import TakeReading
from grammar.commands.talk import WhatIf
from grammar.spoken import Spoken


@pytest.mark.parametrize(
    ("line", "words", "digits"),
    [
        ("B3 -18 mm", "bravo three minus eighteen millimetres",
         "bravo three minus one eight millimetres"),
        ("B12 +2.5 mm", "bravo twelve plus two point five millimetres",
         "bravo one two plus two point five millimetres"),
        ("B3 +1 5/8 in", "bravo three plus one and five eighths inches",
         "bravo three plus one and five eighths inches"),
        ("B3 level", "bravo three level", "bravo three level"),
        ("tally", "tally", "tally"),
    ],
)  # fmt: skip
def test_the_first_way_to_say_it(line: str, words: str, digits: str) -> None:
    (command,) = understand(line)
    for spoken, said in ((Spoken("words"), words), (Spoken("digits"), digits)):
        template = said_aloud(spoken, command)
        assert template is not None
        assert first_way(template).removeprefix("point ") == said
        assert command in spoken.meanings(said)


@pytest.mark.parametrize(
    "line",
    [
        "B3 -18",
        "B3 18 mm",
        "B3 -1/32 in",
        "B3 -2 ft",
        "B3 0 mm",
        "AB3 level",
        "B3 -17 18",
        "step between B and C",
    ],
)
def test_what_is_for_typing_has_no_words(line: str) -> None:
    (command, *_) = understand(line)
    assert said_aloud(Spoken(), command) is None


def test_settings_open_what_may_be_said() -> None:
    wide = understand("AB3 level")[0]
    assert said_aloud(Spoken(two_letter_columns=True), wide) is not None
    bare = TakeReading("B3", Reading(Decimal(-18), "mm"))
    template = said_aloud(Spoken(open_unit=True), bare, written=True)
    assert template is not None
    assert "millimetres" in template
    assert template.count("|") > 1


def test_a_change_inside_a_question_is_said_as_it_is_alone() -> None:
    change = RaiseFinish(Measure(Decimal(3), "mm"))
    alone = said_aloud(Spoken(), change)
    asked = said_aloud(Spoken(), WhatIf(change))
    assert alone is not None
    assert asked is not None
    assert alone in asked
    bare = TakeReading("B3", Reading(Decimal(-18), None))
    assert said_aloud(Spoken(), WhatIf(bare)) is None


def test_figures_are_among_the_ways_to_write_it() -> None:
    assert written_ways("thirty five") == "(thirty five | thirty +- +five | 3 +5)"
    assert written_ways("millimetres") == "(millimetres)"


def test_figures_are_the_pieces_that_a_recogniser_joins() -> None:
    for token, pieces in (
        ("7", "7"), ("12", "1 +2"), ("2.5", "2 +. +5"), ("3/8", "3 +/ +8"), ("1/2", "1 +/ +2"),
        ("15/16", "1 +5 +/ +1 +6"), ("minus", "minus"), ("", ""),
    ):  # fmt: skip
        assert _token(token) == pieces
