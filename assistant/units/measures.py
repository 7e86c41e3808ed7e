"""Lengths that were worked out, as measures to keep on record."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from grammar.commands import Measure

_PLACES_M = 6
"""A thousandth of a millimetre: finer than anybody points at."""


def measure_of(length: Fraction, unit: str) -> Measure:
    """
    A length counted exactly in a unit, as a measure in it.

    What is said are decimals and fractions of an inch, and sums, halves and changes of unit of
    those are decimals again, so nothing is rounded.

    >>> measure_of(Fraction(127, 5), "mm")
    Measure(number=Decimal('25.4'), unit='mm')
    """
    return Measure(Decimal(length.numerator) / Decimal(length.denominator), unit)


def measured_m(length_m: float) -> Measure:
    """
    A length in metres out of the numeric core, rounded to a thousandth of a millimetre.

    >>> measured_m(0.1 + 0.2)
    Measure(number=Decimal('0.3'), unit='m')
    """
    return Measure(Decimal(repr(round(length_m, _PLACES_M))), "m")
