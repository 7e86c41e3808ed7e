"""The tally of the present job: points, depths, volume and material."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from math import fsum
from typing import TYPE_CHECKING, Any, TypeVar

from assistant.floor.cost import Cost, cost_of_bags
from assistant.floor.depths import depths_of, untied_points
from assistant.floor.geometry import area_of
from assistant.floor.surfaces import surface_of
from assistant.floor.walk import points_missing
from assistant.floor.zones import one_card, poured_parts
from assistant.job import Job
from assistant.job.once import cached
from assistant.pours.material import (
    bags_needed,
    lb_per_ft2,
    mass_per_m2,
    pallets,
    primer_litres,
    water_litres,
)
from assistant.products.cards import Card
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.volume import VolumeToFinish


@frozen
class Depths:
    """Depths at the read points, exact millimetres; negative where the floor is too high."""

    least: Fraction
    mean: Fraction
    most: Fraction


@frozen
class Material:
    """The material that the volume takes of one product."""

    bags: int
    """Always rounded up."""
    water_l: tuple[float, float]
    """Least and most, litres, for all bags."""
    mass_kg_per_m2: float
    """Mean weight over the floor, as poured."""
    mass_kg: float
    """Total on the floor, without the waste."""
    mass_kg_per_m2_at_deepest: float
    aggregate_kg: float
    """Aggregate for all bags; zero for a neat mix."""
    primer_l: float | None
    """Primer for all coats; None where the card has no coverage."""
    pallets: int | None
    """Pallets; None where the card does not say what one holds."""


@frozen
class Tally:
    """The tally of a job, or of a zone shown as one."""

    points: int
    """Points with a valid reading from a tied set-up."""
    missing: int
    """Points with a place and without such a reading."""
    finish_mm: Fraction
    waste_percent: Decimal
    waste_assumed: bool
    """True while no waste was set and the usual one is assumed."""
    aggregate_percent: Decimal
    product: str | None = None
    area_m2: float | None = None
    """None where no room is given."""
    depths: Depths | None = None
    """None without a reading."""
    volume_m3: float | None = None
    """Volume between floor and finish, high spots not subtracted. None without
    a room or a reading in it."""
    high_volume_m3: float | None = None
    """Volume of floor above the finish."""
    mean_method_volume_m3: float | None = None
    """Mean depth times area, as done by hand."""
    material: Material | None = None
    """None without a product or a volume."""
    cost: Cost | None = None
    """Of the bags; None where the cost of a bag was not said."""

    def as_data(self) -> dict[str, Any]:
        """The numbers for programs; JSON types only, millimetres, metres, litres, kilograms."""
        made, depths = self.material, self.depths
        return {
            "points": self.points,
            "points_missing": self.missing,
            "area_m2": self.area_m2,
            "volume_m3": self.volume_m3,
            "mean_method_volume_m3": self.mean_method_volume_m3,
            "high_volume_m3": self.high_volume_m3,
            "depth_mm": {
                "min": float(depths.least) if depths else None,
                "mean": float(depths.mean) if depths else None,
                "max": float(depths.most) if depths else None,
            },
            "finish_mm": float(self.finish_mm),
            "product": self.product,
            "waste_percent": float(self.waste_percent),
            "waste_assumed": self.waste_assumed,
            "aggregate_percent": float(self.aggregate_percent),
            "bags": made.bags if made else None,
            "water_l": list(made.water_l) if made else None,
            "aggregate_kg": made.aggregate_kg if made else None,
            "primer_l": made.primer_l if made else None,
            "pallets": made.pallets if made else None,
            "mass_kg": made.mass_kg if made else None,
            "mass_kg_per_m2": made.mass_kg_per_m2 if made else None,
            "mass_lb_per_ft2": lb_per_ft2(made.mass_kg_per_m2) if made else None,
            **({"cost": self.cost.as_data()} if self.cost else {}),
        }


@cached
def tally_of(job: Job) -> Tally:
    """The tally, worked out once for each job."""
    area_m2, depths = area_of(job.layout), _depths(job)
    volume_m3, high_m3 = _volumes(job)
    mean_method = None
    if area_m2 is not None and depths is not None:
        mean_method = float(depths.mean) / 1000 * area_m2
    material = _material(job, volume_m3, area_m2)
    return Tally(
        points=len(depths_of(job)),
        missing=len(points_missing(job)) + len(untied_points(job)),
        finish_mm=job.finish_mm,
        waste_percent=job.waste_percent,
        waste_assumed=not job.waste_said,
        aggregate_percent=job.aggregate_percent,
        product=job.card.name if job.card else None,
        area_m2=area_m2,
        depths=depths,
        volume_m3=volume_m3,
        high_volume_m3=high_m3,
        mean_method_volume_m3=mean_method,
        material=material,
        cost=cost_of_bags(job, material.bags) if material and _has_the_priced_bag(job) else None,
    )


def _has_the_priced_bag(job: Job) -> bool:
    """Whether all that is poured is the room's product, which is what a bag's cost was said of."""
    priced = (job.whole or job).card
    return priced is not None and one_card(job) == priced


def _depths(job: Job) -> Depths | None:
    depths = depths_of(job).values()
    if not depths:
        return None
    return Depths(min(depths), sum(depths, Fraction(0)) / len(depths), max(depths))


def _volumes(job: Job) -> tuple[float | None, float | None]:
    if surface_of(job) is None:
        return None, None
    filled = [found for found in map(_filled, poured_parts(job)) if found]
    return fsum(each.volume_m3 for each in filled), fsum(each.cut_m3 for each in filled)


@cached
def _filled(part: Job) -> VolumeToFinish | None:
    """One part of the floor filled to its finish."""
    surface = surface_of(part)
    if surface is None:
        return None
    from assistant.levels.volume import fill

    return fill(surface.mesh, surface.depths_m)


def _material(job: Job, volume_m3: float | None, area_m2: float | None) -> Material | None:
    """
    What all parts of the floor take together.

    Bags are counted for each product, so zones with the same one share a bag that is not full.
    """
    if volume_m3 is None or area_m2 is None:
        return None
    parts = [_Poured.of_part(part) for part in poured_parts(job)]
    poured = [part for part in parts if part is not None]
    if len(poured) < len(parts):
        return None
    kinds: dict[tuple[str, float], list[_Poured]] = {}
    for part in poured:
        kinds.setdefault((part.card.name, part.aggregate_percent), []).append(part)
    takes = [_of_one_kind(each, float(job.waste_percent)) for each in kinds.values()]
    mass_kg = fsum(part.mass_kg for part in poured)
    return Material(
        bags=sum(each.bags for each in takes),
        water_l=(fsum(each.water_l[0] for each in takes), fsum(each.water_l[1] for each in takes)),
        mass_kg_per_m2=mass_kg / area_m2,
        mass_kg=mass_kg,
        mass_kg_per_m2_at_deepest=max(part.deepest_kg_per_m2 for part in poured),
        aggregate_kg=fsum(each.aggregate_kg for each in takes),
        primer_l=_all_of([part.primer_l for part in poured]),
        pallets=_all_of([each.pallets for each in takes]),
    )


AnyNumber = TypeVar("AnyNumber", int, float)


def _all_of(amounts: Sequence[AnyNumber | None]) -> AnyNumber | None:
    """The sum; None where one of them is not known."""
    known = [amount for amount in amounts if amount is not None]
    return sum(known) if len(known) == len(amounts) else None


@frozen
class _Poured:
    """One part of the floor with what is poured there."""

    card: Card
    aggregate_percent: float
    volume_m3: float
    mass_kg: float
    deepest_kg_per_m2: float
    primer_l: float | None

    @classmethod
    def of_part(cls, part: Job) -> _Poured | None:
        card, filled, area_m2 = part.card, _filled(part), area_of(part.layout)
        if card is None or filled is None or area_m2 is None:
            return None
        share = float(aggregate_of(part))
        density = card.mix(share).wet_density_kg_m3
        volume_m3 = filled.volume_m3
        deepest = max(depths_of(part).values(), default=Fraction(0))
        return cls(
            card,
            share,
            volume_m3,
            density * volume_m3,
            mass_per_m2(density, float(deepest) / 1000),
            _primer(card, area_m2),
        )


@frozen
class _Takes:
    """Volume and bags of one product."""

    bags: int
    water_l: tuple[float, float]
    aggregate_kg: float
    pallets: int | None


def _of_one_kind(poured: Sequence[_Poured], waste_percent: float) -> _Takes:
    card = poured[0].card
    mix = card.mix(poured[0].aggregate_percent)
    bags = bags_needed(fsum(part.volume_m3 for part in poured), waste_percent, mix.yield_m3)
    return _Takes(
        bags=bags,
        water_l=water_litres(bags, *card.water_l),
        aggregate_kg=bags * mix.aggregate_kg,
        pallets=None if card.bags_per_pallet is None else pallets(bags, card.bags_per_pallet),
    )


def aggregate_of(job: Job) -> Decimal:
    """Aggregate in the mix, percent; a zone's own product that takes none is poured neat."""
    card = job.card
    if job.whole is None or card is None or card == job.whole.card:
        return job.aggregate_percent
    most = Decimal(repr(card.max_aggregate_percent or 0.0))
    return job.aggregate_percent if job.aggregate_percent <= most else Decimal(0)


def _primer(card: Card, area_m2: float) -> float | None:
    if card.primer_m2_per_l is None:
        return None
    return primer_litres(area_m2, card.primer_m2_per_l, card.primer_coats)
