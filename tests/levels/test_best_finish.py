"""The finish of least material, against searches that try everything, and against HiGHS plainly.

Floors here are made up, the expected answers exact arithmetic or found by another way; nothing
is taken from a publication.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import ArrayLike
from pytest_benchmark.fixture import BenchmarkFixture
from scipy.optimize import OptimizeResult

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from assistant.levels.best_finish import (
    Conflict,
    Constraint,
    Finish,
    PointConstraint,
    best_fall,
    best_level,
    best_plane,
    door_constraint,
    fixed_constraint,
)
from tests.benchmarks.yardstick import Clocked, within
from tests.levels.asked_of_highs import MM, asked_of_highs
from tests.levels.wished import met, unmet
from tests.there import there

SQUARE = np.array([[0, 0], [4, 0], [0, 4], [4, 4]], dtype=float)


def level(
    heights_mm: ArrayLike,
    least_mm: int = 3,
    most_mm: int | None = None,
    held: Sequence[PointConstraint] = (),
    weights: ArrayLike | None = None,
    **more: Any,
) -> Finish | Conflict:
    heights = np.array(heights_mm, dtype=float) * MM
    area = np.ones(heights.size) if weights is None else weights
    return best_level(
        heights, area, least_mm * MM, None if most_mm is None else most_mm * MM, held, **more
    )


# --- level -------------------------------------------------------------------


def test_highest_point_and_minimum_set_the_finish() -> None:
    finish = met(level([0, -6, 4], weights=[2, 4, 2]))
    assert finish.height_m / MM == pytest.approx(7)
    assert finish.binding == (Constraint("minimum", 2),)
    assert finish.depths_m / MM == pytest.approx([7, 13, 3])
    assert finish.volume_m3 == pytest.approx((2 * 7 + 4 * 13 + 2 * 3) * MM)
    assert finish.slope == (0.0, 0.0)


def test_a_door_keeps_the_finish_up() -> None:
    # Floor outside at +15, a step of 4 allowed: not below 11.
    finish = met(level([0, -6, 4], held=[door_constraint(15 * MM, 4 * MM)]))
    assert finish.height_m / MM == pytest.approx(11)
    assert finish.binding == (Constraint("door", 0),)


def test_a_fixed_height_is_met() -> None:
    finish = met(level([0, -6, 4], held=[fixed_constraint(9 * MM)]))
    assert finish.height_m / MM == pytest.approx(9)
    assert finish.binding == (Constraint("fixed", 0),)


def test_bounds_include_their_ends() -> None:
    # Exactly one finish: minimum over the high point, maximum over the low one.
    finish = level([0, -6, 4], most_mm=13)
    assert isinstance(finish, Finish)
    assert finish.binding == (Constraint("minimum", 2), Constraint("maximum", 1))


def test_own_minimum_at_each_point() -> None:
    finish = met(best_level([0, 0, 0], [1, 1, 1], np.array([3, 9, 5]) * MM))
    assert finish.height_m / MM == pytest.approx(9)
    assert finish.binding == (Constraint("minimum", 1),)


def test_high_above_the_datum() -> None:
    finish = met(best_level(np.array([0, -6, 4]) * MM + 448, [1, 1, 1], 3 * MM))
    assert finish.height_m == pytest.approx(448.007, abs=1e-9)
    assert finish.volume_m3 == pytest.approx(23 * MM, abs=1e-9)


def test_two_high_points_bind_together() -> None:
    assert met(level([4, 0, 4])).binding == (Constraint("minimum", 0), Constraint("minimum", 2))


def test_level_conflict_names_who_stands_against_whom() -> None:
    # The low point at -40 may take 30, the high point at +4 needs 3: 17 mm apart.
    result = level([0, -40, 4], most_mm=30)
    assert isinstance(result, Conflict)
    assert set(result.members) == {Constraint("minimum", 2), Constraint("maximum", 1)}
    assert sum(change.amount for change in result.changes) / MM == pytest.approx(17)
    assert {change.wish: round(change.amount / MM, 6) for change in result.alone} == {
        Constraint("maximum", 1): 17.0
    }
    # Grinding C1 alone helps no more than the next highest point lets it: 4 mm.


def test_door_against_high_point() -> None:
    # Outside at 0 with a step of 6; the high point needs 9: 3 mm too much, one way or the other.
    result = level([0, -5, 6], held=[door_constraint(0.0, 6 * MM)])
    assert isinstance(result, Conflict)
    assert set(result.members) == {Constraint("minimum", 2), Constraint("door", 0)}
    alone = {change.wish: round(change.amount / MM, 6) for change in result.alone}
    assert alone == {Constraint("minimum", 2): 3.0, Constraint("door", 0): 3.0}
    assert sum(change.amount for change in result.changes) / MM == pytest.approx(3)


def test_what_is_dear_stays() -> None:
    held = [door_constraint(0.0, 6 * MM)]
    dear_door = unmet(level([0, -5, 6], held=held, dear={"door": 5}))
    assert [change.wish for change in dear_door.changes] == [Constraint("minimum", 2)]
    assert dear_door.reconciled.height_m / MM == pytest.approx(6, abs=1e-4)
    dear_minimum = unmet(level([0, -5, 6], held=held, dear={"minimum": 5}))
    assert [change.wish for change in dear_minimum.changes] == [Constraint("door", 0)]
    assert dear_minimum.reconciled.height_m / MM == pytest.approx(9, abs=1e-4)
    (change,) = dear_minimum.changes
    assert change.wish == Constraint("door", 0)
    assert change.amount == pytest.approx(3 * MM, abs=1e-8)


def test_two_doors_that_cannot_both_be_met() -> None:
    result = unmet(
        level([0, 0], held=[door_constraint(0.0, 6 * MM), door_constraint(20 * MM, 6 * MM)])
    )
    assert set(result.members) == {Constraint("door", 0), Constraint("door", 1)}


@settings(max_examples=50, deadline=None)
@given(st.data())
def test_level_equals_trying_every_finish(data: st.DataObject) -> None:
    heights = np.array(data.draw(st.lists(st.integers(-30, 10), min_size=1, max_size=6)))
    least, room = data.draw(st.integers(0, 6)), data.draw(st.integers(0, 40))
    doors = data.draw(st.lists(st.tuples(st.integers(-5, 15), st.integers(0, 8)), max_size=2))
    weights = np.array(data.draw(st.lists(st.integers(1, 5), min_size=6, max_size=6)))
    weights = weights[: heights.size]
    held = [door_constraint(outside * MM, step * MM) for outside, step in doors]
    result = level(heights, least, least + room, held, weights)
    # All data are whole millimetres, so the best finish is one too: try all there are.
    tried = []
    for finish in range(-60, 60):
        depths = finish - heights
        good = depths.min() >= least and depths.max() <= least + room
        if good and all(abs(finish - outside) <= step for outside, step in doors):
            tried.append((float(weights @ depths), finish))
    if not tried:
        assert isinstance(result, Conflict)
        return
    volume, finish = min(tried)
    best = met(result)
    assert best.height_m / MM == pytest.approx(finish)
    assert best.volume_m3 == pytest.approx(volume * MM, abs=1e-12)


# --- plane -------------------------------------------------------------------


def test_plane_follows_a_sloping_floor_up_to_its_limit() -> None:
    # 8 mm in 4 m is the limit of 2 mm in a metre: the same depth everywhere.
    finish = met(best_plane(SQUARE, [0, 8 * MM, 0, 8 * MM], [4] * 4, 3 * MM, slope_limit=2 * MM))
    assert finish.depths_m / MM == pytest.approx([3, 3, 3, 3], abs=1e-5)
    assert finish.slope == pytest.approx((2 * MM, 0), abs=1e-9)
    assert finish.heights_at([[4, 1]]) / MM == pytest.approx([11], abs=1e-5)
    # With half the limit, half the fall is left: exact arithmetic.
    half = met(best_plane(SQUARE, [0, 8 * MM, 0, 8 * MM], [4] * 4, 3 * MM, slope_limit=1 * MM))
    assert half.depths_m / MM == pytest.approx([7, 3, 7, 3], abs=1e-5)
    assert Constraint("slope", 0) in half.binding


def test_of_equal_planes_the_flattest() -> None:
    # A single point: every plane through it takes as much material.
    finish = met(best_plane([[2, 3]], [0.0], [10], 3 * MM, slope_limit=0.01))
    assert finish.slope == pytest.approx((0, 0), abs=1e-9)
    # Points along one wall: nothing is gained by tilting across it.
    row = met(
        best_plane([[0, 0], [2, 0], [4, 0]], [0, 4 * MM, 8 * MM], [1, 1, 1], 0, slope_limit=0.01)
    )
    assert row.slope == pytest.approx((2 * MM, 0), abs=2e-6)


def test_centre_of_the_floor_counts_not_of_the_points() -> None:
    # The points' middle is at x = 2, the floor's at x = 3: material is area times height there.
    heights = [0, 8 * MM, 0, 8 * MM]
    finish = met(best_plane(SQUARE, heights, [4] * 4, 3 * MM, slope_limit=2 * MM, centre_m=(3, 2)))
    assert finish.about_m == (3, 2)
    assert finish.height_m / MM == pytest.approx(9, abs=1e-5)


def everything(
    places: FloatArray,
    heights: FloatArray,
    least: float,
    most: float,
    held: list[PointConstraint],
    limit: float,
) -> float | None:
    """Best height in the middle, over a fine net of slopes: height follows from the slope."""
    centre = places.mean(axis=0)
    lengths, angles = np.linspace(0, limit, 81), np.linspace(0, 2 * np.pi, 361)
    length, angle = (side.ravel() for side in np.meshgrid(lengths, angles))
    slopes = np.column_stack([length * np.cos(angle), length * np.sin(angle)])
    at = np.vstack([places, [one.place_m for one in held]]) if held else places
    low = np.concatenate([heights + least, [one.lowest_m for one in held]])
    high = np.concatenate([heights + most, [one.highest_m for one in held]])
    rises = slopes @ (at - centre).T
    bottoms, tops = (low - rises).max(axis=1), (high - rises).min(axis=1)
    fine = bottoms <= tops
    return float(bottoms[fine].min()) if fine.any() else None


def test_every_slope_is_searched_in_the_search_above() -> None:
    # The search itself, on a case worked by hand: two points 4 m apart, 8 mm of difference.
    places = np.array([[0.0, 0], [4, 0]])
    found = there(everything(places, np.array([0, 8 * MM]), 3 * MM, 40 * MM, [], 2 * MM))
    assert found / MM == pytest.approx(7)


def test_plane_equals_trying_every_slope() -> None:
    rng = np.random.default_rng(8)
    found = 0
    for _ in range(25):
        places = rng.uniform(0, 6, (5, 2))
        heights = np.round(rng.normal(0, 6, 5)) * MM
        held = [door_constraint(rng.normal(8, 4) * MM, 6 * MM, (0.0, 3.0))]
        limit = rng.uniform(1, 6) * MM
        tried = everything(places, heights, 3 * MM, 40 * MM, held, limit)
        result = best_plane(places, heights, np.ones(5), 3 * MM, 40 * MM, held, slope_limit=limit)
        if tried is None:
            # The net may miss a small room between the wishes, so only the other way is sure.
            continue
        found += 1
        # The net's spacing, across the room, is at most what it may be off.
        spacing = 6 * limit * (1 / 80 + 2 * np.pi / 360)
        height = met(result).height_m
        assert tried - spacing <= height <= tried + 1e-9
    assert found > 15


def plainly(
    places: FloatArray,
    heights: FloatArray,
    weights: FloatArray,
    least: float,
    most: float,
    held: list[PointConstraint],
    limit: float,
    inside: bool,
) -> OptimizeResult:
    """The same asked of HiGHS with a polygon of many sides, inside the circle or around it."""
    centre = weights @ places / weights.sum()
    at = np.vstack([places - centre, np.reshape([one.place_m for one in held], (-1, 2)) - centre])
    low = np.concatenate([heights + least, [one.lowest_m for one in held]])
    high = np.concatenate([heights + most, [one.highest_m for one in held]])
    return asked_of_highs(np.array([1.0, 0, 0]), at, low, high, limit, inside=inside)


def test_plane_is_what_highs_says() -> None:
    rng = np.random.default_rng(9)
    solved = 0
    for _ in range(8):
        places, weights = rng.uniform(0, [9, 6], (30, 2)), rng.uniform(0.5, 3, 30)
        heights = rng.normal(0, 3, 30) * MM + places @ rng.normal(0, 2, 2) * MM
        held = [door_constraint(rng.normal(6, 9) * MM, 3 * MM, (0.0, 2.0))]
        limit = rng.uniform(0.5, 4) * MM
        asked = (places, heights, weights, 3 * MM, 22 * MM, held, limit)
        inner, outer = plainly(*asked, inside=True), plainly(*asked, inside=False)
        ours = best_plane(*asked[:-1], slope_limit=limit)
        assert isinstance(ours, Finish) == (inner.status == 0)
        assert inner.status == outer.status
        if inner.status == 0:
            solved += 1
            assert outer.fun - 1e-5 <= met(ours).height_m / MM <= inner.fun + 1e-5
            assert inner.fun - outer.fun < 1e-3
    assert 3 <= solved < 8


floors = st.integers(0, 10**6).map(np.random.default_rng)


@settings(max_examples=40, deadline=None)
@given(floors, st.integers(1, 25), st.floats(0, 0.01))
def test_what_always_holds_for_a_plane(rng: np.random.Generator, count: int, limit: float) -> None:
    places, weights = rng.uniform(0, 8, (count, 2)), rng.uniform(0.5, 3, count)
    heights = rng.normal(0, 5, count) * MM
    plane = met(best_plane(places, heights, weights, 3 * MM, slope_limit=limit))
    flat = met(best_level(heights, weights, 3 * MM))
    assert np.hypot(*plane.slope) <= limit + 1e-8
    assert plane.volume_m3 <= flat.volume_m3 + 1e-7
    assert plane.depths_m.min() >= 3 * MM - 1e-9
    assert plane.volume_m3 == pytest.approx(weights @ plane.depths_m, abs=1e-9)
    assert any(wish.kind == "minimum" for wish in plane.binding)
    # More slope never needs more; no slope is level.
    wider = met(best_plane(places, heights, weights, 3 * MM, slope_limit=limit * 1.5))
    assert wider.volume_m3 <= plane.volume_m3 + 1e-7
    # Raise the floor and the finish rises with it; turn the room and the answer turns.
    raised = met(best_plane(places, heights + 1, weights, 3 * MM, slope_limit=limit))
    assert raised.height_m == pytest.approx(plane.height_m + 1, abs=1e-8)
    turned = met(best_plane(places[:, ::-1], heights, weights, 3 * MM, slope_limit=limit))
    assert turned.volume_m3 == pytest.approx(plane.volume_m3, abs=1e-7)


def test_no_slope_allowed_is_level() -> None:
    rng = np.random.default_rng(10)
    places, heights = rng.uniform(0, 5, (9, 2)), rng.normal(0, 3, 9) * MM
    held = [door_constraint(9 * MM, 6 * MM, (0, 0))]
    plane = met(best_plane(places, heights, np.ones(9), 3 * MM, 40 * MM, held, slope_limit=0))
    flat = met(best_level(heights, np.ones(9), 3 * MM, 40 * MM, held))
    assert plane.height_m == pytest.approx(flat.height_m, abs=1e-8)


# --- fall --------------------------------------------------------------------


def test_fall_towards_a_drain() -> None:
    finish = met(best_fall(SQUARE, [0] * 4, [4] * 4, 3 * MM, fall=0.01, towards_m=(4, 2)))
    assert finish.slope == pytest.approx((-0.01, 0))
    assert finish.depths_m / MM == pytest.approx([43, 3, 43, 3])
    assert finish.binding == (Constraint("minimum", 1), Constraint("minimum", 3))
    assert finish.volume_m3 == pytest.approx(16 * 23 * MM)


def test_fall_to_a_corner_has_its_full_fall_along_the_diagonal() -> None:
    finish = met(best_fall(SQUARE, [0] * 4, [4] * 4, 3 * MM, fall=0.015, towards_m=(0, 0)))
    assert np.hypot(*finish.slope) == pytest.approx(0.015)
    assert finish.slope[0] > 0
    assert finish.slope[0] == pytest.approx(finish.slope[1])


def test_fall_that_passes_the_maximum() -> None:
    result = best_fall(SQUARE, [0] * 4, [4] * 4, 3 * MM, 30 * MM, fall=0.01, towards_m=(4, 2))
    assert isinstance(result, Conflict)
    assert {wish.kind for wish in result.members} == {"minimum", "maximum"}
    # Each of the two low or high corners by 13 mm: exact arithmetic.
    assert sum(change.amount for change in result.changes) / MM == pytest.approx(26, abs=1e-4)


def test_fall_to_the_middle_has_no_direction() -> None:
    with pytest.raises(SurveyError, match="no direction"):
        best_fall(SQUARE, [0] * 4, [4] * 4, 3 * MM, fall=0.01, towards_m=(2, 2))


# --- refused -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("ask", "says"),
    [
        (lambda: best_level([], [], 0.003), "at least one point"),
        (lambda: best_level([0.0], [0.0], 0.003), "no area"),
        (lambda: best_level([0.0, float("nan")], [1, 1], 0.003), "row 2"),
        (lambda: best_level([0.0], [1], -0.003), "cannot be less than 0"),
        (
            lambda: best_level([0.0], [1], 0.003, held=[PointConstraint("door", 1, 0, (0, 0))]),
            "wrong way round",
        ),
        (
            lambda: best_level([0.0], [1], 0.0, held=[fixed_constraint(float("nan"))]),
            "not a usable number",
        ),
        (lambda: best_plane([[0, 0]], [0.0], [1], 0.003, slope_limit=-1), "slope limit"),
        (lambda: level([0, -40, 4], most_mm=30, dear={"maximum": 0}), "must be at least"),
        (lambda: best_plane([[0]], [0.0], [1], 0.003, slope_limit=1), "an x and a y"),
    ],
)
def test_senseless_wishes_are_refused(ask: Callable[..., Any], says: str) -> None:
    with pytest.raises(SurveyError, match=says):
        ask()


# --- speed -------------------------------------------------------------------


def large_floor() -> tuple[FloatArray, FloatArray, FloatArray]:
    rng = np.random.default_rng(12)
    places = rng.uniform(0, [20, 15], (500, 2))
    heights = 2 * MM * places[:, 0] + rng.normal(0, 2, 500) * MM
    return places, heights, np.full(500, 0.6)


def test_bench_best_plane_of_500_points(benchmark: BenchmarkFixture) -> None:
    places, heights, weights = large_floor()
    held = [door_constraint(30 * MM, 6 * MM, (0.0, 4.0))]
    plane = Clocked(
        lambda: best_plane(places, heights, weights, 3 * MM, 60 * MM, held, slope_limit=1.5 * MM)
    )
    assert isinstance(benchmark(plane), Finish)
    within(200, plane)


def test_bench_conflict_of_500_points(benchmark: BenchmarkFixture) -> None:
    places, heights, weights = large_floor()
    held = [door_constraint(0.0, 2 * MM, (0.0, 4.0))]
    conflict = Clocked(
        lambda: best_plane(places, heights, weights, 3 * MM, 20 * MM, held, slope_limit=0.5 * MM)
    )
    assert isinstance(benchmark(conflict), Conflict)
    within(400, conflict)


@pytest.mark.parametrize(("cost", "taken"), [(0.01, True), (0.0099, False), (0.0, False)])
def test_a_wish_costs_a_hundredth_at_least_to_give_up(cost: float, taken: bool) -> None:
    held = [fixed_constraint(0.0)]
    if taken:
        assert unmet(level([0, -5, 6], held=held, dear={"fixed": cost})).changes
    else:
        with pytest.raises(SurveyError, match=r"at least 0\.01"):
            level([0, -5, 6], held=held, dear={"fixed": cost})
