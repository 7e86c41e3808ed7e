"""Material for a pour: yield, bags, water, primer and weight. Plain numbers, no cards.

Volumes in cubic metres where the name says so, water and primer in litres, masses in
kilograms, lengths in metres. A mass balance throughout: what goes into the bucket comes
out of it, so the volume is the whole mass over the wet density.
"""

from __future__ import annotations

from math import ceil, isfinite

from assistant.errors import SurveyError
from grammar.frozen import frozen

__all__ = [
    "KG_M2_PER_KN_M2",
    "KG_M2_PER_LB_FT2",
    "Mix",
    "bag_yield_m3",
    "bags_needed",
    "extended_yield_m3",
    "lb_per_ft2",
    "mass_per_m2",
    "pallets",
    "primer_litres",
    "water_litres",
]

# exact by definition: 1 lb = 0.453 592 37 kg, 1 ft = 0.3048 m
KG_M2_PER_LB_FT2 = 0.45359237 / 0.3048**2
# mass that weighs 1 kN on each square metre under standard gravity, 9.806 65 m/s²
KG_M2_PER_KN_M2 = 1000 / 9.80665

# A count worked out in floats is off by a few parts in 1e16 for every step; 1000 L at 5 %
# waste is exactly 70 bags of 15 L and must not become 71. One part in 1e9 is far above
# that dust, and far below anything that can be weighed: at 1000 bags it forgives a
# millionth of a bag. Raising it would begin to forgive material that is really needed.
FLOAT_DUST = 1e-9


@frozen
class Mix:
    """The mix that one bag makes."""

    bag_kg: float
    water_l: float
    aggregate_kg: float
    """Aggregate to one bag; zero is neat."""
    yield_m3: float

    @property
    def mass_kg(self) -> float:
        """Bag, water (a kilogram a litre) and aggregate together."""
        return self.bag_kg + self.water_l + self.aggregate_kg

    @property
    def wet_density_kg_m3(self) -> float:
        """Density of the mix as it is poured."""
        return self.mass_kg / self.yield_m3


def bag_yield_m3(bag_kg: float, water_l: float, wet_density_kg_m3: float) -> float:
    """
    Volume that one bag makes, a litre of water taken as a kilogram.

    At 20 °C it is two grams less, which is a third of a thousandth of the yield.

    Raises
    ------
    SurveyError
        If bag or density is not above zero, or the water is below it.

    Examples
    --------
    >>> bag_yield_m3(25, 5.0, 2000)
    0.015
    """
    more_than_zero("bag mass", bag_kg)
    zero_or_more("mix water", water_l)
    more_than_zero("wet density", wet_density_kg_m3)
    return (bag_kg + water_l) / wet_density_kg_m3


def extended_yield_m3(yield_m3: float, aggregate_kg: float, particle_density_kg_m3: float) -> float:
    """
    Volume that one bag makes with aggregate in it.

    The stones displace their own solid volume, so their *particle* density counts;
    the bulk density, with the air between them, would promise too much.
    """
    more_than_zero("yield", yield_m3)
    zero_or_more("aggregate", aggregate_kg)
    more_than_zero("particle density", particle_density_kg_m3)
    return yield_m3 + aggregate_kg / particle_density_kg_m3


def bags_needed(volume_m3: float, waste_percent: float, bag_yield_m3: float) -> int:
    """
    Whole bags to order, always rounded up; none for no volume.

    Parameters
    ----------
    volume_m3 : float
        Of the pour itself, zero or more.
    waste_percent : float
        Allowance on top, zero or more: 7 is seven percent.
    bag_yield_m3 : float
        What one bag makes, above zero.

    Raises
    ------
    SurveyError
        If a number is out of its range or not finite.

    Examples
    --------
    >>> bags_needed(1.0, 5, 0.015)
    70
    """
    zero_or_more("volume", volume_m3)
    zero_or_more("waste", waste_percent)
    more_than_zero("bag yield", bag_yield_m3)
    return safe_ceil(volume_m3 * (1 + waste_percent / 100) / bag_yield_m3)


def water_litres(bags: int, low_l: float, high_l: float) -> tuple[float, float]:
    """Mix water for a number of bags, litres, least and most."""
    zero_or_more("bags", bags)
    zero_or_more("mix water", low_l)
    if not (isfinite(high_l) and high_l >= low_l):
        raise SurveyError(f"The most mix water ({high_l}) is less than the least ({low_l}).")
    return bags * low_l, bags * high_l


def primer_litres(area_m2: float, coverage_m2_per_l: float, coats: int = 1) -> float:
    """Primer for an area, litres, all coats together."""
    zero_or_more("area", area_m2)
    more_than_zero("primer coverage", coverage_m2_per_l)
    zero_or_more("coats", coats)
    return area_m2 * coats / coverage_m2_per_l


def mass_per_m2(wet_density_kg_m3: float, depth_m: float) -> float:
    """
    What a pour of a depth puts on each square metre, kilograms; nothing where it is not deep.

    Taken wet: the water that later leaves is on the floor on the day, and the set
    product is never heavier.
    """
    more_than_zero("wet density", wet_density_kg_m3)
    if not isfinite(depth_m):
        raise SurveyError(f"A depth of {depth_m} cannot be weighed.")
    return wet_density_kg_m3 * max(depth_m, 0.0)


def lb_per_ft2(kg_per_m2: float) -> float:
    """
    The same weight in pounds on each square foot.

    >>> round(lb_per_ft2(100), 3)
    20.482
    """
    return kg_per_m2 / KG_M2_PER_LB_FT2


def pallets(bags: int, per_pallet: int) -> int:
    """Pallets that carry so many bags, the last one perhaps not full."""
    zero_or_more("bags", bags)
    more_than_zero("bags on a pallet", per_pallet)
    return -(-bags // per_pallet)


def safe_ceil(count: float) -> int:
    """The next whole number up, forgiving only the dust of float arithmetic."""
    if not isfinite(count):
        raise SurveyError(f"A count of {count} bags cannot be ordered.")
    nearest = round(count)
    if abs(count - nearest) <= FLOAT_DUST * max(nearest, 1):
        return nearest
    return ceil(count)


def zero_or_more(what: str, value: float) -> None:
    """Refuse what is negative or not a number."""
    if not (isfinite(value) and value >= 0):
        raise SurveyError(f"The {what} must be zero or more, not {value}.")


def more_than_zero(what: str, value: float) -> None:
    """Refuse what is not above zero."""
    if not (isfinite(value) and value > 0):
        raise SurveyError(f"The {what} must be more than zero, not {value}.")
