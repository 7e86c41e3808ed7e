"""The bays of a pour and their strips, each rule by itself. Exact arithmetic."""

from __future__ import annotations

import pytest

from assistant.floor.pour.bays import _turn, bays_of, poured_alike
from assistant.floor.pour.parts import (
    parts_of,
    plan_known,
)
from assistant.floor.pour.placing import placing_of
from assistant.floor.pour.plan import plan_of, planned
from assistant.floor.pour.way import way_of
from tests.floor.plans import LEVEL, pouring
from tests.job.conftest import Site
from tests.there import there


def test_the_deeper_part_is_poured_first_and_the_one_at_the_way_out_last() -> None:
    lines = (*LEVEL, "zone kitchen columns A to C", "finish in kitchen +4 mm")
    for more, order in (
        ((), [("kitchen",), ("rest",)]),
        (("door 1 at A1", "way out is door 1"), [("rest",), ("kitchen",)]),
        (("door 1 at F1", "way out is door 1"), [("kitchen",), ("rest",)]),
        # in the middle of a zone's edge it is still at it
        (("door 1 at C2", "way out is door 1"), [("rest",), ("kitchen",)]),
    ):  # fmt: skip
        job = Site(*lines, *more).job
        assert [bay.alike.zones for bay in plan_of(job).floor] == order, more
        way = way_of(job)
        turns = {alike.zones: _turn(job, alike, way) for alike in poured_alike(job)}
        assert turns["kitchen",][1] == pytest.approx(-0.010)
        assert turns["rest",][1] == pytest.approx(-0.006)


def test_a_part_that_takes_nothing_is_no_bay() -> None:
    job = Site(*LEVEL, "zone kitchen columns A to C", "finish in kitchen -6 mm").job
    (bay,) = plan_of(job).floor
    assert (bay.alike.zones, bay.number) == (("rest",), 1)
    alike, way = poured_alike(job), way_of(job)
    assert len(bays_of(job, alike, way, 0.0, [])) == 1


def test_strips_of_a_bay_lie_from_its_own_beginning_on() -> None:
    lines = (*LEVEL, "zone kitchen columns A to C", "finish in kitchen +4 mm")
    plan = plan_of(Site(*lines).job)
    assert [bay.offset_m for bay in plan.floor] == [0, 6]
    assert plan.strips[0].from_m == 0
    rest = [each for each in plan.strips if each.bay == 2]
    assert rest[0].from_m == pytest.approx(6)
    assert rest[-1].to_m == pytest.approx(12)
    for one, other in zip(plan.strips, plan.strips[1:], strict=False):
        assert one.to_m == pytest.approx(other.from_m)
    dammed = plan_of(Site(*lines, "dam at 9 metres").job)
    assert any(each.to_m == pytest.approx(9) for each in dammed.strips)


def test_a_plan_in_several_bays_side_by_side_takes_the_same() -> None:
    job = Site(*LEVEL).job
    one = plan_of(job)
    for count in (1, 2, 3):
        found = planned(job, placing_of(job), (), bays=count)
        assert found.bays == count
        assert found.bags == pytest.approx(one.bags)
        assert [bay.bags for bay in found.floor] == pytest.approx([one.bags / count] * count)
    assert one.front_m == 8
    assert plan_of(Site(*LEVEL, "start at row 1").job).front_m == 12


def test_bags_poured_after_the_end_was_reached_are_of_the_last_part() -> None:
    fronts = ("batch 20 bags", "front at 6 metres", "batch 20 bags", "front at 12 metres")
    for more, used in (((), 20), (("batch 2 bags",), 22), (("batch 1 bag", "batch 2 bags"), 23)):
        job = pouring(*fronts, *more).job
        first, last = parts_of(job, there(plan_known(job)))
        assert (first.used_bags, last.used_bags) == (20, used)
