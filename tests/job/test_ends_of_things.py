"""Things on the floor, at the ends of what is taken and what is asked about."""

from __future__ import annotations

from decimal import Decimal

import pytest
import shapely

from assistant.decide.questions import HowBig, YesOrNo
from assistant.decide.things.lines import _ends, _the_one, with_known_things
from assistant.decide.things.obstacles import (
    _from_corner,
    _sticks_out_m,
    place_measured,
    thing_name,
)
from assistant.errors import Refusal
from assistant.events.readings import ReadingStruck
from assistant.events.things import DrainPlaced, LineMarked, ObstacleAdded, ThingDropped
from grammar.commands import Measure
from grammar.commands.things import AddJoint, PlugOpening, RepairCrack
from tests.job.conftest import Site, command_of

FLOOR = ("room 12 by 8 metres", "grid 2 metres")


def mm(number: str, unit: str = "m") -> Measure:
    return Measure(Decimal(number), unit)


def asked(floor: Site, line: str) -> str:
    """What is asked about a line; empty where it is taken at once."""
    answer = floor.unconfirmed(line)
    return answer.text if isinstance(answer, YesOrNo) else ""


def added(*lines: str) -> ObstacleAdded:
    event = Site(*FLOOR, *lines).job.history[-1].events[0]
    assert isinstance(event, ObstacleAdded)
    return event


def test_a_thing_has_its_sides_and_the_place_of_its_middle() -> None:
    for line, first, second, along, across in (
        ("column 0.4 by 0.6 metres at 4 by 4.5 metres", "0.4", "0.6", "4", "4.5"),
        ("column 0.4 metres square at 4 by 4.5 metres", "0.4", "0.4", "4", "4.5"),
    ):
        event = added(line)
        assert (event.first, event.second) == (mm(first), mm(second)), line
        assert (event.along, event.across) == (mm(along), mm(across))
        assert (event.number, event.point) == (1, None)
    at_point = added("column 0.4 by 0.6 metres at B2")
    assert (at_point.along, at_point.across, at_point.point) == (mm("3"), mm("3"), "B2")


def test_a_middle_lies_half_a_side_from_its_corner_exactly() -> None:
    for corner, side, middle in (
        (mm("4"), mm("0.5"), mm("4.25")), (mm("4"), mm("500", "mm"), mm("4.25")),
        (mm("400", "mm"), mm("30", "mm"), mm("415", "mm")), (mm("1"), mm("1", "in"), mm("1.0127")),
    ):  # fmt: skip
        assert _from_corner(corner, side) == middle


def test_how_far_a_thing_stands_out_of_the_room() -> None:
    room = shapely.box(0, 0, 12, 8)
    for shape, out in (
        (shapely.box(1, 1, 2, 2), 0), (shapely.box(-0.01, 1, 2, 2), 0.01),
        (shapely.box(11, 1, 12.5, 2), 0.5), (shapely.box(11, 7, 12.03, 8.04), 0.05),
    ):  # fmt: skip
        assert _sticks_out_m(shape, room) == pytest.approx(out)


def test_a_centimetre_out_of_the_room_is_nothing() -> None:
    for at, asks in (("0.2", False), ("0.191", False), ("0.189", True)):
        told = asked(Site(*FLOOR), f"column 0.4 by 0.4 metres at {at} by 4 metres")
        assert ("out of the room" in told) is asks, at
    assert "is outside the room" in Site(*FLOOR).refused("column 0.4 by 0.4 metres at 13 by 4 m")
    assert "is outside the room" in Site(*FLOOR).refused("column 0.4 by 0.4 metres at 12.2 by 4 m")


def test_a_centimetre_into_each_other_is_touching() -> None:
    first = "column 0.4 by 0.4 metres at 4 by 4 metres"
    for at, taken in (("4.4", True), ("4.391", True), ("4.389", False), ("4", False)):
        line = f"column 0.4 by 0.4 metres at {at} by 4 metres"
        if taken:
            assert asked(Site(*FLOOR, first), line) == "", at
        else:
            assert "would stand in column 1" in Site(*FLOOR, first).refused(line), at


def test_more_than_half_of_the_floor_is_asked_about() -> None:
    for sides, asks in (("6 by 8", False), ("6.01 by 8", True), ("11 by 7", True)):
        told = asked(Site("room 12 by 8 metres"), f"column {sides} metres at 6 by 4 metres")
        assert ("It covers" in told) is asks, sides
    rug = asked(Site("room 12 by 8 metres"), "opening 11 by 7 metres at 6 by 4 metres")
    assert "of 96 m²" not in rug  # it is poured around, and counts as floor


def test_what_covers_readings_is_asked_about_and_strikes_them() -> None:
    floor = Site(*FLOOR, "A1 -18", "B1 -18", "C1 -18")
    told = asked(floor, "column 0.4 by 0.4 metres at B1")
    assert "It covers 1 point that has been read: B1. Its reading counts no more." in told
    told = asked(floor, "column 2.4 by 0.4 metres at 4 by 1 metres")
    assert "2 points that were read: B1 and C1. Their readings count no more." in told
    floor.told("column 0.4 by 0.4 metres at B1")
    assert floor.job.history[-1].events[1:] == (ReadingStruck("B1"),)
    assert asked(floor, "column 0.4 by 0.4 metres at D1") == ""


