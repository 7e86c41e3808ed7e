"""Rooms, walls, grids and points: a short history, one line, the outcome."""

from __future__ import annotations

import pytest

from assistant.decide.questions import YesOrNo
from assistant.floor.geometry import outline_of
from assistant.floor.places import grid_of, places_of
from tests.job.conftest import Site
from tests.there import there

L_SHAPE = (
    "wall east 6 metres",
    "wall north 2.5 metres",
    "wall west 2 metres",
    "wall north 1.5 metres",
    "wall west 4 metres",
    "wall south 4 metres",
)
SQUARE = ("wall south 4 metres", "wall west 4 metres", "wall north 4 metres", "wall east 4 metres")


# --- rooms ---------------------------------------------------------------------------


def test_a_rectangular_room_is_read_back_with_its_area(site: type[Site]) -> None:
    reply = site().told("room 12 by 8 metres")
    assert reply.headline == "Room 12 m by 8 m, 96 m²."
    assert reply.say == "Room one two metres by eight metres."
    assert reply.data == {"room": {"area_m2": pytest.approx(96)}}


def test_a_room_in_feet_is_told_in_square_feet_when_readings_are_in_inches(
    site: type[Site],
) -> None:
    reply = site("readings in inches").told("room 20 by 10 feet")
    # exact arithmetic
    assert reply.headline == "Room 20 ft by 10 ft, 200 ft²."


@pytest.mark.parametrize("line", ["room 0 by 8 metres", "room 12 by 1001 metres"])
def test_a_side_that_no_room_has_is_refused_with_what_is_right(site: type[Site], line: str) -> None:
    assert "more than nothing" in site().refused(line) or "1000 m" in site().refused(line)


def test_a_room_changed_before_any_reading_needs_no_confirming(site: type[Site]) -> None:
    floor = site("room 12 by 8 metres", "grid 2 metres")
    reply = floor.at_once("room 10 by 8 metres")
    assert "The grid is laid again: 20 points." in reply.details[0]


def test_a_room_changed_after_readings_moves_points_and_is_asked_about(site: type[Site]) -> None:
    floor = site("room 12 by 8 metres", "grid 2 metres", "A1 -18", "B1 -16", "C1 -14")
    question = floor.asked("room 11 by 8 metres")
    assert isinstance(question, YesOrNo)
    assert "3 points that have been read: A1, B1 and C1" in question.text
    floor.told("room 11 by 8 metres")
    assert set(floor.job.readings) == {"A1", "B1", "C1"}


def test_readings_taken_before_there_was_a_room_are_not_moved_by_it(site: type[Site]) -> None:
    floor = site("A1 -18", "B1 -16")
    assert floor.at_once("room 12 by 8 metres").headline.startswith("Room")
    assert floor.at_once("grid 2 metres").headline.startswith("Grid")
    assert floor.tally.volume_m3 is not None


# --- walls -----------------------------------------------------------------------------


def test_an_l_shaped_room_wall_by_wall(site: type[Site]) -> None:
    # area 21 m² (check values, exact arithmetic)
    reply = site(*L_SHAPE).told("close room")
    assert reply.headline == "Room closed: 6 walls, 21 m²."
    assert reply.details == ("The walls close without a gap.",)


def test_the_corner_is_where_the_walls_began_whichever_way_they_run(site: type[Site]) -> None:
    floor = site(*SQUARE, "close room")
    outline = there(outline_of(floor.job.layout))
    assert outline.tolist()[0] == pytest.approx([0, 0])
    assert outline.min() == pytest.approx(0)
    assert outline.tolist()[1] == pytest.approx([4, 0])


def test_each_wall_says_how_far_the_start_is(site: type[Site]) -> None:
    floor = site(*SQUARE[:3])
    assert floor.reply.details == ("The walls end 4 m from the start.",)
    assert floor.told(SQUARE[3]).details == ("The walls are back at the start: close room.",)


def test_a_small_misclosure_is_told_and_spread(site: type[Site]) -> None:
    walls = ("wall east 6 metres", "wall north 4 metres", "wall west 5.98 metres",
             "wall south 4 metres")  # fmt: skip
    reply = site(*walls).told("close room")
    assert "missed the start by 20 mm on 19.98 m" in reply.details[0]
    assert "spread" in reply.details[0]
    assert reply.say == "Room closed. Misclosure two zero millimetres, spread."
    assert reply.data["room"]["misclosure_mm"] == pytest.approx(20)


def test_a_wide_gap_is_asked_about_before_a_straight_wall_closes_it(site: type[Site]) -> None:
    floor = site("wall east 6 metres", "wall north 4 metres", "wall west 6 metres")
    question = floor.asked("close room")
    assert question.text == (
        "The walls end 4 m from the start. Confirm to close with one straight wall, "
        "or cancel that and put a wall right."
    )
    reply = floor.told("close room")
    assert reply.headline == "Room closed: 4 walls, 24 m²."
    assert "straight wall of 4 m" in reply.details[0]


def test_walls_that_cross_are_refused(site: type[Site]) -> None:
    floor = site(
        "wall east 6 metres", "wall north 4 metres", "wall west 3 metres", "wall south 8 metres"
    )
    assert "crosses itself" in floor.refused("close room")


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        ((), "no walls to close"),
        (("wall east 4 metres",), "One wall makes no room"),
        (("room 4 by 3 metres",), "no walls to close"),
        ((*SQUARE, "close room"), "closed already"),
        (("wall east 4 metres", "wall west 4 metres"), "line"),
    ],
)
def test_a_room_that_cannot_be_closed_says_why(
    site: type[Site], lines: tuple[str, ...], why: str
) -> None:
    assert why in site(*lines).refused("close room")


