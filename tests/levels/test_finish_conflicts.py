"""Wishes for a finish that stand against each other: a conflict is real, and needs all its members.

Floors here are made up, the expected answers exact arithmetic or found by another way; nothing
is taken from a publication.
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from assistant.levels.arrays import FloatArray
from assistant.levels.best_finish import (
    Conflict,
    Constraint,
    Finish,
    PointConstraint,
    best_plane,
    door_constraint,
    fixed_constraint,
)
from tests.levels.asked_of_highs import MM, asked_of_highs
from tests.levels.wished import unmet

SQUARE = np.array([[0, 0], [4, 0], [0, 4], [4, 4]], dtype=float)


def rows_of(
    wish: Constraint,
    places: FloatArray,
    heights: FloatArray,
    least: float,
    most: float,
    held: list[PointConstraint],
) -> tuple[FloatArray, float, float]:
    """Places, lower and upper bounds of one wish."""
    infinite = 10.0
    if wish.kind == "minimum":
        return places[wish.number], heights[wish.number] + least, infinite
    if wish.kind == "maximum":
        return places[wish.number], -infinite, heights[wish.number] + most
    one = held[wish.number]
    return np.array(one.place_m), one.lowest_m, one.highest_m


def can_meet(
    wishes: Iterable[Constraint],
    asked: tuple[FloatArray, FloatArray, float, float, list[PointConstraint], float],
    inside: bool,
) -> bool:
    limit = asked[-1]
    rows = [rows_of(wish, *asked[:-1]) for wish in wishes if wish.kind != "slope"]
    if not rows:
        return True
    # Without the limit any slope will do: three places almost in one line may take more than 1.
    steepest = limit if any(wish.kind == "slope" for wish in wishes) else 1000.0
    at = np.array([row[0] for row in rows])
    low, high = np.array([row[1] for row in rows]), np.array([row[2] for row in rows])
    found = asked_of_highs(np.zeros(3), at, low, high, steepest, inside=inside)
    return bool(found.status == 0)


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 10**6).map(np.random.default_rng), st.integers(1, 8))
@example(np.random.default_rng(524288), 3)
def test_a_conflict_is_true_and_every_member_needed(rng: np.random.Generator, count: int) -> None:
    places = np.round(rng.uniform(0, 6, (count, 2)), 1)
    heights = np.round(rng.normal(0, 8, count)) * MM
    held = [
        door_constraint(round(rng.normal(0, 8)) * MM, 3 * MM, (0.0, 3.0)),
        fixed_constraint(round(rng.normal(10, 8)) * MM, 0.0, (6.0, 2.0)),
    ]
    asked = (places, heights, 3 * MM, 15 * MM, held, 1.1 * MM)
    result = best_plane(
        places, heights, np.ones(count), 3 * MM, 15 * MM, held, slope_limit=1.1 * MM
    )
    assume(isinstance(result, Conflict))
    assert isinstance(result, Conflict)  # as mypy has it
    assert len(result.members) <= 4
    assert not can_meet(result.members, asked, inside=True)
    for dropped in result.members:
        rest = [wish for wish in result.members if wish != dropped]
        assert can_meet(rest, asked, inside=False)
    # With the changes made, everything can be met: ask again with the wishes eased.
    given_way = {change.wish: change.amount + 2e-8 for change in result.changes}
    least, most = np.full(count, 3 * MM), np.full(count, 15 * MM)
    for number in range(count):
        least[number] -= given_way.get(Constraint("minimum", number), 0)
        most[number] += given_way.get(Constraint("maximum", number), 0)
    eased = [
        PointConstraint(one.kind, one.lowest_m - amount, one.highest_m + amount, one.place_m)
        for row, one in enumerate(held)
        for amount in [given_way.get(Constraint(one.kind, row), 0)]
    ]
    limit = 1.1 * MM + given_way.get(Constraint("slope", 0), 0)
    lift = max(0.0, -least.min())  # a minimum may have given way to below nothing
    again = best_plane(
        places,
        heights - lift,
        np.ones(count),
        least + lift,
        most + lift,
        eased,
        slope_limit=limit,
    )
    assert isinstance(again, Finish)
    # Giving less would not do: each change is no larger than the whole needs, weighed alike.
    for change in result.alone:
        assert change.wish in result.members
        assert change.amount > 0
    radius = max(float(np.hypot(*(place - places.mean(axis=0)))) for place in places) or 1.0
    spent = sum(
        change.amount * (radius if change.wish.kind == "slope" else 1) for change in result.changes
    )
    for change in result.alone:
        alone = change.amount * (radius if change.wish.kind == "slope" else 1)
        assert spent <= alone + 1e-7


def test_slope_limit_can_be_the_conflict() -> None:
    held = [fixed_constraint(0.0, 0.0, (0, 0)), fixed_constraint(20 * MM, 0.0, (4, 0))]
    result = unmet(
        best_plane(SQUARE, [-10 * MM] * 4, [4] * 4, 3 * MM, 60 * MM, held, slope_limit=2 * MM)
    )
    assert set(result.members) == {
        Constraint("fixed", 0),
        Constraint("fixed", 1),
        Constraint("slope", 0),
    }
    # 20 mm in 4 m is 5 mm in a metre: 3 more than allowed. Or 12 mm off one of the heights.
    alone = {change.wish: change.amount / MM for change in result.alone}
    assert alone == pytest.approx(
        {Constraint("slope", 0): 3, Constraint("fixed", 0): 12, Constraint("fixed", 1): 12},
        abs=1e-5,
    )
