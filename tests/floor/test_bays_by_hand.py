"""
Bays of a pour, counted out by hand.

12 m by 8 m; the kitchen, 6 m of it, is to be 10 mm deep, the rest 6 mm. A bag of example standard
makes 100/7 L: 33.6 bags and 20.16. Exact arithmetic.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.errors import Refusal
from assistant.events.pour import DamPlaced
from assistant.floor.pour import bays as pour_bays
from assistant.floor.pour.bays import (
    bay_at,
    dams_of,
    edge_limit_min,
    even_lines_m,
    poured_alike,
    zones_named,
)
from assistant.floor.pour.plan import PourPlan, plan_of
from assistant.floor.pour.way import ALONG_X, ALONG_Y, PourDirection
from grammar.commands import Measure
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


def test_bays_begin_at_the_start_of_the_pour_wherever_that_is() -> None:
    rest, kitchen = plan(*LEVEL[:-1], "finish in kitchen -2 mm", "start at column F").floor
    assert (rest.offset_m, rest.to_m, kitchen.offset_m, kitchen.to_m) == pytest.approx(
        (0, 6, 6, 12)
    )


def test_a_part_with_nothing_to_pour_is_no_bay() -> None:
    assert [bay.alike.zones for bay in plan(*LEVEL, "finish in kitchen -6 mm").floor] == [("rest",)]


def test_a_door_a_metre_from_the_next_bay_is_the_way_out_of_its_own() -> None:
    out = ("door 1 at C2", "way out is door 1")
    assert [bay.alike.zones for bay in plan(*KITCHEN, *out).floor] == [("rest",), ("kitchen",)]


@pytest.mark.parametrize("area_m2", [0.25, 2.0, 80.0])
def test_the_deeper_part_comes_first_however_small_it_is(area_m2: float) -> None:
    """Deep on the average: a pit of a quarter of a square metre is deep though it takes little."""
    job, way = Site(*LEVEL).job, PourDirection(ALONG_X, "column A", True)

    def turn(depth_mm: float, area_m2: float) -> tuple[bool, float]:
        fill = SimpleNamespace(volume_m3=depth_mm / 1000 * area_m2, area_m2=area_m2)
        alike: Any = SimpleNamespace(fill=lambda _: fill)
        return pour_bays._turn(job, alike, way)

    assert turn(10, area_m2) < turn(6, 8) < turn(5.9, area_m2)


def test_dams_across_the_way_stop_the_pour_and_those_along_it_part_the_floor() -> None:
    """Column D lies 7 m from the first wall, row 2 3 m; where it stops counts from the start."""
    job = Site(*LEVEL).job
    column, row, said = (
        DamPlaced("D", None, None), DamPlaced(None, 2, None),
        DamPlaced(None, None, Measure(Decimal(3), "m")),
    )  # fmt: skip
    for direction, start_m, stops, sides in (
        (ALONG_X, 0.0, [7, 3], [(ALONG_Y, 3)]), (ALONG_X, 2.0, [5, 3], [(ALONG_Y, 3)]),
        ((-1.0, 0.0), -12.0, [5, 3], [(ALONG_Y, 3)]),
        (ALONG_Y, 0.0, [3, 3], [(ALONG_X, 7)]),
        # aslant to the way none is across it
        ((0.6, 0.8), 0.0, [3], [(ALONG_X, 7), (ALONG_Y, 3)]),
    ):  # fmt: skip
        way = PourDirection(direction, "there", True)
        found = dams_of(job, way, (column, row, said), start_m)
        assert sorted(found[0]) == pytest.approx(sorted(stops)), direction
        assert [normal for normal, _ in found[1]] == [normal for normal, _ in sides]
        assert [at for _, at in found[1]] == pytest.approx([at for _, at in sides])


def test_pieces_beside_dams_are_kept_however_narrow_and_the_last_is_on_the_left() -> None:
    """12 m by 8 m, cut 5 cm from one wall: 0.6 m²; seen along the way, from right to left."""
    (alike,) = poured_alike(Site(*LEVEL[:-2]).job)
    for direction, areas in ((ALONG_X, [0.6, 95.4]), ((-1.0, 0.0), [95.4, 0.6])):
        way = PourDirection(direction, "there", True)
        found = pour_bays._pieces(alike, [(ALONG_Y, 0.05)], way)
        assert [piece.area for piece in found] == pytest.approx(areas)


@pytest.mark.parametrize(
    ("mixing", "slaking", "limit"), [(None, None, 15), (2, None, 13), (None, 3, 12), (2, 3, 10),
                                     (10, 5, 1), (10, 4.5, 1), (9, 4, 2)],
)  # fmt: skip
def test_an_edge_waits_for_what_mixing_and_slaking_leave_and_a_minute_at_least(
    mixing: float | None, slaking: float | None, limit: float
) -> None:
    card: Any = SimpleNamespace(mixing_min=mixing, slaking_min=slaking, working_time_min=15.0)
    assert edge_limit_min(card) == limit


def test_of_many_zones_poured_alike_three_are_named() -> None:
    for zones, named in (("abc", "a, b and c"), ("abcd", "a, b, c and 1 more")):
        alike: Any = SimpleNamespace(zones=tuple(zones))
        assert zones_named(alike) == named
