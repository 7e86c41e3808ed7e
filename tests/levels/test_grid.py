"""Grids of points: how many, where, their names, and the order to walk them in.

Check values are exact arithmetic.
"""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.errors import SurveyError
from assistant.levels.grid import Grid, column_letters, grid_points, walking_order
from assistant.levels.outline import rectangle

L_SHAPE = np.array([[0, 0], [6, 0], [6, 2.5], [4, 2.5], [4, 4], [0, 4]])


def columns_and_rows(grid: Grid) -> tuple[int, int]:
    return len(np.unique(grid.xy_m[:, 0])), len(np.unique(grid.xy_m[:, 1]))


@pytest.mark.parametrize(
    ("side", "spacing", "count"),
    [
        (6, 1.8, 4),
        (4, 1.8, 2),
        (2.7, 0.7, 4),  # (2.7 - 0.6) / 0.7 is 3, though floats say 2.9999999999999996 or so
        (0.9, 0.1, 4),
        (1.3, 0.1, 8),
        (1.2, 0.2, 4),
        (0.6, 1, 1),
        (2.69, 0.7, 3),
        (30, 1, 30),
        (0.61, 0.7, 1),
    ],
)
def test_a_centred_grid_has_this_many_points_a_side(
    side: float, spacing: float, count: int
) -> None:
    grid = grid_points(rectangle(side, 5), spacing, 10)
    assert columns_and_rows(grid) == (count, 1)
    grid = grid_points(rectangle(5, side), 10, spacing)
    assert columns_and_rows(grid) == (1, count)


@given(st.integers(60, 1000), st.integers(5, 300))
def test_counts_are_those_of_exact_arithmetic(side_cm: int, spacing_cm: int) -> None:
    expected = (Fraction(side_cm) - 60) // spacing_cm + 1
    if expected > 99:
        return
    grid = grid_points(rectangle(5, side_cm / 100), 5, spacing_cm / 100)
    assert len(grid.names) == expected


@given(st.integers(10, 1000), st.integers(5, 300), st.integers(0, 100))
def test_counts_from_a_start_are_those_of_exact_arithmetic(
    side_cm: int, spacing_cm: int, start_cm: int
) -> None:
    expected = (Fraction(side_cm) - start_cm) // spacing_cm + 1
    if not 1 <= expected <= 99:
        return
    # Both ways the same, so that the start suits both.
    grid = grid_points(
        rectangle(side_cm / 100, side_cm / 100), 1000, spacing_cm / 100, start_cm / 100
    )
    assert len(grid.names) == expected


def test_a_centred_grid_stands_in_the_middle() -> None:
    grid = grid_points(rectangle(6, 4), 1.8, 1.5)
    assert grid.names == tuple("A1 B1 C1 D1 A2 B2 C2 D2 A3 B3 C3 D3".split())
    assert grid.xy_m[0] == pytest.approx([0.3, 0.5])
    assert grid.xy_m[-1] == pytest.approx([5.7, 3.5])
    assert grid.xy_m.mean(axis=0) == pytest.approx([3, 2])


def test_a_grid_with_a_start_goes_up_to_the_wall() -> None:
    grid = grid_points(rectangle(6, 4), 2, 2, 0)
    assert grid.names == tuple("A1 B1 C1 D1 A2 B2 C2 D2 A3 B3 C3 D3".split())
    assert grid.xy_m[-1].tolist() == [6, 4]
    grid = grid_points(rectangle(2.1, 2.2), 0.7, 0.7, 0)
    assert columns_and_rows(grid) == (4, 4)
    grid = grid_points(rectangle(6, 4), 2, 2, 0.5)
    assert grid.xy_m[-1].tolist() == [4.5, 2.5]


def test_the_notch_of_an_l_shaped_room_is_left_out() -> None:
    grid = grid_points(L_SHAPE, 2, 2, 1)
    assert grid.names == ("A1", "B1", "C1", "A2", "B2")
    # On the walls of the notch counts as in; C3 and D3, beyond them, are out.
    grid = grid_points(L_SHAPE, 2, 1.25, 0)
    assert grid.names == tuple("A1 B1 C1 D1 A2 B2 C2 D2 A3 B3 C3 D3 A4 B4 C4".split())


