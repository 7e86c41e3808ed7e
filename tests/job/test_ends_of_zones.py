"""Zones, one rule after the other: their names, lines and places, and what is theirs."""

from __future__ import annotations

from decimal import Decimal

import pytest

from assistant.decide.zones import known_zone, of_its_zone
from assistant.errors import Refusal
from assistant.events.zones import ZoneAdded
from grammar.commands import Measure
from grammar.commands.material import ChooseProduct
from grammar.commands.zones import SetZoneProduct
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")


def added(*lines: str) -> ZoneAdded:
    (event,) = Site(*FLOOR, *lines).job.history[-1].events
    assert isinstance(event, ZoneAdded)
    return event


def at(*metres: float | None) -> tuple[Measure | None, ...]:
    return tuple(None if m is None else Measure(Decimal(str(m)), "m") for m in metres)


def test_a_zone_is_told_back_as_it_was_said() -> None:
    for line, said in (
        ("zone kitchen left of B1 to B4", "left of B1 to B4"),
        ("zone kitchen right of B1 to B4", "right of B1 to B4"),
        ("zone kitchen above A2 to F2", "above A2 to F2"),
        ("zone kitchen below A2 to F2", "below A2 to F2"),
        ("zone kitchen A1 to C3", "A1 to C3"), ("zone kitchen C3 to C3", "C3 to C3"),
        ("zone kitchen columns A to C", "columns A to C"), ("zone kitchen column C", "column C"),
        ("zone kitchen columns C to C", "column C"), ("zone kitchen row 2", "row 2"),
        ("zone kitchen rows 2 to 3", "rows 2 to 3"),
    ):  # fmt: skip
        assert added(line).said == said


def test_bounds_lie_half_way_to_the_next_line_and_at_the_wall_there_is_none() -> None:
    """Columns at 1, 3, … 11 m and rows at 1, 3, 5, 7 m."""
    for line, along, across in (
        ("zone kitchen columns B to C", (2, 6), (None, None)),
        ("zone kitchen columns C to B", (2, 6), (None, None)),
        ("zone kitchen column A", (None, 2), (None, None)),
        ("zone kitchen column F", (10, None), (None, None)),
        ("zone kitchen row 3", (None, None), (4, 6)),
        ("zone kitchen rows 1 to 2", (None, None), (None, 4)),
        ("zone kitchen B3 to D2", (2, 8), (2, 6)),
        ("zone kitchen E1 to F4", (8, None), (None, None)),
    ):
        zone = added(line)
        assert (zone.along, zone.across) == (at(*along), at(*across)), line
        assert (zone.line, zone.side) == ((), None)
    beside = added("zone kitchen left of B1 to B4")
    assert (beside.line, beside.side) == (at(3, 1, 3, 7), "left")
    assert (beside.along, beside.across) == ((), ())


def test_lines_that_stand_unevenly_are_parted_in_their_middles() -> None:
    floor = Site("room 12 by 8 metres", "grid 3 by 2 metres starting 1 metre")
    floor.told("zone kitchen B2 to C2")
    zone = floor.job.layout.zones["kitchen"]
    # columns at 1, 4, 7 and 10 m, rows at 1, 3, 5 and 7 m
    assert (zone.along, zone.across) == (at(2.5, 8.5), at(2, 4))


def test_which_line_is_not_there_is_named_with_those_that_are() -> None:
    for line, told in (
        ("zone kitchen columns A to G", "no column G; the grid has columns A to F"),
        ("zone kitchen row 5", "no row 5; the grid has rows 1 to 4"),
        ("zone kitchen A1 to A5", "no row 5; the grid has rows 1 to 4"),
    ):
        with pytest.raises(Refusal, match=told) as found:
            Site(*FLOOR).told(line)
        what = "column" if "column" in told else "row"
        assert found.value.spoken == f"There is no such {what}."


def test_a_zone_may_touch_another_and_stand_where_one_was_dropped() -> None:
    floor = Site(*FLOOR, "zone hall A1 to B2")
    floor.told("zone kitchen C1 to D2", "zone yard A3 to B4")  # side by side, at 4 m
    assert floor.refused("zone store B1 to C1").startswith(
        "That would overlap hall (A1 to B2) by 4 m²; no floor is in two zones."
    )
    floor.told("drop zone hall", "zone store A1 to B2")
    assert tuple(floor.job.layout.zones) == ("kitchen", "yard", "store")
    # What is left over is no zone: all of it may be taken.
    floor.told("zone hall columns E to F")
    assert "hall" in floor.job.layout.zones


def test_a_zone_outside_the_room_is_none() -> None:
    far = ("room 12 by 8 metres", "point K1 at 2 by 2 m", "point K2 at 2 by 6 m", "room 2 by 8 m")
    assert "left of K1 to K2" not in Site(*FLOOR).refused("zone kitchen right of F1 to F5")
    assert "is outside the room" in Site(*far).refused("zone kitchen right of K1 to K2")
    assert "whole room" in Site(*far).refused("zone kitchen left of K1 to K2")


def test_a_name_is_known_with_a_word_of_a_part_behind_it_and_no_other() -> None:
    job = Site(*FLOOR, "zone kitchen A1 to B2").job
    for said in ("kitchen", "kitchen half", "kitchen side", "kitchen room", "kitchen part"):
        assert known_zone(job, said) == "kitchen"
    assert known_zone(job, "rest") == "rest"
    for said in ("kitchen sink", "living half", "hall", "half kitchen"):
        with pytest.raises(Refusal, match="there is kitchen and the rest"):
            known_zone(job, said)
    for said in ("rest", "kitchen half"):
        with pytest.raises(Refusal, match="There is no zone yet"):
            known_zone(Site(*FLOOR).job, said)


def test_a_product_said_of_a_zone_is_the_zones() -> None:
    job = Site(*FLOOR, "zone kitchen A1 to B2", "zone kitchen end C1 to D2").job
    for said, zone, product in (
        ("in kitchen example standard", "kitchen", "example standard"),
        ("in zone kitchen example standard", "kitchen", "example standard"),
        ("in kitchen end example standard", "kitchen end", "example standard"),
        ("in rest example standard", "rest", "example standard"),
    ):
        assert of_its_zone(job, ChooseProduct(said)) == SetZoneProduct(zone, product)
    for said in ("example standard", "in hall example standard", "in kitchenette"):
        assert of_its_zone(job, ChooseProduct(said)) == ChooseProduct(said)
    bare = Site(*FLOOR).job
    assert of_its_zone(bare, ChooseProduct("in rest board")) == ChooseProduct("in rest board")
