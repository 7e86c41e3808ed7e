"""Things on the floor: off the area, the volume and the grid, whatever comes first.

Check values: exact arithmetic on a tilted plane (a plane's volume over an area is the area times
the height at its centroid), circles by pi r², and shapely's areas where shapes overlap the walls.
"""

from __future__ import annotations

import itertools
from math import pi
from typing import Any

import pytest

from assistant.decide import Question
from assistant.floor.geometry import area_to_pour
from assistant.floor.interval import volume_of
from assistant.floor.places import places_of
from assistant.floor.tally import tally_of
from assistant.floor.walk import points_missing
from assistant.job import fold
from tests.job.conftest import Site, _begun

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
PRODUCT = "product example standard"
COLUMN = "column 0.4 by 0.4 m at 3 by 2 m"


def plane(but: tuple[str, ...] = ()) -> tuple[str, ...]:
    """Depth 10 mm at the corner, 3 mm a metre along the letters and 2 mm along the numbers."""
    return tuple(
        f"{'ABCDEF'[column]}{row + 1} -{10 + 3 * (1 + 2 * column) + 2 * (1 + 2 * row)}"
        for row, column in itertools.product(range(4), range(6))
        if f"{'ABCDEF'[column]}{row + 1}" not in but
    )


def depth_at(x: float, y: float) -> float:
    return 0.010 + 0.003 * x + 0.002 * y


WHOLE_M3 = 96 * depth_at(6, 4)


def numbers(site: Site) -> dict[str, Any]:
    found = volume_of(site.job)
    assert found is not None
    return {
        **tally_of(site.job).as_data(),
        "interval": (found.mean_m3, found.sd_m3),
        "missing": points_missing(site.job),
    }


# --- areas and volumes ----------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "area", "middle"),
    [
        (COLUMN, 0.16, (3, 2)),
        ("round column 0.3 m at 3 by 2 m", pi * 0.15**2, (3, 2)),
        ("square shaft 1 m at 6 by 4 m", 1.0, (6, 4)),
        ("hole 0.5 by 0.3 m at 10 by 7 m", 0.15, (10, 7)),
        ("cabinet 2 by 0.6 m corner at 0 by 0 m", 1.2, (1, 0.3)),
        ("cabinet 2 ft by 3 ft at 9 by 6 ft", 0.6096 * 0.9144, (2.7432, 1.8288)),
        ("column 400 by 400 mm corner at 2.8 by 1.8 m", 0.16, (3, 2)),
    ],
)
def test_it_takes_its_own_area_and_the_planes_volume_over_it(
    line: str, area: float, middle: tuple[float, float]
) -> None:
    site = Site(*FLOOR, *plane(), line)
    tally = tally_of(site.job)
    assert tally.area_m2 == pytest.approx(96 - area, abs=1e-8)
    assert tally.volume_m3 == pytest.approx(WHOLE_M3 - area * depth_at(*middle), abs=1e-9)
    found = volume_of(site.job)
    assert found is not None
    assert found.area_m2 == pytest.approx(96 - area, abs=1e-6)


def test_a_column_at_a_point_takes_the_point_off_the_grid() -> None:
    site = Site(*FLOOR, "column 0.4 by 0.4 m at B2")
    assert "B2" not in places_of(site.job.layout).names
    assert "B2" not in points_missing(site.job)
    assert len(points_missing(site.job)) == 23
    assert "B2" not in str(site.told(*plane(("B2",)), PRODUCT, "cut list").tables)
    assert "under column 1" in site.refused("B2 -10")
    assert "under column 1" in site.refused("how deep at B2")
    assert "under column 1" in site.refused("skip B2")
    assert "under column 1" in site.refused("how deep at 3.1 by 3.1 m")
    assert "under column 1" in site.refused("point K1 at 3.1 by 3.1 m")
    assert "on the grid" in site.refused("point B2 at 9 by 2 m")
    # Readings along the row leave it out.
    assert site.told("row 2 -9 -11 -13").headline.startswith("3 points: A2")
    assert set(site.job.readings) & {"A2", "B2", "C2", "D2"} == {"A2", "C2", "D2"}


def test_a_point_at_its_edge_is_read() -> None:
    site = Site(*FLOOR, "column 2 by 2 m at 4 by 3 m")  # from B2 to C2, whose places are 3 and 5
    assert {"B2", "C2"} <= set(points_missing(site.job))
    assert site.told("B2 -10").headline.startswith("B2")


