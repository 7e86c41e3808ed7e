"""What can be done where bags run short, on a level floor 6 mm deep. Exact arithmetic."""

from __future__ import annotations

from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.floor.pour.parts import Part
from assistant.floor.pour.plan import plan_of
from assistant.floor.pour.short import WaysOut, ways_out
from assistant.floor.pour.stock import ratio_of_rest
from tests.floor.plans import LEVEL, pouring
from tests.job.conftest import Site

BAG = 10.08 / 3
"""Bags to a metre of the level floor."""
FIRST = (Part(10.08, 10, None, 0.0, 3.0, 1, 24.0),)
"""The first strip, poured with as good as it should have."""


def found(
    floor: Site,
    at_hand: int,
    mean: float,
    high: float,
    parts: tuple[Part, ...] = FIRST,
    since: int = 0,
    past: float = 0.0,
) -> WaysOut:
    plan = plan_of(floor.job)
    poured, spent = (
        sum(counts)
        for counts in zip(
            (0.0, 0), *((part.planned_bags, part.used_bags) for part in parts), strict=True
        )
    )
    rest: Any = (mean - spent) / (plan.bags - poured)
    forecast: Any = SimpleNamespace(interval=(0.0, high), mean=mean, ratio=rest)
    ratio = ratio_of_rest(forecast, parts, plan.bags - poured)
    stock: Any = SimpleNamespace(
        forecast=forecast, at_hand=at_hand, parts=parts, ratio=ratio, past=(past,) * len(parts),
        used=spent + since, since=since,
    )  # fmt: skip
    return ways_out(floor.job, plan, stock, parts)


def test_how_far_the_bags_go_and_where_a_dam_can_stand() -> None:
    """Each metre takes 3.36 bags where a planned bag comes to one, and 6.72 where to two."""
    floor = pouring()
    for at_hand, mean, stops_at, dam in (
        (32, 40.24, 3 + 22 / 3.36, 9), (20, 40.24, 3 + 10 / 3.36, None), (31, 40.24, 9.25, 9),
        (32, 10 + 60.48, 3 + 22 / 6.72, 6), (10, 40.24, 3, None), (8, 40.24, 3, None),
        (12, 10.5, 3 + 2 / 3.36 / 0.2, None), (99, 40.24, 12, 12),
        (40, 40.24, 12 - 0.24 / 3.36, 9),  # a quarter of a bag short is short
    ):  # fmt: skip
        ways = found(floor, at_hand, mean, 50.0)
        assert ways.from_m == 3
        assert ways.stops_at_m == pytest.approx(stops_at, abs=1e-6 if dam != 9 else 1e-2), at_hand
        assert ways.dam_m == (None if dam is None else pytest.approx(dam)), (at_hand, mean)
        assert ways.do is (at_hand == 99)


def test_what_is_poured_since_the_last_front_is_neither_lowered_nor_parted() -> None:
    """Eleven bags after the first strip are 3.27 m more; six that are left go 1.79 m from there."""
    floor = pouring()
    ways = found(floor, 27, 40.24, 50.0, since=11)
    assert ways.from_m == pytest.approx(3 + 11 / BAG, abs=1e-2)
    assert ways.stops_at_m == pytest.approx(3 + 17 / BAG, abs=1e-2)
    assert ways.dam_m is None  # the edge at 9 m is not reached, that at 6 m is poured over
    assert found(floor, 31, 40.24, 50.0, since=11).dam_m == pytest.approx(9)
    # 6 bags for what takes 19.24 at 6 mm: 1.87 mm deep, so 5 mm lower
    assert ways.lower_mm == 5
    assert ways.least_left_mm == 1
    before = found(floor, 26, 40.24, 50.0, (), since=10)
    assert before.from_m == pytest.approx(10 / BAG, abs=1e-3)
    assert found(floor, 45, 40.24, 50.0, since=34).stops_at_m == pytest.approx(12)


def test_what_the_last_batch_laid_beyond_its_strip_is_there_for_the_next() -> None:
    """3 bags of it: 25 are left at the front; or, said since, they are poured already."""
    floor = pouring()
    for mean, ratio in ((40.24, 1), (10 + 60.48, 2)):
        ways = found(floor, 32, mean, 50.0, past=3)
        assert ways.from_m == 3
        assert ways.stops_at_m == pytest.approx(3 + 25 / ratio / BAG, abs=1e-2)
        # 11 since and 3 before them are 14 beyond the front at 3 m, and 11 are left
        ways = found(floor, 32, mean, 50.0, since=11, past=3)
        assert ways.from_m == pytest.approx(3 + 14 / ratio / BAG, abs=1e-2)
        assert ways.stops_at_m == pytest.approx(3 + 25 / ratio / BAG, abs=1e-2)


