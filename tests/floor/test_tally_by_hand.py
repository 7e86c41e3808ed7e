"""The tally of floors that can be added up by hand, from the numbers of the invented cards.

A bag of example standard is 25 kg with 5 L in the mean, 2000 kg/m³: 15 L. One of example deep fill
is 25 kg with 4.75 L, 2050 kg/m³: 14.512 L. Stones weigh 2650 kg/m³. Exact arithmetic.
"""

from __future__ import annotations

import pytest

from assistant.floor.tally import Material, aggregate_of
from assistant.floor.zones import in_zone, parts_of
from tests.job.conftest import Site

ROOM = ("room 12 by 8 metres", "grid 2 metres")
LEVEL = (*ROOM, "product example standard", "A1 -6", "F4 -6")
TWO = (*LEVEL, "zone kitchen columns A to C", "product in kitchen example deep fill")


def made(*lines: str) -> Material:
    material = Site(*lines).tally.material
    assert material is not None
    return material


def test_a_level_floor_of_one_product() -> None:
    """576 L and 5 % waste; primer at 8 m²/L in one coat; 42 bags on a pallet."""
    found = made(*LEVEL)
    assert (found.bags, found.pallets) == (41, 1)
    assert found.water_l == pytest.approx((41 * 4.75, 41 * 5.25))
    assert found.mass_kg == pytest.approx(1152)
    assert found.mass_kg_per_m2 == pytest.approx(12)
    assert found.mass_kg_per_m2_at_deepest == pytest.approx(12)
    assert found.aggregate_kg == 0
    assert found.primer_l == pytest.approx(12)
    assert made(*LEVEL, "waste 10 percent").pallets == 2  # 42.24 bags


def test_the_deepest_point_weighs_more_than_the_mean() -> None:
    """A plane 4 mm deep at column A and 14 mm at F: 9 mm in the mean, 15 at the wall."""
    lines = [f"{c}{r} -{4 + 2 * k}" for k, c in enumerate("ABCDEF") for r in (1, 2, 3, 4)]
    floor = Site(*ROOM, "product example standard", *lines)
    assert floor.tally.depths is not None
    assert floor.tally.depths.least == 4
    assert floor.tally.depths.mean == 9
    assert floor.tally.depths.most == 14
    assert floor.tally.mean_method_volume_m3 == pytest.approx(0.864)
    assert floor.tally.volume_m3 == pytest.approx(0.864)
    material = floor.tally.material
    assert material is not None
    assert material.mass_kg_per_m2 == pytest.approx(18)
    assert material.mass_kg_per_m2_at_deepest == pytest.approx(28)


def test_aggregate_makes_a_bag_go_further() -> None:
    """25 % of 25 kg are 2.358 L of stone: 17.358 L a bag, and 36.25 kg; 604.8 L are 34.84 bags."""
    found = made(*LEVEL, "aggregate 25 percent")
    assert found.bags == 35
    assert found.aggregate_kg == pytest.approx(35 * 6.25)
    assert found.mass_kg == pytest.approx(0.576 * 36.25 / (0.015 + 6.25 / 2650))


def test_two_products_are_counted_apart_and_added() -> None:
    """302.4 L each, with waste: 18 bags of 17.358 L and 18 of 16.871 L."""
    found = made(*TWO, "aggregate 25 percent")
    assert found.bags == 36
    assert found.water_l == pytest.approx((18 * 4.75 + 18 * 4.5, 18 * 5.25 + 18 * 5.0))
    assert found.aggregate_kg == pytest.approx(36 * 6.25)
    assert found.primer_l == pytest.approx(48 / 8 + 2 * 48 / 7)
    standard = 36.25 / (0.015 + 6.25 / 2650)
    deep = 36 / (29.75 / 2050 + 6.25 / 2650)
    assert found.mass_kg == pytest.approx(0.288 * (standard + deep))
    assert found.mass_kg_per_m2 == pytest.approx(0.288 * (standard + deep) / 96)
    assert found.mass_kg_per_m2_at_deepest == pytest.approx(0.006 * max(standard, deep))
    assert found.pallets == 2


def test_a_zone_without_a_product_leaves_no_material() -> None:
    lines = [line for line in TWO if not line.startswith("product example")]
    floor = Site(*lines)
    assert floor.tally.material is None
    assert floor.tally.volume_m3 == pytest.approx(0.576)
    kitchen = Site(*lines).job
    found = in_zone(kitchen, "kitchen")
    assert found.card is not None


def test_a_zone_s_own_product_takes_as_much_aggregate_as_it_can_or_none() -> None:
    """Example standard takes 50 % at most; the room's own product is asked about elsewhere."""
    room = [*ROOM, "product example deep fill", "A1 -6", "zone kitchen columns A to C"]
    for percent, own in ((50, 50), (51, 0), (0, 0), (30, 30)):
        floor = Site(*room, "product in kitchen example standard", f"aggregate {percent} percent")
        shares = {name: aggregate_of(part) for name, part in parts_of(floor.job).items()}
        assert shares == {"kitchen": own, "rest": percent}
        assert aggregate_of(floor.job) == percent


def test_high_spots_are_not_taken_off() -> None:
    """Half the floor 6 mm below and half as much above: as much is too high as is to be filled."""
    read = [f"{c}{r} {'-6' if c in 'ABC' else '+6'}" for c in "ABCDEF" for r in (1, 2, 3, 4)]
    tally = Site(*ROOM, *read).tally
    assert tally.volume_m3 is not None
    assert 0.26 < tally.volume_m3 < 0.29
    assert tally.high_volume_m3 == pytest.approx(tally.volume_m3)
    assert tally.mean_method_volume_m3 == pytest.approx(0)


def test_points_and_what_is_missing() -> None:
    floor = Site(*LEVEL)
    assert (floor.tally.points, floor.tally.missing) == (2, 22)
    floor.told("skip B1", "new set up", "C1 -6")
    assert (floor.tally.points, floor.tally.missing) == (2, 21)  # C1 has no height yet
    floor.told("tie on A1 -6")
    assert (floor.tally.points, floor.tally.missing) == (3, 20)


def test_bags_cost_what_was_said_while_they_are_of_one_product() -> None:
    said = "bag costs 18.50 euros"
    cost = Site(*LEVEL, said).tally.cost
    assert cost is not None
    assert str(cost.amount) == "758.50"
    assert cost.currency == "euros"
    assert Site(*TWO, said).tally.cost is None
    assert Site(*LEVEL).tally.cost is None


def test_waste_is_assumed_until_it_is_said() -> None:
    for lines, assumed in (((), True), (("waste 5 percent",), False), (("no waste",), False)):
        assert Site(*LEVEL, *lines).tally.waste_assumed is assumed, lines
