"""The NIOSH lifting equation against its manual and worked values."""

from __future__ import annotations

from math import prod

import pytest

from assistant.errors import SurveyError
from assistant.pours.lifting import BEST_CASE_KG, FROM_THE_FLOOR_KG, recommended_weight_kg


@pytest.mark.parametrize(
    ("reach_cm", "height_cm", "distance_cm", "kg"),
    [  # worked from the equation of NIOSH 94-110, all other multipliers one
        (25, 75, 25, 23.0),
        (30, 75, 75, 16.87),
        (30, 15, 60, 14.07),
        (40, 0, 75, 9.80),
        # at the ends of what it covers
        (63, 75, 25, 9.127),
        (25, 175, 25, 16.1),
        (25, 0, 175, 15.074),
        # outside
        (64, 75, 25, 0.0),
        (25, 176, 25, 0.0),
        (25, 75, 176, 0.0),
        # nearer and shorter than the least count as the least
        (10, 75, 5, 23.0),
    ],
)
def test_recommended_weight(
    reach_cm: float, height_cm: float, distance_cm: float, kg: float
) -> None:
    found = recommended_weight_kg(reach_cm, height_cm, distance_cm)
    assert found == pytest.approx(kg, abs=0.005)


def test_first_example_of_the_manual() -> None:
    # NIOSH 94-110 example 1, 44 lb of stock (from memory); inches 23, 15, 48 and 23, 63, 48
    origin, destination = prod((51, 0.44, 0.89, 0.86, 0.95)), prod((51, 0.44, 0.75, 0.86))
    assert origin == pytest.approx(16.32, abs=0.005)
    assert destination == pytest.approx(14.47, abs=0.005)
    assert 44 / origin == pytest.approx(2.70, abs=0.005)
    # 3.03 in the worked copy, from the rounded 14.5; unrounded it is 3.04
    assert 44 / destination == pytest.approx(3.03, abs=0.02)
    # the printed multipliers are rounded to hundredths, so the formula only comes near
    pound = 0.45359237
    near = recommended_weight_kg(23 * 2.54, 15 * 2.54, 48 * 2.54, coupling=0.95)
    assert near / pound == pytest.approx(16.32, rel=0.05)


def test_twist_lowers_it() -> None:
    # multiplier from memory: 1 - 0.0032 A
    assert recommended_weight_kg(25, 75, 25, twist_deg=45) == pytest.approx(23 * 0.856)
    assert recommended_weight_kg(25, 75, 25, twist_deg=135) == pytest.approx(23 * 0.568)
    assert recommended_weight_kg(25, 75, 25, twist_deg=136) == 0


def test_often_and_badly_held_is_less() -> None:
    # NIOSH 94-110: each table value multiplies what is left.
    assert recommended_weight_kg(25, 75, 25, frequency=0.5) == pytest.approx(11.5)
    assert recommended_weight_kg(25, 75, 25, coupling=0.9) == pytest.approx(20.7)
    both = recommended_weight_kg(25, 75, 25, frequency=0.5, coupling=0.9)
    assert both == pytest.approx(10.35)


def test_a_25_kg_bag_is_over_even_at_best() -> None:
    # worked from the same equation: 1.8 to 2.6 times what is recommended, from near the floor
    assert BEST_CASE_KG < 25
    assert 25 / recommended_weight_kg(30, 15, 60) == pytest.approx(1.8, abs=0.05)
    assert pytest.approx(2.6, abs=0.05) == 25 / FROM_THE_FLOOR_KG
    # the equation by hand, hands 40 cm out and carried up 75 cm: 23 x 0.625 x 0.775 x 0.88
    assert pytest.approx(9.804, abs=0.001) == FROM_THE_FLOOR_KG


@pytest.mark.parametrize("bad", [float("nan"), float("inf"), -1.0])
def test_numbers_that_cannot_be_are_refused(bad: float) -> None:
    with pytest.raises(SurveyError):
        recommended_weight_kg(bad, 75, 25)
    with pytest.raises(SurveyError):
        recommended_weight_kg(25, 75, bad)
