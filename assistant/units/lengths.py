"""Units: exact factors, kinds from the one pint registry, and lengths as they are shown.

Lengths are counted in exact millimetres (``Fraction``) from the words to the depth, and
turn into float metres only where the numeric core begins. pint, which knows what any word
measures, is imported when a word may be a unit of another kind: no job waits for it.
"""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from math import floor
from pathlib import Path
from typing import Any, Protocol

from assistant.errors import SurveyError

__all__ = [
    "exact_mm",
    "factor_mm",
    "floor_to_sixteenth",
    "inch_text",
    "inches",
    "metres",
    "nearest_inch_fraction",
    "show_length",
    "what_kind",
]


class Length(Protocol):
    """A number and its unit, as a measure or a reading holds them."""

    @property
    def number(self) -> Decimal: ...

    @property
    def unit(self) -> str | None: ...


PINT_NAMES = {
    "mm": "millimeter",
    "cm": "centimeter",
    "m": "meter",
    "in": "inch",
    # the international foot, 0.3048 m; the survey foot is 0.02 mm longer in 30 ft and retired
    "ft": "foot",
    # feet and inches are said together and counted in inches
    "ft-in": "inch",
}
FACTORS_MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
    "ft-in": Fraction(254, 10),
}
"""Millimetres in one of each, exactly. The inch and the international foot are defined so
(NIST Special Publication 811, appendix B); a test holds each to the registry's."""

# Larger than any floor and any count of decimals that can be read: beyond it an exact
# fraction would only eat memory.
LARGEST_EXPONENT = 30


# --- the registry -----------------------------------------------------------


@lru_cache(maxsize=1)
def registry() -> Any:
    """The one pint registry, with exact fractions in place of floats."""
    folder = cache_folder()
    try:
        return make_registry(folder)
    except OSError:
        # a folder that cannot be written costs a tenth of a second, no more
        return make_registry(None)
    except Exception:
        # A cache cut short by a power failure fails in whatever way its bytes suggest;
        # the definitions themselves are sound, so the cache goes and is made anew.
        for leftover in cached_files(folder):
            leftover.unlink(missing_ok=True)
        return make_registry(None)


def make_registry(folder: Path | None) -> Any:
    """A new registry, its parsed definitions kept in the folder."""
    import pint

    return pint.UnitRegistry(non_int_type=Fraction, cache_folder=folder)


def cache_folder() -> Path:
    """Where pint keeps its parsed definitions between starts."""
    from platformdirs import user_cache_path

    return user_cache_path("leadsman", appauthor=False) / "units"


def cached_files(folder: Path) -> Iterator[Path]:
    """What pint wrote there."""
    for pattern in ("*.pickle", "*.json"):
        yield from folder.glob(pattern)


# --- exact lengths ----------------------------------------------------------


def factor_mm(unit: str) -> Fraction:
    """
    Millimetres in one of a unit, exactly.

    >>> factor_mm("in")
    Fraction(127, 5)
    """
    if unit not in FACTORS_MM:
        raise ValueError(f"{unit!r} is not a unit lengths are given in: {', '.join(FACTORS_MM)}")
    return FACTORS_MM[unit]


def exact_mm(measure: Length, default_unit: str = "mm") -> Fraction:
    """
    A measure or reading in millimetres, exactly; signed as the number is.

    Parameters
    ----------
    measure : Measure or Reading
        With a finite number; its unit one of mm, cm, m, in, ft, ft-in (counts inches) or None.
    default_unit : str
        What is meant where no unit was said.

    Raises
    ------
    SurveyError
        If the number is not finite, or too large or fine to be a length on a floor.
    ValueError
        If the unit is none of ours.
    """
    number = measure.number
    if not number.is_finite() or beyond_measuring(number):
        raise SurveyError(f"{str(number)[:40]} is not a length that can be measured on a floor.")
    return Fraction(number) * factor_mm(measure.unit or default_unit)


def beyond_measuring(number: Decimal) -> bool:
    """Whether a finite number has digits absurdly far to the left or right of its point."""
    last_place = number.as_tuple().exponent
    return (
        isinstance(last_place, int) and last_place < -LARGEST_EXPONENT
    ) or number.adjusted() > LARGEST_EXPONENT


