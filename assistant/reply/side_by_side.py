"""Numbers that were compared, shown side by side: always with enough digits to tell them apart.

"3/8 in deep, under the minimum of 3/8 in" sends nobody to the right tool. So whatever was
held against a limit is shown together with it, in one unit and in the same steps: the usual
ones where these keep the numbers apart, finer ones where they don't. Rounding in the same
steps keeps their order too, so what is shown never contradicts what was found.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from fractions import Fraction
from itertools import chain, count
from math import floor

from assistant.units.lengths import as_fraction, inch_text, inches, nearest_part
from grammar.slots.measure import spoken_measure

__all__ = ["figures", "floor_distances", "lengths", "spoken_lengths"]

RULE = (16, 32, 64)
"""Parts of an inch that a rule is divided in; finer than that an inch is shown in decimals."""

NOTHING = (Fraction(0),)
"""Zero is shown like no other length: a very small depth is not no depth."""

Number = Fraction | Decimal | float


def lengths(unit: str, *mm: Number) -> tuple[str, ...]:
    """
    Depths or steps to read: different ones look different, and only zero is shown as zero.

    Parameters
    ----------
    unit : str
        ``mm`` or ``in``: what all of them are shown in.
    *mm : numbers
        Exact or float millimetres, any sign.

    Examples
    --------
    >>> lengths("mm", 2.5, 3), lengths("mm", 2.996, 3)
    (('2.5 mm', '3 mm'), ('2.996 mm', '3 mm'))
    >>> lengths("in", 8, 10), lengths("in", 9.525, 10), lengths("in", 9.99, 10)
    (('5/16 in', '3/8 in'), ('3/8 in', '13/32 in'), ('0.393 in', '0.394 in'))
    """
    parts, shown = _rounded(unit, mm)
    if unit == "in" and parts in RULE:
        return tuple(inch_text(each) for each in shown)
    return tuple(f"{_decimal(each)} {unit}" for each in shown)


def spoken_lengths(unit: str, *mm: Number) -> tuple[str, ...]:
    """
    The same to say, without a sign.

    >>> spoken_lengths("mm", 400.5, 400)
    ('four zero zero point five millimetres', 'four zero zero millimetres')
    """
    _, shown = _rounded(unit, mm)
    return tuple(spoken_measure(abs(_decimal_number(each)), unit) for each in shown)


def figures(places: int, *numbers: Number) -> tuple[str, ...]:
    """
    Plain numbers with so many decimals, and more where that tells them apart; no idle zeros.

    >>> figures(1, 80.25, 75), figures(1, 75.0001, 75)
    (('80.3', '75'), ('75.0001', '75'))
    """
    exact = [as_fraction(number) for number in numbers]
    _, shown = _apart(exact, _decimals(places), nearest_part)
    return tuple(str(_decimal(each)) for each in shown)


def floor_distances(unit: str, *metres: Number) -> tuple[str, ...]:
    """
    Distances over the floor to read: metres, or feet and inches; rounded down, as limits are.

    >>> floor_distances("in", 2.5, 2), floor_distances("mm", 3.05, 3)
    (('8 ft 2 in', '6 ft 6 in'), ('3.05 m', '3 m'))
    """
    if unit != "in":
        return tuple(f"{each} m" for each in figures(3, *metres))
    exact = [inches(as_fraction(each) * 1000) for each in metres]
    parts, shown = _apart(exact, chain((1, 8), RULE, _decimals(3)), _down)
    return tuple(_feet(each, parts) for each in shown)


# --- how fine ------------------------------------------------------------------------


def _rounded(unit: str, mm: Sequence[Number]) -> tuple[int, tuple[Fraction, ...]]:
    """How many parts the unit is divided in, and the lengths rounded to those."""
    if unit != "in":
        exact = [as_fraction(each) for each in mm]
        return _apart(exact, _decimals(1), nearest_part, beside=NOTHING)
    exact = [inches(as_fraction(each)) for each in mm]
    on_a_rule = max((each.denominator for each in exact if 64 % each.denominator == 0), default=1)
    rule = (parts for parts in RULE if parts >= on_a_rule)
    return _apart(exact, chain(rule, _decimals(3)), nearest_part, beside=NOTHING)


def _decimals(places: int) -> Iterator[int]:
    return (10**more for more in count(places))


def _apart(
    exact: Sequence[Fraction],
    steps: Iterator[int],
    rounded: Callable[[Fraction, int], Fraction],
    beside: Sequence[Fraction] = (),
) -> tuple[int, tuple[Fraction, ...]]:
    """The coarsest steps in which numbers still differ from each other, and from some more."""
    different = {*exact, *beside}
    for parts in steps:
        if len({rounded(each, parts) for each in different}) == len(different):
            return parts, tuple(rounded(each, parts) for each in exact)
    raise AssertionError("steps go on without end")


def _down(exact: Fraction, parts: int) -> Fraction:
    return Fraction(floor(exact * parts), parts)


# --- in figures -----------------------------------------------------------------------


def _decimal(number: Fraction) -> str:
    return format(_decimal_number(number), "f")


def _decimal_number(number: Fraction) -> Decimal:
    """Exactly, as every step is a decimal or a power of two; without idle zeros."""
    places, shifted = 0, number
    while shifted.denominator != 1:
        places, shifted = places + 1, shifted * 10
    return Decimal(f"{shifted.numerator}E-{places}")


def _feet(whole: Fraction, parts: int) -> str:
    feet, rest = divmod(whole, 12)
    rest_text = inch_text(rest) if parts in (1, 8, *RULE) else f"{_decimal(rest)} in"
    if not feet:
        return rest_text
    return f"{feet} ft {rest_text}" if rest else f"{feet} ft"
