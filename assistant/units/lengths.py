"""Lengths: exact factors, and how a length is shown.

Lengths are counted in exact millimetres (``Fraction``) from the words to the depth, and
turn into float metres only where the numeric core begins.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from math import floor
from typing import Protocol

from assistant.errors import SurveyError

__all__ = [
    "as_read_off",
    "exact_mm",
    "factor_mm",
    "floor_to_sixteenth",
    "inch_text",
    "inches",
    "metres",
    "nearest_inch_fraction",
    "show_length",
]


class Length(Protocol):
    """A number and its unit, as a measure or a reading holds them."""

    @property
    def number(self) -> Decimal: ...

    @property
    def unit(self) -> str | None: ...


FACTORS_MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    # the international foot, 0.3048 m; the survey foot is 0.02 mm longer in 30 ft and retired
    "ft": Fraction(3048, 10),
    # feet and inches are said together and counted in inches
    "ft-in": Fraction(254, 10),
}
"""Millimetres in one of each, exactly. The inch and the international foot are defined so
(NIST Special Publication 811, appendix B); a test holds each to the registry's."""

# Larger than any floor and any count of decimals that can be read: beyond it an exact
# fraction would only eat memory.
LARGEST_EXPONENT = 30


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


def as_read_off(mm: float, unit: str) -> Fraction:
    """
    A length that was worked out, as it is read off: whole millimetres, or sixteenths of an inch.

    Halves go away from zero. The last digit of a float differs from one processor to the next,
    and with the threads that the linear algebra has; so that it decides no tie, a millionth of
    a millimetre is settled first. In millimetres.

    >>> as_read_off(17.499999999999996, "mm"), as_read_off(0.79375, "in")
    (Fraction(18, 1), Fraction(127, 80))
    """
    settled = as_fraction(round(mm, 6))
    if unit == "mm":
        return nearest_part(settled, 1)
    return nearest_inch_fraction(settled) * factor_mm("in")


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
