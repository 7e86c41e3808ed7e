"""Where the scan of a finished floor is further off what was promised than is let pass."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.floor.depths import finish_mm_of
from assistant.floor.geometry import zone_areas
from assistant.floor.late_numpy import np
from assistant.floor.off_promise import is_flat_only
from assistant.floor.scans.scan import scan_event, scan_of, scan_sd_mm
from assistant.floor.scans.volume import area_of_cells
from assistant.job import Job
from assistant.job.once import cached
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray

LEAST_M2 = 0.05
"""The smallest patch reported: no grinder or trowel works on less. Our own choice, no source."""


@frozen
class Patch:
    """Cells beside each other that are off to the same side."""

    mm: float
    """How far the worst of them is above what was promised."""
    sd_mm: float
    place_m: tuple[float, float]
    """Where the worst of them lies."""
    area_m2: float
    litres: float
    """From there to what was promised, over all of it."""
    places_m: tuple[tuple[float, float], ...]
    """Where each of its cells lies."""
    side_m: float

    def is_at(self, place_m: tuple[float, float]) -> bool:
        """Whether a place lies on it, or beside it by less than a cell."""
        x_m, y_m = place_m
        reach = 1.5 * self.side_m
        return any(abs(x_m - x) < reach and abs(y_m - y) < reach for x, y in self.places_m)


def lacks_zero(job: Job) -> bool:
    """Whether there is a scan that cannot be held against the finish, as nobody said its zero."""
    event = scan_event(job)
    return event is not None and event.side is not None and event.zero is None


def patches_off(job: Job, most_mm: float) -> tuple[Patch, ...]:
    """
    The patches that are off by more; row by row over the floor.

    Of a floor to be flat alone off the plane that lies best through its cells, whatever the scan's
    zero; else off the finish, and none where its zero is not known.
    """
    from scipy import ndimage

    off, cells, event = _off_mm(job), scan_of(job), scan_event(job)
    if off is None or cells is None or event is None:
        return ()
    sd, found = scan_sd_mm(event, cells), []
    for sign in (1, -1):
        with np.errstate(invalid="ignore"):
            beyond = sign * off > most_mm
        marked, count = ndimage.label(beyond, structure=np.ones((3, 3)))
        for number in range(1, count + 1):
            inside = marked == number
            area = float(inside.sum()) * cells.side_m**2
            if area < LEAST_M2:
                continue
            worst = np.unravel_index(
                int(np.argmax(np.where(inside, sign * off, -np.inf))), off.shape
            )
            x, y = cells.middles_m[worst].tolist()
            litres = float(np.abs(off[inside]).sum()) * cells.side_m**2
            places = tuple((a, b) for a, b in cells.middles_m[inside].tolist())
            found.append(Patch(float(off[worst]), sd, (x, y), area, litres, places, cells.side_m))
    return tuple(sorted(found, key=lambda patch: (patch.place_m[1], patch.place_m[0])))


@cached
def _off_mm(job: Job) -> FloatArray | None:
    """(rows, columns) above what was promised; NaN where the scan does not show the floor."""
    cells = scan_of(job)
    if cells is None or not np.isfinite(cells.floor_mm).any():
        return None
    heights = cells.floor_mm
    if is_flat_only(job):
        from assistant.flatness.cells import sturdy_plane

        seen, middles = np.isfinite(heights), cells.middles_m
        columns = np.stack((np.ones(heights.shape), middles[..., 0], middles[..., 1]), axis=-1)
        left: FloatArray = heights - columns @ sturdy_plane(columns[seen], heights[seen])
        return left
    if lacks_zero(job):
        return None
    finish = np.full(heights.shape, float(job.finish_mm))
    most = np.zeros(heights.shape)
    for zone, area in zone_areas(job.layout).items():
        on = area_of_cells(cells, area)
        finish = np.where(on > most, float(finish_mm_of(job, zone)), finish)
        most = np.maximum(most, on)
    off: FloatArray = heights - finish
    return off
