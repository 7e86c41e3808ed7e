"""Bags for a risk, what each further bag buys, and a finish that is rounded up."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest

from assistant.floor.constraints import rounded_mm
from assistant.floor.interval import FEWEST_POINTS, fit_of, spots_of, volume_of
from assistant.floor.order import (
    MOST_ROWS,
    bags_for,
    chance_short_percent,
    further_bags,
    interval_of,
    order_at,
)
from assistant.floor.reach import lower_by_for
from tests.job.conftest import Site
from tests.there import there

FLOOR = ("room 12 by 8 metres", "grid 2 metres", "product example standard", "waste 5 percent")
EVEN = tuple(f"{c}{r} -13" for r in (1, 2, 3, 4) for c in "ABCDEF")
BUMPY = tuple(f"{c}{r} -{12 + (3 * ord(c) + 5 * r) % 9}" for r in (1, 2, 3, 4) for c in "ABCDEF")


@pytest.mark.parametrize(
    ("height_m", "mm"),
    [
        # up to the thousandth of a millimetre, but for the dust of floats
        (0.018, Fraction(18)),
        (0.018000002, Fraction(18001, 1000)),
        (0.0180000009, Fraction(18)),
        (0.0180005, Fraction(18001, 1000)),
        (-0.018, Fraction(-18)),
        (-0.0180009, Fraction(-18)),
        (0.0, Fraction(0)),
    ],
)
def test_a_finish_is_rounded_up_to_a_thousandth(height_m: float, mm: Fraction) -> None:
    assert rounded_mm(height_m) == mm


@pytest.mark.parametrize(("count", "sure"), [(4, False), (5, True)])
def test_how_sure_it_is_takes_five_points(count: int, sure: bool) -> None:
    floor = Site(*FLOOR, *BUMPY[:count])
    assert FEWEST_POINTS == 5
    assert (fit_of(floor.job) is not None) is sure
    assert (interval_of(floor.job) is not None) is sure


def test_an_order_leaves_no_more_than_the_risk_and_one_bag_fewer_leaves_more() -> None:
    job = Site(*FLOOR, *BUMPY).job
    volume = there(volume_of(job))
    for risk in ("0.5", "5", "20", "50"):
        order = order_at(job, Decimal(risk))
        assert order.risk_percent <= float(risk)
        # What the bags make after waste, by the card: 15 L each.
        makes_m3 = order.bags * 0.015 / 1.05
        assert order.risk_percent == pytest.approx(100 * (1 - volume.chance_enough(makes_m3)))
        fewer_m3 = (order.bags - 1) * 0.015 / 1.05
        assert 100 * (1 - volume.chance_enough(fewer_m3)) > float(risk)


def test_waste_is_no_part_of_what_covers_the_floor() -> None:
    without, with_waste = (
        Site(*FLOOR, "waste 0 percent", *BUMPY),
        Site(*FLOOR, "waste 50 percent", *BUMPY),
    )
    risk = Decimal(5)
    fewer, more = order_at(without.job, risk).bags, order_at(with_waste.job, risk).bags
    assert abs(more - 1.5 * fewer) <= 2
    assert bags_for(with_waste.job, 1.0) == 100  # exact arithmetic: 1500 L by 15 L
    assert bags_for(without.job, 1.0) == 67


@pytest.mark.parametrize("around", [0, 40, 95, 97, 99, 120, 300])
@pytest.mark.parametrize("read", [BUMPY, EVEN], ids=["bumpy", "even"])
def test_further_bags_are_told_around_the_order_and_never_too_many(
    read: tuple[str, ...], around: int
) -> None:
    job = Site(*FLOOR, *read).job
    volume = there(volume_of(job))
    rows = further_bags(job, around)
    counts = [row.bags for row in rows]
    assert around in counts
    assert counts == sorted(set(counts))
    assert 1 < len(counts) <= MOST_ROWS + 1
    assert MOST_ROWS == 8
    risks = [row.risk_percent for row in rows]
    assert risks == sorted(risks, reverse=True)
    even, sure = bags_for(job, volume.quantile(0.5)), bags_for(job, volume.quantile(0.995))
    # From an even chance to one in two hundred, in the least even steps that make eight rows.
    first, last = min(even, around), max(sure, around)
    step = next(step for step in range(1, 1000) if (last - first) / step <= MOST_ROWS - 1)
    assert counts == [n for n in range(first, last + 1) if (n - around) % step == 0]


def test_the_interval_holds_the_mean_and_is_told_in_bags() -> None:
    job = Site(*FLOOR, *BUMPY).job
    found, volume = there(interval_of(job)), there(volume_of(job))
    low, high = found.volume_m3
    assert low < found.mean_m3 < high
    assert found.bags == (bags_for(job, low), bags_for(job, high))
    # 96 m² of floor
    assert found.mean_sd_mm == pytest.approx(volume.sd_m3 / 96 * 1000)
    assert there(interval_of(Site(*FLOOR[:2], *BUMPY).job)).bags is None


def test_what_is_ground_off_is_no_part_of_the_floor_but_of_the_natural_one() -> None:
    job = Site(*FLOOR, *BUMPY, "grind A1 by 2 mm").job
    as_it_will_be, as_read = spots_of(job), spots_of(job, ground=False)
    row = as_read.names.index("A1")
    assert as_read.heights_m[row] - as_it_will_be.heights_m[row] == pytest.approx(0.002)
    assert (as_read.heights_m != as_it_will_be.heights_m).sum() == 1
    assert "A1" not in spots_of(job, but="A1").names
    assert len(spots_of(job, but="A1").names) == 23


@pytest.mark.parametrize("finish", ["finish level", "finish plus 7", "finish minus 4"])
def test_the_interval_is_of_what_lies_between_the_floor_and_the_finish(finish: str) -> None:
    floor = Site(*FLOOR, finish, *(f"{c}{r} -20" for r in (1, 2, 3, 4) for c in "ABCDEF"))
    depth_m = float(20 + floor.job.finish_mm) / 1000
    volume = there(volume_of(floor.job))
    assert volume.mean_m3 == pytest.approx(96 * depth_m, rel=1e-3)
    assert volume.low_m3 < 96 * depth_m < volume.high_m3


@pytest.mark.parametrize(
    ("volume_m3", "lower_mm"),
    [
        # exact arithmetic: 96 m², 20 mm deep throughout, make 1.92 m³; a millimetre is 96 litres
        (1.92, 0), (2.5, 0), (0.96, 10), (1.824, 1), (0.9599, 11), (0.9601, 10), (0.0961, 19),
    ],
)  # fmt: skip
def test_a_lower_finish_makes_a_volume_do_in_whole_millimetres(
    volume_m3: float, lower_mm: int
) -> None:
    floor = Site(*FLOOR, *(f"{c}{r} -20" for r in (1, 2, 3, 4) for c in "ABCDEF"))
    assert lower_by_for(floor.job, volume_m3, "mm") == lower_mm


def test_a_chance_to_run_short_needs_a_product_and_readings() -> None:
    job = Site(*FLOOR, *BUMPY).job
    bags = order_at(job, Decimal(5)).bags
    assert chance_short_percent(job, bags) == order_at(job, Decimal(5)).risk_percent
    assert chance_short_percent(Site(*FLOOR[:2], *BUMPY).job, bags) is None
    assert chance_short_percent(Site(*FLOOR, *BUMPY[:4]).job, bags) is None
