"""Heights along any line over a floor: by its scan, or by the surface through its points."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.floor.depths import finish_mm_of
from assistant.floor.geometry import is_inside, zone_at
from assistant.floor.late_numpy import np
from assistant.floor.obstacles import is_covered
from assistant.floor.scans.scan import scan_event, scan_of
from assistant.floor.surfaces import depth_mm_at, surface_of
from assistant.job import Job
from grammar.frozen import frozen

FINISH, ZERO, MEDIAN = "the finish", "the zero", "the scan's median"
"""What the heights along a line are measured from."""

Place = tuple[float, float]


@frozen
class Along:
    """Heights at places of a line."""

    heights_mm: tuple[float | None, ...]
    """None where a scan did not see the floor, or off it."""
    above: str
    by_scan: bool


def heights_along(job: Job, places_m: Sequence[Place]) -> Along | None:
    """
    Heights at places over the floor that the job shows; None where nothing was read of it.

    Above the finish once the floor is poured, above the zero before. By the scan where there is
    one, as it was seen nearer; above its own median where its zero is not known.
    """
    return _by_scan(job, places_m) or _by_surface(job, places_m)


def _on_floor(job: Job, places_m: Sequence[Place]) -> list[bool]:
    covered = is_covered(job.layout, np.array(places_m, dtype=np.float64)).tolist()
    return [
        is_inside(job.layout, x, y) and not under
        for (x, y), under in zip(places_m, covered, strict=True)
    ]


def _by_scan(job: Job, places_m: Sequence[Place]) -> Along | None:
    cells, event = scan_of(job), scan_event(job)
    if cells is None or event is None or not np.isfinite(cells.floor_mm).any():
        return None
    rows, columns = cells.median_mm.shape
    known = event.zero is not None
    above = MEDIAN if not known else ZERO if job.slab is None else FINISH
    median = float(np.nanmedian(cells.floor_mm))
    found: list[float | None] = []
    for (x, y), on_floor in zip(places_m, _on_floor(job, places_m), strict=True):
        column, row = (
            int(np.floor((at - corner) / cells.side_m + _OF_FLOATS))
            for at, corner in zip((x, y), cells.corner_m, strict=True)
        )
        there = 0 <= row < rows and 0 <= column < columns and on_floor
        height = float(cells.floor_mm[row, column]) if there else np.nan
        against = median if not known else _finish_mm(job, x, y) if above == FINISH else 0.0
        found.append(None if np.isnan(height) else height - against)
    return Along(tuple(found), above, True)


_OF_FLOATS = 1e-9


def _by_surface(job: Job, places_m: Sequence[Place]) -> Along | None:
    surface = surface_of(job)
    if surface is None:
        return None
    found: list[float | None] = []
    for (x, y), on_floor in zip(places_m, _on_floor(job, places_m), strict=True):
        if not on_floor:
            found.append(None)
            continue
        above_finish = -depth_mm_at(job, surface, x, y)
        found.append(above_finish + (_finish_mm(job, x, y) if job.slab is None else 0.0))
    return Along(tuple(found), ZERO if job.slab is None else FINISH, False)


def _finish_mm(job: Job, x_m: float, y_m: float) -> float:
    return float(finish_mm_of(job, zone_at(job.layout, x_m, y_m)))
