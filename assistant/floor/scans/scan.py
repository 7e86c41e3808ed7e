"""The scan of a floor: its cells, packed into an event and out of it again."""

from __future__ import annotations

import base64
import zlib
from typing import TYPE_CHECKING

from assistant.errors import SurveyError
from assistant.events.flatness import ScanImported
from assistant.floor.late_numpy import np
from assistant.job import Job
from assistant.job.once import cached
from assistant.units.lengths import exact_mm, metres

if TYPE_CHECKING:
    from assistant.flatness.cells import CellGrid

_PER_MM = 1000
"""Medians are kept to a micrometre, so that packing them changes no figure in a reply."""
_NONE = -(2**62)


def packed_cells(cells: CellGrid) -> str:
    """All of a grid of cells but where it lies, as text."""
    table = np.stack(
        (_whole(cells.median_mm), cells.count, _whole(cells.spread_mm), cells.kind)
    ).astype("<i8")
    return base64.b64encode(zlib.compress(table.tobytes(), 9)).decode("ascii")


def _whole(values: np.ndarray) -> np.ndarray:
    return np.where(np.isnan(values), _NONE, np.round(np.nan_to_num(values) * _PER_MM))


def scan_event(job: Job) -> ScanImported | None:
    """What the last import recorded of the floor that the job shows; None without one."""
    return job.scans.get(job.slab is not None)


@cached
def scan_of(job: Job) -> CellGrid | None:
    """The cells of the floor that the job shows; None where none were imported."""
    found = scan_event(job)
    if found is None or found.side is None:
        return None
    return unpacked_cells(found)


def unpacked_cells(found: ScanImported) -> CellGrid:
    """
    The cells of an import.

    Raises SurveyError where they are not as they were packed.
    """
    from assistant.flatness.cells import CellGrid

    assert found.side is not None
    try:
        raw = zlib.decompress(base64.b64decode(found.cells, validate=True))
        table = np.frombuffer(raw, dtype="<i8").reshape(4, found.rows, found.columns)
    except (ValueError, zlib.error) as fault:
        raise SurveyError("The cells of the scan cannot be read: import the file again.") from fault
    zero = 0.0 if found.zero is None else float(exact_mm(found.zero))
    median, spread = (np.where(row == _NONE, np.nan, row / _PER_MM) for row in table[[0, 2]])
    corner = tuple(map(metres, found.corner))
    return CellGrid(
        (corner[0], corner[1]) if corner else (0.0, 0.0),
        metres(found.side),
        median - zero,
        table[1].astype(np.intp),
        spread,
        table[3].astype(np.intp),
    )


def scan_sd_mm(found: ScanImported, cells: CellGrid) -> float:
    """Standard deviation of one cell's height: its points' own, and the instrument's."""
    good_to = 0.0 if found.good_to is None else float(exact_mm(found.good_to))
    return float(np.hypot(cells.sd_mm, good_to))
