"""A zero that nobody looked at since the pour, and a floor that is off its plan as a whole."""

from __future__ import annotations

import pytest

from assistant.floor.off_plan import checks_in_survey, off_as_a_whole_mm, unlooked_zeros
from assistant.floor.survey_check import LOOK, TRUST, UNCHECKED, verdict_of
from assistant.job import being_read
from tests.job.conftest import Site

ROOM = ("room 8 by 6 metres", "grid 2 metres", "product example standard")
SLAB = tuple(f"{mm:+} mm" for mm in (-18, -16, -17, -15, -14, -16, -18, -19, -17, -15, -16, -18))
SURVEYED = (*ROOM, *SLAB, "check zero level", "check zero level", "pour finished", "promised both")
AT_THE_FINISH = tuple(f"{mm:+} mm" for mm in (0, 1, 0, -1, 0, 1, 0, 0, -1, 0, 1, 0))


def raised(by: int) -> tuple[str, ...]:
    return tuple(f"{mm + by:+} mm" for mm in (0, 1, 0, -1, 0, 1, 0, 0, -1, 0, 1, 0))


def test_looks_from_before_the_pour_do_not_check_the_finished_floor() -> None:
    floor = Site(*SURVEYED, *AT_THE_FINISH)
    found = verdict_of(being_read(floor.job))
    assert found.verdict == UNCHECKED
    assert found.unchecked == ("the zero since the pour",)
    assert "The zero was not looked at since the pour: check zero level." in found.notes
    # The slab's own survey keeps its two looks.
    assert verdict_of(floor.job).verdict == TRUST
    assert "The zero was looked at 2 times after it was set." in verdict_of(floor.job).notes
    floor.told("check zero level")
    found = verdict_of(being_read(floor.job))
    assert found.verdict == TRUST
    assert "The zero was looked at once since the pour." in found.notes
    assert checks_in_survey(being_read(floor.job), 0) == 1
    assert checks_in_survey(floor.job, 0) == 2


def test_a_set_up_made_after_the_pour_is_unchecked_since_it_was_set() -> None:
    floor = Site(*SURVEYED, "A1 level", "check zero level", "new set up", "tie on A1 +10", "B1 +10")
    open_floor = being_read(floor.job)
    assert unlooked_zeros(open_floor) == (1,)
    assert "the zero of set-up 2 since it was set" in verdict_of(open_floor).unchecked


@pytest.mark.parametrize(("by", "side"), [(9, "9 mm above"), (-9, "9 mm below")])
def test_a_floor_off_its_plan_as_a_whole_asks_for_a_look_at_the_zero(by: int, side: str) -> None:
    floor = Site(*SURVEYED, *raised(by))
    assert off_as_a_whole_mm(being_read(floor.job)) == by
    assert off_as_a_whole_mm(floor.job) is None
    found = verdict_of(being_read(floor.job))
    assert found.verdict == LOOK
    (plan,) = found.findings
    assert (plan.why, plan.what, plan.off_mm) == ("plan", "zero", by)
    assert f"As a whole the floor lies {side} the planned finish" in plan.message
    listed = " ".join(floor.told("punch list").details)
    assert f"As a whole the floor lies {side} the planned finish. The zero was not" in listed
    # Once the zero was looked at and holds, it is the floor.
    floor.told("check zero level")
    assert not verdict_of(being_read(floor.job)).findings
    listed = " ".join(floor.told("punch list").details)
    assert f"As a whole the floor lies {side} the planned finish." in listed
    assert "The zero was not" not in listed


def test_a_floor_near_its_plan_or_barely_read_is_not_off_as_a_whole() -> None:
    assert not verdict_of(being_read(Site(*SURVEYED, *raised(2)).job)).findings
    few = being_read(Site(*SURVEYED, *raised(9)[:5]).job)
    assert off_as_a_whole_mm(few) is None
    flat_only = Site(*SURVEYED, "promised flat", *raised(9), "gap 5 mm under 2 metres at C2")
    assert not any("As a whole" in each for each in flat_only.told("punch list").details)
