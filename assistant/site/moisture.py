"""Moisture tests of a concrete slab: how many, how deep, and in which unit."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, isfinite

from assistant.errors import SurveyError

SQUARE_METRES_PER_FT2 = Fraction("0.09290304")
GRAMS_PER_POUND = Fraction("453.59237")
"""Both exact by definition."""

FIRST_FT2 = 1000
FIRST_TESTS = 3
"""Tests for the first thousand square feet or less; then one for every further thousand or
part of it. Source: ASTM F2170 and ASTM F1869, from memory; both have the same count."""

FLOAT_PLACES = 6
"""A square millimetre; an area worked out in floats is no more precise."""


def area_ft2(area_m2: float) -> Fraction:
    """Square metres in square feet, without a float's rounding error."""
    if not (isfinite(area_m2) and area_m2 > 0):
        raise SurveyError(f"A floor of {area_m2:g} m² cannot be tested.")
    return Fraction(str(round(area_m2, FLOAT_PLACES))) / SQUARE_METRES_PER_FT2


def least_tests(area_m2: float | None) -> int:
    """
    Least number of moisture tests for a slab of that size.

    Parameters
    ----------
    area_m2 : float or None
        None while the room is not known: then the least number there is.

    Notes
    -----
    Source: ASTM F2170 (probes) and ASTM F1869 (emission), from memory.

    Examples
    --------
    >>> least_tests(18.6), least_tests(92.9), least_tests(93.0)
    (3, 3, 4)
    """
    if area_m2 is None:
        return FIRST_TESTS
    beyond = area_ft2(area_m2) - FIRST_FT2
    return FIRST_TESTS + max(0, ceil(beyond / FIRST_FT2))


def emission_g_per_m2(pounds_per_1000_ft2: Fraction) -> Fraction:
    """
    Pounds per thousand square feet as grams per square metre, both in 24 hours; exact.

    >>> round(float(emission_g_per_m2(Fraction(3))), 3)
    14.647
    """
    return pounds_per_1000_ft2 * GRAMS_PER_POUND / (1000 * SQUARE_METRES_PER_FT2)


def probe_depth_mm(slab_mm: Fraction, *, dries_from_both_sides: bool = False) -> Fraction:
    """
    How deep a humidity probe sits: two fifths of the slab, one fifth where it dries both ways.

    Source: ASTM F2170, from memory.

    >>> probe_depth_mm(Fraction(100)), probe_depth_mm(Fraction(150), dries_from_both_sides=True)
    (Fraction(40, 1), Fraction(30, 1))
    """
    return slab_mm * Fraction(1 if dries_from_both_sides else 2, 5)
