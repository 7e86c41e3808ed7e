"""The lines over a floor along which its readings show how flat it is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.floor.geometry import whole_grid_of
from assistant.floor.heights import heights_of, reading_sd_mm, survey_of
from assistant.floor.late_numpy import np
from assistant.floor.proof_lines import profiles_of
from assistant.floor.scan import scan_event, scan_of, scan_sd_mm
from assistant.job import Job
from assistant.job.once import cached
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray

GRID, LINE, SCAN = "grid", "line", "scan"
ROWS, COLUMNS = "along the rows", "along the columns"


@frozen_identity
class Lines:
    """Lines beside each other that were read at the same distances from their beginnings."""

    kind: str
    """``grid``, ``line`` or ``scan``."""
    direction: str
    ids: tuple[str, ...]
    """Name of each line."""
    along_m: FloatArray
    """(n,)"""
    heights_mm: FloatArray
    """(k, n) above the datum; NaN where nothing was read."""
    places_m: FloatArray
    """(k, n, 2)"""
    names: tuple[tuple[str, ...], ...]
    """The points, where they have names: k times n, or none."""
    sd_mm: float
    """Of one height."""
    averaged_m: float = 0.0
    """Length of the stretch that each height is the middle one of; nothing for a reading."""

    @property
    def spacing_m(self) -> float:
        """The widest from one place to the next."""
        return float(np.diff(self.along_m).max())

    @property
    def length_m(self) -> float:
        """Of each line."""
        return float(self.along_m[-1] - self.along_m[0])

    @property
    def is_read(self) -> bool:
        """Whether three places that follow one another were read on any of them."""
        read = np.isfinite(self.heights_mm)
        return bool((read[:, :-2] & read[:, 1:-1] & read[:, 2:]).any())


_PARALLEL = 0.98
"""Cosine of 10 degrees."""


def run_one_way(found: Sequence[Lines]) -> bool:
    """Whether all lines run one way; those whose place nobody said may run any."""
    runs = [lines.places_m[0, -1] - lines.places_m[0, 0] for lines in found]
    ways = [run / (run @ run) ** 0.5 for run in runs if (run @ run) > 0]
    return all(abs(way @ ways[0]) > _PARALLEL for way in ways)


@cached
def lines_of(job: Job) -> tuple[Lines, ...]:
    """All lines with three readings in a row, those of the grid in both directions."""
    return tuple(
        lines for lines in (*_of_grid(job), *_of_lines(job), *_of_scan(job)) if lines.is_read
    )


def _of_grid(job: Job) -> Sequence[Lines]:
    grid = whole_grid_of(job.layout)
    if grid is None:
        return ()
    heights = heights_of(job)
    sds = survey_of(job).sd_mm
    across, columns = np.unique(np.round(grid.xy_m[:, 0], 6), return_inverse=True)
    up, rows = np.unique(np.round(grid.xy_m[:, 1], 6), return_inverse=True)
    table = np.full((len(up), len(across)), np.nan)
    names = [[""] * len(across) for _ in up]
    for name, row, column in zip(grid.names, rows.tolist(), columns.tolist(), strict=True):
        names[row][column] = name
        if name in heights:
            table[row, column] = float(heights[name])
    sd = max((sds[name] for name in grid.names if name in sds), default=reading_sd_mm(job))
    at = np.stack(np.meshgrid(across, up), axis=-1)
    found = []
    if len(across) > 2:
        ids = tuple(f"row {_first(row)[1]}" for row in names)
        points = tuple(map(tuple, names))
        found.append(Lines(GRID, ROWS, ids, across - across[0], table, at, points, sd))
    if len(up) > 2:
        turned = list(zip(*names, strict=True))
        ids = tuple(f"column {_first(column)[0]}" for column in turned)
        places = at.transpose(1, 0, 2)
        found.append(Lines(GRID, COLUMNS, ids, up - up[0], table.T, places, tuple(turned), sd))
    return found


def _first(names: Sequence[str]) -> tuple[str, str]:
    """Column and row of the first point in a row of them."""
    name = next(filter(None, names))
    letters = name.rstrip("0123456789")
    return letters, name[len(letters) :]


def _of_lines(job: Job) -> Sequence[Lines]:
    found = []
    for profile in profiles_of(job):
        count = len(profile.heights_mm)
        if count < 3:
            continue
        line = job.proof.lines[profile.line]
        places = [line.place_m(index) or (np.nan, np.nan) for index in range(count)]
        name = f"line {profile.line}"
        found.append(
            Lines(
                LINE,
                f"along {name}",
                (name,),
                np.arange(count, dtype=float) * float(profile.spacing_m),
                np.array([profile.heights_mm]),
                np.array([places]),
                (("",) * count,),
                profile.sd_mm,
            )
        )
    return found


def _of_scan(job: Job) -> Sequence[Lines]:
    cells, event = scan_of(job), scan_event(job)
    if cells is None or event is None:
        return ()
    sd, middles, heights = scan_sd_mm(event, cells), cells.middles_m, cells.floor_mm
    rows, columns = heights.shape
    found = []
    for turned, direction in ((False, ROWS), (True, COLUMNS)):
        count, along = (columns, rows) if turned else (rows, columns)
        if along < 3:
            continue
        found.append(
            Lines(
                SCAN,
                f"scan {direction}",
                tuple(f"scan line {number + 1}" for number in range(count)),
                np.arange(along, dtype=float) * cells.side_m,
                heights.T if turned else heights,
                middles.transpose(1, 0, 2) if turned else middles,
                (),
                sd,
                0.0 if event.single else cells.side_m,
            )
        )
    return found
