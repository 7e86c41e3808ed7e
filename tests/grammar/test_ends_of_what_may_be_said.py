"""How large, how small and how fine a value may be said aloud: both sides of every end.

What may be said is what the spoken grammar hears; each further number is one more that another can
be mistaken for.
"""

from __future__ import annotations

from decimal import Decimal
from functools import cache
from typing import Any

import pytest

from grammar import understand
from grammar.automaton import Automaton
from grammar.commands import Measure, Reading
from grammar.commands.readings import TakeReading
from grammar.commands.site import Temperature
from grammar.errors import Unsayable
from grammar.numbers import in_words
from grammar.slots import SLOTS
from grammar.slots.number import SpokenNumbers
from grammar.slots.slot import SpokenForm
from grammar.spoken import Spoken

VOICE = SpokenNumbers(Spoken("words"), written=False)


@cache
def heard() -> Automaton:
    return Spoken().automaton


def m(number: str, unit: str | None) -> Measure:
    return Measure(Decimal(number), unit)


def r(number: str, unit: str | None = "mm") -> Reading:
    return Reading(Decimal(number), unit, side_said=True)


@pytest.mark.parametrize(
    ("slot", "last", "beyond"),
    [
        ("temperature", Temperature(Decimal(99), None), Temperature(Decimal(100), None)),
        ("temperature", Temperature(Decimal("-99"), "C"), Temperature(Decimal("-100"), "C")),
        ("temperature", Temperature(Decimal("0.5"), "C"), Temperature(Decimal("0.55"), "C")),
        ("percent", Decimal(100), Decimal(101)),
        ("percent", Decimal("0.5"), Decimal("0.05")),
        ("percent", Decimal("99.9"), Decimal("100.1")),
        ("length", m("9999", "mm"), m("10000", "mm")),
        ("length", m("1", "mm"), m("0", "mm")),
        ("length", m("1", "mm"), m("1.5", "mm")),
        ("length", m("99", "cm"), m("100", "cm")),
        ("length", m("99.9", "cm"), m("99.99", "cm")),
        ("length", m("99", "in"), m("100", "in")),
        ("length", m("99", "ft"), m("100", "ft")),
        ("length", m("99", "ft"), m("9.5", "ft")),
        ("length", m("99", "m"), m("100", "m")),
        ("length", m("99.99", "m"), m("99.999", "m")),
        ("length", m("0.01", "m"), m("100.5", "m")),
        ("length", m(str(99 * 12 + 11), "ft-in"), m(str(100 * 12 + 1), "ft-in")),
        ("reading", r("-999"), r("-1000")),
        ("reading", r("99.5"), r("99.55")),
        ("reading", r("-99", "cm"), r("-100", "cm")),
        ("reading", r("-99", "in"), r("-100", "in")),
        ("reading", r("1.625", "in"), r("1.03125", "in")),  # sixteenths, not thirty-seconds
        ("reading", r("-99", "cm"), r("-0.9", "m")),
    ],
)
def test_the_last_that_may_be_said_and_the_first_that_may_not(
    slot: str, last: Any, beyond: Any
) -> None:
    form = SLOTS[slot].aloud
    assert isinstance(form, SpokenForm)
    assert form.say(VOICE, last)
    with pytest.raises(Unsayable):
        form.say(VOICE, beyond)


@pytest.mark.parametrize(
    ("words", "hears"),
    [
        ("minus nine hundred and ninety nine millimetres", True),
        ("minus one thousand millimetres", False),
        ("minus ninety nine centimetres", True),
        ("minus one hundred centimetres", False),
        ("minus ninety nine inches", True),
        ("minus one hundred inches", False),
        ("minus one metres", False),
        ("minus zero point five millimetres", True),
        ("minus zero point five five millimetres", False),
    ],
)
def test_a_reading_is_heard_as_far(words: str, hears: bool) -> None:
    assert heard().accepts(f"bravo three {words}".split()) is hears


@pytest.mark.parametrize("parts", ["half", "quarter", "eighth", "sixteenth"])
@pytest.mark.parametrize("top", range(1, 17))
def test_parts_of_an_inch_are_heard_in_lowest_terms(parts: str, top: int) -> None:
    # As a rule of inches is read: exact arithmetic.
    bottom = {"half": 2, "quarter": 4, "eighth": 8, "sixteenth": 16}[parts]
    lowest = top < bottom and top % 2 == 1
    plural = "halves" if parts == "half" and top > 1 else parts + "s" * (top > 1)
    for before in ("", "two and "):
        words = f"bravo three minus {before}{in_words(top)} {plural} inches"
        assert heard().accepts(words.split()) is lowest


@pytest.mark.parametrize(
    ("said", "inches"),
    [
        ("an inch and a half", "1.5"), ("one inch and a half", "1.5"),
        ("two inches and a half", "2.5"),
        ("an inch and three quarters", "1.75"), ("half an inch", "0.5"),
    ],
)  # fmt: skip
def test_inches_and_a_part_of_one(said: str, inches: str) -> None:
    (command,) = understand(f"B3 minus {said}")
    assert isinstance(command, TakeReading)
    assert (command.reading.number, command.reading.unit) == (-Decimal(inches), "in")


@pytest.mark.parametrize(
    ("first", "second", "said"),
    [
        (m("6", "m"), m("4", "m"), "(six) [metres] by (four) metres"),
        (
            m("600", "mm"),
            m("400", "mm"),
            "(six hundred) [millimetres] by (four hundred) millimetres",
        ),
        (m("6", "ft"), m("4", "ft"), "(six) [feet] by (four) feet"),
        (m("6", "ft"), m("54", "ft-in"), "(six) feet by (four) feet (six) inches"),
        # Two sorts of units, or such as no room is measured in.
        (m("6", "m"), m("400", "mm"), None),
        (m("6", "ft"), m("4", "m"), None),
        (m("60", "in"), m("40", "in"), None),
        (m("60", "cm"), m("40", "cm"), None),
        (m("6", "m"), m("40", "in"), None),
    ],
)
def test_two_sides_are_said_in_one_sort_of_unit(
    first: Measure, second: Measure, said: str | None
) -> None:
    form = SLOTS["pair"].aloud
    assert isinstance(form, SpokenForm)
    if said is None:
        with pytest.raises(Unsayable):
            form.say(VOICE, [first, second])
    else:
        assert form.say(VOICE, [first, second]) == said
