"""
Bays of a pour, counted out by hand.

12 m by 8 m; the kitchen, 6 m of it, is to be 10 mm deep, the rest 6 mm. A bag of example standard
makes 100/7 L: 33.6 bags and 20.16. Exact arithmetic.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.errors import Refusal
from assistant.floor.pour_bays import bay_at, even_lines_m, poured_alike
from assistant.floor.pour_plan import PourPlan, plan_of
from tests.job.conftest import Site

LEVEL = (
    "room 12 by 8 metres", "grid 2 metres", "product example standard", "A1 -6", "F4 -6",
    "zone kitchen columns A to C", "start at column A",
)  # fmt: skip
KITCHEN = (*LEVEL, "finish in kitchen +4 mm")
MIXERS = ("mixers 2", "batches of 2 bags", "minutes per batch 6")


def plan(*lines: str) -> PourPlan:
    return plan_of(Site(*lines).job)


def test_the_deeper_bay_is_poured_first_but_the_one_at_the_way_out_last() -> None:
    out = ("door 1 at A2", "way out is door 1")
    for lines, order in (
        (KITCHEN, [("kitchen", 0, 6, 33.6), ("rest", 6, 12, 20.16)]),
        ((*LEVEL, "finish in kitchen -2 mm"), [("rest", 6, 12, 20.16), ("kitchen", 0, 6, 13.44)]),
        ((*KITCHEN, *out), [("rest", 6, 12, 20.16), ("kitchen", 0, 6, 33.6)]),
        (LEVEL, [("", 0, 12, 40.32)]),
    ):
        found = plan(*lines).floor
        assert [bay.number for bay in found] == list(range(1, len(order) + 1))
        for bay, (zone, near, far, bags) in zip(found, order, strict=True):
            assert bay.alike.zones == ((zone,) if zone else ()), lines
            assert (bay.offset_m, bay.to_m, bay.bags) == pytest.approx((near, far, bags)), lines
            assert bay.shape.area == pytest.approx((far - near) * 8)


def test_bags_and_area_up_to_a_front_in_each_bay() -> None:
    whole = plan(*KITCHEN)
    kitchen, rest = whole.floor
    assert whole.bays == 2
    assert whole.bags == pytest.approx(53.76)
    for bags, number in ((0, 1), (33.5, 1), (33.6, 2), (33.7, 2), (53.7, 2), (99, 2)):
        assert whole.bay_with(bags).number == number, bags
    assert [whole.bags_before(bay) for bay in whole.floor] == pytest.approx([0, 33.6])
    for bay, at_m, bags, area in (
        (kitchen, 0, 0, 0), (kitchen, 3, 16.8, 24), (kitchen, 6, 33.6, 48), (rest, 6, 33.6, 48),
        (rest, 9, 33.6 + 10.08, 72), (rest, 12, 53.76, 96), (kitchen, 9, 33.6, 48),
        (rest, 3, 33.6, 48),
    ):  # fmt: skip
        assert whole.bags_to(bay, at_m) == pytest.approx(bags), at_m
        assert whole.area_to_m2(bay, at_m) == pytest.approx(area, abs=1e-9), at_m
    for bags, front in ((0, 0), (16.8, 3), (33.6, 6), (43.68, 9), (53.76, 12), (99, 12)):
        assert whole.front_by_bags_m(bags) == pytest.approx(front), bags


def test_what_a_bay_takes_with_its_finish_lower_beyond_a_front() -> None:
    whole = plan(*KITCHEN)
    kitchen, rest = whole.floor
    for bay, from_m, lower, litres in (
        (kitchen, 3, 2, 24 * 8), (kitchen, 0, 0, 480), (kitchen, 6, 1, 0), (rest, 9, 1, 24 * 5),
        (rest, 6, 6, 0), (rest, 6, 9, 0),
    ):  # fmt: skip
        found = bay.lowered_bags(whole.way.direction, from_m, Fraction(lower))
        assert found == pytest.approx(litres * 0.07, abs=1e-9), (from_m, lower)


def test_bags_of_two_products_and_the_shorter_time_of_an_edge() -> None:
    """A bag of example deep fill makes 29.75/2050 m³, less 5 %; its edge waits 25 minutes less
    3 mixed and 2 slaked."""
    whole = plan(*KITCHEN, "product in kitchen example deep fill", *MIXERS)
    kitchen, rest = whole.floor
    deep = 29.75 / 2050 / 1.05
    assert kitchen.bags == pytest.approx(0.48 / deep)
    assert (kitchen.edge_limit_min, rest.edge_limit_min) == (20, 17)
    assert whole.edge_limit_min == 17
    assert whole.products == ("example deep fill", "example standard")
    assert whole.bag_m3 == pytest.approx(0.768 / (0.48 / deep + 20.16))
    assert plan(*KITCHEN).bag_m3 == pytest.approx(1 / 70)
    # whole bags add up for each product: 34.73 and 20.16
    for product, bags in (("example deep fill", 35), ("example standard", 21)):
        assert sum(strip.bags for strip in whole.strips if strip.product == product) == bags
    assert [strip.number for strip in whole.strips] == list(range(1, len(whole.strips) + 1))
    minutes = [strip.strip.minutes for strip in whole.strips]
    starts = [sum(minutes[:number]) for number in range(len(minutes))]
    assert [strip.start_min for strip in whole.strips] == pytest.approx(starts)


def test_zones_that_are_poured_alike_are_one_bay() -> None:
    job = Site(*KITCHEN, "zone hall column F", "finish in hall +4 mm").job
    found = {alike.zones: alike.finish_mm for alike in poured_alike(job)}
    assert found == {("kitchen", "hall"): 4, ("rest",): 0}
    areas = [bay.shape.area for bay in plan_of(job).floor]
    assert areas == pytest.approx([48 + 16, 32])
    with pytest.raises(Refusal, match="product first for rest"):
        poured_alike(Site(*LEVEL[:2], *LEVEL[3:], "product in kitchen example deep fill").job)


def test_dams_cut_every_bay_from_the_last_side_on() -> None:
    """Row 2 lies 3 m from the first wall: each bay in a piece of 5 m and one of 3 m."""
    found = plan(*KITCHEN, "dam at row 2").floor
    assert [(bay.alike.zones, round(bay.shape.area, 6)) for bay in found] == [
        (("kitchen",), 18), (("kitchen",), 30), (("rest",), 18), (("rest",), 30)
    ]  # fmt: skip
    assert [bay.bags for bay in found] == pytest.approx([12.6, 21, 7.56, 12.6])
    assert [bay_at(found, place).number for place in ((1, 1), (1, 7), (11, 1), (11, 7))] == [
        1, 2, 3, 4
    ]  # fmt: skip


def test_lines_that_part_a_floor_in_equal_volumes() -> None:
    (bay,) = plan(*LEVEL).floor
    for parts, lines in ((1, []), (2, [6]), (3, [4, 8]), (4, [3, 6, 9])):
        assert even_lines_m(bay.fill, parts) == pytest.approx(lines)
