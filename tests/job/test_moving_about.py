"""The order of the walk, points that cannot be read, and several readings in one line."""

from __future__ import annotations

import pytest

from assistant.floor.walk import next_point, points_missing
from assistant.job import being_read, fold
from grammar import short_form, understand
from tests.job.conftest import Site

# A1 to D1, back D2 to A2, on to D3
FLOOR = ("room 8 by 6 metres", "grid 2 metres")


@pytest.fixture
def floor(site: type[Site]) -> Site:
    return site(*FLOOR)


def readings(floor: Site) -> dict[str, float]:
    return {point: float(height.mm) for point, height in being_read(floor.job).readings.items()}


def following(floor: Site) -> str | None:
    return next_point(being_read(floor.job))


# --- where the walk goes ------------------------------------------------------------------


def test_the_walk_goes_on_from_the_point_that_was_named(floor: Site) -> None:
    floor.told("A1 -8", "go to B2", "-9")
    assert readings(floor) == {"A1": -8, "B2": -9}
    assert following(floor) == "A2"


@pytest.mark.parametrize("line", ["from B2", "start at B2", "continue from B2", "next is B2"])
def test_going_somewhere_is_said_in_many_ways(line: str) -> None:
    assert short_form(understand(line)[0]) == "go to B2"


def test_a_point_named_to_go_to_is_read_again_where_it_was_read(floor: Site) -> None:
    reply = floor.told("A1 -8", "B1 -9", "go to A1")
    assert "It was read before, 8 mm below; a value now takes its place." in reply.details
    floor.told("-7")
    assert readings(floor)["A1"] == -7


def test_going_nowhere_is_refused(site: type[Site]) -> None:
    assert "There is no point K9" in site(*FLOOR).refused("go to K9")
    assert "has no place yet" in site().refused("go to A1")
    assert "Set a grid" in site().refused("next row")


def test_along_columns_turns_the_walk_and_the_cut_list(floor: Site) -> None:
    floor.told("along columns", "-8", "-9", "-10", "-11")
    assert list(readings(floor)) == ["A1", "A2", "A3", "B3"]
    assert [row[0] for row in floor.told("cut list").tables[0].rows] == ["A1", "A2", "A3", "B3"]
    floor.told("along rows")
    assert following(floor) == "C3"


def test_the_next_row_leaves_the_rest_of_this_one(floor: Site) -> None:
    floor.told("A1 -8", "next row")
    assert following(floor) == "D2"
    floor.told("next row")
    assert following(floor) == "A3"
    assert "in the last of the rows" in floor.refused("next row")


def test_the_walk_does_not_slide_after_a_point_that_was_read_again(floor: Site) -> None:
    floor.told("A1 -8", "B1 -9", "C1 -10", "A1 -7")
    assert following(floor) == "D1"  # what is left comes first
    floor.told("-11")
    assert readings(floor)["B1"] == -9


def test_where_nothing_is_left_reading_again_goes_on_to_the_neighbour(site: type[Site]) -> None:
    floor = site("room 4 by 4 metres", "grid 2 metres", "A1 -8", "B1 -9", "B2 -10", "A2 -11")
    assert following(floor) is None
    floor.told("B1 -8")
    assert following(floor) == "B2"
    reply = floor.told("-9")
    assert "Replaces 10 mm below" in " ".join(reply.details)
    floor.told("-10")
    assert "Every point has a reading" in floor.refused("-11")  # the walk is over


# --- points that cannot be read --------------------------------------------------------------


def test_a_skipped_point_is_not_missing_and_its_reason_is_quoted(floor: Site) -> None:
    reply = floor.told("A1 -8", "skip B1 because a Pallet stands there")
    assert following(floor) == "C1"
    assert "B1" not in points_missing(floor.job)
    assert "allet stands there”" in reply.headline
    assert "points-skipped" in floor.ids
    assert any("B1" in line and "bridges" in line for line in floor.told("cut list").details)


def test_a_skipped_point_read_after_all_counts_again(floor: Site) -> None:
    floor.told("A1 -8", "skip B1", "B1 -9")
    assert not floor.job.walk.skipped
    assert "points-skipped" not in {w.id for w in floor.told("warnings").warnings}


def test_skipping_is_undone_and_a_reading_is_not_skipped(floor: Site) -> None:
    floor.told("A1 -8", "skip B1", "undo")
    assert following(floor) == "B1"
    assert "has a reading" in floor.refused("skip A1")


