"""Outlines: walks round the walls, frames, crossings, what is on the floor.

Check values are exact arithmetic unless another source stands beside them.
"""

from __future__ import annotations

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.outline import (
    check_outline,
    contains,
    in_frame,
    outline_area,
    rectangle,
    spread_misclosure,
    walk_walls,
)

L_SHAPE = np.array([[0, 0], [6, 0], [6, 2.5], [4, 2.5], [4, 4], [0, 4]])


def test_a_rectangle_has_its_corners_in_order() -> None:
    assert rectangle(6, 4).tolist() == [[0, 0], [6, 0], [6, 4], [0, 4]]
    assert outline_area(rectangle(6, 4)) == 24


@pytest.mark.parametrize("side", [0, -1, float("nan"), float("inf")])
def test_a_side_without_length_is_refused(side: float) -> None:
    with pytest.raises(SurveyError, match="encloses nothing"):
        rectangle(side, 4)
    with pytest.raises(SurveyError, match="encloses nothing"):
        rectangle(4, side)


def test_area_of_the_l_shaped_room() -> None:
    # Area 21 m2: exact arithmetic; shapely agrees.
    assert outline_area(L_SHAPE) == 21
    assert outline_area(L_SHAPE[::-1]) == 21
    assert shapely.Polygon(L_SHAPE).area == 21


def test_area_far_from_the_origin_keeps_its_digits() -> None:
    assert outline_area(np.add(L_SHAPE, [4e6, 5e6])) == 21


def test_a_walk_round_the_l_shaped_room_closes() -> None:
    legs = np.diff(np.vstack([L_SHAPE, L_SHAPE[:1]]), axis=0)
    walked = walk_walls(legs)
    assert walked.shape == (7, 2)
    assert walked[-1].tolist() == [0, 0]
    assert walked[:-1].tolist() == L_SHAPE.tolist()
    assert spread_misclosure(legs) == pytest.approx(L_SHAPE)


def test_misclosure_is_spread_by_length() -> None:
    # Compass rule by hand (exact arithmetic). Walk 5 E, 3 N, 5 W, 3 S of a floor, all but the
    # first read right and that one 16 mm long: misclosure (0.016, 0) over 16.016 m.
    legs = np.array([[5.016, 0], [0, 3], [-5, 0], [0, -3]])
    per_metre = 0.016 / 16.016
    expected = [
        [0, 0],
        [5.016 - 5.016 * per_metre, 0],
        [5.016 - 8.016 * per_metre, 3],
        [0.016 - 13.016 * per_metre, 3],
    ]
    found = spread_misclosure(legs)
    assert found == pytest.approx(np.array(expected), abs=1e-15)
    # The walk from the last corner along the last leg, with its share, is back at the start.
    assert found[-1] + legs[-1] - [3 * per_metre, 0] == pytest.approx([0, 0], abs=1e-15)


@given(
    st.lists(
        st.tuples(st.floats(-20, 20), st.floats(-20, 20)).filter(lambda leg: abs(leg[0]) > 0.01),
        min_size=3,
        max_size=12,
    )
)
def test_no_leg_is_changed_by_more_than_its_share(walked: list[tuple[float, float]]) -> None:
    legs = np.array(walked)
    misclosure = np.hypot(*walk_walls(legs)[-1])
    lengths = np.hypot(*legs.T)
    corners = spread_misclosure(legs)
    adjusted = np.diff(np.vstack([corners, corners[:1]]), axis=0)
    changes = np.hypot(*(adjusted - legs).T)
    assert changes == pytest.approx(misclosure * lengths / lengths.sum(), abs=1e-9)


def test_a_walk_without_length_is_refused() -> None:
    with pytest.raises(SurveyError, match="at least one wall"):
        spread_misclosure([[0, 0], [0, 0]])
    with pytest.raises(SurveyError, match="at least one wall"):
        spread_misclosure([])
    with pytest.raises(SurveyError, match="row 2"):
        walk_walls([[1.0, 0.0], [np.nan, 0.0]])


EAST, NORTH, WEST, SOUTH = (1, 0), (0, 1), (-1, 0), (0, -1)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        (EAST, NORTH),
        (EAST, SOUTH),
        (WEST, NORTH),
        (WEST, SOUTH),
        (NORTH, EAST),
        (NORTH, WEST),
        (SOUTH, EAST),
        (SOUTH, WEST),
    ],
)
def test_whichever_way_the_walls_run_the_floor_stands_in_its_frame(
    first: tuple[int, int], second: tuple[int, int]
) -> None:
    # The L-shaped room measured from its first corner: so far along the first wall, so far
    # along the second.
    corner = np.array([7.0, -3.0])
    as_walked = corner + L_SHAPE[:, :1] * first + L_SHAPE[:, 1:] * second
    framed = in_frame(as_walked, np.multiply(first, 6), np.multiply(second, 2.5))
    assert framed.tolist() == L_SHAPE.tolist()
    assert not np.signbit(framed).any()


