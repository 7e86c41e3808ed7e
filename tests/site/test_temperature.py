"""Celsius against Fahrenheit."""

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
