"""Questions about the job: depths, cuts, spots, what is missing, map, warnings."""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.answers.depths.cuts import cut_for, sudden_changes
from tests.job.conftest import Site
from tests.there import there

FLOOR = ("room 6 by 4 metres", "grid 2 metres")  # A1 B1 C1 / A2 B2 C2, A1 at 1 m by 1 m


# --- how deep -----------------------------------------------------------------------------


def test_how_deep_at_a_point_that_was_read(site: type[Site]) -> None:
    reply = site(*FLOOR, "B2 -18").told("how deep at B2")
    assert reply.data == {"depth_mm": 18.0, "read": True}
    assert reply.say == "Bravo two, one eight millimetres."


def test_how_deep_between_points_is_said_to_be_so(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -10", "B1 -20", "A2 -10", "B2 -20")
    reply = floor.told("how deep at 2 by 2 metres")
    # halfway between 10 and 20 mm on a tilted plane: 15 mm (exact arithmetic)
    assert reply.data == {"depth_mm": pytest.approx(15), "read": False}
    assert "Not read" in reply.details[0]
    assert floor.told("how deep at C1").data["depth_mm"] == pytest.approx(30)


def test_how_deep_at_the_very_place_of_a_point_is_its_reading(site: type[Site]) -> None:
    assert site(*FLOOR, "A1 -10").told("how deep at 1 by 1 metres").data["read"] is True


@pytest.mark.parametrize(
    ("lines", "line", "why"),
    [
        ((*FLOOR, "A1 -10"), "how deep at 7 by 2 metres", "outside the room, which is 6 m by 4 m"),
        ((*FLOOR, "A1 -10"), "how deep at K9", "The grid runs A1 to C2"),
        (FLOOR, "how deep at B1", "no point of this floor has been read"),
        (("A1 -10",), "how deep at 1 by 2 metres", "The room first"),
        (("A1 -10",), "how deep at B1", "no reading and no place yet"),
    ],
)
def test_a_depth_that_cannot_be_told_is_refused(
    site: type[Site], lines: tuple[str, ...], line: str, why: str
) -> None:
    assert why in site(*lines).refused(line)


# --- pins ---------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("mm", "unit", "cut"),
    [
        (Fraction(18), "mm", "18 mm"),
        (Fraction("17.9"), "mm", "17 mm"),
        # rounded down to sixteenths of 1.5875 mm (exact arithmetic)
        (Fraction(18), "in", "11/16 in"),
        (Fraction(25), "in", "15/16 in"),
        (Fraction("25.4"), "in", "1 in"),
        (Fraction(40), "in", "1 9/16 in"),
        (Fraction("4.7625"), "in", "3/16 in"),
        (Fraction("0.9"), "mm", None),
        (Fraction(1), "in", None),
        (Fraction(0), "mm", None),
        (Fraction(-3), "mm", None),
    ],
)
def test_a_pin_is_cut_down_never_up(mm: Fraction, unit: str, cut: str | None) -> None:
    assert cut_for("B3", mm, unit).text == cut


def test_the_cut_list_is_in_walking_order_with_exact_depths(site: type[Site]) -> None:
    floor = site(*FLOOR, "A2 -12", "C1 -17.9", "A1 plus 3", "C2 -18")
    reply = floor.told("cut list")
    assert reply.data["cuts"] == [
        {"point": "A1", "depth_mm": -3.0, "cut": None},
        {"point": "C1", "depth_mm": 17.9, "cut": "17 mm"},
        {"point": "C2", "depth_mm": 18.0, "cut": "18 mm"},
        {"point": "A2", "depth_mm": 12.0, "cut": "12 mm"},
    ]
    assert reply.headline == "3 pins to cut, 12 mm to 18 mm."
    assert "No pin at A1: too high or too thin." in reply.details
    assert "Not read yet: B1 and B2." in reply.details
    assert "high-spot:A1" in floor.ids


