"""Walls, points, zones, steps and what stands on the floor, measured by hand. Exact arithmetic."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.floor.depths import finish_mm_of, zone_of_point
from assistant.floor.geometry import (
    area_of,
    area_to_pour,
    check_room,
    gap_m,
    is_inside,
    legs_of,
    outline_of,
    perimeter_m,
    with_part,
    zone_areas,
    zone_at,
)
from assistant.floor.places import (
    SAME_PLACE_M,
    grid_of,
    over_point,
    place_of_point,
    places_of,
    point_here,
    zone_of_points,
)
from assistant.floor.places_in_words import place_words, point_at
from assistant.floor.steps import column_letters, column_number, line_members, steps_of
from assistant.floor.things_on_map import covered_spots, things_on_map
from assistant.floor.zones import (
    card_at,
    cards_of,
    finish_mm_at,
    finish_steps,
    one_card,
    part_names,
    points_in,
    poured_parts,
)
from assistant.job import Layout, WalkedRoom
from tests.job.conftest import Site

ROOM = ("room 12 by 8 metres", "grid 2 metres")
HALF = sqrt(0.5)


def walls(*told: str) -> WalkedRoom:
    room = Site(*(f"wall {wall} metres" for wall in told)).job.layout.room
    assert isinstance(room, WalkedRoom)
    return room


def test_walls_as_displacements() -> None:
    """East, north; along a diagonal by the square root of a half each."""
    room = walls("east 4", "north 3", "south west 2", "north west 1", "south east 5", "west 6",
                 "north east 2", "south 1")  # fmt: skip
    legs = [(4, 0), (0, 3), (-2 * HALF, -2 * HALF), (-HALF, HALF), (5 * HALF, -5 * HALF), (-6, 0),
            (2 * HALF, 2 * HALF), (0, -1)]  # fmt: skip
    assert np.array(legs_of(room.walls)) == pytest.approx(np.array(legs))
    assert perimeter_m(room.walls) == pytest.approx(24)
    assert gap_m(walls("east 3", "north 4").walls) == pytest.approx(5)
    assert gap_m(walls("east 3", "north 4", "west 3", "south 4").walls) == pytest.approx(0)


def test_a_room_of_walls_in_its_own_frame() -> None:
    """Along the first wall from its beginning; the second side where the walls turn to."""
    for told in (
        ("east 4", "north 3", "west 4", "south 3"), ("north 4", "east 3", "south 4", "west 3"),
        ("south 4", "east 3", "north 4", "west 3"), ("west 4", "south 3", "east 4", "north 3"),
    ):  # fmt: skip
        lines = [f"wall {wall} metres" for wall in told]
        outline = outline_of(Site(*lines, "close room").job.layout)
        assert outline is not None
        assert np.array(outline) == pytest.approx(np.array([[0, 0], [4, 0], [4, 3], [0, 3]])), told
    straight = Site("wall east 4 metres", "wall east 4 metres", "wall west 8 metres")
    assert "all run along one line" in straight.refused("close room")


def test_walls_that_cross_or_enclose_nothing_are_no_room() -> None:
    square = ("east 4", "north 3", "west 4", "south 3")
    for told, sound in (
        (square, True),
        (("east 4", "north 3", "west 2", "south 5", "east 5", "north 2", "west 7"), False),
        (("east 4", "west 4"), False),
    ):
        layout = Layout(room=replace(walls(*told), closed=True))
        if sound:
            check_room(layout)
        else:
            with pytest.raises(SurveyError):
                check_room(layout)
    for lines in ((), ("room 4 by 3 metres",), ("wall east 4 metres",)):
        check_room(Site(*lines).job.layout)


def test_which_points_gave_way_to_the_grid() -> None:
    """A point within a millimetre of one of the grid's is at the same place; the grid has it."""
    for along, gave_way in (("1", True), ("1.001", True), ("1.002", False), ("0.999", True),
                            ("0.998", False)):  # fmt: skip
        floor = Site(ROOM[0], f"point Z50 at {along} by 1 metres", ROOM[1])
        places = places_of(floor.job.layout)
        assert (places.gave_way == ("Z50",)) is gave_way, along
        assert ("Z50" in places.row) is not gave_way
    by_name = Site(ROOM[0], "point B2 at 5.5 by 1.5 metres", ROOM[1]).job.layout
    assert places_of(by_name).gave_way == ("B2",)
    assert places_of(by_name).xy("B2") == (3, 3)