def test_a_floor_askew_comes_out_straight() -> None:
    turn = np.array([[0.8, 0.6], [-0.6, 0.8]])
    framed = in_frame(L_SHAPE @ turn + 2, turn[0], turn[1])
    assert framed == pytest.approx(L_SHAPE, abs=1e-14)


@pytest.mark.parametrize(
    ("first", "second", "says"),
    [
        ((0, 0), (0, 1), "first wall has no length"),
        ((2, 0), (-1, 0), "turn left or right"),
        ((2, 0), (0, 0), "turn left or right"),
        ((2, np.nan), (0, 1), "row 1"),
    ],
)
def test_walls_that_give_no_frame_are_refused(
    first: tuple[int, float], second: tuple[int, int], says: str
) -> None:
    with pytest.raises(SurveyError, match=says):
        in_frame(L_SHAPE, first, second)


@pytest.mark.parametrize(
    ("corners", "says"),
    [
        ([[0, 0], [6, 4], [6, 0], [0, 4]], "wall 1 meets wall 3"),
        ([[0, 0], [6, 0], [6, 4], [5, 4], [5, -1], [0, 4]], "wall 1 meets wall 4"),
        # Touching from inside: the floor falls into two at that corner.
        ([[0, 0], [6, 0], [6, 4], [3, 0], [0, 4]], "wall 1 meets wall 3"),
        # A wall that runs back over the one before it.
        ([[0, 0], [6, 0], [4, 0], [4, 3], [0, 3]], "wall 1 meets wall 2"),
        ([[0, 0], [4, 0], [4, -3], [6, -3], [6, 0]], "wall 1 meets wall 5"),
        ([[0, 0], [4, 0], [4, 3], [0, 3], [0, -1]], "wall 1 meets wall 4"),
        ([[0, 0], [6, 0]], "three corners"),
        ([], "three corners"),
        ([[0, 0], [3, 0], [6, 0]], "meets"),
        ([[0, 0], [6, 0], [6, 0], [6, 4]], "Wall 2 of the outline has no length"),
        ([[0, 0], [6, 0], [6, 4], [0, 0]], "Wall 4 of the outline has no length"),
        ([[0, 0], [6, 0], [np.inf, 4]], "row 3"),
    ],
)
def test_corners_that_enclose_no_floor_are_refused(corners: list[list[float]], says: str) -> None:
    with pytest.raises(SurveyError, match=says):
        check_outline(corners)


@pytest.mark.parametrize(
    "corners",
    [
        L_SHAPE,
        L_SHAPE[::-1],
        # A corner in the middle of a straight wall, as where a door is.
        [[0, 0], [3, 0], [6, 0], [6, 4], [0, 4]],
        # Round a chimney breast; walls close together, but they do not meet.
        [[0, 0], [6, 0], [6, 4], [3.2, 4], [3.2, 0.01], [2.8, 0.01], [2.8, 4], [0, 4]],
        # A very small cupboard and a very large hall.
        [[0, 0], [0.05, 0], [0.05, 0.05], [0, 0.05]],
        [[0, 0], [900, 0], [900, 700], [0, 700]],
    ],
)
def test_corners_that_enclose_a_floor_are_taken(corners: ArrayLike) -> None:
    check_outline(corners)


@settings(max_examples=200, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 8), st.integers(0, 8)), min_size=3, max_size=8, unique=True)
)
def test_crossings_are_found_as_by_shapely(corners: list[tuple[int, int]]) -> None:
    try:
        check_outline(corners)
    except SurveyError:
        taken = False
    else:
        taken = True
    assert taken == bool(shapely.Polygon(corners).is_valid)


def test_on_the_wall_is_on_the_floor() -> None:
    on = np.array([[0, 0], [3, 0], [6, 1], [6 + 5e-10, 1], [4, 3], [5, 2.5], [4, 2.5], [0, -5e-10]])
    assert contains(L_SHAPE, on).all()
    off = np.array([[6 + 1e-8, 1], [5, 2.5 + 1e-8], [5, 3], [-1, 0], [7, 0], [-1, 4], [7, 2.5]])
    assert not contains(L_SHAPE, off).any()
    assert contains(L_SHAPE, np.zeros((0, 2))).shape == (0,)


@settings(max_examples=100, deadline=None)
@given(
    st.lists(
        st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=3, max_size=7, unique=True
    ).filter(lambda corners: shapely.Polygon(corners).is_valid)
)
def test_what_is_on_the_floor_is_so_for_shapely(corners: list[tuple[int, int]]) -> None:
    places = np.stack(np.meshgrid(np.arange(-1, 8, 0.5), np.arange(-1, 8, 0.5)), axis=2)
    places = places.reshape(-1, 2)
    expected = shapely.intersects_xy(shapely.Polygon(corners), places[:, 0], places[:, 1])
    assert contains(corners, places).tolist() == expected.tolist()
