"""How many tests an area asks for, emission in other units, and days that disagree."""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.errors import SurveyError
from assistant.site.drying import drying_estimate
from assistant.site.moisture import emission_g_per_m2, least_tests, probe_depth_mm

FT2 = 0.09290304


# ASTM F2170: 3 for the first 1000 ft², one more for each further 1000 or part (from memory)
@pytest.mark.parametrize(
    ("ft2", "tests"),
    [(1, 3), (200, 3), (1000, 3), (1001, 4), (2000, 4), (2001, 5), (2500, 5), (5000, 7)],
)
def test_number_of_tests(ft2: float, tests: int) -> None:
    assert least_tests(ft2 * FT2) == tests


def test_a_float_s_dust_asks_for_no_further_test() -> None:
    assert least_tests(92.90304 + 1e-12) == 3
    assert least_tests(92.9031) == 4


def test_without_a_room_the_least_is_wanted() -> None:
    assert least_tests(None) == 3


@pytest.mark.parametrize("area", [0, -1, float("nan"), float("inf")])
def test_no_area(area: float) -> None:
    with pytest.raises(SurveyError):
        least_tests(area)


def test_emission_in_grams() -> None:
    # 3 lb of 0.45359237 kg over 1000 ft² of 0.09290304 m² (exact arithmetic)
    assert emission_g_per_m2(Fraction(3)) == Fraction(3) * Fraction("453.59237") / Fraction(
        "92.90304"
    )
    assert float(emission_g_per_m2(Fraction(3))) == pytest.approx(14.647, abs=0.0005)


def test_depth_of_a_probe() -> None:
    # ASTM F2170, from memory: 4 in -> 1.6 in; 150 mm drying both ways -> 30 mm
    assert probe_depth_mm(Fraction("101.6")) == Fraction("40.64")
    assert probe_depth_mm(Fraction(150), dries_from_both_sides=True) == 30


# 1 mm a day to 50 mm, then half a millimetre: 40, 50 and 100 days (exact arithmetic from the
# rule, which is from memory); the other rules turn at 40 and 75 mm
@pytest.mark.parametrize(
    ("mm", "least", "most", "by_the_first_rule"),
    [(40, 40, 40, 40), (50, 50, 60, 50), (60, 60, 80, 70), (75, 75, 110, 100)],
)
def test_drying_days(mm: int, least: int, most: int, by_the_first_rule: int) -> None:
    estimate = drying_estimate(Fraction(mm))
    assert estimate.least_days == least
    assert estimate.most_days == most
    assert estimate.each[0][1] == by_the_first_rule
    assert estimate.agree is (least == most)
    assert all(rule.source for rule, _ in estimate.each)


@pytest.mark.parametrize("mm", [0, -5, 301])
def test_no_thickness(mm: int) -> None:
    with pytest.raises(SurveyError, match="up to 300 mm"):
        drying_estimate(Fraction(mm))