def test_a_tally_of_a_floor_in_two_parts_says_so() -> None:
    site = Site(*FLOOR, *plane())
    reply = site.told("shaft 0.4 by 8 m at 6 by 4 m")
    assert "The floor is in 2 parts now." in reply.details
    assert tally_of(site.job).volume_m3 == pytest.approx((96 - 3.2) * depth_at(6, 4), abs=1e-9)


# --- in any order ---------------------------------------------------------------------------

PARTS = (
    ("grid 2 metres",),
    (COLUMN,),
    ("round column 0.3 m at 8 by 4 m", "cabinet 2 by 0.6 m corner at 0 by 0 m"),
    plane(("C3",)),
)
ROOM = "room 12 by 8 metres"


@pytest.mark.slow
def test_the_order_of_telling_changes_no_number(monkeypatch: pytest.MonkeyPatch) -> None:
    """A shaft over C3, columns beside points, a cabinet in the corner: before, between, after."""
    # Whether a reading fits the others would be asked 1,400 times, and is confirmed here anyway.
    monkeypatch.setattr("assistant.decide.suspect._against_neighbours", lambda *_: None)
    monkeypatch.setattr("tests.job.conftest._begun", _begun.__wrapped__)  # keep none of these
    shaft = ("shaft 1 by 1 m at 5 by 5 m",)  # over C3
    found = [
        numbers(Site(ROOM, *itertools.chain(*order), PRODUCT))
        for order in itertools.permutations((*PARTS, shaft))
        if order.index(PARTS[0]) < order.index(PARTS[3])  # points are read where they are
    ]
    assert len(found) == 60
    assert all(each == found[0] for each in found)
    assert found[0]["missing"] == ()


def test_a_point_read_first_counts_no_more_once_it_is_covered() -> None:
    before = Site(*FLOOR, "column 0.4 by 0.4 m at B2", *plane(("B2",)), PRODUCT)
    after = Site(*FLOOR, *plane(), PRODUCT)
    question = after.asked("column 0.4 by 0.4 m at B2")
    assert "1 point that has been read: B2" in question.text
    after.told("column 0.4 by 0.4 m at B2")
    assert numbers(after) == numbers(before)
    after.told("undo")
    assert "B2" in after.job.readings


def test_where_the_points_are_laid_anew_it_stays() -> None:
    site = Site(*FLOOR, "column 0.4 by 0.4 m at B2", "grid 1 metre")
    assert "B2" in points_missing(site.job)
    (one,) = site.job.layout.things.obstacles
    assert (float(one.along.number), float(one.across.number)) == (3, 3)
    covered = places_of(site.job.layout).covered
    assert list(covered.values()) in ([], [pytest.approx((3, 3))])


def test_dropped_all_is_as_it_was() -> None:
    site = Site(*FLOOR, PRODUCT, *plane())
    before, whole = site.job, tally_of(site.job)
    reply = site.told("column 0.4 by 0.4 m at 4 by 2 m", "drop column 1")
    assert "96 m² is poured." in reply.details
    assert tally_of(site.job) == whole
    site.told("undo", "undo")
    assert site.job == before
    site.told("redo")
    assert tally_of(site.job).area_m2 == pytest.approx(95.84)


def test_the_record_gives_the_same_job_again() -> None:
    site = Site(
        *FLOOR, PRODUCT, *plane(), COLUMN, "opening 0.2 by 0.2 m at B3", "opening 1 plugged",
        "drain at C3 minus 20", "joint A1 to A4", "crack B2 to C3", "crack 1 repaired",
        "round hole 0.2 m at 9 by 1 m", "drop hole 1",
    )  # fmt: skip
    again = fold((one.number, one.said, one.events, one.time) for one in site.job.history)
    assert again == site.job
    assert tally_of(again) == tally_of(site.job)


