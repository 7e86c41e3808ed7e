"""Deep places made up of lifts; all expected values are exact arithmetic, no publication."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.errors import SurveyError
from assistant.levels.lifts import lift_depths, plan_bay, plan_bays

MM = 0.001


@pytest.mark.parametrize(
    ("depth_mm", "lifts_mm"),
    [
        (12, [12]),
        (30, [30]),  # the maximum itself is one lift
        (31, [15.5, 15.5]),
        (60, [30, 30]),
        (65, [65 / 3] * 3),
        (3, [3]),
        (2, []),  # thinner than the product may be
        (0, []),
        (-4, []),
    ],
)
def test_lifts_for_a_depth(depth_mm: int, lifts_mm: list[float]) -> None:
    found = lift_depths(depth_mm * MM, 3 * MM, 30 * MM)
    assert np.array(found) / MM == pytest.approx(lifts_mm)


def test_a_depth_that_no_lifts_make_up() -> None:
    # One lift is 20 to 30 mm: 35 is too much for one and too little for two.
    assert lift_depths(35 * MM, 20 * MM, 30 * MM) == ()
    assert plan_bay([35 * MM], 20 * MM, 30 * MM).ways == ()
    assert plan_bay([35 * MM], 20 * MM, 30 * MM, 40 * MM).ways == ("aggregate",)


def test_thirty_tenths_of_a_metre_is_exactly_ten_lifts() -> None:
    # Float-safe: 0.3 is a hair more than ten times 0.03.
    assert len(lift_depths(0.1 * 3, 0.003, 0.03)) == 10


@given(st.floats(0.0, 0.5), st.floats(0.001, 0.007), st.floats(0.015, 0.06))
def test_lifts_keep_their_bounds(depth: float, least: float, most: float) -> None:
    found = lift_depths(depth, least, most)
    if depth >= least:  # with a maximum of at least twice the minimum, it can always be done
        assert found
    if found:
        assert sum(found) == pytest.approx(depth)
        assert min(found) >= least - 1e-8
        assert max(found) <= most + 1e-8
        assert (len(found) - 1) * most < depth  # one fewer would not have done


def test_shallow_bay_is_one_lift() -> None:
    plan = plan_bay(np.array([5, 12, 20]) * MM, 3 * MM, 30 * MM, 50 * MM)
    assert plan.ways == ("one lift",)
    assert plan.over_maximum == ()
    assert [lift.points for lift in plan.lifts] == [(0, 1, 2)]


def test_deep_bay_in_lifts_or_with_aggregate() -> None:
    depths = np.array([12, 20, 48, 55, 8]) * MM
    plan = plan_bay(depths, 3 * MM, 30 * MM, 60 * MM)
    assert plan.ways == ("aggregate", "lifts")
    assert (plan.shallowest_m / MM, plan.deepest_m / MM) == pytest.approx((8, 55))
    assert plan.over_maximum == (2, 3)
    lower, upper = plan.lifts
    assert lower.points == (2, 3)
    assert upper.points == (0, 1, 2, 3, 4)
    assert lower.thickness_m + upper.thickness_m == pytest.approx(55 * MM)
    assert lower.top_below_finish_m == pytest.approx(upper.thickness_m)
    assert upper.top_below_finish_m == 0
    assert lower.thin == upper.thin == ()


def test_too_deep_even_with_aggregate() -> None:
    assert plan_bay([0.080], 3 * MM, 30 * MM, 60 * MM).ways == ("lifts",)
    assert plan_bay([0.080], 3 * MM, 30 * MM).ways == ("lifts",)


def test_last_lift_is_chosen_so_that_no_film_is_left() -> None:
    # In halves of 20 mm, the point of 21 would get a film of 1 below.
    plan = plan_bay(np.array([21, 40]) * MM, 3 * MM, 30 * MM)
    assert [lift.thin for lift in plan.lifts] == [(), ()]
    assert plan.lifts[0].points == (1,)
    assert plan.lifts[1].thickness_m >= 21 * MM - 1e-12


def test_where_a_film_cannot_be_helped_its_points_are_named() -> None:
    # Of 60 mm both lifts are 30: the point of 32 gets 2 mm of the lower one.
    lower, upper = plan_bay(np.array([32, 60]) * MM, 3 * MM, 30 * MM).lifts
    assert lower.thin == (0,)
    assert upper.thin == ()


def test_points_too_shallow_for_the_product_are_named() -> None:
    plan = plan_bay(np.array([1, -2, 12]) * MM, 3 * MM, 30 * MM)
    assert plan.under_minimum == (0, 1)
    assert plan.lifts[0].points == (0, 2)
    assert plan.lifts[0].thin == (0,)


def test_nothing_to_pour() -> None:
    assert plan_bay([-2 * MM], 3 * MM, 30 * MM).ways == ("nothing",)


def test_bay_by_bay() -> None:
    depths = np.array([12, 20, 48, 55, 8]) * MM
    plans = plan_bays(depths, {"east": [0, 1, 4], "west": [2, 3], "niche": []}, 3 * MM, 30 * MM)
    assert list(plans) == ["east", "west"]
    assert plans["east"].ways == ("one lift",)
    assert plans["west"].ways == ("lifts",)
    assert plans["west"].over_maximum == (2, 3)
    assert plans["west"].shallowest_m / MM == pytest.approx(48)


@given(
    st.lists(st.floats(-0.005, 0.15), min_size=1, max_size=12),
    st.floats(0.001, 0.008),
    st.floats(0.02, 0.05),
)
def test_lifts_fill_every_point_up(depths: list[float], least: float, most: float) -> None:
    plan = plan_bay(depths, least, most)
    if not plan.lifts:
        return
    for point, depth in enumerate(depths):
        filled = sum(
            min(max(depth - lift.top_below_finish_m, 0), lift.thickness_m) for lift in plan.lifts
        )
        assert filled == pytest.approx(max(depth, 0), abs=1e-9)
        assert any(point in lift.points for lift in plan.lifts) == (depth > 1e-9)
    for lift in plan.lifts:
        assert least - 1e-8 <= lift.thickness_m <= most + 1e-8


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: plan_bay([], 0.003, 0.03), "without a point"),
        (lambda: plan_bay([0.01], 0.03, 0.003), "no room"),
        (lambda: plan_bay([0.01], -0.003, 0.003), "zero or more"),
        (lambda: plan_bay([float("nan")], 0.003, 0.03), "row 1"),
        (lambda: lift_depths(float("nan"), 0.003, 0.03), "cannot be poured"),
    ],
)
def test_senseless_bays_are_refused(ask: Callable[..., Any], says: str) -> None:
    with pytest.raises(SurveyError, match=says):
        ask()