def test_which_point_lies_at_a_place() -> None:
    layout = Site(*ROOM).job.layout
    assert SAME_PLACE_M == 0.003
    for x, y, name in ((1, 1, "A1"), (1.0029, 1, "A1"), (1, 1.0029, "A1"), (1.0031, 1, None),
                       (3, 5, "B3"), (1.0025, 1.0025, None)):  # fmt: skip
        assert point_here(layout, x, y) == name, (x, y)
    assert point_here(Site().job.layout, 1, 1) is None
    job = Site(*ROOM).job
    for x, name in ((1.0499, "A1"), (1.0501, None), (0.9501, "A1"), (2, None)):
        assert point_at(job, x, 1) == name, x
    assert point_at(Site(ROOM[0]).job, 1, 1) is None


def test_what_is_inside() -> None:
    layout = Site(*ROOM).job.layout
    for x, y, inside in ((6, 4, True), (12.5, 4, False), (-0.5, 4, False), (6, 8.5, False)):
        assert is_inside(layout, x, y) is inside
    assert is_inside(Site().job.layout, 99, 99)


def test_points_under_an_obstacle_are_told_with_it() -> None:
    layout = Site(*ROOM, "column 1 by 1 m at B2", "column 2 by 1 m at E3").job.layout
    places = places_of(layout)
    assert places.covered == {"B2": (3, 3), "E3": (9, 5)}
    assert "B2" not in places.row
    grid = grid_of(layout)
    assert grid is not None
    assert len(grid.names) == 22
    assert place_of_point(layout, "B2") == (3, 3)
    assert place_of_point(layout, "A1") == (1, 1)
    assert place_of_point(layout, "Q9") is None
    over = over_point(layout, "E3")
    assert over is not None
    assert over.number == 2
    assert over_point(layout, "A1") is None
    assert [spot.point for spot in covered_spots(layout)] == ["B2", "E3"]
    small = Site("room 4 by 4 metres", "grid 2 metres")
    assert "covers every point" in small.refused("column 3 by 3 m at 2 by 2 m")


def test_things_on_the_map_with_the_points_they_are_at() -> None:
    floor = Site(*ROOM, "column 1 by 1 m at B2", "opening 1 by 1 m at C3", "crack A1 to C1",
                 "joint D1 to D4", "crack at A3")  # fmt: skip
    found = things_on_map(floor.job.layout)
    assert [(thing.points, thing.at_m) for thing in found] == [
        (("B2",), ((3, 3),)), (("C3",), ((5, 5),)), (("A1", "B1", "C1"), ((1, 1), (5, 1))),
        (("D1", "D2", "D3", "D4"), ((7, 1), (7, 7))), (("A3",), ((1, 5),)),
    ]  # fmt: skip
    assert [thing.stands for thing in found] == [True, False, False, False, False]


def test_areas_of_zones_and_of_the_rest() -> None:
    floor = Site(*ROOM, "zone kitchen columns A to C", "zone hall column F")
    layout = floor.job.layout
    assert {name: area.area for name, area in zone_areas(layout).items()} == pytest.approx(
        {"kitchen": 48, "hall": 16, "rest": 32}
    )
    assert zone_of_points(layout)["C1"] == "kitchen"
    assert "D1" not in zone_of_points(layout)
    assert [zone_at(layout, x, 4) for x in (5.9, 6, 6.1, 9.9, 10.1)] == [
        "kitchen", "kitchen", "rest", "rest", "hall"
    ]  # fmt: skip
    assert [zone_of_point(floor.job, point) for point in ("A1", "D1", "F4", "Q9", None)] == [
        "kitchen", "rest", "hall", "rest", "rest"
    ]  # fmt: skip
    assert area_of(with_part(layout, "hall")) == pytest.approx(16)
    assert points_in(floor.job, "hall") == ("F1", "F2", "F3", "F4")
    assert part_names(floor.job) == ("kitchen", "hall", "rest")
    assert len(poured_parts(floor.job)) == 3
    assert area_of(Site(ROOM[0]).job.layout) == 96
    assert area_of(Site().job.layout) is None
    assert area_to_pour(Site().job.layout) is None
    # what the room no longer has: an empty zone, and no part that is poured
    floor.told("room 6 by 8 metres")
    assert area_of(with_part(floor.job.layout, "hall")) == 0
    assert area_of(with_part(floor.job.layout, "kitchen")) == pytest.approx(48)
    assert len(poured_parts(floor.job)) == 1
    assert "rest" not in zone_areas(floor.job.layout)


def test_a_rest_no_larger_than_a_hand_is_none() -> None:
    """A square of a centimetre: 8 m by 12.5 micrometres."""
    for length, parts in (("6.00001", 1), ("6.0001", 2), ("6", 1), ("7", 2)):
        floor = Site(*ROOM, "zone kitchen columns A to C", f"room {length} by 8 metres")
        assert len(zone_areas(floor.job.layout)) == parts, length
        assert len(poured_parts(floor.job)) == parts, length


