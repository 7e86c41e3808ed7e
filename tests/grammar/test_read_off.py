"""Readings among the words with which somebody reads them off, and what is none."""

from __future__ import annotations

import pytest

from grammar import Misunderstood, short_form, understand
from grammar.commands.readings import TakeReading
from grammar.commands.walk import TakePoints
from grammar.read_off import read_off
from grammar.words import split_words


@pytest.mark.parametrize(
    ("line", "meant"),
    [
        ("A3 came in fourteen low", "A3 -14"),
        ("at D1 I've got nine under", "D1 -9"),
        ("seven high over at B3", "B3 +7"),
        ("D4 is sitting a quarter inch proud", "D4 +1/4 in"),
        ("A2 is four below and B2 is six below", "A2 -4, B2 -6"),
        ("this one at B1 is dead level", "B1 level"),
    ],
)
def test_words_of_reading_off_change_nothing_of_a_reading(line: str, meant: str) -> None:
    assert [short_form(each) for each in understand(line)] == [meant]


@pytest.mark.parametrize(
    "line",
    [
        "is D2 sitting 9 low",
        "D2 comes out 9 low?",
        "he's got D2 9 low",
        "D2 wants to come out 9 low",
        "D2 never came in 9 low",
        "the drain at D2 sits 9 low",
        "D2 came in 9 low yesterday",
        "at D2 I've got 9 low left",
        "C2 and D2 came in 9 low",
        "B3 came in minus 18 below",
        "B3 comes up minus 18",
        "B3 minus 18 over",
        "B3 -1/3 in",
        "B3 came in -1/3 in",
    ],
)
def test_nothing_is_read_off_a_line_that_says_more(line: str) -> None:
    try:
        found = understand(line)
    except Misunderstood:
        return
    assert not any(isinstance(each, (TakeReading, TakePoints)) for each in found)


@pytest.mark.parametrize(
    "line",
    [
        "the zero is here", "zero is here", "the level is here", "the laser is level here",
        "the zero is at B3", "zero sits at B3", "the level stands here",
    ],
)  # fmt: skip
def test_where_the_zero_is_no_height_was_read(line: str) -> None:
    assert read_off(split_words(line)) == ()


def test_of_the_zero_a_height_may_be_read() -> None:
    for line, form in (
        ("it reads zero here", "level"), ("the level at B3 is minus 9", "B3 -9"),
        ("B3 dead level with the zero", "B3 level"), ("this is zero", "level"),
    ):  # fmt: skip
        assert [short_form(each) for each in read_off(split_words(line))] == [form], line
