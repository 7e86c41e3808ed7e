"""Wishes for the finish as bounds: of a door, of a place that is given, of what a product takes."""

from __future__ import annotations

import pytest

from assistant.levels.best_finish import Finish, best_level
from assistant.levels.constraints import door_constraint, fixed_constraint


def test_a_place_that_is_given_is_given_exactly_unless_a_tolerance_is_told() -> None:
    exact, loose = fixed_constraint(0.012), fixed_constraint(0.012, 0.002, (3.0, 4.0))
    assert (exact.lowest_m, exact.highest_m, exact.place_m) == (0.012, 0.012, (0.0, 0.0))
    assert loose.lowest_m == pytest.approx(0.010)
    assert loose.highest_m == pytest.approx(0.014)
    assert loose.place_m == (3.0, 4.0)


def test_a_level_finish_is_the_lowest_that_all_wishes_take() -> None:
    # Exact arithmetic: 3 mm above the highest point is 5 mm, a door lets no less than 6.
    heights, weights = [0.0, 0.002, -0.010], [1.0, 1.0, 1.0]
    door = door_constraint(0.012, 0.006)
    found = best_level(heights, weights, 0.003, 0.030, [door])
    assert isinstance(found, Finish)
    assert found.height_m == pytest.approx(0.006)
    without = best_level(heights, weights, 0.003, 0.030, [])
    assert isinstance(without, Finish)
    assert without.height_m == pytest.approx(0.005)
    given = best_level(heights, weights, 0.003, 0.030, [fixed_constraint(0.009)])
    assert isinstance(given, Finish)
    assert given.height_m == pytest.approx(0.009)