def metres(measure: Length, default_unit: str = "mm") -> float:
    """The same in metres, rounded once, to the nearest float; for the numeric core."""
    return float(exact_mm(measure, default_unit) / 1000)


def inches(mm: Fraction | float) -> Fraction:
    """Millimetres in inches, exactly; a float is taken for the decimal number it prints as."""
    return as_fraction(mm) / factor_mm("in")


def as_fraction(number: Fraction | Decimal | float) -> Fraction:
    """A number exactly; 0.1 is one tenth, not the nearest binary fraction to it."""
    return decimal_value(float(number)) if isinstance(number, float) else Fraction(number)


@lru_cache(maxsize=4096)
def decimal_value(number: float) -> Fraction:
    """What a float prints as; kept, since the same limits are asked for at every point."""
    return Fraction(repr(number))


# --- inch fractions -----------------------------------------------------------


def floor_to_sixteenth(mm: Fraction) -> Fraction:
    """
    The longest whole count of sixteenths of an inch that is not above a depth, in inches.

    A pin cut to the nearest sixteenth could stand proud of the finish by half of one; a pin
    a little short is only covered. Source: common practice, no source.

    >>> floor_to_sixteenth(Fraction(18))
    Fraction(11, 16)
    """
    return Fraction(floor(inches(mm) * 16), 16)


def nearest_inch_fraction(mm: Fraction | float, parts: int = 16) -> Fraction:
    """
    The nearest fraction of an inch for display, halves away from zero, in inches.

    >>> nearest_inch_fraction(Fraction(25))
    Fraction(1, 1)
    """
    return nearest_part(inches(mm), parts)


def nearest_part(exact: Fraction, parts: int) -> Fraction:
    """The nearest whole count of so many parts of one, halves away from zero."""
    # floor(parts x + 1/2) in whole numbers: shown for every point of a large job
    halves, under = abs(exact.numerator) * parts * 2, exact.denominator
    count = (halves + under) // (2 * under)
    return Fraction(-count if exact < 0 else count, parts)


def inch_text(inches: Fraction) -> str:
    """
    Inches as they are written on a rule.

    >>> inch_text(Fraction(21, 16))
    '1 5/16 in'
    """
    whole, rest = divmod(abs(inches), 1)
    words = [str(whole)] if whole or not rest else []
    if rest:
        words.append(f"{rest.numerator}/{rest.denominator}")
    return ("-" if inches < 0 else "") + " ".join(words) + " in"


