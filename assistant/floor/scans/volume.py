"""What a scan comes to as a volume: only where it has a height against the job's zero."""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING, Any

from assistant.floor.depths import finish_mm_of
from assistant.floor.geometry import zone_areas
from assistant.floor.late_numpy import np
from assistant.floor.scans.scan import scan_event, scan_of, scan_sd_mm
from assistant.floor.zones import one_card
from assistant.job import Job
from assistant.job.once import cached
from grammar.frozen import frozen

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    from assistant.flatness.cells import CellGrid
    from assistant.levels.arrays import FloatArray

LEAST_SEEN = 0.5
"""Share of the floor that has to be seen for a volume. Our own choice; raising it refuses scans of
furnished rooms."""


@frozen
class ScanVolume:
    """The volume between a scan and the finish; what was not seen is taken to be as the rest is."""

    fill_m3: float
    """Up to the finish, where the floor lies below it."""
    above_m3: float
    """Volume of floor above the finish; it is not taken off what is to be poured."""
    area_m2: float
    """Area of the floor."""
    seen_m2: float
    """How much of the floor lies under clear cells."""
    sd_m3: float
    """By the errors of the cells alone, each by itself. That of the zero is common to all of
    them and is no part of this."""

    @property
    def seen(self) -> float:
        """The share that was seen."""
        return self.seen_m2 / self.area_m2

    @property
    def a_millimetre_m3(self) -> float:
        """What a millimetre of error in the zero comes to."""
        return self.area_m2 / 1000


@cached
def scan_volume_of(job: Job) -> ScanVolume | None:
    """
    The volume by the scan of the floor that the job shows.

    None without a scan, without its height against the job's zero, without a room, and where less
    than half of the floor was seen.
    """
    cells, event = scan_of(job), scan_event(job)
    if cells is None or event is None or event.zero is None:
        return None
    areas = zone_areas(job.layout)
    if not areas:
        return None
    depths, weights, total = [], [], 0.0
    for zone, area in areas.items():
        on = area_of_cells(cells, area)
        clear = np.isfinite(cells.floor_mm) & (on > 0)
        total += float(area.area)
        depths.append(float(finish_mm_of(job, zone)) - cells.floor_mm[clear])
        weights.append(on[clear])
    depth, weight = np.concatenate(depths), np.concatenate(weights)
    seen = float(weight.sum())
    if not total or seen < LEAST_SEEN * total:
        return None
    to_whole = total / seen / 1000
    sd = scan_sd_mm(event, cells) * float(np.sqrt((weight**2).sum())) * to_whole
    fill = float(weight @ np.maximum(depth, 0.0)) * to_whole
    above = float(weight @ np.maximum(-depth, 0.0)) * to_whole
    return ScanVolume(fill, above, total, seen, sd)


def area_of_cells(cells: CellGrid, area: Polygon | MultiPolygon) -> FloatArray:
    """(rows, columns), m² of each cell that lie in an area."""
    import shapely

    half = cells.side_m / 2
    middles = cells.middles_m
    boxes = shapely.box(*(middles - half).transpose(2, 0, 1), *(middles + half).transpose(2, 0, 1))
    found: FloatArray = shapely.area(shapely.intersection(boxes, area))
    return found


def bags_by_scan(job: Job, volume: ScanVolume) -> int | None:
    """Bags for it with the job's waste, rounded up; None without one product for all of it."""
    card = one_card(job)
    if card is None:
        return None
    waste = 1 + float(job.waste_percent) / 100
    yield_m3 = float(card.mix(float(job.aggregate_percent)).yield_m3)
    return ceil(volume.fill_m3 * waste / yield_m3 - 1e-9)


def scan_volume_data(job: Job) -> dict[str, Any] | None:
    """For programs; cubic and square metres."""
    found = scan_volume_of(job)
    if found is None:
        return None
    return {
        "fill_m3": found.fill_m3,
        "above_finish_m3": found.above_m3,
        "floor_m2": found.area_m2,
        "seen_m2": found.seen_m2,
        "sd_m3": found.sd_m3,
        "m3_per_mm_of_zero": found.a_millimetre_m3,
        "bags": None if job.slab is not None else bags_by_scan(job, found),
    }
