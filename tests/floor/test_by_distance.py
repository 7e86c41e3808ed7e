"""Lines against limits that grow with a distance: what the readings may hide counts."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.floor.by_distance import ByDistance, neighbours_of, own_distance_of
from assistant.floor.profiles import LINE, Lines
from tests.benchmarks.verdicts import LONGEST_M, din, distance_verdicts


def line(spacing: float, heights: list[float], sd: float = 0.1, averaged: float = 0.0) -> Lines:
    table = np.array([heights], dtype=float)
    along = np.arange(len(heights), dtype=np.float64) * spacing
    places = np.zeros((*table.shape, 2))
    return Lines(LINE, "along", ("line 1",), along, table, places, (), sd, averaged)


def told(lines: Lines) -> ByDistance:
    found = own_distance_of(lines, LONGEST_M, din(3), lines.heights_mm.size)
    assert found is not None
    return found


def test_a_level_line_of_wide_points_does_not_show_what_lies_between_them() -> None:
    """Row 3 lets 4 mm at 1 m: two points of that are its ends, and nothing between is read."""
    assert told(line(0.3, [0.0] * 20)).said.met is True
    for spacing in (0.5, 1.0):
        assert told(line(spacing, [0.0] * 20)).said.met is None, spacing


def test_a_short_dish_has_less_room_than_a_long_one_that_is_nearer_to_its_limit() -> None:
    """
    Of a wave of 1.2 m points 0.3 m apart hide 1 - cos 45°, 29 % (exact arithmetic): of the 4 mm
    that row 3 lets there 1.2 mm, so 3.3 mm is too near and 2 mm is not.
    """
    # A dish of 3.6 m as deep as 7 mm, where 9 mm is let and 3 % is hidden, is nearer to its limit.
    long = [-7 * (1 - ((row - 6) / 6) ** 2) for row in range(13)]
    near = told(line(0.3, [*long, 0, 0, -2.0, -3.3, -2.0, 0, 0]))
    assert near.said.met is None
    assert near.found.mm == pytest.approx(3.3)
    assert near.found.limit_mm == 4
    assert near.wave_m == pytest.approx(1.2)
    assert told(line(0.3, [*long, 0, 0, -1.2, -2.0, -1.2, 0, 0])).said.met is True


def test_what_is_over_its_limit_is_told_however_wide_the_points() -> None:
    found = told(line(1.0, [0, -9, 0, 0, 0, 0]))
    assert found.said.met is False
    # 2 m between the high points: 6 mm are let.
    assert (found.found.mm, found.found.limit_mm) == (9.0, 6)


def test_three_readings_are_wanted() -> None:
    assert own_distance_of(line(1.0, [0, np.nan, 0, np.nan]), LONGEST_M, din(3), 2) is None
    assert neighbours_of(line(1.0, [0, np.nan, 0, np.nan]), din(3), 2) is None


def test_levels_by_neighbours_on_drawn_floors_are_seldom_wrong_and_often_told() -> None:
    count = distance_verdicts(np.random.default_rng(5), 3, 1.0, 0.5, 300, levels=True)
    assert count.met_wrong <= 0.05 * count.met
    assert count.not_met_wrong <= 0.05 * count.not_met
    assert count.met > 20
    assert count.not_met > 20


@pytest.mark.slow
def test_gaps_by_own_distance_on_drawn_floors_are_seldom_wrong_and_often_told() -> None:
    count = distance_verdicts(np.random.default_rng(3), 1, 0.3, 0.2, 80, levels=False)
    assert count.met_wrong <= 0.05 * count.met
    assert count.not_met_wrong <= 0.05 * count.not_met
    assert count.met > 10
    assert count.not_met > 10
