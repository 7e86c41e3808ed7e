"""Bags of each product, on a floor on which several are poured."""

from __future__ import annotations

from decimal import Decimal
from math import fsum
from typing import Any

from assistant.floor.geometry import area_to_pour
from assistant.floor.interval import fit_of
from assistant.floor.tally import aggregate_of, tally_of
from assistant.floor.zones import parts_of, poured_parts
from assistant.job import Job
from assistant.pours.material import bags_needed
from grammar.frozen import frozen


@frozen
class ProductOrder:
    """Bags of one product for a risk of running short."""

    product: str
    zones: tuple[str, ...]
    bags: int
    by_readings: int

    def as_data(self) -> dict[str, Any]:
        """The numbers for programs."""
        return {
            "product": self.product,
            "zones": list(self.zones),
            "bags": self.bags,
            "bags_by_readings": self.by_readings,
        }


def product_orders(job: Job, risk_percent: Decimal) -> list[ProductOrder]:
    """
    Fewest bags of each product with at most the given risk of running short of it.

    The zones of a product are looked at together, for they are sure or unsure together. A zone
    without a product is left out.
    """
    names = {id(part): name for name, part in parts_of(job).items()}
    kinds: dict[str, list[Job]] = {}
    for part in poured_parts(job):
        if part.card is not None:
            kinds.setdefault(part.card.name, []).append(part)
    return [
        _order(job, tuple(names[id(part)] for part in parts), parts, risk_percent)
        for parts in kinds.values()
    ]


def _order(
    job: Job, zones: tuple[str, ...], parts: list[Job], risk_percent: Decimal
) -> ProductOrder:
    import shapely

    from assistant.levels.kriged.cells import OVERLAY_GRID_M
    from assistant.levels.kriged.finish import FinishInParts
    from assistant.levels.kriged.volume import volume_with_interval

    card, floor = parts[0].card, fit_of(job)
    assert card is not None  # its kind was made of it
    assert floor is not None  # looked at before
    areas = tuple(area for area in (area_to_pour(part.layout) for part in parts) if area)
    finish = FinishInParts(areas, tuple(float(part.finish_mm) / 1000 for part in parts))
    whole = shapely.union_all(areas, grid_size=OVERLAY_GRID_M)
    volume = volume_with_interval(floor, whole, finish)
    waste, makes_m3 = float(job.waste_percent), card.mix(float(aggregate_of(parts[0]))).yield_m3
    read_m3 = fsum(tally_of(part).volume_m3 or 0.0 for part in parts)
    return ProductOrder(
        card.name,
        zones,
        bags_needed(volume.quantile(1 - float(risk_percent) / 100), waste, makes_m3),
        bags_needed(read_m3, waste, makes_m3),
    )
