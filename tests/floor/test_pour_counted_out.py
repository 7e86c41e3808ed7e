"""A pour's progress, forecast, parts and bays, each rule by itself. Exact arithmetic."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.events.pour import FrontReached, StripPoured
from assistant.floor.pour.bays import _turn, bays_of, edge_limit_min, poured_alike
from assistant.floor.pour.litres import laid_of
from assistant.floor.pour.parts import (
    Part,
    _by_product,
    _last_batch,
    _last_part,
    bay_of_front,
    front_m,
    parts_of,
    plan_known,
)
from assistant.floor.pour.placing import placing_of
from assistant.floor.pour.plan import PourPlan, plan_of, planned
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
from assistant.floor.pour.way import way_of
from assistant.job.pour import Front
from assistant.pours.forecast import forecast
from tests.floor.plans import LEVEL, ONE_BAY, TWO_BAYS, a_plan, batches, pouring
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


# --- parts ----------------------------------------------------------------------------------


def test_the_last_part_begins_where_the_front_stood_or_in_the_next_bay() -> None:
    floor = pouring("batch 20 bags", "pour finished")
    for parts, from_m, bay in (
        ((), 0.0, 1), ((part(6, 4, to_m=3),), 3.0, 1), ((part(10, 4, to_m=5),), 0.0, 2),
        ((part(10, 4, to_m=5), part(4, 4, 2, 2.0)), 2.0, 2), ((part(9, 4, to_m=4.999),), 4.999, 1),
    ):  # fmt: skip
        done = sum(each.planned_bags for each in parts)
        (last,) = _last_part(floor.job, TWO_BAYS, done, 8, parts)
        assert (last.from_m, last.bay) == (from_m, bay), parts
        assert last.planned_bags == pytest.approx(20 - done)
        assert last.used_bags == 12
        assert last.to_m == 5
        assert last.area_m2 == pytest.approx(10 - len(parts))
        assert last.lost is None
    assert _last_part(floor.job, TWO_BAYS, 20, 8, (part(20, 8),)) == ()
    assert _last_part(floor.job, TWO_BAYS, 10, 20, (part(10, 20),)) == ()
    going_on = pouring("batch 20 bags")
    assert _last_part(going_on.job, TWO_BAYS, 0, 8, ()) == ()
    # at the end of the last bay there is no next one
    (end,) = _last_part(floor.job, TWO_BAYS, 19, 8, (part(10, 4, to_m=5), part(9, 4, 2, 5.0)))
    assert (end.from_m, end.bay) == (5.0, 2)


def test_the_last_batch_before_a_front_is_the_one_poured_by_then() -> None:
    floor = pouring()
    for minutes, line in ((3, "batch 3 bags"), (3, "batch 4 bags"), (3, "batch 5 bags")):
        floor.wait(minutes)
        floor.told(line)
    begun = floor.job.pour.batches[0].time
    for after, bags in ((-1.0, 0), (0, 3), (2.9, 3), (3, 4), (6, 5), (99, 5)):
        at = Front(begun + timedelta(minutes=after), FrontReached(None, "B", None), 0)
        assert _last_batch(floor.job, at) == bags, after


def test_some_of_a_strips_last_batch_lies_beyond_its_end_or_is_left_over() -> None:
    """Past a dam the pour goes on with it; at the wall, and where another product begins, nobody
    pours it. A front that was read stands where it was read."""
    floor = pouring("dam at 6 metres")
    for number in (1, 2, 3, 4):
        floor.wait(20)
        floor.told("batch 10 bags", f"strip {number} done")
    assert [part.beyond for part in progress_of(floor.job).parts] == [10, 10, 10, 10]
    assert 0 < there(progress_of(floor.job).stock).past[-1] < 10
    two = Site(*LEVEL, "zone kitchen columns A to C", "product in kitchen example deep fill",
               "start pour anyway because this is a test")  # fmt: skip
    strips = there(plan_known(two.job)).strips
    for each in strips:
        two.wait(20)
        two.told(f"batch {each.bags + 1} bags", f"strip {each.number} done")
    found = progress_of(two.job)
    laid = laid_of(two.job)
    for at, (part, one) in enumerate(zip(found.parts, laid, strict=True)):
        assert part.beyond == strips[at].bags + 1
        stock = next(each for each in found.stocks if each.product == part.product)
        own = [each for each in found.parts if each.product == part.product]
        past = stock.past[own.index(part)]
        from_before = stock.past[own.index(part) - 1] if own.index(part) else 0.0
        bay = there(plan_known(two.job)).floor[part.bay - 1]
        bags = part.used_bags - past + from_before
        assert one.litres == pytest.approx(bags * 1000 * bay.alike.bag_m3), at
    read = pouring("batch 10 bags", "front at 3 metres")
    assert progress_of(read.job).parts[0].beyond == 0


def test_the_rest_of_the_last_batch_is_no_hole() -> None:
    """41 bags for 40.32, the last two for a third of a bag: most of that barrel is left over."""
    floor = pouring("batch 20 bags", "batch 20 bags", "front at 11.9 metres", "batch 2 bags")
    floor.told("strip 4 done")
    found = progress_of(floor.job)
    assert not found.asks
    assert found.used == 42
    assert float(there(found.forecast).mean) == pytest.approx(42)
    last = laid_of(floor.job)[-1]
    assert there(last.mean_depth_mm) < 12


def test_a_part_is_cut_where_its_product_changes() -> None:
    """Bags by the plan of each piece; the hole is the last one's, and within its batch each ends.

    Ten bags of each product on 5 m from 0.5 m on; a square metre and a half to the metre.
    """
    names = {1: "deep", 2: "thin"}
    bays: list[Any] = [
        SimpleNamespace(number=number, bags=10.0, offset_m=0.5, to_m=5.5,
                        alike=SimpleNamespace(card=SimpleNamespace(name=name)))
        for number, name in names.items()
    ]  # fmt: skip
    plan: Any = SimpleNamespace(
        products=tuple(names.values()), floor=tuple(bays),
        bags_before=lambda bay: 10.0 * (bay.number - 1),
        area_to_m2=lambda bay, at: 7.5 * (bay.number - 1) + 1.5 * (at - bay.offset_m),
    )  # fmt: skip
    near: Any = pytest.approx
    for before, used, first, second in (
        (6.0, 12, (4.0, 6, 3.5), (4.0, 6)), (9.5, 16, (0.5, 1, 5.25), (7.5, 15)),
    ):  # fmt: skip
        to_m = 0.5 + second[0] / 2
        whole = Part(first[0] + second[0], used, True, first[2], to_m, 2, 9.0, 3, 2, "thin")
        assert _by_product(plan, before, whole) == [
            Part(first[0], first[1], None, first[2], 5.5, 1, near(1.5 * (5.5 - first[2])), 2, 2,
                 "deep"),
            Part(near(second[0]), second[1], True, 0.5, to_m, 2, near(1.5 * (to_m - 0.5)), 3, 2,
                 "thin"),
        ]  # fmt: skip
    within = Part(4.0, 5, True, 0.5, 2.5, 1, 3.0, 3, 2, "deep")
    assert _by_product(plan, 0.0, within) == [within]
    assert _by_product(plan, 10.0, within) == [within]


def test_a_front_told_once_more_with_no_batch_since_is_where_the_same_bags_end() -> None:
    floor = pouring("batch 10 bags", "front at 2.8 metres", "front at 3 metres")
    (part_,) = progress_of(floor.job).parts
    assert (part_.from_m, part_.to_m, part_.used_bags) == (0, 3, 10)
    assert part_.planned_bags == pytest.approx(3 * BAG)
    assert part_.area_m2 == pytest.approx(24)
    # what is then said of a hole is said of all of it
    floor.told("hole")
    assert progress_of(floor.job).parts[0].lost is True
    # a strip whose end was read just before does not lie within a batch
    floor = pouring("batch 10 bags", "front at 2.8 metres", "strip 1 done")
    assert [each.beyond for each in progress_of(floor.job).parts] == [0]
    both = pouring("batch 10 bags", "strip 1 done", "strip 2 done")
    assert [each.beyond for each in progress_of(both.job).parts] == [10]


def test_bags_after_the_last_strip_are_its_own() -> None:
    """Called done too early: what is poured then is used all the same."""
    floor = pouring("batch 20 bags", "batch 20 bags")
    for line, used, batch, beyond in (
        ("front at 12 metres", 40, 20, 0), ("batch 2 bags", 42, 2, 0), ("batch 3 bags", 45, 3, 0),
    ):  # fmt: skip
        floor.wait(3)
        floor.told(line)
        (part_,) = progress_of(floor.job).parts
        assert (part_.used_bags, part_.batch, part_.beyond) == (used, batch, beyond), line
        low, high = (float(bags) for bags in there(progress_of(floor.job).forecast).interval)
        assert low == pytest.approx(used)
        assert high == pytest.approx(used)
        assert there(progress_of(floor.job).stock).since == 0
    floor = pouring("batch 20 bags", "batch 20 bags", "strip 4 done")
    floor.wait(3)
    floor.told("batch 2 bags")
    (part_,) = progress_of(floor.job).parts
    assert (part_.used_bags, part_.beyond) == (42, 2)


def test_a_front_that_is_no_farther_than_the_last_is_no_part() -> None:
    floor = pouring("batch 10 bags", "front at 3 metres", "batch 10 bags", "front at 6 metres")
    plan = there(plan_known(floor.job))
    assert [each.to_m for each in parts_of(floor.job, plan)] == [3, 6]
    # a plan that changed since: its fronts lie otherwise, and what is behind another counts not
    back = a_plan(((3, 6), (2, 0), (3, 6)))
    assert [each.planned_bags for each in parts_of(floor.job, back)] == pytest.approx([6, 2])
    level = a_plan(((3, 6), (3, 0), (3, 6)))
    assert [each.to_m for each in parts_of(floor.job, level)] == [3]
    # of a strip that the plan has no more, the bay is found by how far it lies
    assert there(bay_of_front(TWO_BAYS, StripPoured(9, 4.0), 4.0, 0)).number == 1
    assert there(bay_of_front(TWO_BAYS, StripPoured(9, 4.0), 4.0, 8)).number == 2
    assert there(bay_of_front(ONE_BAY, StripPoured(3, 8.0), 8.0, 99)).number == 1


def test_the_parts_of_two_bays_begin_where_each_bay_does() -> None:
    floor = pouring("batch 10 bags", "front at 3 metres", "batch 10 bags", "front at 5 metres",
                    "batch 10 bags")  # fmt: skip
    job = floor.job
    first, second = parts_of(job, TWO_BAYS)
    assert (first.bay, first.from_m, first.to_m) == (1, 0, 3)
    assert (second.bay, second.from_m, second.to_m) == (1, 3, 5)
    assert (first.planned_bags, second.planned_bags) == pytest.approx((6, 4))
    assert (first.area_m2, second.area_m2) == pytest.approx((3, 2))
    assert (first.used_bags, second.used_bags) == (10, 10)
    told = job.pour.fronts[0].at
    assert isinstance(told, FrontReached)
    third = (*job.pour.fronts, Front(NOON, told, 30))
    pour: Any = SimpleNamespace(fronts=third, batches=job.pour.batches, bags_used=30, stopped=None)
    later: Any = SimpleNamespace(pour=pour, site=job.site, slab=None, finished=None)
    *_, last = parts_of(later, TWO_BAYS)
    assert (last.bay, last.from_m, last.to_m) == (2, 0, 3)
    assert last.planned_bags == pytest.approx(6)


def test_how_far_a_front_lies_by_its_column_row_or_distance() -> None:
    job = pouring().job
    assert front_m(job, StripPoured(1, 3.0)) == 3
    assert front_m(job, FrontReached(None, "C", None)) == 5
    assert front_m(pouring("start at column F").job, FrontReached(None, "C", None)) == 7
    assert "say it by rows" in pouring("start at row 1").refused("front at column C")
    assert "say it by columns" in pouring().refused("front at row 2")


# --- bays -----------------------------------------------------------------------------------


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
