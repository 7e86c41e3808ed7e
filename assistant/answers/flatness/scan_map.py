"""The scan of a floor from above, as the map shows points."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.floor.depths import finish_mm_of
from assistant.floor.geometry import outline_of, zone_at
from assistant.floor.late_numpy import np
from assistant.floor.scans.scan import scan_event, scan_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import FloorMap, MapSpot, Reply

if TYPE_CHECKING:
    from assistant.flatness.cells import CellGrid

_MOST_SPOTS = (10, 8)
"""Across and up: what fits a screen of 80 columns."""
BELOW_MEDIAN, BELOW_FINISH = "Below the scan's median", "Below the finish"


def scan_map(job: Job) -> FloorMap | None:
    """
    Medians of squares of the scan below the finish; below its own median where its zero is not
    known. What was not seen is left open. None without a scan or a room.
    """
    cells, event, outline = scan_of(job), scan_event(job), outline_of(job.layout)
    if cells is None or event is None or outline is None or not np.isfinite(cells.floor_mm).any():
        return None
    middle = float(np.nanmedian(cells.floor_mm))
    spots = []
    for name, x, y, height in _squares(cells):
        zero = middle if event.zero is None else float(finish_mm_of(job, zone_at(job.layout, x, y)))
        below = None if height is None else round(zero - height, 1) + 0.0
        spots.append(MapSpot(name, x, y, below))
    corners = tuple((x, y) for x, y in outline.tolist())
    shows = BELOW_MEDIAN if event.zero is None else BELOW_FINISH
    return FloorMap(corners, tuple(spots), job.reading_unit, shows=shows)


def _squares(cells: CellGrid) -> list[tuple[str, float, float, float | None]]:
    """Name, place and median height of squares of cells; None where nothing of one was seen."""
    rows, columns = cells.median_mm.shape
    step = max(-(-columns // _MOST_SPOTS[0]), -(-rows // _MOST_SPOTS[1]))
    found = []
    for row in range(0, rows, step):
        for column in range(0, columns, step):
            part = np.s_[row : row + step, column : column + step]
            x, y = cells.middles_m[part].reshape(-1, 2).mean(axis=0).tolist()
            seen = cells.floor_mm[part]
            name = f"{chr(ord('A') + column // step)}{row // step + 1}"
            height = float(np.nanmedian(seen)) if np.isfinite(seen).any() else None
            found.append((name, x, y, height))
    return found


def scan_drawn(floor: FloorMap) -> Reply:
    """The map where no point is read, but many were imported."""
    named = {"mm": "millimetres", "in": "inches"}[floor.unit]
    seen = sum(spot.depth_mm is not None for spot in floor.spots)
    return Reply(
        f"{floor.shows} in {named}, by the scan: {seen} of "
        f"{wording.counted(len(floor.spots), 'square')} seen.",
        "By the scan, as no point is read.",
        ("No point is read here; what is shown are medians of squares of the scan.",),
        map=floor,
        data={
            "map": {
                "by": "scan",
                "outline_m": [list(corner) for corner in floor.outline],
                "spots": [
                    {"point": s.point, "x_m": s.x_m, "y_m": s.y_m, "depth_mm": s.depth_mm}
                    for s in floor.spots
                ],
            }
        },
    )
