"""Bags, water, primer and weight, against figures worked by hand."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.errors import SurveyError
from assistant.pours.material import (
    KG_M2_PER_KN_M2,
    KG_M2_PER_LB_FT2,
    Mix,
    bag_yield_m3,
    bags_needed,
    extended_yield_m3,
    lb_per_ft2,
    mass_per_m2,
    pallets,
    primer_litres,
    safe_ceil,
    water_litres,
)

CUBIC_FOOT_M3 = 0.028316846592  # exact by definition (NIST SP 811)


@pytest.mark.parametrize(
    ("bag_kg", "water_l", "density", "litres"),
    [  # exact arithmetic: mass balance
        (25, 5.0, 2000, 15.000),
        (20, 4.2, 1950, 12.4103),
        (25, 6.0, 1850, 16.7568),
        (22.6796, 4.7318, 2000, 13.7057),  # 50 lb and 5 US quarts
    ],
)
def test_yield_of_a_bag(bag_kg: float, water_l: float, density: float, litres: float) -> None:
    assert bag_yield_m3(bag_kg, water_l, density) * 1000 == pytest.approx(litres, abs=6e-5)


def test_yield_in_cubic_feet() -> None:
    # exact arithmetic; 50 lb with 5 US quarts of water at 20 °C, 0.9982 kg a litre (from memory)
    assert bag_yield_m3(25, 5.0, 2000) / CUBIC_FOOT_M3 == pytest.approx(0.52972, abs=5e-6)
    cool = bag_yield_m3(22.6796, 4.7318 * 0.9982, 2000)
    assert cool * 1000 == pytest.approx(13.7014, abs=6e-5)
    assert cool / CUBIC_FOOT_M3 == pytest.approx(0.48386, abs=6e-6)


@pytest.mark.parametrize(
    ("litres", "waste", "bags"),
    [  # exact arithmetic, bags of 15 L
        (354, 0, 24),
        (354, 5, 25),
        (354, 10, 26),
        (1000, 0, 67),
        (1000, 5, 70),  # exactly 70, however the floats fall
        (1000, 10, 74),
        (0, 10, 0),
        (0.001, 0, 1),
        (15, 0, 1),
        (15.0001, 0, 2),  # a tenth of a millilitre is still material
    ],
)
def test_bags_are_rounded_up_but_not_for_float_dust(litres: float, waste: float, bags: int) -> None:
    assert bags_needed(litres / 1000, waste, 0.015) == bags


@pytest.mark.parametrize("count", [1, 3, 70, 1000, 123_456])
def test_dust_is_forgiven_and_need_is_not(count: int) -> None:
    assert safe_ceil(count * (1 + 1e-12)) == count
    assert safe_ceil(count * (1 - 1e-12)) == count
    assert safe_ceil(count * (1 + 1e-8)) == count + 1


@pytest.mark.parametrize(("count", "bags"), [(0, 0), (1e-9, 0), (1.5e-9, 1), (0.5, 1), (1.5, 2)])
def test_a_billionth_of_a_bag_is_dust_and_more_is_a_bag(count: float, bags: int) -> None:
    assert safe_ceil(count) == bags


@given(st.integers(0, 5000), st.integers(1, 400), st.integers(0, 30))
def test_bags_agree_with_whole_numbers(bags: int, decilitres: int, waste: int) -> None:
    # exact arithmetic: a volume that needs exactly so many bags, then one litre in 1e6 more
    volume = bags * decilitres / 1e4 / (1 + waste / 100)
    assert bags_needed(volume, waste, decilitres / 1e4) == bags
    assert bags_needed(volume * (1 + 1e-6), waste, decilitres / 1e4) == bags + (bags > 0)


@given(st.floats(0, 100), st.floats(0, 10), st.floats(0, 50), st.floats(0.005, 1))
def test_more_volume_never_needs_fewer_bags(
    volume: float, more: float, waste: float, bag: float
) -> None:
    fewer, bags = bags_needed(volume, waste, bag), bags_needed(volume + more, waste, bag)
    assert fewer <= bags
    assert fewer <= bags_needed(volume, waste + 1, bag)
    assert volume - fewer * bag <= 1e-8 * max(volume, bag)


def test_aggregate_adds_its_own_solid_volume() -> None:
    # exact arithmetic: 25 kg + 5 L (15 L) + 12.5 kg of 2650 kg/m³
    extended = extended_yield_m3(0.015, 12.5, 2650)
    assert extended * 1000 == pytest.approx(19.717, abs=5e-4)
    assert Mix(25, 5, 12.5, extended).wet_density_kg_m3 == pytest.approx(2155.5, abs=0.05)


@pytest.mark.parametrize(
    ("depth_mm", "kg_m2", "lb_ft2"),
    [(5, 10, 2.048), (10, 20, 4.096), (25, 50, 10.241), (50, 100, 20.482)],
)
def test_weight_on_the_floor(depth_mm: float, kg_m2: float, lb_ft2: float) -> None:
    # exact arithmetic at 2000 kg/m³
    weight = mass_per_m2(2000, depth_mm / 1000)
    assert weight == pytest.approx(kg_m2)
    assert lb_per_ft2(weight) == pytest.approx(lb_ft2, abs=6e-4)


def test_weight_in_other_units() -> None:
    # exact arithmetic: 125 lb/ft³ over an inch is 125/12 lb/ft²; 1 lb/ft³ = 16.018463374 kg/m³
    assert lb_per_ft2(mass_per_m2(125 * 16.018463374, 0.0254)) == pytest.approx(125 / 12)
    assert lb_per_ft2(mass_per_m2(120 * 16.018463374, 0.0254)) == pytest.approx(10.0)
    assert pytest.approx(4.882427636, abs=5e-10) == KG_M2_PER_LB_FT2  # NIST SP 811
    assert pytest.approx(0.980665, rel=1e-9) == 100 / KG_M2_PER_KN_M2  # standard gravity
    assert mass_per_m2(2000, -0.003) == 0  # above the finish nothing is poured


def test_water_primer_pallets() -> None:
    # exact arithmetic
    assert water_litres(24, 4.75, 5.25) == (114.0, 126.0)
    assert water_litres(0, 4.75, 5.25) == (0, 0)
    assert water_litres(24, 5, 5) == (120, 120)  # a card may give one number
    with pytest.raises(SurveyError, match="less than the least"):
        water_litres(24, 5, 4.999)
    assert primer_litres(96, 8) == 12
    assert primer_litres(96, 8, coats=2) == 24
    assert [pallets(bags, 42) for bags in (0, 1, 42, 43, 84, 85)] == [0, 1, 1, 2, 2, 3]


NAN, INF = float("nan"), float("inf")


@pytest.mark.parametrize("bad", [NAN, INF, -INF, -1.0])
def test_numbers_that_cannot_be_are_refused(bad: float) -> None:
    for call in (
        lambda: bags_needed(bad, 5, 0.015),
        lambda: bags_needed(1, bad, 0.015),
        lambda: bags_needed(1, 5, bad),
        lambda: bags_needed(1, 5, 0),
        lambda: bag_yield_m3(bad, 5, 2000),
        lambda: bag_yield_m3(25, bad, 2000),
        lambda: bag_yield_m3(25, 5, bad),
        lambda: extended_yield_m3(0.015, bad, 2650),
        lambda: extended_yield_m3(0.015, 12.5, bad),
        lambda: water_litres(10, bad, 5),
        lambda: water_litres(10, 5, bad),
        lambda: primer_litres(bad, 8),
        lambda: primer_litres(10, bad),
        lambda: mass_per_m2(bad, 0.01),
        lambda: mass_per_m2(2000, bad if bad != -1 else NAN),
        lambda: pallets(-1, 42),
        lambda: pallets(1, 0),
    ):
        with pytest.raises(SurveyError):
            call()
