"""Dew points against the table of the formula's own guide, and an independent library."""

from __future__ import annotations

import math

import psychrolib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.errors import SurveyError
from assistant.site.dew_point import dew_point_c

# WMO Guide No. 8, Annex 4.B formula (published source), recomputed to three places
BY_THE_GUIDE = [
    (10, 60, 2.584), (10, 80, 6.706), (15, 65, 8.470), (18, 60, 10.115), (20, 40, 5.980),
    (20, 50, 9.255), (20, 65, 13.217), (20, 80, 16.442), (25, 60, 16.693), (25, 75, 20.258),
    (30, 70, 23.927),
]  # fmt: skip


@pytest.mark.parametrize(("air", "humidity", "dew_point"), BY_THE_GUIDE)
def test_by_the_guide(air: float, humidity: float, dew_point: float) -> None:
    assert dew_point_c(air, humidity) == pytest.approx(dew_point, abs=0.0005)


@pytest.mark.parametrize(("air", "humidity", "_dew_point"), BY_THE_GUIDE)
def test_an_independent_library_agrees(air: float, humidity: float, _dew_point: float) -> None:
    # psychrolib (ASHRAE formulas), a general-purpose library
    psychrolib.SetUnitSystem(psychrolib.SI)
    other = psychrolib.GetTDewPointFromRelHum(air, humidity / 100)
    assert dew_point_c(air, humidity) == pytest.approx(other, abs=0.04)


@given(st.floats(-40, 50), st.floats(1, 100), st.floats(1, 100))
def test_damper_air_has_a_higher_dew_point_and_never_above_its_own(
    air: float, one: float, other: float
) -> None:
    drier, damper = sorted((one, other))
    assert dew_point_c(air, drier) <= dew_point_c(air, damper) + 1e-9 <= air + 2e-9


def test_saturated_air_is_at_its_dew_point_exactly() -> None:
    assert dew_point_c(17.3, 100) == 17.3


@pytest.mark.parametrize("humidity", [0, -5, 100.01, math.nan, math.inf])
def test_no_humidity(humidity: float) -> None:
    with pytest.raises(SurveyError, match="humidity"):
        dew_point_c(20, humidity)


@pytest.mark.parametrize("air", [-46, 61, math.nan, math.inf])
def test_air_the_formula_does_not_cover(air: float) -> None:
    with pytest.raises(SurveyError, match="-45 to 60"):
        dew_point_c(air, 50)
