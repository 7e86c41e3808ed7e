"""How far a pour has come, counted out by hand on plans with round numbers. Exact arithmetic."""

from __future__ import annotations

from datetime import timedelta
from itertools import pairwise
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.events.pour import FrontReached, StripPoured
from assistant.floor.interval import volume_of
from assistant.floor.pour.clock import not_met_since, pour_rung_between
from assistant.floor.pour.parts import Part, bay_of_front, parts_of, plan_known
from assistant.floor.pour.plan import plan_of
from assistant.floor.pour.progress import (
    _strip_at,
    edge_due,
    laid_at,
    progress_of,
    strip_start_bags,
    waited_too_long,
)
from assistant.floor.pour.stock import at_hand, expected_of, ratio_of_rest
from tests.floor.plans import LEVEL, ONE_BAY, TWO_BAYS, a_plan, batches, pouring
from tests.job.conftest import Site
from tests.job.test_zones import READ

BAG = 10.08 / 3
"""Bags to a metre of the level floor."""


def test_where_the_front_of_bays_is_by_the_bags() -> None:
    """Within each bay by its own floor; the next one begins at the start again."""
    for planned, front in ((0, 0), (3, 1.5), (6, 3), (8, 4), (9.5, 4.75), (10, 0), (15, 2.5),
                           (20, 5), (25, 5)):  # fmt: skip
        assert TWO_BAYS.front_by_bags_m(planned) == pytest.approx(front), planned


def test_where_the_front_of_a_whole_floor_is_by_the_bags() -> None:
    for start in ("start at column A", "start at column F"):
        plan = plan_known(pouring(start).job)
        assert plan is not None
        for metres in (0, 0.3, 3, 7.5, 12):
            assert plan.front_by_bags_m(metres * BAG) == pytest.approx(metres, abs=1e-9)
        assert plan.front_by_bags_m(50) == pytest.approx(12)


def test_which_strip_is_poured() -> None:
    """By the bags, and past the bags planned for what lies behind the front reported."""
    for plan, planned, done, number in (
        (ONE_BAY, 0, 0, 1), (ONE_BAY, 5.9, 0, 1), (ONE_BAY, 6, 0, 2), (ONE_BAY, 6.1, 0, 2),
        (ONE_BAY, 9.9, 0, 2), (ONE_BAY, 10, 0, 3), (ONE_BAY, 16, 0, 3), (ONE_BAY, 99, 0, 3),
        (ONE_BAY, 2, 5, 1), (ONE_BAY, 2, 6, 2), (ONE_BAY, 2, 9.9, 2), (ONE_BAY, 2, 10, 3),
        (TWO_BAYS, 2, 9, 2), (TWO_BAYS, 2, 10, 3), (TWO_BAYS, 11, 6, 3),
    ):  # fmt: skip
        parts = (Part(done, 4, None, 0.0, 1.0, 1, 1.0),)
        assert _strip_at(plan, planned, parts).number == number, (planned, done)  # type: ignore[union-attr]
    assert _strip_at(a_plan(((5, 10),)), 3, ()).number == 1  # type: ignore[union-attr]


def test_bags_planned_up_to_a_front() -> None:
    """Two bags a metre; a bay has those before it, and no more than its own."""
    first, second = TWO_BAYS.floor
    for bay, metres, bags in ((first, 3, 6), (first, 5, 10), (first, 9, 10), (second, 0, 10),
                              (second, 3, 16), (second, 9, 20), (second, -1, 10)):  # fmt: skip
        assert TWO_BAYS.bags_to(bay, metres) == pytest.approx(bags), (bay.number, metres)


def test_which_bay_a_front_stands_in() -> None:
    """That of a strip named; of a front, the first in which it lies farther than the last did."""
    front = FrontReached(None, "B", None)
    for metres, planned, number in ((3, 0, 1), (3, 5, 1), (3, 6, 2), (5, 9, 1), (5, 10, 2)):
        bay = bay_of_front(TWO_BAYS, front, metres, planned)
        assert bay is not None
        assert bay.number == number, (metres, planned)
    assert bay_of_front(TWO_BAYS, front, 3, 16) is None
    assert bay_of_front(TWO_BAYS, StripPoured(3, 5.0), 5.0, 0).number == 2  # type: ignore[union-attr]


