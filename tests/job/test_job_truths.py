"""What holds for any job: hypothesis makes up the stories."""

from __future__ import annotations

from decimal import Decimal
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.decide import decide
from assistant.events.finish import FinishMoved
from assistant.floor.tally import Tally, tally_of
from assistant.floor.warnings import all_warnings
from assistant.job import apply, fold, record
from assistant.reply.replies import LimitWarning
from grammar.commands import Change, Command, Measure, Reading
from grammar.commands.doors import LimitDoorwayStep, MeasureDoor, PlaceDoor
from grammar.commands.finish import LowerFinish, RaiseFinish, SetFinish
from grammar.commands.material import ChooseProduct, SetWaste
from grammar.commands.readings import CorrectReading, SetReadingUnit, StrikePoint, TakeReading
from grammar.commands.room import AddPoint, SetGrid, SetRoom
from grammar.commands.set_ups import SetInstrumentRange
from grammar.commands.talk import BringBack, TakeBack, WhatIf
from tests.job.conftest import Site
from tests.there import there

pytestmark = pytest.mark.slow

FLOOR = ("room 6 by 4 metres", "grid 2 metres", "product example standard", "A1 -18", "B1 -12")
POINTS = ("A1", "B1", "C1", "A2", "B2", "C2")

few = settings(max_examples=60, deadline=None)

sizes = st.integers(1, 400).map(lambda n: Decimal(n) / 8)
heights = st.integers(-400, 400).map(lambda n: Decimal(n) / 8)
units = st.sampled_from(["mm", "in", "cm"])
readings = st.builds(Reading, heights, units)
lengths = st.builds(Measure, sizes, st.just("mm"))
points = st.sampled_from(POINTS)
changes = st.one_of(
    st.builds(TakeReading, points, readings),
    st.builds(CorrectReading, st.sampled_from(["A1", "B1"]), readings),
    st.builds(StrikePoint, st.sampled_from(["A1", "B1"])),
    st.builds(SetFinish, readings),
    st.builds(RaiseFinish, lengths),
    st.builds(LowerFinish, lengths),
    st.builds(SetWaste, st.integers(0, 100).map(Decimal)),
    st.builds(SetReadingUnit, st.sampled_from(["mm", "in"])),
    st.builds(SetInstrumentRange, lengths),
    st.builds(ChooseProduct, st.sampled_from(["example gypsum", "example deep fill"])),
    st.builds(MeasureDoor, st.integers(1, 9), readings, readings, st.none() | readings),
    st.builds(LimitDoorwayStep, st.none() | lengths),
    st.just(LimitDoorwayStep(usual=True)),
    st.builds(PlaceDoor, st.integers(1, 9), points),
    st.builds(AddPoint, st.just("K1"), st.just(Measure(Decimal("3.3"), "m")), lengths),
    st.just(SetRoom(Measure(Decimal(5), "m"), Measure(Decimal(4), "m"))),
    st.just(SetGrid(Measure(Decimal(1), "m"))),
)


@given(changes)
@few
def test_undoing_a_change_leaves_the_job_as_it_was(site: type[Site], change: Command) -> None:
    floor = site(*FLOOR)
    before, tally = floor.job, floor.tally
    floor.done(change)
    floor.done(TakeBack())
    assert floor.job == before
    assert floor.tally == tally
    assert all_warnings(floor.job) == all_warnings(before)


@given(changes)
@few
def test_undoing_an_undo_leaves_the_job_as_it_was(site: type[Site], change: Command) -> None:
    floor = site(*FLOOR)
    floor.done(change)
    after = floor.job
    floor.done(TakeBack())
    floor.done(BringBack())
    assert floor.job == after


@given(changes)
@few
def test_what_if_changes_nothing_and_tells_what_would_be(site: type[Site], change: Command) -> None:
    floor = site(*FLOOR)
    before = floor.job
    assert isinstance(change, Change)
    told = floor.done(WhatIf(change)).data
    assert floor.job is before
    assert told["before"] == floor.tally.as_data()
    floor.done(change)
    assert told["after"] == floor.tally.as_data()


@given(st.dictionaries(points, readings, min_size=1), st.randoms(use_true_random=False))
@few
def test_the_order_of_readings_leaves_no_trace_in_the_numbers(
    site: type[Site], taken: dict[str, Reading], chance: Random
) -> None:
    def tally_in(order: list[str]) -> tuple[Tally, tuple[LimitWarning, ...]]:
        floor = site(*FLOOR[:3])
        for point in order:
            floor.done(TakeReading(point, taken[point]))
        return floor.tally, all_warnings(floor.job)

    order = list(taken)
    shuffled = chance.sample(order, len(order))
    assert tally_in(order) == tally_in(shuffled)


@given(st.dictionaries(points, st.integers(-3000, -10), min_size=1))
@few
def test_a_finish_a_millimetre_higher_takes_the_area_by_a_millimetre_more(
    site: type[Site], taken: dict[str, int]
) -> None:
    floor = site(*FLOOR[:2])
    # Depths of a whole floor that crosses nothing: the least is well above what the
    # carried slope could take off towards the walls.
    for point, tenths in taken.items():
        floor.done(TakeReading(point, Reading(Decimal(-1000) + Decimal(tenths) / 100, "mm")))
    before = there(floor.tally.volume_m3)
    after = there(tally_of(apply(floor.job, FinishMoved(Measure(Decimal(1), "mm")))).volume_m3)
    assert after - before == pytest.approx(there(floor.tally.area_m2) * 0.001, rel=1e-6)


@given(st.lists(changes, max_size=8))
@settings(max_examples=25, deadline=None)
def test_the_same_events_always_give_the_same_job(site: type[Site], stories: list[Command]) -> None:
    floor = site(*FLOOR)
    for change in stories:
        events = (
            decide(floor.job, change, floor.world, confirmed=True).events
            if _can(floor, change)
            else ()
        )
        if events:
            floor.job = record(floor.job, floor.job.history[-1].number + 1, "", events)
    entries = [(u.number, u.said, u.events) for u in floor.job.history]
    assert fold(entries) == floor.job == fold(entries)
    assert tally_of(fold(entries)) == tally_of(floor.job)


def _can(floor: Site, change: Command) -> bool:
    from assistant.errors import Refusal

    try:
        decide(floor.job, change, floor.world, confirmed=True)
    except Refusal:
        return False
    return True