def test_a_floor_away_from_the_corner_keeps_its_grid() -> None:
    moved = grid_points(np.add(L_SHAPE, [-3, 7]), 2, 2, 1)
    assert moved.names == ("A1", "B1", "C1", "A2", "B2")
    assert moved.xy_m[0].tolist() == [-2, 8]


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        ((0, 1), "A spacing of 0 m"),
        ((1, -2), "A spacing of -2 m"),
        ((1, float("nan")), "A spacing of nan m"),
        ((1, 1, -0.5), "cannot start -0.5 m"),
        ((1, 1, 5), "No rows fit: the grid starts 5 m"),
        ((0.005, 1), "makes 1081 columns and 702 can be named"),
        ((1, 0.01), "makes 341 rows and 99 can be named"),
        ((1e-300, 1), "702 can be named"),
    ],
)
def test_a_grid_that_cannot_be_is_refused(arguments: tuple[float, ...], says: str) -> None:
    with pytest.raises(SurveyError, match=says):
        grid_points(rectangle(6, 4), *arguments)


def test_a_floor_too_narrow_for_a_centred_grid_is_told_what_to_do() -> None:
    with pytest.raises(SurveyError, match=r"0\.5 m across.*for instance 0\.25 m"):
        grid_points(rectangle(6, 0.5), 1, 1)
    assert len(grid_points(rectangle(6, 0.5), 1, 1, 0.25).names) == 6


def test_a_grid_that_misses_the_floor_is_refused() -> None:
    ring = [[0, 0], [6, 0], [6, 6], [0, 6], [0, 5], [5, 5], [5, 1], [0, 1]]
    with pytest.raises(SurveyError, match="No point"):
        grid_points(ring, 10, 10)
    with pytest.raises(SurveyError, match="three corners"):
        grid_points([[0, 0], [1, 1]], 1, 1)
    assert grid_points([[0, 0], [6, 0], [0, 4]], 2, 2).names == ("A1", "B1", "A2")


def test_columns_go_on_after_z() -> None:
    assert [column_letters(i) for i in (0, 1, 25, 26, 27, 51, 52, 701)] == (
        "A B Z AA AB AZ BA ZZ".split()
    )
    assert len({column_letters(i) for i in range(702)}) == 702
    grid = grid_points(rectangle(30, 1), 1, 1)
    assert grid.names[25:28] == ("Z1", "AA1", "AB1")


def test_rows_are_walked_to_and_fro() -> None:
    names = grid_points(rectangle(6, 4), 2, 1.5, 0.5).names
    assert walking_order(names) == tuple("A1 B1 C1 C2 B2 A2 A3 B3 C3".split())
    assert walking_order(reversed(names)) == walking_order(names)


def test_what_is_not_on_the_grid_comes_last_as_given() -> None:
    names = ["sill", "B2", "A1", "A2", "drain 1", "B1", "A100", "ABC1", "A0"]
    expected = ("A1", "B1", "B2", "A2", "sill", "drain 1", "A100", "ABC1", "A0")
    assert walking_order(names) == expected
    assert walking_order([]) == ()


def test_walking_counts_rows_there_are_and_columns_after_z() -> None:
    assert walking_order(["A1", "B1", "A3", "B3"]) == ("A1", "B1", "B3", "A3")
    assert walking_order(["AA1", "Z1", "B10", "A10", "A9", "B9"]) == tuple(
        "Z1 AA1 B9 A9 A10 B10".split()
    )


@pytest.mark.parametrize(("count", "taken"), [(99, True), (100, False)])
def test_ninety_nine_rows_have_names_and_no_more(count: int, taken: bool) -> None:
    # From wall to wall: exact arithmetic.
    room = rectangle(2, count - 1)
    if taken:
        assert grid_points(room, 2, 1, 0).names[-1] == f"B{count}"
    else:
        with pytest.raises(SurveyError, match="makes 100 rows and 99 can be named"):
            grid_points(room, 2, 1, 0)


@pytest.mark.parametrize(("count", "taken"), [(702, True), (703, False)])
def test_columns_have_names_up_to_two_letters(count: int, taken: bool) -> None:
    room = rectangle(count - 1, 2)
    if taken:
        assert grid_points(room, 1, 2, 0).names[-1] == "ZZ2"
    else:
        with pytest.raises(SurveyError, match="makes 703 columns and 702 can be named"):
            grid_points(room, 1, 2, 0)


@pytest.mark.parametrize(("spacing_m", "fits"), [(1e-9, False), (0.0, False), (0.1, True)])
def test_a_spacing_is_more_than_nothing(spacing_m: float, fits: bool) -> None:
    if fits:
        assert len(grid_points(rectangle(1, 1), spacing_m, 1, 0).names) == 22
    else:
        with pytest.raises(SurveyError):
            grid_points(rectangle(1, 1), spacing_m, 1, 0)
