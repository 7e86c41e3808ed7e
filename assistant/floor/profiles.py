"""The lines over a floor along which its readings show how flat it is."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from assistant.floor.heights import heights_of, reading_sd_mm, survey_of
from assistant.floor.late_numpy import np
from assistant.floor.places import places_of, whole_grid_of
from assistant.floor.proof_lines import mended_since, profiles_of
from assistant.floor.scans.scan import scan_event, scan_of, scan_sd_mm
from assistant.job import Job
from assistant.job.once import cached
from assistant.reply import wording
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
    """Standard deviation of one height."""
    averaged_m: float = 0.0
    """Length of the stretch that each height is the middle one of; nothing for a reading."""

    @property
    def spacing_m(self) -> float:
        """The widest from one place to the next."""
        return float(np.diff(self.along_m).max())

    @property
    def length_m(self) -> float:
        """The length of each line."""
        return float(self.along_m[-1] - self.along_m[0])

    @property
    def is_read(self) -> bool:
        """Whether three places that follow one another were read on any of them."""
        read = np.isfinite(self.heights_mm)
        return bool((read[:, :-2] & read[:, 1:-1] & read[:, 2:]).any())


ON_THE_LINE_M = 0.02
"""As far as a point of one's own may lie beside a row of the grid and be one of it. Common
practice, no source."""
_OF_FLOATS = 1e-6
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
    """
    The grid's rows and columns, with the points of one's own that lie on them.

    Rows that have their points at the same places make one group: where a last column of points
    of one's own stands closer, it is the end of its rows.
    """
    grid = whole_grid_of(job.layout)
    if grid is None:
        return ()
    at_m = dict(zip(grid.names, grid.xy_m.tolist(), strict=True))
    on_grid = frozenset(at_m)
    at_m |= {name: list(at) for name, at in places_of(job.layout).at_m.items() if name not in at_m}
    sds = survey_of(job).sd_mm
    sd = max((sds[name] for name in at_m if name in sds), default=reading_sd_mm(job))
    return [
        lines
        for way, direction in ((0, ROWS), (1, COLUMNS))
        for lines in _of_grid_along(job, at_m, on_grid, way, direction, sd)
    ]


def _of_grid_along(
    job: Job,
    at_m: Mapping[str, Sequence[float]],
    on_grid: frozenset[str],
    way: int,
    direction: str,
    sd: float,
) -> list[Lines]:
    """The rows, way 0, or the columns, way 1; by the places that their points lie at."""
    across = 1 - way
    usual = sorted({round(at_m[name][way], 6) for name in on_grid})
    together: dict[tuple[float, ...], list[tuple[str, float, dict[float, str]]]] = {}
    for beside in sorted({round(at_m[name][across], 6) for name in on_grid}):
        named = {
            round(at[way], 6): name
            for name, at in at_m.items()
            if abs(at[across] - beside) <= _OF_FLOATS + ON_THE_LINE_M * (name not in on_grid)
        }
        first = next(name for name in named.values() if name in on_grid)
        letters = first.rstrip("0123456789")
        id = f"row {first[len(letters) :]}" if way == 0 else f"column {letters}"
        places = tuple(sorted({*usual, *named}))
        together.setdefault(places, []).append((id, beside, named))
    found = []
    for places, lines in together.items():
        if len(places) < 3:
            continue
        names = tuple(tuple(named.get(at, "") for at in places) for _, _, named in lines)
        ids = tuple(id for id, _, _ in lines)
        along = np.array(places)
        table = np.array([[_height(job, name) for name in row] for row in names])
        xy = np.empty((*table.shape, 2))
        xy[..., way] = along
        xy[..., across] = np.array([beside for _, beside, _ in lines])[:, None]
        told = direction if len(together) == 1 else f"along {_joined(ids)}"
        found.append(Lines(GRID, told, ids, along - along[0], table, xy, names, sd))
    return found


def _height(job: Job, name: str) -> float:
    height = heights_of(job).get(name)
    return np.nan if height is None else float(height)


def _joined(ids: Sequence[str]) -> str:
    """Several lines in words: ``rows 1, 2 and 4``."""
    kind = ids[0].split()[0]
    names = wording.join_names([id.split()[1] for id in ids])
    return f"{kind}{'s' * (len(ids) > 1)} {names}"


def _of_lines(job: Job) -> Sequence[Lines]:
    found = []
    for profile in profiles_of(job):
        count = len(profile.heights_mm)
        if count < 3:
            continue
        line = job.proof.lines[profile.line]
        places = [line.place_m(index) or (np.nan, np.nan) for index in range(count)]
        since = mended_since(job, line)
        heights = [np.nan if at in since else mm for at, mm in enumerate(profile.heights_mm)]
        name = f"line {profile.line}"
        found.append(
            Lines(
                LINE,
                f"along {name}",
                (name,),
                np.arange(count, dtype=float) * float(profile.spacing_m),
                np.array([heights]),
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
