"""What was laid by two scans: that of the finished floor less that of the slab."""

from __future__ import annotations

from math import hypot
from typing import TYPE_CHECKING

from assistant.floor.depths import finish_mm_of
from assistant.floor.geometry import area_to_pour, zone_areas
from assistant.floor.late_numpy import np
from assistant.floor.scans.scan import scan_event, scan_of, scan_sd_mm
from assistant.floor.scans.volume import LEAST_SEEN, area_of_cells
from assistant.job import Job, finished_floor
from assistant.job.once import cached
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.flatness.cells import CellGrid
    from assistant.levels.arrays import FloatArray

_CLEAR_SDS = 2.0
_OF_FLOATS = 1e-9


@frozen
class LaidSpot:
    """A place, and what was laid there."""

    mm: float
    x_m: float
    y_m: float


@frozen
class LaidByScans:
    """What was laid where both scans saw the floor; the rest is taken to be as that is."""

    mean_mm: float
    planned_mm: float
    """To be laid by the slab's scan, in the mean over the same places."""
    litres: float
    sd_l: float
    """By the errors of the cells alone, each by itself; those of the zeros move all of it alike."""
    area_m2: float
    """Of the floor: a millimetre in either zero is as many litres."""
    seen_m2: float
    """How much of the area both scans have seen."""
    sd_mm: float
    """Standard deviation of what was laid at one place."""
    least: LaidSpot
    most: LaidSpot
    under_slab_m2: float
    """Where the finished floor clearly lies under the slab by them, which it cannot."""


def scans_lack(job: Job) -> str:
    """Why two scans do not tell what was laid: a sentence, or nothing where there is no why."""
    after = finished_floor(job)
    slab, floor = scan_event(job), None if after is None else scan_event(after)
    if slab is None or floor is None or slab.side is None or floor.side is None:
        return ""
    unknown = [
        name for name, each in (("slab", slab), ("finished floor", floor)) if each.zero is None
    ]
    if unknown:
        return (
            f"The scans of both floors are told apart by their zero, which nobody said of that of "
            f"the {' and of the '.join(unknown)}: import it with --zero."
        )
    if laid_by_scans(job) is None:
        return "Both scans together saw less than half of the floor, so they do not tell it."
    return ""


@cached
def laid_by_scans(job: Job) -> LaidByScans | None:
    """
    What was laid; None without a scan of each floor with its zero, and where less than half was
    seen by both.
    """
    after, area = finished_floor(job), area_to_pour(job.layout)
    if after is None or area is None:
        return None
    slab, floor = scan_of(job), scan_of(after)
    of_slab, of_floor = scan_event(job), scan_event(after)
    if slab is None or floor is None or of_slab is None or of_floor is None:
        return None
    if of_slab.zero is None or of_floor.zero is None:
        return None
    finer = min(slab, floor, key=lambda cells: cells.side_m)
    places = finer.middles_m.reshape(-1, 2)
    before, now = _heights_at(slab, places), _heights_at(floor, places)
    planned, weights = np.full(len(places), np.nan), np.zeros(len(places))
    for zone, part in zone_areas(job.layout).items():
        on = area_of_cells(finer, part).ravel()
        # A cell across two zones counts in both, each with its share; the larger sets its finish.
        planned = np.where(on > weights / 2, float(finish_mm_of(job, zone)) - before, planned)
        weights = weights + on
    laid = now - before
    seen = np.isfinite(laid) & (weights > 0)
    total, by_both = float(area.area), float(weights[seen].sum())
    if not total or by_both < LEAST_SEEN * total:
        return None
    share = weights[seen] / by_both
    mean = float(share @ laid[seen])
    sds = scan_sd_mm(of_slab, slab), scan_sd_mm(of_floor, floor)
    sd_mm = hypot(*sds)
    of_mean = [
        sd * float(np.sqrt((area_of_cells(cells, area) ** 2).sum())) / total
        for sd, cells in zip(sds, (slab, floor), strict=True)
    ]
    under = seen & (laid < -_CLEAR_SDS * sd_mm)
    rows = np.flatnonzero(seen)
    least, most = rows[np.argmin(laid[rows])], rows[np.argmax(laid[rows])]
    return LaidByScans(
        mean,
        float(share @ planned[seen]),
        mean * total,
        hypot(*of_mean) * total,
        total,
        by_both,
        sd_mm,
        _spot(laid, places, int(least)),
        _spot(laid, places, int(most)),
        float(weights[under].sum()),
    )


def _spot(laid: FloatArray, places: FloatArray, row: int) -> LaidSpot:
    return LaidSpot(float(laid[row]), float(places[row, 0]), float(places[row, 1]))


def _heights_at(cells: CellGrid, places: FloatArray) -> FloatArray:
    """Of the clear cell at each place; NaN where there is none."""
    at = np.floor((places - np.array(cells.corner_m)) / cells.side_m + _OF_FLOATS).astype(int)
    rows, columns = cells.median_mm.shape
    on = (at >= 0).all(axis=1) & (at[:, 0] < columns) & (at[:, 1] < rows)
    found = np.full(len(places), np.nan)
    found[on] = cells.floor_mm[at[on, 1], at[on, 0]]
    return found