def test_a_wall_after_a_closed_room_begins_a_new_outline(site: type[Site]) -> None:
    floor = site(*L_SHAPE, "close room")
    reply = floor.told("wall east 5 metres")
    assert reply.headline == "Wall 1 east, 5 m."
    assert "A new outline begins" in reply.details[-1]
    assert floor.tally.area_m2 is None


def test_a_new_outline_under_readings_is_asked_about(site: type[Site]) -> None:
    floor = site(*L_SHAPE, "close room", "grid 2 metres", "A1 -18")
    assert isinstance(floor.asked("wall east 5 metres"), YesOrNo)


# --- grids ------------------------------------------------------------------------------


def test_a_centred_grid_says_where_a1_is_and_how_the_walk_goes(site: type[Site]) -> None:
    reply = site("room 12 by 8 metres").told("grid 2 metres")
    # floor((side - 0.6) / spacing) + 1 points a side (as set out for this program)
    assert reply.headline == "Grid of 24 points: 6 columns by 4 rows."
    assert reply.details[0].startswith("A1 is 1 m along the first side")
    assert reply.details[1] == "Walk to and fro: A1 to F1, then F2 and back, on to A4."
    assert reply.data["grid"]["first_point_m"] == pytest.approx([1, 1])


def test_a_grid_from_the_corner(site: type[Site]) -> None:
    reply = site("room 6 by 4 metres").told("grid 2 metres starting 0.5 metres")
    assert reply.data["grid"]["first_point_m"] == pytest.approx([0.5, 0.5])
    assert reply.data["grid"]["points"] == 6


def test_a_grid_with_two_spacings(site: type[Site]) -> None:
    reply = site("room 12 by 8 metres").told("grid 2 by 1.5 metres")
    assert (reply.data["grid"]["columns"], reply.data["grid"]["rows"]) == (6, 5)


def test_a_grid_leaves_out_points_outside_an_l_shaped_room(site: type[Site]) -> None:
    floor = site(*L_SHAPE, "close room", "grid 1 metre")
    assert "F4" not in there(grid_of(floor.job.layout)).names
    assert "A4" in there(grid_of(floor.job.layout)).names


def test_a_grid_before_a_room_is_refused(site: type[Site]) -> None:
    assert site().refused("grid 2 metres") == "The room first: room 12 by 8 metres."
    assert "close room" in site(*SQUARE).refused("grid 2 metres")


def test_a_grid_of_a_slip_of_the_tongue_is_refused(site: type[Site]) -> None:
    assert "10,000 points" in site("room 12 by 8 metres").refused("grid 20 mm")
    assert "fit" in site("room 12 by 8 metres").refused("grid 2 metres starting 30 metres")


def test_a_grid_too_wide_for_the_flow_of_the_product_warns(site: type[Site]) -> None:
    # free-flowing products: 3 m (one maker's advice, the card decides)
    floor = site("room 12 by 8 metres", "product example standard", "grid 4 metres")
    assert floor.ids == ["pin-spacing"]
    assert site("room 12 by 8 metres", "product example standard", "grid 3 metres").ids == []


# --- points of their own -----------------------------------------------------------------


def test_a_point_off_the_grid_is_walked_after_it(site: type[Site]) -> None:
    floor = site("room 6 by 4 metres", "grid 2 metres", "point K1 at 3.2 by 2.5 metres")
    assert places_of(floor.job.layout).names[-1] == "K1"


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("point K1 at 7 by 2 metres", "outside the room, which is 6 m by 4 m"),
        ("point B1 at 3.2 by 2.5 metres", "B1 is on the grid"),
        ("point K1 at 1 by 1 metres", "A1 is there already"),
        ("point K1 at 1.0019 by 1.0019 metres", "A1 is there already"),
    ],
)
def test_a_point_that_cannot_be_there_is_refused(site: type[Site], line: str, why: str) -> None:
    assert why in site("room 6 by 4 metres", "grid 2 metres").refused(line)


def test_a_point_on_the_wall_is_on_the_floor(site: type[Site]) -> None:
    assert site("room 6 by 4 metres").told("point K1 at 6 by 4 metres").headline.startswith("K1")


def test_a_point_moved_before_it_is_read_says_so(site: type[Site]) -> None:
    floor = site("room 6 by 4 metres", "point K1 at 3 by 2 metres")
    assert "elsewhere before" in floor.at_once("point K1 at 4 by 2 metres").details[0]


def test_a_point_moved_after_it_was_read_is_asked_about(site: type[Site]) -> None:
    floor = site("room 6 by 4 metres", "point K1 at 3 by 2 metres", "K1 -18")
    assert "1 point that has been read: K1" in floor.asked("point K1 at 4 by 2 metres").text


@pytest.mark.parametrize("at", ["1", "1.0005", "0.9995", "1.001"])
def test_a_grid_that_takes_a_points_place_leaves_one_height_there(
    site: type[Site], at: str
) -> None:
    floor = site("room 6 by 4 metres", f"point K1 at {at} by 1 metres", "K1 -18", "grid 2 metres")
    floor.told("A1 -20")
    assert places_of(floor.job.layout).gave_way == ("K1",)
    assert floor.tally.volume_m3 == pytest.approx(24 * 0.020)


def test_a_grid_that_takes_a_points_name_says_so(site: type[Site]) -> None:
    floor = site("room 6 by 4 metres", "point B1 at 2.5 by 2 metres")
    assert "taken the name or the place of B1" in floor.told("grid 2 metres").details[-1]