def test_when_what_lies_past_so_many_bags_was_poured() -> None:
    """Batches of 2, 2 and 4 at 3, 6 and 10 minutes: what lies past three bags, between two."""
    floor = pouring()
    for minutes, line in ((3, "batch"), (3, "batch"), (4, "batch 4 bags")):
        floor.wait(minutes)
        floor.told(line)
    begun = floor.job.pour.batches[0].time
    for bags, after in ((0, 0), (1, 1.5), (2, 3), (3, 5), (4, 7), (8, 7), (20, 7)):
        assert laid_at(floor.job, bags) - begun == timedelta(minutes=after), bags


def test_where_a_strip_was_begun_is_what_was_told_of_it() -> None:
    """By a front within 2 cm of its edge, or the strip before it called done; else as planned."""
    for line, bags in (
        ("front at 3.01 metres", 8), ("front at 2.99 metres", 8), ("front at 3.03 metres", 10.08),
        ("front at 2.97 metres", 10.08), ("front at 3.5 metres", 10.08), ("strip 1 done", 8),
        ("strip 2 done", 10.08),
    ):  # fmt: skip
        floor = pouring()
        batches(floor, 4)
        floor.told(line)
        plan = plan_known(floor.job)
        assert plan is not None
        assert strip_start_bags(floor.job, plan, plan.strips[1]) == pytest.approx(bags), line
        third = 8 if line == "strip 2 done" else 20.16
        assert strip_start_bags(floor.job, plan, plan.strips[2]) == pytest.approx(third), line
        assert strip_start_bags(floor.job, plan, plan.strips[0]) == 0, line


def minutes_left(floor: Site) -> float:
    job = floor.job
    due = progress_of(job).edge_due
    assert due is not None
    return (due - job.pour.batches[0].time).total_seconds() / 60


def test_the_edge_of_each_strip_is_due_from_its_first_batch() -> None:
    """
    Batches of two bags each 3 minutes, so that the bags of a strip, 10.08, come in 15.12 minutes.

    In the second strip the front meets what was poured 15.12 minutes before; in the last one only
    that edge waits, as its own is at the wall. An edge waits 17 minutes.
    """
    for count, due in (
        (1, 17), (5, 17), (6, (12 - 10.08) / 10.08 * 15.12 + 17), (9, 7.92 / 10.08 * 15.12 + 17),
        (16, (32 - 10.08) / 2 * 3 + 17),
    ):  # fmt: skip
        floor = pouring()
        batches(floor, count)
        assert minutes_left(floor) == pytest.approx(due, abs=0.01), count


def test_an_edge_that_waited_too_long_for_a_batch_is_an_edge_no_more() -> None:
    """17 minutes between two batches are in time, with 18 all that lies behind has set: the next
    edge is that of what is poured then, and where none of it waits, at the wall, there is none."""
    for wait, due, told in ((17.0, 17.0, None), (18.0, 3 + 18.0 + 17.0, (18, 17))):
        floor = pouring()
        batches(floor, 2)
        floor.wait(wait)
        floor.told("batch")
        assert minutes_left(floor) == pytest.approx(due, abs=1e-3), wait
        found = waited_too_long(floor.job)
        assert found == (told and tuple(timedelta(minutes=each) for each in told))
        batches(floor, 1)
        assert waited_too_long(floor.job) is None
        assert minutes_left(floor) == pytest.approx(due, abs=1e-3)
        later = floor.now + timedelta(minutes=17.5)
        assert waited_too_long(floor.job, later) == (timedelta(minutes=17.5), timedelta(minutes=17))
    # two long waits: what was poured since the last one counts
    floor.wait(30)
    floor.told("batch")
    assert minutes_left(floor) == pytest.approx(3 + 18 + 3 + 30 + 17, abs=1e-3)
    # in the next strip both edges count from there on, in the last one only the one beside
    floor = pouring()
    batches(floor, 5)
    floor.told("strip 1 done")
    batches(floor, 1, minutes=60)
    assert minutes_left(floor) == pytest.approx(12 + 60 + 17, abs=1e-3)
    last = pouring("batch 20 bags", "batch 10 bags", "strip 3 done")
    batches(last, 1, minutes=60)
    assert progress_of(last.job).edge_due is None
    # without a plan by the card; without a card nobody knows
    bare = Site("product example standard", "batch 2 bags")
    assert waited_too_long(bare.job) is None
    batches(bare, 1, minutes=18)
    assert waited_too_long(bare.job) == (timedelta(minutes=18), timedelta(minutes=17))
    nothing = Site("batch 2 bags")
    batches(nothing, 1, minutes=60)
    assert waited_too_long(nothing.job) is None


