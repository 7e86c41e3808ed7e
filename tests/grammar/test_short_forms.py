"""What is understood comes back from its short form, and a comma parts two values."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise
from random import Random

import pytest

from grammar import Misunderstood, short_form, understand
from grammar.commands import Reading
from grammar.commands.readings import TakeReading
from tests.fuzz import mangled, short_form_differs


@pytest.mark.parametrize(
    "text",
    [
        "B3 -0 18 19 mm",
        "0 mm low",
        "0 ft 0 in below",
        "product a 2,5 b",
        "product bag 1  / 2",
        "product 1/½",
        "B3 99999999 1/64 mm low",
    ],
)
def test_a_line_comes_back_from_its_short_form(text: str) -> None:
    assert short_form_differs(text) is None


def test_several_values_after_a_zero_keep_their_side() -> None:
    (command,) = understand("B3 -0 18 19 mm")
    assert short_form(command) == "B3 -0 18 19 mm"


def test_mangled_sentences_come_back_from_their_short_forms() -> None:
    random = Random(20)
    for _ in range(300):
        text = mangled(random)
        assert short_form_differs(text) is None, text


@pytest.mark.parametrize(
    "text",
    ["B3 minus one, two", "B3 minus twenty, um, five", "B3 minus one; hundred", "bravo one, two 5"],
)
def test_no_number_goes_on_past_a_comma(text: str) -> None:
    try:
        meanings = understand(text)
    except Misunderstood as miss:
        assert miss.nearest is None or not any(
            value in miss.nearest for value in ("12", "25", "100")
        )
    else:
        assert meanings == (TakeReading("B1", Reading(Decimal(2), None, False)),)


@pytest.mark.parametrize(
    "text", ["A1 -12.5.5", "A1 -12..5", "A1 -.5.5 mm", "A1 -17 18.5.5", "B3 -17 .5", "B2.5"]
)
def test_a_number_with_two_stops_is_not_two_readings(text: str) -> None:
    with pytest.raises(Misunderstood):
        understand(text)


def test_a_comma_may_part_a_point_from_its_reading_and_one_reading_from_the_next() -> None:
    assert understand("bravo two, five low") == (TakeReading("B2", Reading(Decimal(-5), None)),)
    assert understand("B3 -17, 18, 19") == understand("B3 -17 18 19")


@pytest.mark.parametrize(
    ("said", "nearest"),
    [
        ("undo 100", None),
        ("undo three hundred", None),
        ("B3 minus", None),
        ("B3 -2,5", None),
        ("strike 3", None),
        ("strke B3", "strike B3"),
        ("bravo three minus eighteen milimetres", "B3 -18 mm"),
        ("A1 -18 litres", None),
        ("A1 -18 millilitres", None),
        ("A1 -18 kilometres", None),
        ("A1 -18 f", None),
        ("A1 -18 inchs", "A1 -18 in"),
        ("raise finish 3 kg", None),
        ("room twelve by eight", None),
        ("room 12 by 8 litres", None),
        ("room 12 by 8 meteres", "room 12 by 8 m"),
        ("room 12 8 metres", None),
        ("grid 2", None),
        ("wall 4.2 metres", None),
        ("wall esat 4.2 metres", "wall east 4.2 m"),
        ("check zero", None),
        ("readings in feet", None),
        ("air 20 mm", None),
        ("waste 7 mm", None),
        ("waist 7", "waste 7 percent"),
    ],
)
def test_a_hint_holds_no_value_or_unit_nobody_said(said: str, nearest: str | None) -> None:
    with pytest.raises(Misunderstood) as caught:
        understand(said)
    assert caught.value.nearest == nearest


_BEGIN = {
    "mm": ("mm", "mil"), "cm": ("cm", "cen"), "m": ("m",), "in": ("in", '"', "″"),
    "ft": ("f", "'", "′"),
}  # fmt: skip
"""Each unit of a short form, and how its word begins when it is said, slips left aside."""


def test_no_hint_for_a_mangled_sentence_holds_a_unit_nobody_said() -> None:
    random, hints = Random(3), 0
    for _ in range(300):
        text = mangled(random)
        try:
            understand(text)
        except Misunderstood as miss:
            words = (miss.nearest or "").split()
            hints += bool(words)
            for number, unit in pairwise(words):
                if number[-1].isdigit() and unit in _BEGIN:
                    assert any(way in text.lower() for way in _BEGIN[unit]), (text, miss.nearest)
    assert hints > 10
