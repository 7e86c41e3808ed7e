"""The tally of the present job: points, depths, volume and material."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Any

from assistant.floor.cost import Cost, cost_of_bags
from assistant.floor.geometry import area_of, depths_of, surface_of, untied_points
from assistant.floor.walk import points_missing
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
    """The tally of a job."""

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
    """None without a room."""
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
    material = _material(job, volume_m3, area_m2, depths)
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
        cost=None if material is None else cost_of_bags(job, material.bags),
    )


def _depths(job: Job) -> Depths | None:
    depths = depths_of(job).values()
    if not depths:
        return None
    return Depths(min(depths), sum(depths, Fraction(0)) / len(depths), max(depths))


def _volumes(job: Job) -> tuple[float | None, float | None]:
    surface = surface_of(job)
    if surface is None:
        return None, None
    from assistant.levels.volume import fill

    filled = fill(surface.mesh, surface.depths_m)
    return float(filled.volume_m3), float(filled.cut_m3)


def _material(
    job: Job, volume_m3: float | None, area_m2: float | None, depths: Depths | None
) -> Material | None:
    card = job.card
    if card is None or volume_m3 is None or area_m2 is None or depths is None:
        return None
    mix = card.mix(float(job.aggregate_percent))
    bags = bags_needed(volume_m3, float(job.waste_percent), mix.yield_m3)
    density = mix.wet_density_kg_m3
    return Material(
        bags=bags,
        water_l=water_litres(bags, *card.water_l),
        mass_kg_per_m2=mass_per_m2(density, volume_m3 / area_m2),
        mass_kg=density * volume_m3,
        mass_kg_per_m2_at_deepest=mass_per_m2(density, float(depths.most) / 1000),
        aggregate_kg=bags * mix.aggregate_kg,
        primer_l=_primer(card, area_m2),
        pallets=None if card.bags_per_pallet is None else pallets(bags, card.bags_per_pallet),
    )


def _primer(card: Card, area_m2: float) -> float | None:
    if card.primer_m2_per_l is None:
        return None
    return primer_litres(area_m2, card.primer_m2_per_l, card.primer_coats)
