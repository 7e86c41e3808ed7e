"""Doors against the finish, and the finish against the zero."""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.decide import decide, with_side
from tests.job.conftest import Site
from tests.there import there

FLOOR = ("room 12 by 8 metres", "grid 2 metres")


def test_a_door_tells_what_is_out_of_level_and_which_jamb_is_low(site: type[Site]) -> None:
    floor = site()
    reply = floor.told("door 1 left minus 4 right minus 9")
    assert reply.headline == "Door 1: 5 mm out of level, right low."
    assert reply.say == "Door one: five millimetres out, right low."
    assert reply.data["door"] == {
        "id": 1, "across_mm": 5.0, "low_side": "right",
        "step_mm": None, "step_direction": None, "at": None,
    }  # fmt: skip
    assert floor.ids == ["door-across:1"]


def test_the_step_outside_is_against_the_finish_not_the_zero(site: type[Site]) -> None:
    floor = site("finish 4 millimetres above zero")
    reply = floor.told("door 1 left minus 4 right minus 4 outside plus 2")
    assert reply.data["door"]["step_mm"] == 2.0
    assert reply.data["door"]["step_direction"] == "down"
    assert reply.headline == "Door 1: level across, step of 2 mm down to the floor outside."


@pytest.mark.parametrize(
    ("outside", "ids", "severity", "spoken"),
    [
        # decision table by the 2010 ADA Standards 303.2, 303.3 and 404.2.5 (check values)
        ("6.0", [], None, None),
        ("6.4", [], None, None),
        ("6.5", ["door-step:2"], "caution", "Door two wants a bevel."),
        ("12.7", ["door-step:2"], "caution", "Door two wants a bevel."),
        ("13.5", ["door-step:2"], "stop", "Door two steps more than its limit."),
    ],
)
def test_the_step_is_decided_by_the_standard(
    site: type[Site], outside: str, ids: list[str], severity: str | None, spoken: str | None
) -> None:
    floor = site(f"door 2 left level right level outside plus {outside}")
    assert floor.ids == ids
    assert [warning.severity for warning in floor.reply.warnings] == [severity] * len(ids)
    assert spoken is None or spoken in floor.reply.say


def test_a_job_has_a_limit_of_its_own_for_steps(site: type[Site]) -> None:
    floor = site("door 1 left level right level outside plus 18")
    assert floor.reply.warnings[0].severity == "stop"
    reply = floor.told("doorway step limit 20 millimetres")
    assert reply.headline == "Doorways may step 20 mm at most."
    assert reply.data == {"step_limit_mm": 20.0}
    assert [(w.id, w.severity) for w in reply.warnings] == [("door-step:1", "caution")]
    assert "Door one steps more than is usual." in reply.say
    floor.told("take that back")
    assert floor.job.step_limit_mm == Fraction("12.7")
    floor.told("redo")
    assert floor.job.step_limit_mm == 20
    assert [w.severity for w in floor.told("no doorway step limit").warnings] == ["note"]
    assert floor.job.step_limit_mm is None
    assert floor.told("usual doorway step limit").warnings[0].severity == "stop"


def test_a_limit_of_nothing_is_no_limit_to_set(site: type[Site]) -> None:
    assert "more than nothing" in site().refused("doorway step limit 0 millimetres")


def test_the_limit_is_told_in_the_unit_of_the_job(site: type[Site]) -> None:
    floor = site("readings in inches", "door 1 left level right level outside plus 3/4")
    assert "over the limit of 1/2 in" in floor.reply.warnings[0].message
    assert floor.told("doorway step limit 20 mm").headline.endswith("in at most.")


def test_the_floor_outside_may_be_read_on_its_own(site: type[Site]) -> None:
    floor = site("door 1 left minus 4 right minus 5", "door 1 outside plus 2")
    assert floor.data["door"]["across_mm"] == 1.0
    assert floor.data["door"]["step_mm"] == 2.0
    assert "to be read" in site("door 1 outside plus 2").reply.asides[-1]


def test_a_door_read_again_keeps_the_floor_outside(site: type[Site]) -> None:
    floor = site("door 1 left minus 4 right minus 9 outside plus 2")
    reply = floor.told("door 1 left minus 5 right minus 9")
    assert reply.data["door"]["step_mm"] == 2.0
    assert reply.asides[0] == "Replaces left 4 mm below; both stay in the record."