def test_no_edge_is_due_where_nothing_is_poured_or_no_card_is_known() -> None:
    floor = pouring()
    assert progress_of(floor.job).edge_due is None
    batches(floor, 1)
    assert progress_of(floor.job).edge_due is not None
    assert edge_due(floor.job, None, None) == floor.job.pour.batches[-1].time + timedelta(
        minutes=17
    )
    floor.told("stop pour")
    assert progress_of(floor.job).edge_due is None
    floor.told("pour on", "pour finished")
    assert progress_of(floor.job).edge_due is None
    bare = Site("batch 2 bags")
    assert progress_of(bare.job).edge_due is None


def test_parts_lie_between_fronts_that_go_forward() -> None:
    """8 bags to 3 m, 10 more to 6 m; a front that stands where another stood is no part."""
    floor = pouring()
    batches(floor, 4)
    floor.told("front at 3 metres")
    batches(floor, 5)
    floor.told("front at 6 metres")
    plan = plan_known(floor.job)
    assert plan is not None
    first, second = parts_of(floor.job, plan)
    near: Any = pytest.approx
    kind = "example standard"
    assert first == Part(near(10.08), 8, None, 0.0, 3.0, 1, near(24), 0, 2, kind)
    assert second == Part(near(10.08), 10, None, 3.0, 6.0, 1, near(24), 0, 2, kind)
    batches(floor, 12)
    assert len(parts_of(floor.job, plan)) == 2
    floor.told("pour finished")
    rest = parts_of(floor.job, plan)[-1]
    assert (rest.planned_bags, rest.area_m2, rest.to_m) == pytest.approx((20.16, 48, 12))
    assert (rest.used_bags, rest.lost, rest.from_m, rest.bay) == (24, None, 6.0, 1)


def test_the_last_part_is_what_was_poured_since_the_last_front() -> None:
    """None where the front reached the end, or without a bag since."""
    for lines, parts in (
        (("front at 6 metres", "batch 20 bags", "pour finished"), 2),
        (("front at 6 metres", "pour finished"), 1),
        (("front at 12 metres", "batch 1 bag", "pour finished"), 1),
        (("batch 15 bags", "pour finished"), 1),
    ):
        floor = pouring("batch 20 bags")
        for line in lines:
            floor.wait(5)
            floor.told(line)
        plan = plan_known(floor.job)
        assert plan is not None
        assert len(parts_of(floor.job, plan)) == parts, lines


def test_all_bags_there_are() -> None:
    """Counted ones and those used till then; else as many as the tally orders."""
    floor = pouring()
    batches(floor, 3)
    assert at_hand(floor.job) == 41
    floor.told("bags left 30")
    assert at_hand(floor.job) == 36
    batches(floor, 1)
    assert at_hand(floor.job) == 36
    assert at_hand(Site(*LEVEL[:2], *LEVEL[3:9]).job) is None


def test_one_planned_bag_comes_to_what_the_forecast_says_of_the_rest() -> None:
    poured = (Part(10.0, 4, None, 0.0, 1.0, 1, 1.0),)

    def ratio(of_rest: float, left: float, parts: tuple[Part, ...] = poured) -> float:
        seen: Any = SimpleNamespace(ratio=of_rest)
        return ratio_of_rest(seen, parts, left)

    assert ratio(0.9, 20) == pytest.approx(0.9)
    assert ratio(2.2, 20) == pytest.approx(2.2)
    assert ratio(0.1, 20) == pytest.approx(0.2)
    assert ratio(0.9, 0) == 1
    assert ratio(0.9, 20, ()) == 1
    assert ratio_of_rest(None, poured, 20.0) == 1


