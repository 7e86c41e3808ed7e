"""Lifts and depths just at a bound of the card; exact arithmetic but for the dust of floats."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.levels.lifts import lift_depths, plan_bay

MM = 0.001
DUST = 1e-10


@pytest.mark.parametrize("dust", [-DUST, 0.0, DUST])
def test_what_is_just_at_a_bound_keeps_to_it(dust: float) -> None:
    least, most = 3 * MM, 30 * MM
    assert len(lift_depths(most + dust, least, most)) == 1
    assert len(lift_depths(2 * most + dust, least, most)) == 2
    assert len(lift_depths(least + dust, least, most)) == 1
    assert lift_depths(dust, least, most) == ()
    plan = plan_bay(np.array([3, 30]) * MM + dust, least, most, 30 * MM)
    assert (plan.over_maximum, plan.under_minimum) == ((), ())
    assert plan.ways == ("one lift",)
    assert not plan.one_pour_with_aggregate  # none is needed


@pytest.mark.parametrize("beyond", [0.1 * MM, 5 * MM])
def test_what_is_past_a_bound_is_told(beyond: float) -> None:
    least, most = 3 * MM, 30 * MM
    assert len(lift_depths(most + beyond, least, most)) == 2
    assert len(lift_depths(2 * most + beyond, least, most)) == 3
    assert lift_depths(least - min(beyond, 2 * MM), least, most) == ()
    plan = plan_bay(np.array([3 * MM - min(beyond, 2 * MM), most + beyond]), least, most)
    assert (plan.over_maximum, plan.under_minimum) == ((1,), (0,))


@pytest.mark.parametrize("dust", [-DUST, 0.0, DUST])
def test_a_lift_as_thin_as_the_card_allows_is_no_film(dust: float) -> None:
    # 60 mm are two lifts of 30; 33 mm beside it leave just the minimum of the lower one.
    plan = plan_bay(np.array([60 * MM, 33 * MM + dust]), 3 * MM, 30 * MM)
    assert [lift.thin for lift in plan.lifts] == [(), ()]
    assert [lift.points for lift in plan.lifts] == [(0, 1), (0, 1)]
    film = plan_bay([60 * MM, 32 * MM], 3 * MM, 30 * MM)
    assert [lift.thin for lift in film.lifts] == [(1,), ()]
    above = plan_bay([60 * MM, 30 * MM + dust], 3 * MM, 30 * MM)
    assert [lift.points for lift in above.lifts] == [(0,), (0, 1)]


@pytest.mark.parametrize(("most_mm", "taken"), [(60, True), (59.9, False), (None, False)])
def test_aggregate_reaches_to_its_maximum(most_mm: float | None, taken: bool) -> None:
    most_m = None if most_mm is None else most_mm * MM
    plan = plan_bay([60 * MM, 10 * MM], 3 * MM, 30 * MM, most_m)
    assert ("aggregate" in plan.ways) is taken


@pytest.mark.parametrize(
    ("least", "most", "fits"),
    [(0.0, 0.01, True), (-1e-6, 0.01, False), (0.01, 0.01, True), (0.0101, 0.01, False),
     (0.0, 0.0, False), (np.nan, 0.01, False), (0.0, np.inf, False)],
)  # fmt: skip
def test_a_card_s_depths_leave_room(least: float, most: float, fits: bool) -> None:
    if fits:
        assert lift_depths(0.01, least, most) == pytest.approx((0.01,))
    else:
        with pytest.raises(SurveyError):
            lift_depths(0.01, least, most)


def test_a_bay_that_is_just_at_its_finish_needs_nothing() -> None:
    assert plan_bay([0.0, -2 * MM], 3 * MM, 30 * MM).ways == ("nothing",)


def test_the_lower_lift_keeps_its_minimum_though_a_film_more_were_avoided() -> None:
    """At 33 mm: with a last lift of 30, 3 mm would be left below it, and 5 are the least."""
    plan = plan_bay(np.array([*range(6, 30), 33]) * MM, 5 * MM, 30 * MM)
    assert [lift.thickness_m / MM for lift in plan.lifts] == pytest.approx([5, 28])


def test_a_lift_is_as_thick_as_leaves_a_shallower_point_just_its_minimum() -> None:
    """50 mm are two lifts; at 29 mm the lower one has 5 or nothing, at 33 more than 5."""
    plan = plan_bay(np.array([29, 33, 50]) * MM, 5 * MM, 30 * MM)
    assert [lift.thickness_m / MM for lift in plan.lifts] == pytest.approx([26, 24])
    assert [lift.thin for lift in plan.lifts] == [(), ()]