def test_each_door_reading_without_a_side_is_asked_about(site: type[Site]) -> None:
    floor = site()
    first = floor.asked("door 1 left 4 right 9 outside 2")
    assert first.text == "Door 1 left, 4 mm: below or above?"
    after_left = there(decide(floor.job, with_side(first.command, "below"), floor.world).ask)
    assert after_left.text == "Door 1 right, 9 mm: below or above?"
    after_right = there(decide(floor.job, with_side(after_left.command, "below"), floor.world).ask)
    assert after_right.text == "Door 1 outside, 2 mm: below or above?"
    reply = floor.done(with_side(after_right.command, "above"))
    assert reply.data["door"]["across_mm"] == 5
    assert reply.data["door"]["step_mm"] == 2


def test_the_floor_outside_without_a_side_is_asked_about(site: type[Site]) -> None:
    assert site().asked("door 1 outside 2").text == "Door 1 outside, 2 mm: below or above?"


def test_a_door_is_placed_at_a_point_of_the_grid(site: type[Site]) -> None:
    floor = site(*FLOOR, "door 1 left minus 4 right minus 4")
    assert floor.told("door 1 at B1").data["door"]["at"] == "B1"
    assert "The grid runs" in floor.refused("door 1 at K9")
    assert floor.told("door 1 at C1").details == ("It was at B1 before.",)


def test_all_doors_in_one_table(site: type[Site]) -> None:
    floor = site("door 2 left -4 right -9", "door 1 left -4 right -4 outside level")
    reply = floor.told("doors")
    assert [door["id"] for door in reply.data["doors"]] == [1, 2]
    assert reply.tables[0].rows[0] == ("1", "-", "level across", "0 mm")
    assert floor.ids == ["door-across:2"]
    assert site().told("doors").data == {"doors": []}


def test_one_door_is_asked_for_by_itself(site: type[Site]) -> None:
    floor = site("room 6 by 4 m", "door 1 left -4 right -9 outside +2", "door 2 outside +3 mm")
    told = floor.told("what's the step at door 1")
    assert told.headline == (
        "Door 1: 5 mm out of level, right low, step of 2 mm up to the floor outside."
    )
    assert told.data["answer"] == {"id": "doorway-step", "value": 2.0, "unit": "mm"}
    assert told.data["door"]["low_side"] == "right"
    half_read = floor.told("how is door 2")
    assert half_read.headline == "Door 2: step of 3 mm up to the floor outside."
    assert "The jambs are still to be read" in half_read.details[0]
    assert "Door 7 has not been measured" in floor.refused("how is door 7")


# --- the finish ----------------------------------------------------------------------------


def test_a_finish_above_the_zero_deepens_every_point(site: type[Site]) -> None:
    reply = site(*FLOOR, "A1 -18", "B1 -16").told("finish 4 millimetres above zero")
    assert reply.headline == "Finish 4 mm above the zero. Depth 20 mm to 22 mm, mean 21 mm."
    assert reply.say == (
        "Finish four millimetres above zero. Depth two zero millimetres to two two millimetres."
    )


def test_the_finish_is_raised_and_lowered_from_where_it_was(site: type[Site]) -> None:
    floor = site("finish 4 mm above zero", "raise finish 3 mm", "lower finish 2 mm")
    assert floor.job.finish_mm == 5
    assert floor.reply.details == ("2 mm lower than before.",)
    assert floor.told("finish level").headline == "Finish at the zero."


def test_a_finish_below_the_zero(site: type[Site]) -> None:
    floor = site("finish 2 mm below zero", "B3 -18")
    assert floor.data["reading"]["depth_mm"] == 16.0


def test_moving_the_finish_by_nothing_is_refused(site: type[Site]) -> None:
    assert "more than nothing" in site().refused("raise finish 0 mm")


def test_a_finish_that_leaves_too_little_brings_its_warnings(site: type[Site]) -> None:
    floor = site(*FLOOR, "product example standard", "A1 -5", "B1 -20")
    floor.told("lower finish 3 millimetres")
    assert floor.ids == ["under-minimum:A1"]
    assert "Stop: too shallow." in floor.reply.say


def test_an_inch_finish_stays_exact(site: type[Site]) -> None:
    floor = site("readings in inches", "finish 3/16 in above zero", "B3 -3/8")
    # 3/16 + 3/8 = 9/16 in = 14.2875 mm (exact arithmetic)
    assert floor.data["reading"]["depth_mm"] == 14.2875
    assert "Depth 9/16 in." in floor.reply.headline