# --- what cannot be -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "says"),
    [
        ("column 0.4 by 0.4 m at 20 by 2 m", "outside the room, which is 12 m by 8 m"),
        ("column 0.4 by 0.4 m at 3.2 by 2.2 m", "would stand in column 1"),
        (COLUMN, "would stand in column 1"),
        ("opening 0.2 by 0.2 m at 3 by 2 m", "would stand in column 1"),
        ("shaft 12 by 8 m at 6 by 4 m", "would stand in column 1"),
        ("column 0 by 0.4 m at 6 by 2 m", "more than nothing"),
        ("column 0.4 by 0.4 m at Z9", "There is no point Z9"),
        ("drop column 2", "There is no column 2; there is column 1"),
        ("drop hole 1", "There is no hole"),
        ("opening 1 plugged", "There is no opening"),
        ("crack 1 repaired", "There is no crack"),
        ("joint A1 to A1", "no length"),
        ("joint A1 to Z9", "There is no point Z9"),
        ("drain at Z9 minus 20", "There is no point Z9"),
    ],
)
def test_what_cannot_be_is_refused_with_the_reason(line: str, says: str) -> None:
    site = Site(*FLOOR, COLUMN)
    assert says in site.refused(line)


def test_without_a_room_there_is_no_place_for_it() -> None:
    assert "The room first" in Site().refused(COLUMN)
    assert "B2 has no place yet" in Site(ROOM).refused("column 0.4 by 0.4 m at B2")
    assert "B2 has no place yet" in Site(ROOM).refused("crack at B2")


def test_what_swallows_the_room_is_refused_and_what_takes_most_of_it_asked() -> None:
    site = Site(ROOM)
    assert "leaves nothing" in site.refused("shaft 12 by 8 m at 6 by 4 m")
    assert "It covers 56 m² of 96 m²" in site.asked("hole 8 by 7 m at 4 by 4 m").text
    gridded = Site(ROOM, "grid 7 metres")  # points at 2.5 and 9.5 m, 0.5 and 7.5 m
    assert "every point" in Site(ROOM, "grid 11 metres").refused("hole 12 by 2 m at 6 by 4 m")
    assert isinstance(gridded.unconfirmed("hole 12 by 6 m at 6 by 4 m"), Question)


def test_what_touches_a_wall_is_taken_and_what_stands_out_of_it_asked() -> None:
    site = Site(ROOM)
    site.at_once("cabinet 2 by 0.6 m at 1 by 0.3 m")
    site.at_once("cabinet 2 by 0.6 m at 3 by 0.295 m")  # 5 mm into the wall, as tapes go
    assert tally_of(site.job).area_m2 == pytest.approx(96 - 1.2 - 2 * 0.595)
    question = site.asked("cabinet 2 by 0.6 m at 8 by 0.1 m")
    assert "0.2 m out of the room" in question.text
    site.told("cabinet 2 by 0.6 m at 8 by 0.1 m")
    assert tally_of(site.job).area_m2 == pytest.approx(96 - 1.2 - 1.19 - 0.8)


def test_beside_each_other_they_may_touch() -> None:
    site = Site(ROOM, "cabinet 1 by 0.6 m at 0.5 by 0.3 m")
    site.at_once("cabinet 1 by 0.6 m at 1.5 by 0.3 m")
    assert tally_of(site.job).area_m2 == pytest.approx(96 - 1.2)


def test_a_smaller_room_later_takes_only_what_is_in_it() -> None:
    site = Site(ROOM, "column 1 by 1 m at 10 by 4 m", COLUMN)
    reply = site.told("room 6 by 8 metres")
    assert tally_of(site.job).area_m2 == pytest.approx(48 - 0.16)
    assert any("Column 1 is outside" in line for line in reply.details)


def test_a_drain_or_a_fixed_height_is_not_covered() -> None:
    site = Site(*FLOOR, "drain at C3 minus 20", "fix D3 at plus 2")
    assert "would cover C3, where drain 1" in site.refused("column 0.4 by 0.4 m at C3")
    assert "would cover D3" in site.refused("column 0.4 by 0.4 m at D3")


def test_after_the_pour_its_area_stays() -> None:
    site = Site(*FLOOR, PRODUCT, *plane(), COLUMN, "pour finished")
    assert "pour is finished" in site.refused("column 0.4 by 0.4 m at 6 by 6 m")
    assert "pour is finished" in site.refused("drop column 1")
    assert "pour is finished" in site.refused("drain at C3 minus 20")
    site.told("crack at B2")


def test_what_if_it_were_there() -> None:
    site = Site(*FLOOR, PRODUCT, *plane())
    before = site.job
    reply = site.told("what if hole 4 by 4 m at 6 by 4 m")
    assert site.job == before
    assert reply.data["after"]["area_m2"] == pytest.approx(80)
    assert reply.data["after"]["volume_m3"] == pytest.approx(80 * depth_at(6, 4))