def test_at_the_end_something_is_left_that_can_be_lower() -> None:
    floor = pouring()
    end = Part(40.0, 40, None, 0.0, 12.0, 1, 96.0)
    assert found(floor, 45, 40.3, 50.0, (end,)).from_m == 12
    since = found(floor, 45, 40.24, 50.0, since=34)
    assert 11.99 < since.from_m < 12
    assert since.do


def test_before_the_first_front_all_of_it_is_left() -> None:
    ways = found(pouring(), 20, 40.32, 41.0, ())
    assert ways.from_m == 0
    assert ways.stops_at_m == pytest.approx(20 / 3.36)
    assert ways.dam_m == pytest.approx(3)


def test_with_bays_a_dam_is_the_last_edge_that_is_reached() -> None:
    """Bays of 3 and 5 of 8 m: 15.12 bags, then 25.2 over 12 m, of which 4.88 are there."""
    ways = found(pouring("dam at row 2"), 20, 40.32, 41.0, ())
    assert ways.dam_m == pytest.approx(12)
    assert ways.stops_at_m == pytest.approx(12 * 4.88 / 25.2, abs=0.01)


def test_the_rest_of_a_bay_is_poured_before_the_next() -> None:
    """Half a metre of it is left, or nothing but what floats make of it."""
    floor = pouring("dam at row 2")
    first, second = plan_of(floor.job).floor[:2]
    for left_m, from_m in (
        (0.5, first.to_m - 0.5),
        (0.0, second.offset_m),
        (1e-9, second.offset_m),
    ):
        part = Part(1.0, 1, None, first.offset_m, first.to_m - left_m, 1, 2.0)
        assert found(floor, 20, 40.32, 41.0, (part,)).from_m == pytest.approx(from_m), left_m


def test_bags_that_are_enough_stop_at_the_end_of_what_is_poured_with_them() -> None:
    """Rows 3 and 4 are another product: their bay ends at 12 m, the next begins at 0."""
    floor = pouring("zone hall rows 3 to 4", "product in hall example deep fill")
    assert [(bay.offset_m, bay.to_m) for bay in plan_of(floor.job).floor] == [(0, 12), (0, 12)]
    ways = found(floor, 60, 41.0, 50.0, ())
    assert (ways.stops_at_m, ways.do) == (12, True)


def test_in_a_later_bay_only_what_is_left_of_that_is_lowered() -> None:
    """6 m of the second bay are left, 12.6 bags for 6 mm: for 8 of them 2.19 mm less, so 3."""
    floor = pouring("dam at row 2")
    second = plan_of(floor.job).floor[1]
    parts = (
        Part(15.12, 15, None, 0.0, 12.0, 1, 36.0),
        Part(12.6, 12, None, second.offset_m, second.offset_m + 6, 2, 30.0),
    )
    ways = found(floor, 35, 27 + 12.6, 50.0, parts)
    assert ways.from_m == pytest.approx(second.offset_m + 6)
    assert ways.lower_mm == 3
    assert ways.stops_at_m == pytest.approx(second.offset_m + 6 + 8 / 2.1, abs=0.01)


def test_bags_more_reach_the_upper_end() -> None:
    floor = pouring()
    for at_hand, high, more in ((32, 40.5, 9), (32, 40.0, 8), (32, 32.0, 0), (32, 20.0, 0),
                                (32, 32.001, 1), (32, 41.0, 9)):  # fmt: skip
        assert found(floor, at_hand, 40.24, high).more_bags == more, high


def test_how_much_lower_the_rest_has_to_be() -> None:
    """
    Of 6 mm over 9 m by 8 m, 432 L, a bag makes 100/7 L: 25 bags leave 4.96 mm, 10 bags 1.98 mm.

    Bags for all of it need nothing lower, and none at all only what takes nothing.
    """
    floor = pouring()
    for bags, lower in ((30, 1), (31, 0), (25, 2), (26, 1), (20, 3), (10, 5), (2, 6)):
        ways = found(floor, 10 + bags, 40.24, 41.0)
        assert ways.lower_mm == lower, bags
        assert ways.least_left_mm == pytest.approx(6 - lower)


def test_in_inches_it_is_lower_by_whole_sixteenths() -> None:
    """25 bags leave 4.96 of 6.35 mm, so that 1.39 mm have to go: a sixteenth, 1.5875 mm."""
    readings = [f'{point} 1/4" low' for point in ("A1", "F1", "A4", "F4", "C2", "D3")]
    lines = (*LEVEL[:3], "readings in inches", *readings, *LEVEL[9:])
    floor = Site(*lines, "start pour anyway because this is a test")
    parts = (Part(10.668, 10, None, 0.0, 3.0, 1, 24.0),)
    for bags, sixteenths in ((25, 1), (20, 2), (23, 2), (32, 1)):
        ways = found(floor, 10 + bags, 10 + 32.004, 50.0, parts)
        assert ways.lower_mm == sixteenths * Fraction(254, 160), bags
        assert ways.least_left_mm == pytest.approx(6.35 - sixteenths * 1.5875)
