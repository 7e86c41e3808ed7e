"""Rooms, grids, points, and where the walk goes: the ends of what is taken."""

from __future__ import annotations

from decimal import Decimal

import pytest

from assistant.decide.questions import YesOrNo
from assistant.decide.room import _differ, _free_name, check_inside, room_words
from assistant.decide.walk import (
    _walks_against,
    line_in_order,
    points_of_line,
    points_of_run,
    same_reading,
    skip_point,
)
from assistant.errors import Refusal
from assistant.events.room import GridSet, RoomClosed
from assistant.events.walk import PointSkipped, WalkMoved
from assistant.floor.places import places_of
from grammar.commands import Measure, Reading
from grammar.commands.walk import SkipPoint, TakeLine, TakeRun, TakeSame
from tests.job.conftest import WORLD, Site

ROOM = ("room 12 by 8 metres", "grid 2 metres")


def walls(*said: str) -> tuple[str, ...]:
    return tuple(f"wall {each} m" for each in said)


def test_walls_close_to_a_centimetre_or_half_a_percent_of_the_way_round() -> None:
    for said, straight in (
        (("east 1", "north 1", "west 0.99"), True),
        (("east 0.4", "north 0.3", "west 0.4", "south 0.29"), False),  # a centimetre
        (("east 0.4", "north 0.3", "west 0.4", "south 0.289"), True),
        (("east 12", "north 8", "west 12", "south 7.801"), False),  # 199 mm of 39.801 m
        (("east 12", "north 8", "west 12", "south 7.8"), True),  # 200 mm of 39.8 m
    ):
        floor = Site(*walls(*said))
        assert isinstance(floor.unconfirmed("close room"), YesOrNo) is straight, said
        if straight:
            floor.told("close room")
        assert floor.job.history[-1].events == (RoomClosed(straight_wall_added=straight),)
    assert "One wall makes no room" in Site(*walls("east 4")).refused("close room")
    closed = Site(*walls("east 4", "north 4", "west 4", "south 4"), "close room")
    assert "closed already" in closed.refused("close room")
    assert "no walls to close" in Site(*ROOM).refused("close room")


def test_a_grid_starts_in_the_corner_or_in_the_room() -> None:
    floor = Site(ROOM[0])
    for start in ("0 m", "0.5 mm", "1 m"):
        floor.told(f"grid 2 metres starting {start}")
        (event,) = floor.job.history[-1].events
        assert isinstance(event, GridSet)
        assert event.starting is not None
    assert "room is not closed yet" in Site(*walls("east 4")).refused("grid 2 metres")
    assert "room first" in Site().refused("grid 2 metres")
    same = Site(ROOM[0], "grid 2 metres").job.history[-1].events[0]
    assert isinstance(same, GridSet)
    assert same.first == same.second == Measure(Decimal(2), "m")


def test_a_grid_has_ten_thousand_points_at_most() -> None:
    """A side of n spacings takes n + 1 points: 199 + 1 times 49 + 1."""
    for side, taken in (("12.25", True), ("12.26", False)):
        floor = Site(f"room 49.75 by {side} metres")
        if taken:
            floor.told("grid 0.25 metres starting 0 m")
            assert len(places_of(floor.job.layout).names) == 10_000
        else:
            assert "more than 10,000 points" in floor.refused("grid 0.25 metres starting 0 m")


def test_a_room_that_reaches_behind_its_first_corner_is_as_large_as_it_is() -> None:
    """Ten metres across, eight of them behind it."""
    floor = Site(*walls("east 2", "north 5", "west 10", "south 5"), "close room")
    assert "takes in 10 m by 5 m" in room_words(floor.job)
    assert "more than 10,000 points" in floor.refused("grid 0.05 metres starting 0 m")


def test_a_place_differs_from_a_millimetre_on() -> None:
    for one, other, differ in (
        ((1, 1), (1, 1), False), ((1, 1), (1.0009, 1), False), ((1, 1), (1.0011, 1), True),
        ((1, 1), (1, 0.9991), False), ((1, 1), (1, 0.9989), True), ((0, 0), (0.001, 0), True),
        ((0, 0), (0, 0.001), True), ((1, 1), (0.9989, 1), True),
    ):  # fmt: skip
        assert _differ(one, other) is differ, (one, other)


