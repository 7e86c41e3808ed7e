"""Lengths and readings: number, unit and side stay as they were said."""

from __future__ import annotations

from decimal import Decimal

import pytest

from grammar import spoken_measure, spoken_reading
from grammar.commands import IN_PARTS, Measure, Reading
from grammar.slots.measure import SPOKEN_UNITS, UNITS, short_measure, short_pair
from grammar.slots.reading import short_reading, short_several, short_signed

MM = "mm"


@pytest.mark.parametrize(
    ("number", "unit", "short", "spoken"),
    [
        ("18", "mm", "18 mm", "one eight millimetres"),
        ("1", "mm", "1 mm", "one millimetre"),
        ("0.5", "mm", "0.5 mm", "zero point five millimetre"),
        ("0.375", "in", "3/8 in", "three eighths inch"),
        ("2.3", "in", "2.3 in", "two point three inches"),
        ("162", "ft-in", "13 ft 6 in", "one three feet six inches"),
        ("4.25", "m", "4.25 m", "four point two five metres"),
    ],
)
def test_a_length_is_typed_and_read_out(number: str, unit: str, short: str, spoken: str) -> None:
    assert short_measure(Measure(Decimal(number), unit)) == short
    assert spoken_measure(Decimal(number), unit) == spoken


def test_every_unit_that_can_be_said_can_be_read_out() -> None:
    assert UNITS.keys() == SPOKEN_UNITS.keys()
    for unit, words in UNITS.items():
        assert set(SPOKEN_UNITS[unit]) <= set(words)


@pytest.mark.parametrize(
    ("number", "unit", "side_said", "short", "signed"),
    [
        ("-18", MM, True, "-18 mm", "-18 mm"),
        ("18", MM, True, "+18 mm", "+18 mm"),
        ("18", MM, False, "18 mm", "18 mm"),
        ("0", None, True, "level", "level"),
        ("0", MM, True, "0 mm", "+0 mm"),
        ("-0.375", IN_PARTS, True, "-3/8", "-3/8"),
    ],
)
def test_a_reading_keeps_its_side(
    number: str, unit: str | None, side_said: bool, short: str, signed: str
) -> None:
    reading = Reading(Decimal(number), unit, side_said)
    assert short_reading(reading) == short
    assert short_signed(reading) == signed


@pytest.mark.parametrize(
    ("number", "said"),
    [("-18", "one eight millimetres below"), ("18", "one eight millimetres above"), ("0", "level")],
)
def test_a_side_is_read_out_in_a_word(number: str, said: str) -> None:
    assert spoken_reading(Decimal(number), MM) == said


def test_the_side_and_unit_of_several_are_said_once() -> None:
    readings = tuple(Reading(Decimal(number), MM) for number in (0, -17, -18))
    assert short_several(readings) == "-0 17 18 mm"
    above = tuple(Reading(Decimal(number), MM) for number in (0, 17, 18))
    assert short_several(above) == "+0 17 18 mm"


def test_two_lengths_in_two_units_keep_both() -> None:
    assert short_pair((Measure(Decimal(12), "m"), Measure(Decimal(800), "mm"))) == "12 m by 800 mm"