def test_what_is_expected_before_the_first_bag() -> None:
    """A yield 5 % off; 10 % of the volume while too little is read to tell how uneven it is."""
    few = Site(*LEVEL[:4])
    assert expected_of(few.job, plan_of(few.job)).ratio_sd == pytest.approx(
        (0.05**2 + 0.10**2) ** 0.5
    )
    read = Site(*READ)
    volume = volume_of(read.job)
    assert volume is not None
    plan = plan_of(read.job)
    assert expected_of(read.job, plan).ratio_sd == pytest.approx(
        (0.05**2 + (volume.sd_m3 / plan.whole.volume_m3) ** 2) ** 0.5
    )


def test_fronts_told_by_columns_lie_as_far_from_where_it_begins() -> None:
    """Column C is 5 m from the wall at A and 7 m from that at F; the floor is 12 m long."""
    for start, line, metres in (
        ("start at column A", "front at column C", 5),
        ("start at column F", "front at column C", 7),
        ("start at row 1", "front at row 2", 3),
        ("start at row 4", "front at row 2", 5),
    ):
        floor = pouring(start, "batch 10 bags", line, "batch 20 bags", "pour finished")
        plan = plan_known(floor.job)
        assert plan is not None
        first, rest = parts_of(floor.job, plan)
        length = 12 if "column" in start else 8
        assert (first.to_m, rest.from_m) == pytest.approx((metres, metres)), start
        assert rest.to_m == pytest.approx(length)
        assert first.planned_bags == pytest.approx(40.32 * metres / length)
    assert "own way" in pouring("batch 10 bags").refused("front at row 2")


def test_bags_since_the_last_front_carry_the_front_on() -> None:
    """8 bags to 3 m, then 4 more, each worth what is expected of the rest."""
    floor = pouring()
    batches(floor, 4)
    floor.told("front at 3 metres")
    batches(floor, 2)
    found = progress_of(floor.job)
    assert found.forecast is not None
    # half a bag of the end is of one that is begun and not all needed
    each = (float(found.forecast.mean) - 8 - 0.5) / (40.32 - 10.08)
    assert found.front_m == pytest.approx(3 + 4 / each / BAG)
    assert found.used == 12
    assert found.strip == 2


def test_an_edge_at_a_dam_waits_for_nothing() -> None:
    """The first bay ends at the dam: once its last strip is poured, only new edges are due."""
    floor = pouring("dam at 3 metres")
    batches(floor, 7)
    plan = plan_known(floor.job)
    assert plan is not None
    assert plan.strips[0].strip.edge_wait_min is None
    assert progress_of(floor.job).strip == 2
    # its own begins where 10.08 bags lay, 15.12 minutes on
    assert minutes_left(floor) == pytest.approx(15.12 + 17, abs=0.01)


def test_the_edge_is_told_two_minutes_before_it_is_lost_and_then() -> None:
    floor = pouring()
    batches(floor, 1)
    begun = floor.job.pour.batches[0].time

    def rung(after: float, until: float) -> list[str]:
        found = pour_rung_between(
            floor.job, begun + timedelta(minutes=after), begun + timedelta(minutes=until)
        )
        return [each.clock for each in found]

    for after, until, told in (
        (0, 14.9, []), (14.9, 15, ["edge"]), (15, 16.9, []), (16, 17, ["edge-lost"]),
        (17, 30, []), (14, 17, ["edge-lost"]), (16, 15, []), (17, 17, []),
    ):  # fmt: skip
        assert rung(after, until) == told, (after, until)
    times = [begun + timedelta(minutes=each) for each in (0, 15.5, 20)]
    both = tuple(each for pair in pairwise(times) for each in pour_rung_between(floor.job, *pair))
    for minutes, left in ((14.9, ["edge-lost"]), (15, ["edge", "edge-lost"])):
        still = not_met_since(both, floor.job, begun + timedelta(minutes=minutes))
        assert [each.clock for each in still] == left, minutes
    assert pour_rung_between(Site(*LEVEL).job, begun, begun + timedelta(minutes=99)) == ()
