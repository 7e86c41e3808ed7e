"""Points of a file with axes of its own, laid in a room: turned, mirrored, and told apart."""

from __future__ import annotations

import numpy as np
import pytest
import shapely

from assistant.errors import SurveyError
from assistant.floor.scans.fit import ScanPlacement, in_room_axes, share_in, ways_in

ROOM = np.array([[0, 0], [6, 0], [6, 4], [0, 4]], dtype=float)
CORNER = np.array([[0, 0], [6, 0], [6, 4], [3, 4], [3, 2], [0, 2]], dtype=float)
"""Two metres of its first half are missing, so that it looks the same from no two corners."""


def test_places_are_told_along_the_first_side_and_across_it() -> None:
    """The side runs up the file's second axis; across is to its left, or mirrored to its right."""
    for place, mirrored, told in (
        ((1, 5), False, (3, 0)), ((0, 2), False, (0, 1)), ((0, 2), True, (0, -1)),
        ((3, 4), False, (2, -2)), ((3, 4), True, (2, 2)), ((1, 2), False, (0, 0)),
    ):  # fmt: skip
        found = in_room_axes(
            np.array([place], dtype=float), (1.0, 2.0), (1.0, 9.0), mirrored=mirrored
        )
        assert found[0] == pytest.approx(told), place
    with pytest.raises(SurveyError, match="begins and ends at one place"):
        in_room_axes(ROOM, (1.0, 2.0), (1.0, 2.0), mirrored=False)
    for along, degrees in (((3, 2), 0), ((1, 9), 90), ((0, 2), 180), ((1, 1), -90), ((2, 3), 45)):
        assert ScanPlacement((1, 2), along, mirrored=False).degrees == pytest.approx(degrees)


def points_of(outline: np.ndarray, strip_m: float = 0.0) -> np.ndarray:
    """Points every quarter of a metre, but for a strip along the sides of its rectangle."""
    low, high = outline.min(axis=0) + strip_m, outline.max(axis=0) - strip_m
    x, y = np.meshgrid(*(np.linspace(a, b, 25) for a, b in zip(low, high, strict=True)))
    every = np.column_stack([x.ravel(), y.ravel()])
    inside: np.ndarray = every[shapely.intersects_xy(shapely.Polygon(outline), every)]
    return inside


def in_file(places: np.ndarray, degrees: float, mirrored: bool = False) -> np.ndarray:
    turn = np.radians(degrees)
    own = places * [1, -1 if mirrored else 1]
    along, across = np.array([np.cos(turn), np.sin(turn)]), np.array([-np.sin(turn), np.cos(turn)])
    moved: np.ndarray = own[:, :1] * along + own[:, 1:] * across + [100.0, 200.0]
    return moved


def test_a_room_that_looks_the_same_from_no_two_corners_lies_in_one_way() -> None:
    for outline in (CORNER, CORNER - [2, 1]):
        for degrees, mirrored, strip_m in (
            (30, False, 0.0), (-70, False, 0.2), (120, True, 0.0), (10, True, 0.2),
        ):  # fmt: skip
            points = in_file(points_of(outline, strip_m), degrees, mirrored)
            (way,) = ways_in(outline, points)
            assert way.mirrored is mirrored
            corner, far = in_file(np.array([[0, 0], [outline[:, 0].max(), 0]]), degrees, mirrored)
            assert way.corner == pytest.approx(tuple(corner), abs=0.02), degrees
            assert way.along == pytest.approx(tuple(far), abs=0.02), degrees
            placed = in_room_axes(points, way.corner, way.along, mirrored=way.mirrored)
            assert share_in(outline, placed) == 1


def test_a_rectangle_lies_in_four_ways_and_a_square_in_eight() -> None:
    square = np.array([[0, 0], [4, 0], [4, 4], [0, 4]], dtype=float)
    for outline, count in ((ROOM, 4), (square, 8)):
        ways = ways_in(outline, in_file(points_of(outline), 20))
        assert len(ways) == count
        assert sum(way.mirrored for way in ways) == count // 2
        assert len({(*np.round(way.corner, 3), way.mirrored) for way in ways}) == count


def test_points_of_more_or_less_than_the_room_lie_in_none() -> None:
    """From 0.8 to 1.02 times its size, along and across."""
    points = points_of(ROOM)
    for along, across, lies in (
        (1, 1, True), (0.81, 1, True), (0.79, 1, False), (1, 0.81, True), (1, 0.79, False),
        (1.019, 1, True), (1.03, 1, False), (1, 1.03, False),
    ):  # fmt: skip
        found = ways_in(ROOM, in_file((points - [3, 2]) * [along, across] + [3, 2], 15))
        assert bool(found) is lies, (along, across)
    assert ways_in(ROOM, in_file(np.array([[0.0, 0], [1, 0], [2, 0]]), 15)) == ()