# --- openings, drains, joints, cracks --------------------------------------------------------


def reasons(site: Site) -> dict[str, str]:
    ready = site.told("ready to pour").data["ready"]
    return {one["id"]: one["message"] for one in (*ready["reasons"], *ready["cautions"])}


def test_an_opening_stands_against_the_pour_until_it_is_plugged() -> None:
    site = Site(*FLOOR, PRODUCT, *plane())
    whole = tally_of(site.job)
    site.told("opening 0.2 by 0.2 m at B2")
    assert tally_of(site.job) == whole  # it will be poured over
    assert "not plugged" in reasons(site)["opening:1"]
    site.told("opening 1 plugged")
    assert "opening:1" not in reasons(site)
    assert "opening:1" in (site.told("undo"), reasons(site))[1]


def test_the_finish_must_meet_a_drain_and_nothing_is_averaged() -> None:
    site = Site(*FLOOR, PRODUCT, *plane())
    depths = tally_of(site.job).depths
    reply = site.told("drain at C3 minus 20")
    assert tally_of(site.job).depths == depths  # the slab is as it was read
    assert reply.data["drain"]["finish_over_it_mm"] == 20.0
    assert "stands 20 mm over drain 1 at C3" in reasons(site)["drain:1"]
    site.told("finish 25 mm below zero")
    assert "drain 1 at C3 stands 5 mm over the finish".lower() in reasons(site)["drain:1"].lower()
    site.told("finish 20 mm below zero")
    assert "drain:1" not in reasons(site)
    site.told("finish at zero", "drain at C3 level")  # described again, it is the same drain
    assert [drain.number for drain in site.job.layout.things.drains] == [1]
    assert "drain:1" not in reasons(site)
    assert "drain" in str(site.asked("drain at C3 20").text).lower()
    site.told("drop drain 1")
    assert site.job.survey.fixed == {}


def test_the_best_finish_meets_the_drain() -> None:
    """Of all points the slab is at least 15 mm lower than that, which the product takes."""
    site = Site(*FLOOR, *plane(), "drain at A1 plus 3")
    assert site.told("best finish").data["finish_mm"] == pytest.approx(3.0)


def test_joints_and_cracks_are_named_when_it_is_asked_whether_to_pour() -> None:
    site = Site(*FLOOR, PRODUCT, *plane(), "joint A1 to A4", "crack B2 to C3", "crack at E1")
    found = reasons(site)
    assert "carry it through" in found["joint:1"]
    assert "whether it moves" in found["crack:1"]
    site.told("crack 1 repaired")
    assert {"joint:1", "crack:2"} <= set(reasons(site))
    assert "crack:1" not in reasons(site)
    assert "already" in site.refused("joint A4 to A1")


def test_all_of_them_are_listed_with_numbers_sizes_and_places() -> None:
    site = Site(*FLOOR)
    assert site.told("obstacles").headline.startswith("Nothing is on record")
    site.told(COLUMN, "column 0.4 by 0.4 m at E2", "round hole 0.2 m at 9 by 1 m",
              "opening 0.2 by 0.2 m at B3", "drain at C3 minus 20", "joint A1 to A4",
              "crack at B4", "drop column 1", COLUMN)  # fmt: skip
    reply = site.told("obstacles")
    rows = {row[0]: row[1:3] for row in reply.tables[0].rows}
    assert rows == {
        "column 2": ("0.4 by 0.4 m", "E2"),
        "hole 1": ("0.2 m round", "9 by 1 m"),
        "opening 1": ("0.2 by 0.2 m", "B3"),
        "column 3": ("0.4 by 0.4 m", "3 by 2 m"),
        "drain 1": ("20 mm below", "C3"),
        "joint 1": ("", "A1 to A4"),
        "crack 1": ("", "B4"),
    }
    areas = [one["area_m2"] for one in reply.data["obstacles"]]
    assert areas == pytest.approx([0.16, pi * 0.01, 0.04, 0.16])
    area = area_to_pour(site.job.layout)
    assert area is not None
    assert reply.data["area_m2"] == pytest.approx(area.area)


