"""Doors on the finished floor: across, the step as it is walked on, and what the leaf clears."""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.floor.warnings import door_sizes
from assistant.job import being_read
from assistant.limits.door_rules import UK
from assistant.limits.door_warnings import door_warnings, leaf_warnings
from tests.job.conftest import Site

ROOM = ("room 8 by 6 metres", "grid 2 metres", "product example standard")
POURED = (*ROOM, "A1 -18", "door 1 left -14 right -16 outside +2", "door 1 at A1",
          "pour finished")  # fmt: skip


def test_the_step_of_a_finished_door_is_from_what_was_poured_there(site: type[Site]) -> None:
    floor = site(*POURED, "door 1 left -1 right -3 outside +2")
    sizes = door_sizes(being_read(floor.job), being_read(floor.job).doors[1])
    assert (sizes.across_mm, sizes.low_side) == (Fraction(2), "right")
    # Midway between the jambs it is 2 mm below the zero, the floor outside 2 mm above it.
    assert (sizes.step_mm, sizes.outside_is) == (Fraction(4), "higher")
    floor.told("covering 8 millimetres")
    sizes = door_sizes(being_read(floor.job), being_read(floor.job).doors[1])
    assert (sizes.step_mm, sizes.outside_is) == (Fraction(4), "lower")
    assert floor.told("how is door 1").data["door"]["step_direction"] == "down"
    floor.told("no covering")
    assert floor.job.covering_mm == 0


def test_what_a_leaf_clears_is_told_with_the_covering(site: type[Site]) -> None:
    floor = site(*POURED)
    reply = floor.told("door 1 clearance 9 millimetres")
    assert reply.headline == "Door 1 clears 9 mm; the leaf clears by 9 mm in the end."
    reply = floor.told("covering 8 millimetres")
    assert [(w.id, w.severity) for w in reply.warnings] == [("door-leaf:1", "note")]
    reply = floor.told("covering 12 mm")
    assert "would bind on the floor by 3 mm" in reply.warnings[0].message
    assert "fire or smoke door is not cut" in reply.warnings[0].message
    assert reply.warnings[0].severity == "caution"
    assert floor.told("doors").data["doors"][0]["clear_mm"] == -3
    floor.told("undo 2")
    assert floor.job.covering_mm == 0


def test_over_the_slab_the_pour_is_taken_off_what_the_leaf_clears(site: type[Site]) -> None:
    floor = site(*ROOM, "A1 -18", "door 1 clearance 20 mm")
    assert "once the jambs are read" in floor.reply.details[0]
    floor.told("door 1 left -14 right -16")
    # 15 mm are poured midway between the jambs (exact arithmetic).
    assert floor.data["door"]["clear_mm"] == 5
    assert floor.told("pour finished", "doors").data["doors"][0].get("clear_mm") is None


def test_a_covering_known_before_the_pour_counts_for_the_best_finish(site: type[Site]) -> None:
    bare = site(*ROOM, "A1 -18", "door 1 left -14 right -14 outside +8", "door 1 at A1")
    assert [w.id for w in bare.told("doors").warnings] == ["door-step:1"]
    assert bare.told("covering 8 mm", "doors").warnings == ()


@pytest.mark.parametrize(
    ("step_mm", "severity", "told"),
    [
        # Guidance to Approved Document M: at most 15 mm; chamfered over 5 mm from memory.
        (5, None, ""),
        (5.1, "caution", "Round or chamfer what stands up"),
        (15, "caution", "Round or chamfer"),
        (15.1, "stop", "over the limit of 15 mm"),
    ],
)
def test_the_rules_of_the_uk(step_mm: float, severity: str | None, told: str) -> None:
    warnings = door_warnings(1, 0, step_mm, "mm", UK.most_mm, UK)
    assert [warning.severity for warning in warnings] == ([severity] if severity else [])
    for warning in warnings:
        assert told in warning.message
        assert "ramp" not in warning.message
        assert "Approved Document M" in warning.source


def test_the_rules_of_a_job_are_set_told_and_undone(site: type[Site]) -> None:
    floor = site("door 1 left level right level outside plus 14")
    assert floor.reply.warnings[0].severity == "stop"
    reply = floor.told("door rules uk")
    assert reply.headline == "Doorways by Approved Document M: up to 5 mm as it is, 15 mm at most."
    assert [w.severity for w in reply.warnings] == ["caution"]
    assert "Door one wants a bevel." in reply.say
    floor.told("doorway step limit 10 mm", "usual doorway step limit")
    assert floor.job.step_limit_mm == 15
    floor.told("door rules usa")
    assert floor.job.step_limit_mm == Fraction("12.7")
    floor.told("undo 4")
    assert floor.job.step_limit_mm == Fraction("12.7")
    assert floor.told("what if door rules uk").headline


def test_a_leaf_clears_by_three_millimetres_or_is_told() -> None:
    # common practice, no source
    assert leaf_warnings(1, Fraction(3), "mm") == ()
    assert leaf_warnings(1, Fraction("2.9"), "mm")[0].severity == "note"
    assert leaf_warnings(1, Fraction(0), "mm")[0].severity == "caution"


def test_no_finish_is_moved_once_the_floor_is_poured(site: type[Site]) -> None:
    said = "door 1 left level right minus 9 outside minus 30"
    before = [warning.message for warning in site(said).reply.warnings]
    assert any("Move the finish; a slope is no cure" in each for each in before)
    assert any("settle the finish at this door first" in each for each in before)
    after = [warning.message for warning in site(*POURED, said).reply.warnings]
    assert not any("the finish;" in each or "settle the finish" in each for each in after)
    cure = "The floor is poured: grind or fill it there, or take another covering; a slope is no"
    assert any(cure in each for each in after)
    assert any("Read both jambs again, and grind or fill between them." in each for each in after)


def test_slips_of_the_unit_are_refused(site: type[Site]) -> None:
    floor = site(*POURED)
    told = floor.refused("door 1 clearance 9 metres")
    assert told == (
        "No leaf clears a floor by 9 m; up to 200 mm is taken: door 1 clearance 9 millimetres."
    )
    told = floor.refused("covering 8 metres")
    assert told == "No covering is 8 m thick; up to 100 mm is taken: covering 8 millimetres."
    assert "more than nothing" in floor.refused("covering 0 mm")
