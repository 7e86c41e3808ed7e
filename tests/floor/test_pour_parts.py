"""The parts that a pour's bags went to, each rule by itself. Exact arithmetic."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.events.pour import FrontReached, StripPoured
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
from assistant.floor.pour.progress import (
    progress_of,
)
from assistant.job.pour import Front
from tests.floor.plans import LEVEL, ONE_BAY, TWO_BAYS, a_plan, pouring
from tests.job.conftest import Site
from tests.there import there

BAG = 10.08 / 3
"""Bags to a metre of the level floor."""
NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)


def part(planned_bags: float, used: int, bay: int = 1, to_m: float = 1.0, batch: int = 0) -> Part:
    return Part(planned_bags, used, None, 0.0, to_m, bay, 1.0, batch=batch)


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