def show_length(mm: Fraction | float, unit: str) -> str:
    """
    A length to read: tenths of a millimetre, or sixteenths of an inch.

    A length that is itself a fraction on a rule (down to 64ths) keeps it.

    >>> show_length(Fraction(35, 2), "mm"), show_length(18, "in")
    ('17.5 mm', '11/16 in')
    """
    if unit == "in":
        exact = inches(mm)
        on_a_rule = 64 % exact.denominator == 0
        return inch_text(exact if on_a_rule else nearest_part(exact, 16))
    shown = nearest_part(as_fraction(mm), 10)
    whole, tenth = divmod(abs(shown.numerator) * (10 // shown.denominator), 10)
    sign = "-" if shown < 0 else ""
    return f"{sign}{whole}.{tenth} mm" if tenth else f"{sign}{whole} mm"


# --- words of another kind ------------------------------------------------------

# One unit for each kind of quantity that has a plain name; the rest stay nameless.
KINDS = {
    "kilogram": "a mass",
    "kelvin": "a temperature",
    "liter": "a volume",
    "hectare": "an area",
    "second": "a time",
    "pascal": "a pressure",
    "newton": "a force",
    "knot": "a speed",
    "hertz": "a frequency",
    "watt": "a power",
    "joule": "an energy",
    "volt": "a voltage",
    "ampere": "a current",
}

# As people say or write them, where pint knows another word or takes it for another thing
# ("kilos" would be kiloseconds, "c" the speed of light).
SAID = {
    "kilo": "kilogram",
    "kilos": "kilogram",
    "kg": "kilogram",
    "kgs": "kilogram",
    "g": "gram",
    "lb": "pound",
    "lbs": "pound",
    "oz": "ounce",
    "l": "liter",
    "ml": "liter",
    "gal": "gallon",
    "c": "degree_Celsius",
    "°c": "degree_Celsius",
    "centigrade": "degree_Celsius",
    "degrees celsius": "degree_Celsius",
    "degrees centigrade": "degree_Celsius",
    "f": "degree_Fahrenheit",
    "°f": "degree_Fahrenheit",
    "degrees fahrenheit": "degree_Fahrenheit",
    "°": "degree",
    "%": "percent",
    "per cent": "percent",
    "psi": "psi",
    "kpa": "pascal",
    "mpa": "pascal",
    "s": "second",
    "sec": "second",
    "secs": "second",
    "min": "minute",
    "mins": "minute",
    "h": "hour",
    "hr": "hour",
    "hrs": "hour",
}
COUNTED = frozenset({"bag", "bags", "bucket", "buckets", "pallet", "pallets", "coat", "coats"})

# Words of the trade, and names of letters, that pint takes for old or learned units.
NOT_UNITS = frozenset({"point", "points", "pin", "pins", "alpha", "quarter", "quarters", "hand"})

# No unit of everyday use has a longer name, and none worth knowing by itself is shorter.
LONGEST_WORD = 40
SHORTEST_NAME = 3


def what_kind(word: str) -> str | None:
    """
    What a word measures, where it is a unit: ``"a mass"``, ``"an angle"``, ``"a volume"``.

    ``"a length"`` for the units a floor is measured in, ``"a length not used here"`` for
    other lengths; None for anything that is no unit. Never raises, and never evaluates
    the word: it is only looked up.

    >>> what_kind("degrees"), what_kind("kilos"), what_kind("banana")
    ('an angle', 'a mass', None)
    """
    if len(word) > LONGEST_WORD:
        return None
    return kind_of(" ".join(word.split()).casefold())


@lru_cache(maxsize=256)
def kind_of(word: str) -> str | None:
    """As :func:`what_kind`, for a word in lower case with single spaces."""
    if word in COUNTED:
        return "a count"
    if word in NOT_UNITS:
        return None
    if word in PINT_NAMES:
        return "a length"
    power, _, rest = word.partition(" ")
    if power in ("square", "cubic") and kind_of(rest) in ("a length", "a length not used here"):
        return "an area" if power == "square" else "a volume"
    name = SAID.get(word) or unit_named(word)
    try:
        return kind_of_unit(name) if name else None
    except Exception:
        # The answer only makes a refusal clearer; whatever odd entry of pint's
        # list was hit, the refusal itself must still be given.
        return None


def unit_named(word: str) -> str | None:
    """The name pint has for a unit written out in full; None for symbols and other words."""
    if len(word) < SHORTEST_NAME or not (word.isascii() and word.isalpha()):
        return None
    for prefix, name, _ in registry().parse_unit_name(word):
        # a prefix counts only where it is spelt: "pins" are no pico-inches
        if word.startswith(prefix):
            return str(prefix + name)
    return None


def kind_of_unit(name: str) -> str | None:
    """What a unit of pint's measures, in plain words."""
    units = registry()
    dimension = units.get_dimensionality(name)
    if not dimension:
        return kind_without_dimension(name)
    if dimension == units.get_dimensionality("meter"):
        used = {units.Unit(ours) for ours in PINT_NAMES.values()}
        return "a length" if units.Unit(name) in used else "a length not used here"
    for example, kind in KINDS.items():
        if dimension == units.get_dimensionality(example):
            return kind
    return "a quantity of another kind"


def kind_without_dimension(name: str) -> str | None:
    """Angles and shares are plain numbers to pint; to an installer they are not."""
    units = registry()
    if units.get_base_units(name)[1] == units.Unit("radian"):
        return "an angle"
    return "a share" if name in ("percent", "permille", "ppm") else None
