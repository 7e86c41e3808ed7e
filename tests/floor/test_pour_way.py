"""Which way a pour goes: every side of a room, and rooms walked from every first wall."""

from __future__ import annotations

from math import sqrt

import pytest

from assistant.errors import Refusal
from assistant.floor.pour.way import (
    PourDirection,
    frame_direction,
    is_first_line,
    line_at_m,
    lines_of,
    way_of,
    way_out_of,
)
from tests.job.conftest import Site

ROOM = ("room 12 by 8 metres", "grid 2 metres")
DEEP = ("room 8 by 12 metres", "grid 2 metres")
HALF = sqrt(0.5)


def test_without_a_word_it_goes_along_the_longer_side() -> None:
    for room, way in (
        ("room 12 by 8 metres", PourDirection((1, 0), "column A", False)),
        ("room 8 by 12 metres", PourDirection((0, 1), "row 1", False)),
        ("room 8 by 8 metres", PourDirection((1, 0), "column A", False)),
    ):
        assert way_of(Site(room, "grid 2 metres").job) == way
    assert way_of(Site("room 8 by 12 metres").job) == PourDirection((0, 1), "the A1 corner", False)


FIVE = ("room 10 by 6 metres", "grid 2 metres")
"""Columns at 1, 3, 5, 7 and 9 m, of which C lies in the middle; rows at 1, 3 and 5 m."""


def test_it_begins_where_the_floor_is_clearly_deeper() -> None:
    """By more than 2 mm in the half that would come last; what lies in the middle is of neither."""
    first, last = (
        PourDirection((1, 0), "column A", False),
        PourDirection((-1, 0), "column E", False, deeper=True),
    )
    for depths, way in (
        ({"A1": 6, "E1": 8}, first), ({"A1": 6, "E1": 8.1}, last), ({"A1": 9, "E1": 6}, first),
        ({"A1": 6, "C1": 30, "E1": 9}, last), ({"A1": 6, "C1": 30, "E1": 6}, first),
        ({"A1": 6, "C1": 30}, last), ({"E1": 30}, first), ({"C1": 30, "C2": 6}, first), ({}, first),
        # on the average of each half
        ({"A1": 6, "A2": 10, "E1": 9, "E2": 11.2}, last), ({"A1": 6, "A2": 10, "E1": 9}, first),
        ({"A1": 6, "B1": 10, "D1": 9, "E1": 10.8}, first), ({"B1": 4, "D1": 7}, last),
    ):  # fmt: skip
        read = [f"{name} -{mm}" for name, mm in depths.items()]
        assert way_of(Site(*FIVE, *read).job) == way, depths
    up = way_of(Site("room 6 by 10 metres", "grid 2 metres", "A1 -6", "A5 -9").job)
    assert up == PourDirection((0, -1), "row 5", False, deeper=True)
    said = way_of(Site(*FIVE, "A1 -6", "E1 -9", "start at column A").job)
    assert said == PourDirection((1, 0), "column A", True)


def test_it_goes_to_the_side_that_the_way_out_is_on() -> None:
    """From the side across; as near to two sides, along the longer way."""
    for room, point, at, direction, start in (
        (ROOM, "A2", (1, 3), (-1, 0), "column F"), (ROOM, "F3", (11, 5), (1, 0), "column A"),
        (ROOM, "C1", (5, 1), (0, -1), "row 4"), (ROOM, "C4", (5, 7), (0, 1), "row 1"),
        (ROOM, "A1", (1, 1), (-1, 0), "column F"), (ROOM, "F4", (11, 7), (1, 0), "column A"),
        (DEEP, "A1", (1, 1), (0, -1), "row 6"), (DEEP, "D6", (7, 11), (0, 1), "row 1"),
    ):  # fmt: skip
        job = Site(*room, f"door 1 at {point}", "way out is door 1").job
        assert way_of(job) == PourDirection(direction, start, False), (room, point)
        assert way_out_of(job) == at
    assert way_out_of(Site(*ROOM).job) is None