def test_what_covers_a_door_or_a_fixed_height_is_told() -> None:
    floor = Site(*FLOOR, "door 1 at B1", "door 2 at F1")
    assert "Door 1 was placed at a point that it covers." in asked(
        floor, "column 0.4 by 0.4 metres at B1"
    )
    assert asked(floor, "column 0.4 by 0.4 metres at C1") == ""
    fixed = Site(*FLOOR, "fix B1 at +3", "drain at C1 minus 20")
    refused = fixed.refused("column 0.4 by 0.4 metres at B1")
    assert "would cover B1, where the height of the finish is set" in refused
    assert "would cover C1, where drain 1 is set" in fixed.refused("column 0.4 by 0.4 metres at C1")


def test_without_its_size_a_thing_is_asked_for_it() -> None:
    floor = Site(*FLOOR)
    assert isinstance(floor.asked("column at B2"), HowBig)
    assert "no point Z9" in floor.refused("column at Z9")
    assert "The room first" in Site().refused("column 0.4 by 0.4 metres at 4 by 4 metres")


def test_the_place_of_a_point_stays_as_it_was() -> None:
    job = Site(*FLOOR, "column 0.4 by 0.4 metres at B1").job
    assert place_measured(job, "A1") == (mm("1"), mm("1"))
    assert place_measured(job, "B1") == (mm("3"), mm("1"))  # under it
    with pytest.raises(Refusal, match="Set a grid"):
        place_measured(Site("room 12 by 8 metres").job, "A1")
    with pytest.raises(Refusal, match="There is no point Z9"):
        place_measured(job, "Z9")


def test_after_the_pour_what_takes_from_its_area_stays() -> None:
    poured = Site(*FLOOR, "A1 -18", "column 0.4 by 0.4 metres at F4", "pour finished")
    bare = Site(*FLOOR, "pour finished")
    for line in (
        "column 0.4 by 0.4 metres at 4 by 4 metres",
        "drop column 1",
        "drain at C1 minus 20",
    ):
        assert "The pour is finished" in poured.refused(line), line
    bare.told("column 0.4 by 0.4 metres at 4 by 4 metres")
    poured.told("crack at B2", "drop crack 1")
    assert poured.job.history[-1].events[-1] == ThingDropped("crack", 1)


def test_what_is_dropped_is_there() -> None:
    floor = Site(*FLOOR)
    assert floor.refused("drop column 1") == "There is no column on record."
    floor.told("column 0.4 by 0.4 metres at B1")
    assert "There is no column 2; there is column 1." in floor.refused("drop column 2")
    floor.told("column 0.4 by 0.4 metres at D1")
    assert "There is no column 7; there are column 1 and column 2." in floor.refused(
        "drop column 7"
    )
    assert thing_name("column", 2) == "column 2"


def test_the_one_that_is_meant_is_the_only_one_left() -> None:
    cracks = Site(*FLOOR, "crack at B2", "crack C2 to D2").job
    with pytest.raises(Refusal, match=r"Which crack: crack 1 or crack 2\?"):
        with_known_things(cracks, RepairCrack(None))
    one = Site(*FLOOR, "crack at B2", "crack C2 to D2", "crack 1 repaired").job
    assert with_known_things(one, RepairCrack(None)) == RepairCrack(2)
    assert with_known_things(one, RepairCrack(1)) == RepairCrack(1)
    done = Site(*FLOOR, "crack at B2", "crack 1 repaired").job
    assert with_known_things(done, RepairCrack(None)) == RepairCrack(1)
    with pytest.raises(Refusal, match="There is no crack on record"):
        with_known_things(Site(*FLOOR).job, RepairCrack(None))
    openings = Site(*FLOOR, "opening 0.2 by 0.2 metres at B2", "opening 0.2 by 0.2 metres at D2",
                    "column 0.4 by 0.4 metres at F4").job  # fmt: skip
    with pytest.raises(Refusal, match=r"Which opening: opening 1 or opening 2\?"):
        with_known_things(openings, PlugOpening(None))
    assert with_known_things(openings, PlugOpening(2)) == PlugOpening(2)
    plugged = Site(*FLOOR, "opening 0.2 by 0.2 metres at B2", "opening 0.2 by 0.2 metres at D2",
                   "opening 1 plugged").job  # fmt: skip
    assert with_known_things(plugged, PlugOpening(None)) == PlugOpening(2)
    joint = command_of("joint along column B")
    assert with_known_things(cracks, joint) == AddJoint("B1", "B4")
    assert _the_one(cracks, "crack", [2]) == 2


def test_a_drain_has_its_number_and_is_put_right_at_its_point() -> None:
    floor = Site(*FLOOR, "drain at B1 minus 20", "drain at D1 minus 25")
    numbers = [each.number for each in floor.job.layout.things.drains]
    assert numbers == [1, 2]
    floor.told("drain at B1 minus 22")
    (event,) = floor.job.history[-1].events
    assert isinstance(event, DrainPlaced)
    assert event.number == 1
    assert floor.asked("drain at B1 22 mm").text == "Drain at B1, 22 mm: below or above?"


def test_a_line_is_told_once_whichever_way_round() -> None:
    floor = Site(*FLOOR, "crack B2 to D2")
    event = floor.job.history[-1].events[0]
    assert isinstance(event, LineMarked)
    assert event.places == (mm("3"), mm("3"), mm("7"), mm("3"))
    for line in ("crack B2 to D2", "crack D2 to B2"):
        assert "That is crack 1 already." in floor.refused(line)
    floor.told("joint B2 to D2", "crack B2 to C2", "crack at B2")
    assert "has no length" in floor.refused("crack B2 to B2")
    assert "Z" in floor.refused("joint between B and Z")
    assert "From which point to which" in floor.refused("joint between B and C")
    assert _ends((mm("1"), mm("2"), mm("3"), mm("4"))) == {(mm("1"), mm("2")), (mm("3"), mm("4"))}
