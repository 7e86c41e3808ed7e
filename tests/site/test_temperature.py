"""Celsius against Fahrenheit; and a difference is not a temperature."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.units import temperature as t
from grammar.commands.site import Temperature


# exact arithmetic: °F = 9/5 °C + 32
@pytest.mark.parametrize(("c", "f"), [(0, 32), (100, 212), (-40, -40), (10, 50), (30, 86)])
def test_fixed_points(c: int, f: int) -> None:
    assert t.to_fahrenheit(Fraction(c)) == f
    assert t.from_fahrenheit(Fraction(f)) == c
    assert t.celsius(Temperature(Decimal(f), "F")) == c
    assert t.celsius(Temperature(Decimal(c), "C")) == c
    assert t.celsius(Temperature(Decimal(c), None)) == c


@given(st.fractions(-100, 100))
def test_there_and_back(c: Fraction) -> None:
    assert t.from_fahrenheit(t.to_fahrenheit(c)) == c
    assert t.difference_from_fahrenheit(t.difference_to_fahrenheit(c)) == c


def test_a_difference_is_not_a_temperature() -> None:
    # 3 °C of margin is 5.4 °F, not 37.4; 5 °F is 2.78 °C, not minus 15 (exact arithmetic)
    assert t.difference_to_fahrenheit(Fraction(3)) == Fraction("5.4")
    assert t.to_fahrenheit(Fraction(3)) == Fraction("37.4")
    assert float(t.difference_from_fahrenheit(Fraction(5))) == pytest.approx(2.78, abs=0.005)
    assert t.from_fahrenheit(Fraction(5)) == -15


@given(st.fractions(-50, 50), st.fractions(-50, 50))
def test_differences_belong_to_temperatures(one: Fraction, other: Fraction) -> None:
    apart = t.to_fahrenheit(one) - t.to_fahrenheit(other)
    assert apart == t.difference_to_fahrenheit(one - other)