def test_without_a_number_it_is_the_only_one_that_is_left() -> None:
    site = Site(*FLOOR)
    assert "There is no crack" in site.refused("crack repaired")
    site.told("crack at B3", "crack at B4", "opening 0.2 by 0.2 m at E3")
    assert "Which crack: crack 1 or crack 2?" in site.refused("crack repaired")
    assert site.told("crack 2 repaired", "crack repaired").headline.startswith("Crack 1 repaired")
    assert site.told("opening plugged").headline.startswith("Opening 1 plugged")


def test_a_joint_along_a_column_runs_from_its_first_point_to_its_last() -> None:
    site = Site(*FLOOR, "joint along column C", "joint along row 3")
    assert [(line.start, line.end) for line in site.job.layout.things.lines] == [
        ("C1", "C4"),
        ("A3", "F3"),
    ]
    assert "From which point to which point" in site.refused("joint between B and C")
    assert "no column Z" in site.refused("joint along column Z")


@pytest.mark.parametrize(
    ("said", "short"),
    [
        ("there's a column 400 x 400 mm at B2", "column 400 by 400 mm at B2"),
        ("a 0.4 by 0.4 m pillar at B2", "column 0.4 by 0.4 m at B2"),
        ("there is a post at 3 by 2 m, 0.1 by 0.1 m", "column 0.1 by 0.1 m at 3 by 2 m"),
        ("duct 300 mm round at B2", "round shaft 300 mm at B2"),
        ("square pillar 0.4 m at B2", "square column 0.4 m at B2"),
        ("cupboard 2 by 0.6 m from 0 by 1 m", "cabinet 2 by 0.6 m corner at 0 by 1 m"),
        ("floor drain at C3 is 20 below", "drain at C3 -20"),
        ("A2 is a pipe", "shaft at A2"),
        ("movement joint along column C", "joint along column C"),
        ("there is a joint between B and C", "joint between B and C"),
        ("there's an expansion joint from A1 to A6", "joint A1 to A6"),
        ("saw cut A1 to A6", "joint A1 to A6"),
        ("hairline crack from B2 to C3", "crack B2 to C3"),
        ("the slab is cracked at B2", "crack at B2"),
        ("crack 1 has been filled", "crack 1 repaired"),
        ("no column 1", "drop column 1"),
        ("remove the crack 2 please", "drop crack 2"),
        ("opening 1 is sealed", "opening 1 plugged"),
        ("any cracks?", "obstacles"),
        ("what's in the way", "obstacles"),
    ],
)
def test_it_is_said_in_many_ways(said: str, short: str) -> None:
    from grammar import short_form, understand

    assert [short_form(each) for each in understand(said)] == [short]


@pytest.mark.parametrize("dams", [(), ("dam at row 3",), ("dam at column C", "dam at row 2")])
def test_the_strips_of_the_pour_stand_on_what_is_poured(dams: tuple[str, ...]) -> None:
    """Their volumes add up to the tally's, with something in the way of the front."""
    lines = (*FLOOR, PRODUCT, *plane(("C2", "D2", "C3", "D3")), "hole 4 by 4 m at 6 by 4 m")
    site = Site(*lines, "pump 60 bags per hour", *dams)
    plan = site.told("plan").data
    tally = tally_of(site.job)
    litres = sum(strip["litres"] for strip in plan["strips"])
    assert litres == pytest.approx(1000 * (tally.volume_m3 or 0), rel=1e-6)
    area = sum(strip["area_m2"] for strip in plan["strips"])
    assert area == pytest.approx(tally.area_m2, rel=1e-6)


def test_a_line_is_told_twice_only_where_both_its_ends_are_the_same() -> None:
    """A1 is 1 and 1 m, C1 5 and 1 m, A3 1 and 5 m, C3 5 and 5 m: the same numbers all along."""
    for first, others in (
        ("crack A1 to C1", ("crack at A3", "crack A1 to A3", "crack A3 to C1", "crack C3 to A1",
                            "joint A1 to C1")),
        ("crack at A3", ("crack at C1", "crack A1 to C3")),
    ):  # fmt: skip
        floor = Site("room 12 by 8 metres", "grid 2 metres", first)
        for line in others:
            assert "already" not in floor.told(line).headline, line
    floor = Site("room 12 by 8 metres", "grid 2 metres", "crack A1 to C1", "crack at A3")
    for line, number in (("crack C1 to A1", 1), ("crack A1 to C1", 1), ("crack at A3", 2)):
        assert floor.refused(line) == f"That is crack {number} already."