def test_readings_that_a_new_layout_moves_are_asked_about() -> None:
    floor = Site(*ROOM, "A1 -18", "B1 -20")
    for line, told in (
        ("grid 2 metres", ""), ("grid 3 metres", "moves 2 points that have been read: A1 and B1."),
        ("grid 2 by 3 metres", ""), ("grid 3 by 2 metres", "moves 2 points"),
        ("room 12 by 10 metres", ""), ("room 14 by 8 metres", ""), ("room 1 by 8 metres", "moves"),
    ):  # fmt: skip
        answer = Site(*ROOM, "A1 -18", "B1 -20").unconfirmed(line)
        assert isinstance(answer, YesOrNo) is bool(told), line
        if isinstance(answer, YesOrNo):
            assert told in answer.text, line
    one = Site(*ROOM, "A1 -18").asked("grid 3 metres").text
    assert "moves 1 point that has been read: A1. Its reading stays" in one
    two = floor.asked("grid 3 metres").text
    assert "Their readings stay" in two


def test_a_first_grid_that_has_no_place_for_what_was_read_is_asked_about() -> None:
    floor = Site(ROOM[0], "A1 -18", "Z9 -20")
    asked = floor.asked("grid 2 metres").text
    assert "leaves out 1 point that has been read: Z9." in asked
    floor.told("strike Z9")
    floor.at_once("grid 2 metres")
    floor.at_once("grid 2 metres")


def test_a_point_between_others_has_a_name_and_a_place_of_its_own() -> None:
    floor = Site(*ROOM, "point K1 at 2 by 2 m")
    assert "B2 is on the grid" in floor.refused("point B2 at 2 by 2 m")
    assert "K1 is there already" in floor.refused("point K2 at 2 by 2 m")
    floor.told("point K1 at 2 by 2 m", "point K2 at 2 by 2.5 m")
    names = [_free_name(floor.job)]
    assert names == ["P1"]
    floor.told("point P1 at 2 by 1.5 m", "point T1 at 4 by 2 m", "point X1 at 4 by 1.5 m",
               "point Z1 at 4 by 2.5 m")  # fmt: skip
    assert _free_name(floor.job) == "P2"
    assert _free_name(Site(*ROOM).job) == "K1"


def test_off_the_floor_the_room_is_told_with_its_sides() -> None:
    rectangle = Site(*ROOM, "column 0.4 by 0.4 metres at 4 by 4 metres").job
    assert room_words(rectangle) == "the room, which is 12 m by 8 m"
    walked = Site(*walls("east 4", "north 3", "west 4", "south 3"), "close room").job
    assert room_words(walked) == "the outline, which takes in 4 m by 3 m at most"
    for x, y, why in (
        (1, 1, ""),
        (12, 8, ""),
        (12.1, 1, "outside the room"),
        (4, 4, "under column 1"),
    ):
        first, second = (Measure(Decimal(str(each)), "m") for each in (x, y))
        if why:
            with pytest.raises(Refusal, match=why):
                check_inside(rectangle, first, second)
        else:
            check_inside(rectangle, first, second)


# --- the walk ---------------------------------------------------------------------------------


def readings(*mm: int) -> tuple[Reading, ...]:
    return tuple(Reading(Decimal(value), "mm") for value in mm)


def test_a_line_is_taken_from_its_beginning() -> None:
    job = Site(*ROOM).job
    for line, values, points in (
        ("2", 3, ("A2", "B2", "C2")), ("2", 6, ("A2", "B2", "C2", "D2", "E2", "F2")),
        ("B", 4, ("B1", "B2", "B3", "B4")), ("B", 1, ("B1",)),
    ):  # fmt: skip
        assert points_of_line(job, TakeLine(line, readings(*[-9] * values))) == points
    for line, values, told in (("2", 7, "Row 2 has 6 points, A2 to F2; 7 readings"),
                               ("B", 5, "Column B has 4 points, B1 to B4; 5")):  # fmt: skip
        with pytest.raises(Refusal, match=told):
            points_of_line(job, TakeLine(line, readings(*[-9] * values)))
    with pytest.raises(Refusal, match="B2 is a point"):
        points_of_line(job, TakeLine("B2", readings(-9)))
    wide = Site("room 60 by 4 metres", "grid 2 metres").job
    assert line_in_order(wide, "1")[24:28] == ["Y1", "Z1", "AA1", "AB1"]
    long = Site("room 4 by 24 metres", "grid 2 metres").job
    assert line_in_order(long, "A")[8:] == ["A9", "A10", "A11", "A12"]


