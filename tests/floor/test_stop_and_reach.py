"""Pours that stop at a line, how far an amount goes, and how fast a crew is. Exact arithmetic."""

from __future__ import annotations

from fractions import Fraction

import pytest

from assistant.floor.pour.placing import (
    Placing,
    is_alone,
    mixers_running,
    placing_lacks,
    placing_of,
)
from assistant.floor.pour.stop_at import halves_at
from assistant.floor.reach import lower_by_for, reach_of
from tests.job.conftest import Site
from tests.job.test_zones import READ

FLOOR = ("room 12 by 8 metres", "grid 2 metres", "product example standard")
LEVEL = (*FLOOR, "A1 -6")


def test_the_dam_holds_back_the_depths_along_its_line() -> None:
    """10 mm deep at the corner, 1 mm a metre along the letters and 0.5 along the numbers."""
    job = Site(*READ).job
    for column, row, depths in (
        ("C", None, (15, 19)),
        ("E", None, (19, 23)),
        (None, 2, (11.5, 23.5)),
        (None, 4, (13.5, 25.5)),
    ):
        stop = halves_at(job, column, row)
        assert stop.edge_depth_mm == pytest.approx(depths), (column, row)
        assert stop.edge_m == pytest.approx(8 if column else 12)


def test_the_deepest_place_of_a_dam_is_seen_where_the_floor_bends() -> None:
    """Row 2 lies 3 m along the 8 m of a column, fifteen of its forty steps."""
    read = [f"{c}{r} -{20 if r == 2 else 6}" for r in (1, 2, 3, 4) for c in "ABCDEF"]
    stop = halves_at(Site(*FLOOR, *read).job, "C", None)
    assert stop.edge_depth_mm[1] == pytest.approx(20)


def test_a_dam_holds_back_nothing_where_the_floor_stands_above() -> None:
    read = [f"{c}{r} {'+4' if r == 2 else '-6'}" for r in (1, 2, 3, 4) for c in "ABCDEF"]
    least, most = halves_at(Site(*FLOOR, *read).job, "C", None).edge_depth_mm
    assert least == 0
    assert most >= 6


def test_each_half_is_counted_by_itself() -> None:
    """6 mm on 40 and on 56 m²: 16.8 and 23.52 bags of 100/7 L, 40.32 in one."""
    stop = halves_at(Site(*LEVEL).job, "C", None)
    assert stop.first.volume_m3 == pytest.approx(0.240)
    assert stop.first.area_m2 == pytest.approx(40)
    assert stop.rest.volume_m3 == pytest.approx(0.336)
    assert stop.rest.area_m2 == pytest.approx(56)
    assert (stop.first.bags, stop.rest.bags, stop.bags) == (17, 24, 41)
    assert stop.as_data("column C")["edge_depth_mm"] == pytest.approx([6, 6])
    bare = halves_at(Site(*FLOOR[:2], "A1 -6").job, None, 1)
    assert (bare.first.bags, bare.rest.bags, bare.bags) == (None, None, None)
    assert bare.first.volume_m3 == pytest.approx(0.072)


def test_zones_of_one_product_are_counted_together_and_of_two_apart() -> None:
    """Columns A to C are 6 m, and the pour stops at 5 m: 16.8 bags, then 3.36 and 20.16."""
    zones = (*LEVEL, "zone kitchen columns A to C")
    one = halves_at(Site(*zones).job, "C", None)
    assert (one.first.bags, one.rest.bags) == (17, 24)
    two = halves_at(Site(*zones, "product in kitchen example deep fill").job, "C", None)
    assert one.rest.volume_m3 == pytest.approx(two.rest.volume_m3)
    assert two.rest.bags is not None
    assert two.rest.bags > 24


def test_how_far_an_amount_goes() -> None:
    floor = Site(*LEVEL)
    for volume, share in ((0.144, 0.25), (0.576, 1), (0.9, 1), (0, 0)):
        found = reach_of(floor.job, volume)
        assert found.share == pytest.approx(share)
        assert found.area_m2 == pytest.approx(share * 96)
    nothing = reach_of(Site(*FLOOR, "A1 +6").job, 0.1)
    assert (nothing.share, nothing.area_m2) == (1, 96)


def test_how_much_lower_a_volume_does() -> None:
    """96 m²: each millimetre is 96 L."""
    job = Site(*LEVEL).job
    sixteenth = Fraction(254, 160)
    for litres, mm, inch in ((480, 1, 1), (479, 2, 1), (288, 3, 2), (576, 0, 0), (600, 0, 0),
                             (575, 1, 1), (0, 6, 4), (423.6, 2, 1), (423, 2, 2)):  # fmt: skip
        assert lower_by_for(job, litres / 1000, "mm") == mm, litres
        assert lower_by_for(job, litres / 1000, "in") == inch * sixteenth, litres
    assert lower_by_for(Site(*FLOOR).job, 0.1, "mm") is None


def test_a_zone_with_a_finish_of_its_own_keeps_it() -> None:
    """The kitchen takes 4 mm on 48 m² whatever becomes of the rest, 6 mm deep on 48 m²."""
    floor = Site(*LEVEL, "zone kitchen columns A to C", "finish in kitchen -2 mm")
    for litres, mm in ((480, 0), (432, 1), (431, 2), (192, 6), (191, None)):
        assert lower_by_for(floor.job, litres / 1000, "mm") == mm, litres


def test_how_fast_bags_are_placed() -> None:
    pump, mixers = "pump 90 bags per hour", ("mixers 3", "batches of 2 bags", "minutes per batch 6")
    for lines, placing, batch_min in (
        ((pump,), Placing(1.5, 1, 0), 2 / 3),
        (mixers, Placing(1.0, 2, 3), 2.0),
        ((*mixers, "crew 3"), Placing(2 / 3, 2, 2), 3.0),
        ((*mixers, "crew 4"), Placing(1.0, 2, 3), 2.0),
        ((*mixers, "crew 9"), Placing(1.0, 2, 3), 2.0),
        ((*mixers, "crew 1"), Placing(1 / 3, 2, 1), 6.0),
    ):
        found = placing_of(Site(*lines).job)
        assert found is not None
        assert (found.batch_bags, found.mixers) == (placing.batch_bags, placing.mixers), lines
        assert found.bags_per_min == pytest.approx(placing.bags_per_min), lines
        assert found.batch_min == pytest.approx(batch_min), lines
    assert mixers_running(Site("crew 3").job) == 1
    assert mixers_running(Site().job) == 0


def test_what_is_still_to_be_said_of_the_pace() -> None:
    lines = ("mixers 2", "batches of 2 bags", "minutes per batch 6")
    assert placing_lacks(Site().job) == lines
    for line in lines:
        told = Site(line).job
        assert placing_of(told) is None
        assert placing_lacks(told) == tuple(other for other in lines if other != line)
    assert [is_alone(Site(*crew).job) for crew in ((), ("crew 1",), ("crew 2",))] == [
        False, True, False
    ]  # fmt: skip