def test_where_it_is_said_to_start_it_goes_from_there() -> None:
    for line, way in (
        ("start at column A", PourDirection((1, 0), "column A", True)),
        ("start at column F", PourDirection((-1, 0), "column F", True)),
        ("start at row 1", PourDirection((0, 1), "row 1", True)),
        ("start at row 4", PourDirection((0, -1), "row 4", True)),
    ):
        assert way_of(Site(*ROOM, line).job) == way


def walked(*walls: str) -> Site:
    return Site(*(f"wall {wall} metres" for wall in walls), "close room")


WALKED = (
    # the first wall along the first axis; the second on the side that the walls turn to
    (("east 12", "north 8", "west 12", "south 8"), {"east": (1, 0), "north": (0, 1)}),
    (("east 12", "south 8", "west 12", "north 8"), {"east": (1, 0), "north": (0, -1)}),
    (("north 8", "east 12", "south 8", "west 12"), {"east": (0, 1), "north": (1, 0)}),
    (("west 12", "north 8", "east 12", "south 8"), {"east": (-1, 0), "north": (0, 1)}),
    (("south 8", "east 12", "north 8", "west 12"), {"east": (0, 1), "north": (-1, 0)}),
    (("north east 10", "north west 8", "south west 10", "south east 8"),
     {"east": (HALF, -HALF), "north": (HALF, HALF)}),
    # on straight first, and a first turn of half a metre
    (("east 6", "east 6", "north 8", "west 12", "south 8"), {"east": (1, 0), "north": (0, 1)}),
    (("east 4", "south 0.5", "east 4", "north 8.5", "west 8", "south 8"),
     {"east": (1, 0), "north": (0, -1)}),
)  # fmt: skip


def test_winds_in_rooms_walked_from_every_first_wall() -> None:
    for walls, known in WALKED:
        job = walked(*walls).job
        for wind, (x, y) in known.items():
            other = {"east": "west", "north": "south"}[wind]
            assert frame_direction(job, wind) == pytest.approx((x, y)), (walls, wind)
            assert frame_direction(job, other) == pytest.approx((-x, -y)), (walls, other)
        east, north = known["east"], known["north"]
        both = [HALF * (one + other) for one, other in zip(east, north, strict=True)]
        assert frame_direction(job, "north east") == pytest.approx(both, abs=2e-9), walls


def test_a_pour_that_starts_at_a_wall_goes_away_from_it() -> None:
    walls = WALKED[2][0]  # first north, then east: north is along the letters
    for line, way in (
        ("start at the north wall", PourDirection((-1, 0), "the north wall", True)),
        ("start at the west wall", PourDirection((0, 1), "the west wall", True)),
    ):
        assert (
            way_of(Site(*(f"wall {wall} metres" for wall in walls), "close room", line).job) == way
        )
    assert "wall by wall" in Site(*ROOM).refused("start at the north wall")


def test_columns_and_rows_as_they_lie() -> None:
    job = Site(*ROOM).job
    assert lines_of(job, column=True) == tuple("ABCDEF")
    assert lines_of(job, column=False) == ("1", "2", "3", "4")
    assert lines_of(Site(ROOM[0]).job, column=True) == ()
    # 1 m from the walls, then each 2 m
    for line, where in (("A", 1), ("C", 5), ("F", 11), ("1", 1), ("2", 3), ("4", 7)):
        assert line_at_m(job, line) == where
    assert [is_first_line(job, line) for line in ("A", "F", "1", "4")] == [True, False] * 2


def test_lines_that_are_not_there_are_refused() -> None:
    floor = Site(*ROOM)
    assert "row 1 or row 4" in floor.refused("start at row 2")
    assert "column A or column F" in floor.refused("start at column G")
    assert "come with the grid" in Site(ROOM[0]).refused("start at column A")
    with pytest.raises(Refusal, match=r"There is no row 9\. They go from 1 to 4\."):
        line_at_m(floor.job, "9")
    with pytest.raises(Refusal, match=r"no column C\. A grid has them"):
        line_at_m(Site(ROOM[0]).job, "C")