def test_products_and_finishes_of_zones() -> None:
    floor = Site(*ROOM, "product example standard", "zone kitchen columns A to C",
                 "zone hall column F", "finish in kitchen +4 mm")  # fmt: skip
    job = floor.job
    parts = {name: finish_mm_of(job, name) for name in part_names(job)}
    assert parts == {"kitchen": 4, "hall": 0, "rest": 0}
    assert [finish_mm_at(job, point) for point in ("A1", "D1", None)] == [4, 0, 0]
    (step,) = finish_steps(job)
    assert (step.lower, step.higher) == ("rest", "kitchen")
    assert (float(step.step_mm), step.edge_m) == pytest.approx((4, 8))
    floor.told("finish in kitchen -4 mm")
    (step,) = finish_steps(floor.job)
    assert (step.lower, step.higher) == ("kitchen", "rest")
    assert step.step_mm == 4
    assert one_card(floor.job) is floor.job.card
    floor.told("product in hall example deep fill")
    assert one_card(floor.job) is None
    assert [card.name for card in cards_of(floor.job)] == ["example standard", "example deep fill"]
    at_hall, at_rest = card_at(floor.job, "F1"), card_at(floor.job, "D1")
    assert at_hall is not None
    assert at_rest is not None
    assert (at_hall.name, at_rest.name) == ("example deep fill", "example standard")
    assert cards_of(Site(*ROOM).job) == []
    assert finish_steps(Site(*ROOM, "zone kitchen columns A to C").job) == ()


def test_zones_that_only_touch_at_a_corner_have_no_step() -> None:
    floor = Site(*ROOM, "zone kitchen A1 to C2", "zone hall D3 to F4", "finish in kitchen +4 mm",
                 "finish in hall +4 mm")  # fmt: skip
    assert {(step.lower, step.higher, step.edge_m) for step in finish_steps(floor.job)} == {
        ("rest", "kitchen", 10.0), ("rest", "hall", 10.0)
    }  # fmt: skip
    floor.told("finish in hall +6 mm")
    assert {(step.lower, step.higher) for step in finish_steps(floor.job)} == {
        ("rest", "kitchen"), ("rest", "hall")
    }  # fmt: skip


def test_steps_lie_half_way_between_what_they_part() -> None:
    for line, middle, along, beside in (
        ("step between B and C", (4, 0), (0, 2), 8),
        ("step between 1 and 2", (0, 2), (-2, 0), 12),
        ("step between B1 and C2", (4, 2), (-2, 2), 2),
    ):
        (step,) = steps_of(Site(*ROOM, line).job)
        start, end = step.line_m
        assert start == pytest.approx(np.array(middle)), line
        assert end - start == pytest.approx(np.array(along)), line
        assert len(step.beside) == beside


def test_lines_of_the_grid_and_their_letters() -> None:
    layout = Site(*ROOM).job.layout
    for name, members in (
        ("B", ("B1", "B2", "B3", "B4")), ("3", ("A3", "B3", "C3", "D3", "E3", "F3")),
        ("B3", ("B3",)), ("Q9", ()), ("Q", ()), ("9", ()),
    ):  # fmt: skip
        assert set(line_members(layout, name)) == set(members), name
    for number, letters in ((1, "A"), (26, "Z"), (27, "AA"), (52, "AZ"), (53, "BA"), (702, "ZZ"),
                            (703, "AAA")):  # fmt: skip
        assert column_letters(number) == letters
        assert column_number(letters) == number


def test_a_place_between_points_is_told_from_wall_and_door() -> None:
    """To the decimetre, or to half a foot; from the nearest of several doors."""
    metric = Site(*ROOM)
    assert place_words(metric.job, 5.54, 2.26) == (
        "5.5 m from the left wall, 2.3 m from the wall at row 1"
    )
    metric.told("door 1 at A1")
    assert place_words(metric.job, 4, 5) == "4 m from the left wall, 5 m from the door"
    metric.told("door 2 at F4")
    assert place_words(metric.job, 8, 3) == "8 m from the left wall, 5 m from door 2"
    inches = Site(*ROOM, "readings in inches")
    # 3.0 m are 118.1 in, 19.7 times six: 120 in, 10 ft; 1.0 m is 39.4 in, 6.6 times six: 42 in
    words = place_words(inches.job, 4.0, 2.0)
    assert words.startswith(("13 ft from", "13 ft 0 in from", "156 in from")), words
