"""Temperatures, Celsius and Fahrenheit, exactly."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Protocol

DEGREES_F_PER_C = Fraction(9, 5)
ZERO_C_IN_F = 32
"""Exact by definition: °F = 9/5 °C + 32."""


class AnyTemperature(Protocol):
    """A number and its scale, as a command holds them."""

    @property
    def number(self) -> Decimal: ...

    @property
    def scale(self) -> str | None: ...


def celsius(temperature: AnyTemperature) -> Fraction:
    """
    A temperature in °C, exactly; without a scale it is Celsius already.

    Parameters
    ----------
    temperature : Temperature
        With a finite number, and ``C``, ``F`` or None.
    """
    number = Fraction(temperature.number)
    return from_fahrenheit(number) if temperature.scale == "F" else number


def from_fahrenheit(degrees_f: Fraction) -> Fraction:
    """
    A temperature in °F as one in °C.

    >>> from_fahrenheit(Fraction(212))
    Fraction(100, 1)
    """
    return (degrees_f - ZERO_C_IN_F) / DEGREES_F_PER_C


def to_fahrenheit(degrees_c: Fraction) -> Fraction:
    """
    A temperature in °C as one in °F.

    >>> to_fahrenheit(Fraction(-40)), to_fahrenheit(Fraction(3))
    (Fraction(-40, 1), Fraction(187, 5))
    """
    return degrees_c * DEGREES_F_PER_C + ZERO_C_IN_F