def test_a_line_against_the_walk_is_asked_about() -> None:
    """The walk comes back along row 2 from F2."""
    first = [f"{letter}1 -9" for letter in "ABCDEF"]
    floor = Site(*ROOM, *first)
    assert _walks_against(floor.job, "2", ("A2", "B2"))
    assert not _walks_against(floor.job, "2", ("A2",))
    assert not _walks_against(floor.job, "2", ("F2", "E2"))
    assert not _walks_against(floor.job, "3", ("A3", "B3"))  # the walk is elsewhere
    assert not _walks_against(Site(*ROOM).job, "1", ("A1", "B1"))
    assert "In this order: A2 and B2?" in floor.asked("row 2 -9 -9").text
    Site(*ROOM).at_once("row 1 -9 -9")
    assert floor.asked("row 2 -9 -9 -9").spoken.startswith("From alfa two to charlie two?")
    five = floor.asked("row 2 -9 -9 -9 -9 -9").text
    assert "In this order: A2, B2, C2, D2 and 1 more?" in five


def test_a_run_goes_on_along_the_walk_as_far_as_it_goes() -> None:
    job = Site("room 4 by 4 metres", "grid 2 metres", "A1 -9").job
    assert points_of_run(job, TakeRun(readings(-9, -8))) == ("B1", "B2")
    assert points_of_run(job, TakeRun(readings(-9, -8, -7))) == ("B1", "B2", "A2")
    with pytest.raises(Refusal, match="4 readings, and 3 points left"):
        points_of_run(job, TakeRun(readings(-9, -8, -7, -6)))


def test_no_point_is_named_twice_in_one_breath() -> None:
    floor = Site(*ROOM)
    assert "B1 is named twice" in floor.refused("A1 -8, B1 -9, B1 -10")
    floor.told("A1 -8, B1 -9, C1 -9")
    assert len(floor.job.readings) == 3


def test_the_same_again_is_of_the_last_point_or_the_one_named() -> None:
    job = Site(*ROOM, "A1 -8", "B1 -9").job
    assert same_reading(job, TakeSame(None)).reading.number == -9
    assert same_reading(job, TakeSame("C1", "A1")).reading.number == -8
    assert same_reading(job, TakeSame("C1", "A1")).point == "C1"
    with pytest.raises(Refusal, match="Nothing has been read yet"):
        same_reading(Site(*ROOM).job, TakeSame(None))


def test_a_point_that_was_read_is_not_skipped() -> None:
    floor = Site(*ROOM, "A1 -8")
    assert "A1 has a reading" in floor.refused("skip A1")
    floor.told("skip B1 because pallets")
    assert floor.job.history[-1].events == (PointSkipped("B1", "pallets"),)
    next_one = SkipPoint(None, None)
    assert skip_point(floor.job, next_one, WORLD).events == (PointSkipped("C1", ""),)
    with pytest.raises(Refusal, match="no points yet"):
        skip_point(Site().job, next_one, WORLD)
    assert "Z9" in Site(*ROOM).refused("go to Z9")


def test_the_next_line_is_the_next_that_has_points_to_read() -> None:
    for lines, there in (
        (("A1 -8",), "F2"), (("F2 -8",), "A3"), (("A1 -8", "F2 -9", "go to A1"), "E2"),
        (("walk along columns", "A1 -8"), "B4"),
        (("A1 -8", *(f"{letter}2 -9" for letter in "ABCDEF"), "go to B1"), "A3"),
    ):  # fmt: skip
        floor = Site(*ROOM, *lines)
        floor.told("next row" if "walk along columns" not in lines else "next column")
        assert floor.job.history[-1].events == (WalkMoved(there),), lines
    last = Site(*ROOM, "go to C4")
    assert "last of the rows" in last.refused("next row")
    everything = Site("room 2 by 2 metres", "grid 2 metres", "A1 -8")
    assert "Every point has a reading" in everything.refused("next row")
    assert "no points yet" in Site().refused("next row")
