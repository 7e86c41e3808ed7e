"""What stands on the floor: areas by exact arithmetic, circles by π r²."""

from __future__ import annotations

from math import pi

import numpy as np
import pytest
import shapely

from assistant.errors import SurveyError
from assistant.floor.geometry import area_to_pour, outline_of
from assistant.floor.obstacles import (
    is_covered,
    left_beside,
    obstacle_over,
    obstacles_outside,
    off_the_area,
    shape_of,
    taken_area,
)
from tests.job.conftest import Site

ROOM = ("room 12 by 8 metres", "grid 2 metres")
BOX = (*ROOM, "column 1 by 2 m at 6 by 4 m")
ROUND = (*ROOM, "round column 1 m at 3 by 2 m")


def test_a_box_stands_round_its_middle() -> None:
    (one,) = off_the_area(Site(*BOX).job.layout)
    assert shape_of(one).bounds == (5.5, 3, 6.5, 5)


def test_a_round_one_has_the_area_of_its_circle_and_the_same_reach_to_all_sides() -> None:
    (one,) = off_the_area(Site(*ROUND).job.layout)
    shape = shape_of(one)
    assert shape.area == pytest.approx(pi / 4)
    assert shape.bounds == pytest.approx((2.5, 1.5, 3.5, 2.5), abs=0.5 / 800)
    west, south, east, north = shape.bounds
    assert (west + east) / 2 == pytest.approx(3)
    assert (south + north) / 2 == pytest.approx(2)
    assert east - west == pytest.approx(north - south)
    circle = shapely.Point(3, 2).buffer(0.5, quad_segs=500)
    assert shape.exterior.hausdorff_distance(circle.exterior) < 0.5 / 800


def test_what_is_left_of_a_room() -> None:
    for lines, area in (
        (ROOM, 96), (BOX, 94), ((*BOX, "column 1 by 1 m at 7 by 4 m"), 93),
        (("room 4 by 4 metres", "column 4 by 3 m at 2 by 1.5 m"), 4),
        (("room 4 by 4 metres", "column 3.9 by 4 m at 1.95 by 2 m"), 0.4),
    ):  # fmt: skip
        found = area_to_pour(Site(*lines).job.layout)
        assert found is not None
        assert found.area == pytest.approx(area), lines


def test_a_room_that_is_all_taken_is_none() -> None:
    """What a hand covers, a square of a centimetre, is no floor to pour."""
    layout = Site("room 4 by 4 metres", "column 1 by 1 m at 1 by 1 m").job.layout
    for side, is_floor in ((1.0, False), (1.00004, False), (1.0004, True)):
        outline = np.array([[0.5, 0.5], [1.5, 0.5], [1.5, 0.5 + side], [0.5, 0.5 + side]])
        if is_floor:
            assert left_beside(layout, outline).area == pytest.approx(4e-4, rel=0.02)
        else:
            with pytest.raises(SurveyError):
                left_beside(layout, outline)


def test_points_at_the_edge_stand_beside_it() -> None:
    layout = Site(*BOX).job.layout
    for x, y, covered in (
        (6, 4, True), (5.5, 4, False), (5.4999, 4, False), (5.501, 4, True), (6, 5, False),
        (6, 4.999, True), (6.5, 5, False), (1, 1, False),
    ):  # fmt: skip
        assert is_covered(layout, np.array([[x, y]]))[0] == covered, (x, y)
    assert not len(is_covered(layout, np.empty((0, 2))))
    bare = Site(*ROOM).job.layout
    assert is_covered(bare, np.array([[6, 4], [1, 1]])).tolist() == [False, False]
    assert taken_area(bare) is None


def test_which_one_covers_a_place() -> None:
    layout = Site(*BOX, "column 2 by 2 m at 2 by 2 m").job.layout
    found = {place: obstacle_over(layout, *place) for place in ((6.0, 4.0), (2.0, 2.0), (9.0, 1.0))}
    assert [one and one.first.number for one in found.values()] == [1, 2, None]


def test_one_outside_the_room_is_told() -> None:
    floor = Site(*BOX, "column 1 by 1 m at 11 by 2 m")
    outline = outline_of(floor.job.layout)
    assert outline is not None
    assert obstacles_outside(floor.job.layout, outline) == ()
    smaller = np.array([[0, 0], [8, 0], [8, 8], [0, 8.0]])
    assert len(obstacles_outside(floor.job.layout, smaller)) == 1