def test_a_skipped_point_stands_among_the_cautions_of_ready_to_pour(floor: Site) -> None:
    floor.told("A1 -8", "skip B1 because the boiler is there")
    ready = floor.told("ready to pour").data["ready"]
    assert "points-skipped" in {each["id"] for each in ready["cautions"]}


def test_the_finished_floor_has_a_walk_of_its_own(floor: Site) -> None:
    floor.told("A1 -8", "skip B1", "go to C3", "pour finished")
    assert following(floor) == "A1"
    floor.told("go to B1", "+1")
    assert readings(floor) == {"B1": 1}
    assert floor.job.walk.skipped == {"B1": ""}  # the slab's


# --- several in one breath ------------------------------------------------------------------


def test_points_in_one_breath_are_one_thing_to_undo(floor: Site) -> None:
    reply = floor.told("A1 minus 8, B1 minus 9 C1 level")
    assert readings(floor) == {"A1": -8, "B1": -9, "C1": 0}
    assert reply.headline == "3 points: A1 8 mm below, B1 9 mm below and C1 level."
    floor.told("undo")
    assert readings(floor) == {}


@pytest.mark.parametrize(
    ("line", "taken"),
    [
        ("row 2 -8 -9 -10", {"A2": -8, "B2": -9, "C2": -10}),
        ("column C minus 8 minus 9", {"C1": -8, "C2": -9}),
        ("minus 8 minus 9", {"A1": -8, "B1": -9}),
    ],
)
def test_a_line_takes_values_one_after_the_other(
    floor: Site, line: str, taken: dict[str, float]
) -> None:
    floor.told(line)
    assert readings(floor) == taken


def test_a_row_against_the_walk_is_asked_about(floor: Site) -> None:
    floor.told("A1 -8", "B1 -8", "C1 -8", "D1 -8")  # the walk now goes D2 to A2
    assert "A2, B2 and C2" in floor.asked("row 2 -8 -9 -10").text
    assert "row" not in floor.at_once("row 3 -8 -9").headline


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("A1 -8 A1 -9", "named twice"),
        ("A1 -8, K9 -9", "There is no point K9"),
        ("row 9 -8 -9", "There is no row 9"),
        ("row 1 -8 -9 -10 -11 -12", "Row 1 has 4 points"),
        ("same", "Nothing has been read yet"),
        ("A2 same as B1", "B1 has no reading"),
    ],
)
def test_what_cannot_all_be_taken_is_taken_not_at_all(floor: Site, line: str, why: str) -> None:
    assert why in floor.refused(line)
    assert readings(floor) == {}


def test_one_that_does_not_fit_keeps_all_of_them_waiting(site: type[Site]) -> None:
    flat = [f"{c}{r} -{10 + (ord(c) + r) % 2}" for r in (1, 2) for c in "ABCD"]
    floor = site(*FLOOR, *flat)
    assert "B3 90 mm below does not fit" in floor.asked("A3 -10, B3 -90, C3 -11").text
    floor.told("A3 -10, B3 -90, C3 -11")  # confirmed
    assert readings(floor)["B3"] == -90
    assert "B3" in floor.job.survey.accepted


def test_too_many_for_the_walk_are_refused(site: type[Site]) -> None:
    floor = site("room 4 by 4 metres", "grid 2 metres", "A1 -8", "B1 -9")
    assert "2 points left on the walk" in floor.refused("-8 -9 -10")


def test_the_same_again(floor: Site) -> None:
    floor.told("A1 -8", "B1 -9", "same", "D1 same as A1", "A3 same")
    assert readings(floor) == {"A1": -8, "B1": -9, "C1": -9, "D1": -8, "A3": -8}


def test_the_same_value_goes_on_record_as_a_reading_of_its_own(floor: Site) -> None:
    floor.told("A1 -8 mm", "same")
    again = fold([(each.number, each.said, each.events, each.time) for each in floor.job.history])
    assert {name: height.said for name, height in again.readings.items()} == {
        name: height.said for name, height in floor.job.readings.items()
    }


def test_a_point_that_a_value_would_read_again_is_not_called_the_next(site: type[Site]) -> None:
    floor = site("room 4 by 4 metres", "grid 2 metres", "A1 -8", "B1 -9", "B2 -10", "A2 -11")
    told = " ".join(floor.told("B1 -8").details)
    assert "A value without a point would read B2 again." in told
    assert "Next:" not in told
