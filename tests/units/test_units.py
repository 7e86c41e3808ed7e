"""Exact factors, inch fractions, lengths as shown, and words of another kind."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from math import nextafter
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.errors import SurveyError
from assistant.units import kinds, lengths
from assistant.units.kinds import what_kind
from assistant.units.lengths import (
    as_read_off,
    exact_mm,
    factor_mm,
    floor_to_sixteenth,
    inch_text,
    inches,
    metres,
    nearest_inch_fraction,
    show_length,
)
from grammar.commands import Measure, Reading


@pytest.mark.parametrize(
    ("unit", "millimetres"),
    [
        # exact by definition (NIST SP 811)
        ("in", Fraction(254, 10)),
        ("ft", Fraction(3048, 10)),
        # exact arithmetic
        ("mm", Fraction(1)),
        ("cm", Fraction(10)),
        ("m", Fraction(1000)),
        ("ft-in", Fraction(254, 10)),  # its number counts inches
    ],
)
def test_factors_are_exact(unit: str, millimetres: Fraction) -> None:
    assert factor_mm(unit) == millimetres


@pytest.mark.parametrize("unit", kinds.PINT_NAMES)
def test_factors_are_those_of_the_registry(unit: str) -> None:
    said = kinds.registry().Quantity(Fraction(1), kinds.PINT_NAMES[unit])
    assert factor_mm(unit) == Fraction(said.to("millimeter").magnitude)


def test_every_factor_has_a_kind() -> None:
    assert lengths.FACTORS_MM.keys() == kinds.PINT_NAMES.keys()


@pytest.mark.parametrize(
    ("amount", "wanted", "factor"),
    [
        # exact by definition or derived from such (NIST SP 811), checked through the registry
        ("ft**2", "m**2", "0.09290304"),
        ("ft**3", "m**3", "0.028316846592"),
        ("yd**3", "m**3", "0.764554857984"),
        ("US_liquid_gallon", "liter", "3.785411784"),
        ("US_liquid_quart", "liter", "0.946352946"),
        ("imperial_gallon", "liter", "4.54609"),
        ("pound", "kilogram", "0.45359237"),
        ("mm * m**2", "liter", "1"),
        ("inch * ft**2 * 12", "ft**3", "1"),
    ],
)
def test_registry_gives_exact_fractions(amount: str, wanted: str, factor: str) -> None:
    measure = kinds.registry().parse_expression(amount)
    assert Fraction((measure * Fraction(1)).to(wanted).magnitude) == Fraction(factor)


def test_a_reading_in_thirty_seconds_is_kept_exactly() -> None:
    # exact arithmetic: -1 1/32 in = -33/32 · 25.4 mm
    assert exact_mm(Reading(Decimal("-1.03125"), "in")) == Fraction(-33 * 127, 32 * 5)


def test_a_measure_without_unit_takes_the_default() -> None:
    assert exact_mm(Measure(Decimal(2), None), "in") == Fraction(254, 5)
    assert exact_mm(Measure(Decimal("17.5"), None)) == Fraction(35, 2)
    assert metres(Measure(Decimal("4.2"), "m")) == 4.2


@pytest.mark.parametrize("number", ["NaN", "Infinity", "1E+1000000", "1E-1000000", "9" * 60])
def test_numbers_no_tape_can_show_are_refused(number: str) -> None:
    with pytest.raises(SurveyError):
        exact_mm(Measure(Decimal(number), "in"))


def test_a_unit_that_is_no_length_is_a_mistake_of_the_caller() -> None:
    with pytest.raises(ValueError, match="not a unit lengths are given in"):
        factor_mm("kg")


# mm, then the nearest 1/16, 1/8 and 1/32, half-up on exact rationals (exact arithmetic)
NEAREST = [
    ("1", "1/16", "0", "1/32"),
    ("2", "1/16", "1/8", "3/32"),
    ("3", "1/8", "1/8", "1/8"),
    ("4.7625", "3/16", "1/4", "3/16"),  # a tie at 1/8
    ("5", "3/16", "1/4", "3/16"),
    ("6", "1/4", "1/4", "1/4"),
    ("10", "3/8", "3/8", "13/32"),
    ("15", "9/16", "5/8", "19/32"),
    ("25", "1", "1", "31/32"),  # sixteenths carry to the whole inch
    ("40", "1 9/16", "1 5/8", "1 9/16"),
    ("50", "1 15/16", "2", "1 31/32"),
]


@pytest.mark.parametrize(("mm", "sixteenths", "eighths", "thirty_seconds"), NEAREST)
def test_nearest_fraction(mm: str, sixteenths: str, eighths: str, thirty_seconds: str) -> None:
    found = [inch_text(nearest_inch_fraction(Fraction(mm), parts)) for parts in (16, 8, 32)]
    assert found == [f"{text} in" for text in (sixteenths, eighths, thirty_seconds)]
    assert nearest_inch_fraction(float(mm), 16) == nearest_inch_fraction(Fraction(mm), 16)


@pytest.mark.parametrize(
    ("mm", "unit", "shown"),
    [
        # exact arithmetic: halves go away from zero, and no last digit of a float decides one
        (17.5, "mm", "18"), (16.5, "mm", "17"), (-16.5, "mm", "-17"), (0.5, "mm", "1"),
        (17.49999, "mm", "17"),
        (0.79375, "in", "1.5875"), (-0.79375, "in", "-1.5875"), (2.38125, "in", "3.175"),
        (0.79374, "in", "0"),
    ],
)  # fmt: skip
def test_what_is_worked_out_is_read_off_the_same_whatever_its_last_digit(
    mm: float, unit: str, shown: str
) -> None:
    for last_digit in (nextafter(mm, 0), mm, nextafter(mm, 99 * mm)):
        assert as_read_off(last_digit, unit) == Fraction(shown)


def test_sixteenths_in_millimetres() -> None:
    # exact arithmetic
    table = {"1/16": "1.5875", "5/16": "7.9375", "3/8": "9.525", "5/8": "15.875", "3/4": "19.05"}
    for inch, mm in table.items():
        assert inches(Fraction(mm)) == Fraction(inch)
        assert floor_to_sixteenth(Fraction(mm)) == Fraction(inch)


@pytest.mark.parametrize(
    ("mm", "cut"),
    [  # rounded down, so as not to stand proud (common practice, no source)
        ("25", "15/16 in"),  # the nearest, 1 in, would stand 0.4 mm proud
        ("25.4", "1 in"),
        ("50", "1 15/16 in"),
        ("1", "0 in"),
        ("18", "11/16 in"),
    ],
)
def test_a_pin_never_stands_proud(mm: str, cut: str) -> None:
    assert inch_text(floor_to_sixteenth(Fraction(mm))) == cut


@given(st.fractions(min_value=0, max_value=500))
def test_a_pin_is_short_by_less_than_a_sixteenth(mm: Fraction) -> None:
    short = inches(mm) - floor_to_sixteenth(mm)
    assert 0 <= short < Fraction(1, 16)


@given(st.integers(-10_000, 10_000), st.sampled_from([1, 2, 4, 8, 16, 32]))
def test_inches_survive_the_way_to_millimetres_and_back(parts: int, of: int) -> None:
    number = Decimal(parts) / Decimal(of)
    assert inches(exact_mm(Reading(number, "in"))) == Fraction(parts, of)


@pytest.mark.parametrize(
    ("mm", "unit", "shown"),
    [
        (Fraction(18), "mm", "18 mm"),
        (Fraction(35, 2), "mm", "17.5 mm"),
        (17.4999999, "mm", "17.5 mm"),
        (-0.04, "mm", "0 mm"),
        (-2.25, "mm", "-2.3 mm"),
        (1000, "mm", "1000 mm"),
        (18, "in", "11/16 in"),
        (Fraction(254, 10), "in", "1 in"),
        (Fraction(127, 160), "in", "1/32 in"),  # read as that, shown as that
        (25, "in", "1 in"),
        (-50.8, "in", "-2 in"),
        (0, "in", "0 in"),
        (-0.1, "in", "0 in"),
    ],
)
def test_lengths_as_shown(mm: Fraction | float, unit: str, shown: str) -> None:
    assert show_length(mm, unit) == shown


@pytest.mark.parametrize(
    ("word", "kind"),
    [
        ("degrees", "an angle"),
        ("°", "an angle"),
        ("celsius", "a temperature"),
        ("degrees Celsius", "a temperature"),
        ("C", "a temperature"),
        ("kilos", "a mass"),
        ("kg", "a mass"),
        ("pounds", "a mass"),
        ("litres", "a volume"),
        ("gallons", "a volume"),
        ("psi", "a pressure"),
        ("kilopascals", "a pressure"),
        ("kilonewtons", "a force"),
        ("acres", "an area"),
        ("square metres", "an area"),
        ("cubic feet", "a volume"),
        ("percent", "a share"),
        ("seconds", "a time"),
        ("minutes", "a time"),
        ("volts", "a voltage"),
        ("amps", "a current"),
        ("candelas", "a quantity of another kind"),
        ("bags", "a count"),
        ("yards", "a length not used here"),
        ("micrometres", "a length not used here"),
        ("millimetres", "a length"),
        ("feet", "a length"),
        # no units, whatever pint would make of them
        ("point", None),
        ("pins", None),
        ("banana", None),
        ("has", None),
        ("are", None),
        ("level", None),
        ("minus", None),
        ("square", None),
        ("square seconds", None),
    ],
)
def test_what_a_word_measures(word: str, kind: str | None) -> None:
    assert what_kind(word) == kind


@pytest.mark.parametrize(
    "word",
    [
        "",
        " ",
        "__import__",
        "1/0",
        "kg*0",
        "kg**99999999",
        "x" * 100000,
        "ｋｇ",
        "米",
        "\x00",
        "e",
        "square " * 5000,
        "square square square metres",
        "m\nm",
        "µ",
        "[length]",
        "9" * 30,
    ],
)
def test_hostile_words_are_no_units(word: str) -> None:
    assert what_kind(word) is None


@given(st.text(max_size=30))
def test_no_text_raises(word: str) -> None:
    assert what_kind(word) is None or isinstance(what_kind(word), str)


# --- the cache on disk -------------------------------------------------------


@pytest.fixture
def fresh(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[Path]:
    """A place for the cache, and a registry not made yet."""
    folder = tmp_path / "cache"
    monkeypatch.setattr(kinds, "cache_folder", lambda: folder)
    kinds.registry.cache_clear()
    yield folder
    kinds.registry.cache_clear()


def inch_from_the_registry() -> Fraction:
    return Fraction(kinds.registry().Quantity(Fraction(1), "inch").to("mm").magnitude)


def test_the_cache_is_written_and_read(fresh: Path) -> None:
    assert inch_from_the_registry() == Fraction(127, 5)
    written = {file: file.stat().st_mtime_ns for file in fresh.iterdir()}
    assert any(file.suffix == ".pickle" for file in written)
    kinds.registry.cache_clear()
    assert inch_from_the_registry() == Fraction(127, 5)
    assert {file: file.stat().st_mtime_ns for file in fresh.iterdir()} == written


def test_a_cache_that_cannot_be_written_does_no_harm(fresh: Path) -> None:
    fresh.write_text("a file where the folder should be")
    assert inch_from_the_registry() == Fraction(127, 5)
    assert fresh.read_text().startswith("a file")


def test_a_damaged_cache_is_made_anew(fresh: Path) -> None:
    kinds.registry()
    for file in fresh.glob("*.pickle"):
        file.write_bytes(file.read_bytes()[:50])
    kinds.registry.cache_clear()
    assert inch_from_the_registry() == Fraction(127, 5)
    kinds.registry.cache_clear()
    assert inch_from_the_registry() == Fraction(127, 5)
    assert all(file.stat().st_size > 50 for file in fresh.glob("*.pickle"))