def test_the_cut_list_says_where_more_pins_are_wanted(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -10", "B1 -16", "C1 -23", "C2 -10", "door 2 left -4 right -4")
    assert sudden_changes(floor.job) == [("B1", "C1"), ("C1", "C2")]
    details = " ".join(floor.told("cut list").details)
    assert "Add pins at door 2" in details
    assert "B1-C1 (7 mm)" in details


def test_one_cut(site: type[Site]) -> None:
    floor = site(*FLOOR, "readings in inches", "B2 -1 5/16")
    reply = floor.told("cut for B2")
    assert reply.data == {"cuts": [{"point": "B2", "depth_mm": 33.3375, "cut": "1 5/16 in"}]}
    assert reply.say == "Bravo two, cut one and five sixteenths inches."
    assert "B1 has no reading" in floor.refused("cut for B1")
    assert "There is no point K1" in floor.refused("cut for K1")


def test_no_readings_no_pins(site: type[Site]) -> None:
    assert site().told("cut list").data == {"cuts": []}


# --- high and low ---------------------------------------------------------------------------


def test_high_and_low_spots(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -10", "B1 plus 2", "C1 -31", "A2 -12", "B2 -13", "C2 -14")
    high = floor.told("high spots")
    assert [spot["point"] for spot in high.data["high_spots"]] == ["B1", "A1", "A2", "B2", "C2"]
    assert high.headline == "Highest: B1, 2 mm above the finish."
    assert {caution.id for caution in high.cautions} == {"silica-dust", "old-adhesive"}
    low = floor.told("low spots")
    assert low.data["low_spots"][0] == {"point": "C1", "depth_mm": 31.0}
    assert low.say == "Lowest, charlie one, three one millimetres."


def test_no_spots_without_readings(site: type[Site]) -> None:
    assert site().told("high spots").data == {"high_spots": []}
    assert site().told("low spots").headline == "No readings yet."


# --- what is missing ---------------------------------------------------------------------------


def test_what_is_missing_comes_in_the_order_of_the_work(site: type[Site]) -> None:
    def lacks(*lines: str) -> list[str]:
        return [lack["id"] for lack in site(*lines).told("what is missing").data["missing"]]

    assert lacks() == ["room", "grid", "product", "readings", "doors"]
    assert lacks("wall east 4 metres") == ["close-room", "grid", "product", "readings", "doors"]
    whole = ("product example standard", "door 1 left -4 right -4 outside level", "door 1 at A1")
    assert lacks(*FLOOR, *whole) == ["readings"]
    readings = ("A1 -9", "B1 -9", "C1 -9", "A2 -9", "B2 -9", "C2 -9")
    assert lacks(*FLOOR, *whole, *readings) == []
    assert lacks(*FLOOR, *whole[:1], "door 1 outside level", *readings) == [
        "door-jambs:1", "door-place:1",
    ]  # fmt: skip


def test_missing_points_are_named_in_walking_order(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -9", "B1 -9", "B2 -9")
    reply = floor.told("what is missing")
    assert reply.data["points"] == ["C1", "C2", "A2"]
    assert reply.say == "Three missing. First, the product."


def test_the_next_point(site: type[Site]) -> None:
    reply = site(*FLOOR, "A1 -9").told("next point")
    assert reply.headline == "Next: B1. 5 points to go."
    assert reply.say == "Next, bravo one."
    assert "Set a grid" in site().told("next point").headline


# --- warnings, map, readings ---------------------------------------------------------------------


def test_warnings_come_gravest_first(site: type[Site]) -> None:
    floor = site(*FLOOR, "product example standard", "A1 -45", "B1 plus 3", "C1 -2")
    reply = floor.told("warnings")
    severities = [warning.severity for warning in reply.warnings]
    assert severities == sorted(severities, key=["stop", "caution", "note"].index)
    assert floor.ids[:2] == ["high-spot:B1", "under-minimum:C1"]
    assert {caution.id for caution in reply.cautions} >= {"silica-dust", "wet-cement"}
    assert reply.say.startswith("Two stops")


def test_no_warning_is_not_called_safe(site: type[Site]) -> None:
    reply = site().told("warnings")
    assert "safe" not in (reply.headline + " ".join(reply.details)).lower()
    assert "local code decide" in reply.details[0]


def test_points_missing_is_no_matter_before_the_first_reading(site: type[Site]) -> None:
    assert site(*FLOOR).told("warnings").warnings == ()
    assert "points-missing" in [w.id for w in site(*FLOOR, "A1 -9").told("warnings").warnings]


def test_the_map_has_every_point_and_marks_what_is_wrong(site: type[Site]) -> None:
    floor = site(*FLOOR, "product example standard", "A1 -45", "B1 plus 3", "C1 -2", "B2 -10",
                 "door 1 at A1")  # fmt: skip
    drawn = there(floor.told("map").map)
    flags = {spot.point: (spot.depth_mm, spot.flag) for spot in drawn.spots}
    assert flags == {
        "A1": (45.0, "deep"), "B1": (-3.0, "high"), "C1": (2.0, "shallow"),
        "C2": (None, ""), "B2": (10.0, ""), "A2": (None, ""),
    }  # fmt: skip
    ((number, x_m, y_m),) = drawn.doors
    assert number == 1
    assert (x_m, y_m) == pytest.approx((1.0, 1.0))
    assert len(drawn.outline) == 4
    assert site().told("map").map is None


def test_readings_are_listed_as_they_were_said(site: type[Site]) -> None:
    floor = site(*FLOOR, "B1 -3/8 in", "A1 level", "finish 4 mm above zero")
    reply = floor.told("readings")
    assert reply.tables[0].rows == (("A1", "level", "4 mm"), ("B1", "3/8 in below", "13.5 mm"))
    assert [row["reading_mm"] for row in reply.data["readings"]] == [0.0, -9.525]


def test_what_can_be_said_is_the_phrase_table(site: type[Site]) -> None:
    from grammar import PHRASES

    reply = site().told("help")
    assert len(reply.data["phrases"]) == len(PHRASES)
    assert sum(len(table.rows) for table in reply.tables) == len(PHRASES)
