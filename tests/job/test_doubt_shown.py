"""Readings in doubt, and the set-up each is from, in the list of readings and on the map."""

from __future__ import annotations

import pytest

from assistant.reply.replies import FloorMap, MapSpot, Reply
from assistant.terminal.depth_map import draw
from assistant.terminal.point_runs import in_runs
from tests.job.conftest import Site
from tests.there import there

FLOOR = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
HANGING = (*FLOOR, "A1 -18", "B1 -17", "check zero level", "C1 -16", "D1 -1", "reference moved",
           "tie on D1 -12", "E1 -28")  # fmt: skip


def lines(reply: Reply, width: int) -> list[str]:
    return ["".join(piece.text for piece in line) for line in draw(there(reply.map), width)]


def test_the_readings_say_which_are_in_doubt_and_why_and_where_each_was_read_from(
    site: type[Site],
) -> None:
    floor = site(*HANGING)
    reply = floor.told("readings")
    (table,) = reply.tables
    assert table.columns == ("Point", "Reading", "Depth", "Set-up", "In doubt")
    assert [(row[0], row[3], row[4]) for row in table.rows] == [
        ("A1", "1", ""), ("B1", "1", ""), ("C1", "1", "zero moved?"), ("D1", "1", "zero moved?"),
        ("E1", "2", "its tie"),
    ]  # fmt: skip
    assert reply.headline == "5 points read. 3 in doubt: survey check tells why."
    assert reply.say == "Five points read. Three in doubt."
    told = {entry["point"]: (entry["set_up"], entry["doubt"]) for entry in floor.data["readings"]}
    assert told["B1"] == (1, None)
    assert told["C1"] == (1, "moved")
    assert told["E1"] == (2, "hangs")


def test_with_one_set_up_and_no_doubt_the_table_stays_as_short_as_it_was(site: type[Site]) -> None:
    (table,) = site(*FLOOR, "A1 -18").told("readings").tables
    assert table.columns == ("Point", "Reading", "Depth")


@pytest.mark.parametrize("width", [80, 60])
def test_the_map_marks_what_is_in_doubt_and_tells_the_set_ups(site: type[Site], width: int) -> None:
    floor = site(*HANGING)
    reply = floor.told("map")
    drawn = [line.rstrip() for line in lines(reply, width)]
    assert "1 | 18  17  16?  1? 17?  ." in drawn
    assert "? in doubt: survey check tells why" in drawn
    assert "Set-up 1: A1 to D1." in drawn
    assert "Set-up 2: E1." in drawn
    assert max(map(len, drawn)) <= width
    assert reply.say == "Five of twenty four points read. Three in doubt."
    spots = {spot["point"]: (spot["set_up"], spot["doubt"]) for spot in floor.data["map"]["spots"]}
    assert spots["E1"] == (2, "hangs")
    assert spots["A1"] == (1, None)
    assert spots["A2"] == (None, None)


def test_doubt_takes_the_place_of_another_mark_off_the_grid_too() -> None:
    spots = (MapSpot("K7", 1, 1, -2.0, "high", "moved", 1),)
    text = "\n".join("".join(p.text for p in line) for line in draw(FloorMap((), spots, "mm"), 60))
    assert "?" in text
    assert "^" not in text


def test_long_rows_are_told_as_runs() -> None:
    points = [f"{column}{row}" for row in (1, 2) for column in "ABCDEF"]
    assert in_runs(points) == "A1 to F1, A2 to F2"
    assert in_runs(["B1", "A1", "Z3", "AA3"]) == "A1, B1, Z3, AA3"
