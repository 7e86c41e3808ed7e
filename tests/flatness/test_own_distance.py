"""DIN 18202: limits by distance, facets under an edge, and levels on a grid."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.flatness.limits_by_distance import LimitsByDistance
from assistant.flatness.own_distance import worst_facet, worst_of_three
from assistant.flatness.straightedge import worst_gap

DISTANCES = (0.1, 0.6, 1, 1.5, 2, 2.5, 3, 3.5, 4, 6, 8, 10, 15)
BASE = ("0.1", "1", "4", "10", "15")
# DIN 18202 table 3, extended, as a handbook of the German floor-laying trade prints it.
PRINTED = {
    1: (10, 13, 15, 16, 17, 18, 18, 19, 20, 22, 23, 25, 30),
    2: (5, 7, 8, 9, 9, 10, 11, 12, 12, 13, 14, 15, 20),
    3: (2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 11, 12, 15),
    4: (1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 15),
}
_SHOWS_ANOTHER = (2, 3.5)
"""Printed 12 where a straight line has 11.33: a slip of the page, or of the handbook."""


def _row(number: int) -> LimitsByDistance:
    cells = [PRINTED[number][DISTANCES.index(float(metres))] for metres in BASE]
    return LimitsByDistance(tuple(zip(BASE, cells, strict=True)))


def test_every_printed_cell_lies_on_the_line_between_base_columns() -> None:
    for number, cells in PRINTED.items():
        for distance, printed in zip(DISTANCES, cells, strict=True):
            if (number, distance) != _SHOWS_ANOTHER:
                assert _row(number).at(distance) == printed, (number, distance)
    assert _row(2).at(3.5) == 11


def test_ends_of_the_table() -> None:
    assert [_row(3).at(distance) for distance in (0.01, 0.1, 15, 40)] == [2, 2, 15, 15]
    # 4.4 mm at 1.2 m, and a half upwards: 4.5 at 1.25 m (exact arithmetic).
    assert [_row(3).at(distance) for distance in (1.2, 1.25)] == [4, 5]
    # A distance of floats, 3 · 0.1 - 0.2, is the one that was meant.
    assert _row(3).at(0.1 + 0.2 + 0.95) == 5
    with pytest.raises(SurveyError):
        _row(3).at(0.0)


def test_the_limit_is_that_of_the_two_high_points_not_of_the_edge() -> None:
    """Exact: 5 mm between high points 1.2 m apart is over row 3's 4 mm there, and within its
    6 mm at 2 m."""
    along = np.arange(11) * 0.3
    heights = np.array([-3.0, -2, -1, 0, -2.5, -5, -2.5, 0, -1, -2, -3])
    facet = worst_facet(along, heights, 2.0, _row(3))
    assert facet is not None
    assert facet.mm == pytest.approx(5.0)
    assert facet.limit_mm == 4
    assert facet.between_m == pytest.approx((0.9, 2.1))
    assert worst_gap(along, heights, 2.0).mm < _row(3).at(2.0)


def test_a_crest_bears_no_edge_on_two_points() -> None:
    along = np.arange(9) * 0.5
    assert worst_facet(along, -((along - 2) ** 2), 2.0, _row(3)) is None


def test_no_facet_passes_over_what_was_not_read() -> None:
    along = np.arange(5) * 0.5
    assert worst_facet(along, np.array([0, -5, np.nan, -5, 0.0]), 2.0, _row(3)) is None


def test_levels_on_a_grid() -> None:
    """Against the mean of both neighbours, the limit that of the outer two: a grid of 1 m takes
    the column of 2 m (read on a building-physics office's page on the standard)."""
    found = worst_of_three(np.arange(5.0), [[0, 0, 0, 0, 0], [0, 1, 8, 1, 0]], _row(3))
    assert found is not None
    assert (found.mm, found.limit_mm, found.line, found.at_m) == (7.0, 6, 1, 2.0)
    # Up or down alike, and a plane is none.
    low = worst_of_three(np.arange(5.0), [0, -1, -8, -1, 0], _row(3))
    assert low is not None
    assert low.mm == 7.0
    plane = worst_of_three(np.arange(5.0), 3 * np.arange(5.0), _row(3))
    assert plane is not None
    assert plane.mm == 0.0


def test_a_level_is_held_against_neighbours_as_far_from_it_on_either_side() -> None:
    assert worst_of_three([0, 1], [0, 5], _row(3)) is None
    assert worst_of_three([0, 1, 2], [0, np.nan, 0], _row(3)) is None
    assert worst_of_three([0, 1, 3], [0, 5, 0], _row(3)) is None
    # A last column that is narrower takes nothing away from the others: 25 mm at the third of five.
    narrow = worst_of_three([0, 2, 4, 6, 7], [0, 0, 25, 0, 40], _row(3))
    assert narrow is not None
    assert (narrow.mm, narrow.limit_mm, narrow.at_m) == (25.0, 10, 4.0)
    # Each against the limit at its own distance: 7 over 6 at 2 m, and 9 under 10 at 4 m.
    two = worst_of_three([0, 1, 2, 3, 5, 7], [0, 7, 0, 0, 9, 0], _row(3))
    assert two is not None
    assert (two.mm, two.limit_mm, two.at_m) == (7.0, 6, 1.0)
