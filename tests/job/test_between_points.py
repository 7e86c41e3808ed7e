"""Depths and volumes between the points that were read, on a floor worked by hand."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.floor.geometry import area_of, gap_m, is_inside, legs_of, perimeter_m
from assistant.floor.places import places_of, point_here
from assistant.floor.surfaces import surface_of
from assistant.floor.warnings import all_warnings
from assistant.job import Layout, WalkedRoom
from tests.job.conftest import Site
from tests.there import there

# A1 at 1 m by 1 m, B1 at 3, C1 at 5; the second row 2 m further in.
FLOOR = ("room 6 by 4 metres", "grid 2 metres")
READ = ("A1 -8", "B1 -12", "C1 -20", "A2 -5", "B2 -9", "C2 -14")


def layout_of(*lines: str) -> Layout:
    return Site(*lines).job.layout


def walls_of(*lines: str) -> WalkedRoom:
    room = layout_of(*lines).room
    assert isinstance(room, WalkedRoom)
    return room


@pytest.mark.parametrize(
    ("x", "y", "mm"),
    [
        # Exact arithmetic: on the points, half-way, and a cell's middle is the mean of its corners.
        (1, 1, 8), (3, 1, 12), (5, 3, 14), (2, 1, 10), (4, 1, 16), (1, 2, 6.5), (2, 2, 8.5),
        (4, 2, 13.75), (3, 2, 10.5),
    ],
)  # fmt: skip
@pytest.mark.parametrize("finish_mm", [0, 7])
def test_how_deep_it_is_between_points(x: float, y: float, mm: float, finish_mm: int) -> None:
    surface = there(surface_of(Site(*FLOOR, *READ, f"finish plus {finish_mm}").job))
    assert surface.depth_mm_at(x, y) == pytest.approx(mm + finish_mm, abs=1e-9)


@pytest.mark.parametrize(
    ("away_mm", "there_already"), [(0, True), (2, True), (2.9, True), (3.1, False), (50, False)]
)
def test_two_points_are_three_millimetres_apart_at_least(
    away_mm: float, there_already: bool
) -> None:
    layout = layout_of(*FLOOR)
    for x, y in ((away_mm, 0), (0, away_mm), (-away_mm, 0), (0, -away_mm)):
        assert (point_here(layout, 3 + x / 1000, 1 + y / 1000) == "B1") is there_already


def test_without_points_none_is_anywhere() -> None:
    assert point_here(layout_of("room 6 by 4 metres"), 1, 1) is None


@pytest.mark.parametrize(
    ("x", "y", "inside"), [(0.1, 0.1, True), (5.9, 3.9, True), (6.1, 1, False), (1, -0.1, False)]
)
def test_what_is_on_the_floor(x: float, y: float, inside: bool) -> None:
    assert is_inside(layout_of(*FLOOR), x, y) is inside
    assert is_inside(layout_of(), x, y)  # nothing is outside while there is no room


@pytest.mark.parametrize(
    ("said", "east", "north"),
    [
        ("north", 0, 1), ("south", 0, -1), ("east", 1, 0), ("west", -1, 0),
        ("north east", 0.5**0.5, 0.5**0.5), ("south east", 0.5**0.5, -(0.5**0.5)),
        ("south west", -(0.5**0.5), -(0.5**0.5)), ("north west", -(0.5**0.5), 0.5**0.5),
    ],
)  # fmt: skip
def test_a_metre_of_wall_goes_a_metre_its_way(said: str, east: float, north: float) -> None:
    room = walls_of(f"wall {said} 2 metres")
    assert legs_of(room.walls) == pytest.approx(np.array([[2 * east, 2 * north]]))
    assert perimeter_m(room.walls) == pytest.approx(2)
    assert gap_m(room.walls) == pytest.approx(2)


def test_walls_in_one_line_make_no_room() -> None:
    floor = Site("wall east 2 metres", "wall west 2 metres")
    assert "one line" in floor.refused("close room") or area_of(floor.job.layout) is None


def test_walls_that_come_back_enclose_their_area() -> None:
    floor = Site("wall east 4 metres", "wall north 3 metres", "wall west 4 metres")
    floor.told("wall south 3 metres", "close room")
    room = floor.job.layout.room
    assert isinstance(room, WalkedRoom)
    assert area_of(floor.job.layout) == pytest.approx(12)
    assert perimeter_m(room.walls) == pytest.approx(14)
    assert gap_m(room.walls) == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("mirrored", [False, True])
def test_a_room_lies_on_the_side_to_which_its_walls_turn(mirrored: bool) -> None:
    turn, back = ("south", "north") if mirrored else ("north", "south")
    floor = Site("wall east 4 metres", f"wall {turn} 3 metres", "wall west 4 metres",
                 f"wall {back} 3 metres", "close room", "grid 2 metres")  # fmt: skip
    places = places_of(floor.job.layout)
    assert places.inside.all()
    assert places.xy_m.min() > 0
    assert places.xy_m.max(axis=0) == pytest.approx([3, 2.5], abs=0.6)


@pytest.mark.parametrize(
    ("x", "y", "gives_way"),
    [("3", "1", True), ("3.001", "1", True), ("3", "1.001", True), ("3.002", "1", False)],
)
def test_a_single_point_gives_way_to_the_grid_where_that_has_its_place(
    x: str, y: str, gives_way: bool
) -> None:
    floor = Site("room 6 by 4 metres", f"point X1 at {x} by {y} metres", "grid 2 metres")
    assert (places_of(floor.job.layout).gave_way == ("X1",)) is gives_way


# The card of the made-up standard: 3 to 30 mm, and lighter floors than 20 mm of it.
CARD = "product example standard"


@pytest.mark.parametrize(
    ("lines", "ids"),
    [
        ((), []),  # nothing is missing before anything is read
        (("skip A1 because stove",), []),
        (("A1 -8",), ["points-missing"]),
        (("A1 -8", "skip B1 because stove"), ["points-skipped", "points-missing"]),
        (("A1 +2",), ["high-spot:A1", "points-missing"]),
        (("A1 -80",), ["points-missing"]),
        ((CARD, "A1 -2"), ["under-minimum:A1", "points-missing"]),
        ((CARD, "A1 -3"), ["points-missing"]),
        ((CARD, "A1 -20"), ["weight", "points-missing"]),
        ((CARD, "A1 -31"), ["over-maximum:A1", "weight", "points-missing"]),
        ((CARD, "aggregate 20 percent", "A1 -40"), ["weight", "points-missing"]),
    ],
)
def test_a_floor_is_warned_of_what_is_past_a_limit_and_of_nothing_else(
    lines: tuple[str, ...], ids: list[str]
) -> None:
    assert [warning.id for warning in all_warnings(Site(*FLOOR, *lines).job)] == ids


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("point K1 at 3 by 1 metres", "B1 is there already"),
        ("point K1 at 3.002 by 1 metres", "B1 is there already"),
        ("point K2 at 3.5 by 1.5 metres", "K1 is there already"),
        ("point B1 at 3 by 1 metres", "B1 is on the grid"),
        ("point K1 at 3.5 by 1.502 metres", None),  # moved a little, or not at all
        ("point K1 at 3.5 by 1.5 metres", None),
        ("point K1 at 3.004 by 1 metres", None),
        ("point K1 at 6.1 by 1 metres", "outside the room, which is 6 m by 4 m"),
    ],
)
def test_one_place_has_one_name(line: str, told: str | None) -> None:
    floor = Site(*FLOOR, "point K1 at 3.5 by 1.5 metres")
    if told is None:
        floor.told(line)
    else:
        assert told in floor.refused(line)
