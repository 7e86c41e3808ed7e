"""A pour's progress and its forecast, each rule by itself. Exact arithmetic."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.floor.pour.bays import edge_limit_min
from assistant.floor.pour.parts import (
    Part,
    plan_known,
)
from assistant.floor.pour.placing import placing_of
from assistant.floor.pour.plan import PourPlan, plan_of
from assistant.floor.pour.progress import (
    EDGE_WARNED,
    Progress,
    behind_min,
    card_poured,
    edge_due,
    progress_of,
    strip_start_bags,
)
from assistant.floor.pour.stock import Stock, expected_of
from assistant.pours.forecast import forecast
from tests.floor.plans import LEVEL, batches, pouring
from tests.job.conftest import Site
from tests.there import there

BAG = 10.08 / 3
"""Bags to a metre of the level floor."""
NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)


def part(planned_bags: float, used: int, bay: int = 1, to_m: float = 1.0, batch: int = 0) -> Part:
    return Part(planned_bags, used, None, 0.0, to_m, bay, 1.0, batch=batch)


def progress(
    used: int = 10,
    planned_bags: float | None = 40.32,
    parts: tuple[Part, ...] = (),
    seen: Any = None,
    ratio: float = 1.0,
    at_hand: int | None = None,
    due: datetime | None = None,
) -> Progress:
    stocks: tuple[Stock, ...] = ()
    if seen is not None and planned_bags is not None:
        seen.ratio = ratio
        stocks = (Stock("", used, planned_bags, parts, seen, at_hand, counted=True),)
    return Progress(used, planned_bags, parts, 3.0, 1, due, stocks, counted=at_hand)


def test_more_bags_than_planned_are_over_the_plan_until_the_end_is_told() -> None:
    for used, planned_bags, seen, over in (
        (41, 40.32, 0, False), (42, 40.32, 0, True), (42, 40.32, 40.3, True),
        (42, 40.32, 40.32 + 5e-7, False), (42, 40.32, 40.32 - 5e-7, False),
        (42, 40.32, 40.32, False), (42, None, 0, False), (41, 41.0, 0, False), (42, 41.0, 0, True),
    ):  # fmt: skip
        found = progress(used, planned_bags, (part(seen, 9),), SimpleNamespace())
        assert found.over_plan is over, (used, seen)
    whole = (part(20, 9), part(20.32, 9))
    assert progress(42, 40.32, whole, SimpleNamespace()).over_plan is False


def test_a_batch_may_be_missing_where_far_less_was_used() -> None:
    far, near = SimpleNamespace(far_less=True), SimpleNamespace(far_less=False)
    for ratio, used, batch, seen, missing in (
        (0.5, 3, 2, far, True), (0.5, 4, 2, far, False), (0.5, 3, 2, near, False),
        (1.0, 8, 2, far, True), (1.0, 9, 2, far, False), (1.0, 9, 0, far, True),
        (1.0, 10, 0, far, False), (1.0, 3, 2, None, False),
    ):  # fmt: skip
        parts = (part(99, 1), part(10, used, batch=batch))
        found = progress(parts=parts, planned_bags=200.0, seen=seen, ratio=ratio)
        assert found.batch_missing is missing, used
    assert progress(seen=far).batch_missing is False


def test_what_is_not_known_is_told_as_nothing() -> None:
    seen = SimpleNamespace(
        asks=True, interval=(30.0, 50.0), mean=40.0, far_less=False,
        short=lambda bags: bags < 40, chance_short=lambda bags: 0.9 if bags < 40 else 0.1,
        front_tells=lambda bags: bags < 40,
    )  # fmt: skip
    for forecast_, at_hand, short, chance in (
        (seen, 39, True, 0.9), (seen, 40, False, 0.1), (seen, None, False, None),
        (None, 39, False, None), (None, None, False, None),
    ):  # fmt: skip
        found = progress(parts=(part(10, 9),), seen=forecast_, at_hand=at_hand)
        assert (found.short, found.short_probability) == (short, chance)
        assert found.asks is (forecast_ is not None)
        assert not found.asks_front  # one question at a time
    assert not progress(seen=seen).asks  # nothing is poured that could have gone down
    data = progress(
        parts=(part(10, 9),), seen=seen, at_hand=39, due=NOON + timedelta(minutes=7)
    ).as_data(NOON)
    assert data["wet_edge_min"] == 7
    assert data["forecast_bags"] == [30, 40, 50]
    assert (data["asks"], data["short_probability"]) == ("hole", 0.9)
    bare = progress().as_data(NOON)
    assert bare["forecast_bags"] is bare["wet_edge_min"] is bare["asks"] is None
    assert timedelta(minutes=2) == EDGE_WARNED


def test_without_a_plan_bags_are_counted_and_the_edge_waits_by_the_card() -> None:
    """Example standard: 20 minutes, less 3 of mixing."""
    floor = Site("product example standard", "batch 2 bags")
    floor.wait(5)
    floor.told("batch 3 bags")
    found = progress_of(floor.job)
    assert (found.used, found.planned, found.ratio, found.parts) == (5, None, 1.0, ())
    assert (found.forecast, found.strip, found.front_m) == (None, None, None)
    limit = timedelta(minutes=edge_limit_min(there(floor.job.card)))
    assert found.edge_due == floor.job.pour.batches[-1].time + limit


def test_an_edge_waits_less_by_mixing_and_slaking_and_a_minute_at_least() -> None:
    def card(working: float, mixing: float | None, slaking: float | None) -> Any:
        return SimpleNamespace(working_time_min=working, mixing_min=mixing, slaking_min=slaking)

    for working, mixing, slaking, minutes in (
        (20, 3, 2, 15), (20, 3, None, 17), (20, None, 2, 18), (20, None, None, 20), (4, 3, 2, 1),
        (5, 3, 1, 1), (6.5, 3, 2, 1.5),
    ):  # fmt: skip
        assert edge_limit_min(card(working, mixing, slaking)) == minutes


def test_with_a_plan_and_no_strips_the_edge_waits_by_the_shortest_of_its_products() -> None:
    """Example deep fill waits 20 minutes and example standard 17."""
    lines = (*LEVEL[:9], "zone kitchen columns A to C", "product in kitchen example deep fill")
    floor = Site(*lines, "batch 2 bags")
    found = progress_of(floor.job)
    assert found.strip is None
    last = floor.job.pour.batches[-1].time
    assert found.edge_due == last + timedelta(minutes=17)
    assert edge_due(floor.job, None, None) == last + timedelta(minutes=17)
    other = Site("product example deep fill", "batch 2 bags")
    assert edge_due(other.job, None, None) == other.job.pour.batches[-1].time + timedelta(
        minutes=20
    )


def test_the_card_that_is_poured_is_that_of_the_strip() -> None:
    lines = (*LEVEL, "zone kitchen columns A to C", "product in kitchen example deep fill",
             "start pour anyway because this is a test")  # fmt: skip
    floor = Site(*lines)
    plan = there(plan_known(floor.job))
    assert there(card_poured(floor.job)).name == plan.floor[0].alike.card.name
    floor.told("batch 20 bags", "batch 18 bags")
    second = there(card_poured(floor.job)).name
    assert second == plan.floor[1].alike.card.name != plan.floor[0].alike.card.name
    bare = Site("product example standard", "batch 2 bags")
    assert card_poured(bare.job) is bare.job.card
    paceless = Site(*LEVEL[:9], "batch 2 bags")
    assert card_poured(paceless.job) is paceless.job.card


def test_the_forecast_is_made_of_the_parts_as_they_were_told() -> None:
    """Eighteen bags to 3 m, a fifth and a batch of strips of 10.08."""
    for answer, lost in (("hole", 1.0), ("no hole", -1.0), (None, 0.0)):
        floor = pouring()
        batches(floor, 9)
        floor.told("front at 3 metres", *([answer] if answer else []))
        plan = plan_of(floor.job)
        found = there(progress_of(floor.job).forecast)
        expected = forecast([10.08], [18.0], 30.24, expected_of(floor.job, plan), lost=[lost],
                            part=10.08, beyond=[0.0])  # fmt: skip
        assert float(found.mean) == pytest.approx(float(expected.mean)), answer
        assert float(found.sd) == pytest.approx(float(expected.sd)), answer
        assert float(found.ratio) == pytest.approx(float(expected.ratio))
        assert float(found.hole_chance) == pytest.approx(float(expected.hole_chance))


def test_of_a_plan_without_strips_a_quarter_is_looked_at_at_once() -> None:
    floor = Site(*LEVEL[:9], "batch 10 bags", "front at 3 metres")
    plan = plan_of(floor.job)
    assert plan.strips == ()
    found = there(progress_of(floor.job).forecast)
    expected = forecast([10.08], [10.0], 30.24, expected_of(floor.job, plan), lost=[0.0],
                        part=10.08, beyond=[0.0])  # fmt: skip
    assert float(found.mean) == pytest.approx(float(expected.mean))
    assert float(found.sd) == pytest.approx(float(expected.sd))


def test_bags_that_were_more_than_all_the_rest_was_to_take_are_a_part() -> None:
    floor = pouring("batch 20 bags", "front at 6 metres", "batch 20 bags")
    plan = plan_of(floor.job)
    expected = forecast([20.16], [20.0], 20.16, expected_of(floor.job, plan), lost=[0.0],
                        part=10.08, beyond=[0.0])  # fmt: skip
    assert float(there(progress_of(floor.job).forecast).mean) == pytest.approx(float(expected.mean))
    floor.told("batch 15 bags")
    over = forecast([20.16, 20.16], [20.0, 35.0], 0.0, expected_of(floor.job, plan),
                    lost=[0.0, -1.0], part=10.08, beyond=[0.0, 0.0])  # fmt: skip
    found = there(progress_of(floor.job).forecast)
    assert float(found.mean) == pytest.approx(float(over.mean))
    assert float(found.sd) == pytest.approx(float(over.sd))


def test_of_a_strip_told_done_some_of_its_last_batch_lies_beyond() -> None:
    """Eight bags to 3 m, where 10.08 were planned: less than one of the last two, and it counts for
    the next strip."""
    floor = pouring()
    batches(floor, 4)
    floor.told("strip 1 done")
    found = progress_of(floor.job)
    assert found.parts[0].beyond == 2
    (past,) = there(found.stock).past
    assert 0 < past < 1
    assert found.front_m == pytest.approx(3 + past / found.ratio / BAG)
    batches(floor, 1)
    found = progress_of(floor.job)
    assert found.front_m == pytest.approx(3 + (past + 2) / found.ratio / BAG)
    read = pouring()
    batches(read, 4)
    read.told("front at 3 metres")
    assert progress_of(read.job).parts[0].beyond == 0
    assert progress_of(read.job).front_m == pytest.approx(3)


def test_how_far_behind_its_plan_a_pour_is() -> None:
    """Two bags each 3 minutes are as planned; the first was mixed before the clock began."""
    floor = pouring()
    assert behind_min(floor.job, floor.now) is None
    batches(floor, 1)
    assert behind_min(floor.job, floor.now) is None
    for minutes, behind in ((3, 0), (5, 2), (2, 1), (1, -1)):
        batches(floor, 1, minutes)
        found = behind_min(floor.job, floor.now)
        assert found == pytest.approx(behind), minutes
    bare = Site(*LEVEL[:9], "batch 2 bags", "batch 2 bags")
    assert placing_of(bare.job) is None
    assert behind_min(bare.job, bare.now) is None


def test_bags_before_a_strip_are_those_planned_where_nothing_was_told() -> None:
    floor = pouring()
    plan = there(plan_known(floor.job))
    starts = [strip_start_bags(floor.job, plan, strip) for strip in plan.strips]
    assert starts == pytest.approx([0, 10.08, 20.16, 30.24])
    batches(floor, 4)
    floor.told("front at 3 metres")
    # in several bays a distance names no strip
    apart = PourPlan(plan.way, plan.strips, (*plan.floor, *plan.floor), plan.placing, plan.whole, 8)
    assert strip_start_bags(floor.job, apart, plan.strips[1]) == pytest.approx(10.08)
    assert strip_start_bags(floor.job, plan, plan.strips[1]) == 8


def test_an_edge_is_due_by_the_place_of_the_front_in_the_strip_beside_it() -> None:
    """Sixteen bags: the second strip of 10.08 bags has had 5.92 of them, the third none."""
    floor = pouring()
    batches(floor, 8)
    begun = floor.job.pour.batches[0].time
    plan = there(plan_known(floor.job))
    for strip, minutes in (
        (plan.strips[1], (15.12 * 5.92 / 10.08)), (plan.strips[0], 15.12), (plan.strips[2], 15.12),
    ):  # fmt: skip
        due = there(edge_due(floor.job, plan, strip))
        # the first strip has begun with the first batch; the third has not been begun
        expected = {1: 0.0, 2: minutes, 3: 15.12}[strip.number]
        assert (due - begun).total_seconds() / 60 - 17 == pytest.approx(expected, abs=0.01)
