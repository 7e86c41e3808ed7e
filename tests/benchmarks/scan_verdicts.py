"""
How often "met" and "not met" are wrong by a scan with clutter on it, on drawn floors.

A floor of 6 by 4 m is a sum of waves that run any way, stretched so that its largest gap under 2 m,
along rows or columns, lies from 30 % under a limit to 30 % over it. Points lie anywhere on it, each
with an error of its own; those of one patch share an error of the instrument; one in twenty hit
something that lies about, and a few boxes stand there. The verdict is the program's own, of a job
with that scan.

    python -m tests.benchmarks.scan_verdicts 300
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import numpy as np
from numpy.random import Generator

from assistant.events.flatness import ScanImported
from assistant.flatness.cells import cell_side_m, cells_of
from assistant.flatness.straightedge import worst_gap
from assistant.floor.scans.scan import packed_cells
from assistant.floor.spec_check import found_of
from assistant.job import Job, next_number, record
from assistant.levels.arrays import FloatArray
from assistant.limits.specs import Spec, SpecLimit
from grammar.commands import Measure
from tests.benchmarks.verdicts import EDGE_M, WAVES_M, Count
from tests.job.conftest import Site

ROOM_M = (6.0, 4.0)
FINE_M = 0.05
PATCH_M = 0.3
"""Of an error that the points of one place share."""
CLUTTER = 0.05
BOXES = 3

Floor = Callable[[FloatArray], FloatArray]


def drawn_floor(random: Generator) -> Floor:
    """Heights in millimetres at places (n, 2), deeper waves where they are longer."""
    deep = random.gamma(2, 0.4, len(WAVES_M)) * np.array(WAVES_M) / 3
    way, begins = random.uniform(0, 2 * np.pi, (2, len(WAVES_M)))
    runs = np.stack((np.cos(way), np.sin(way))) * 2 * np.pi / np.array(WAVES_M)

    def heights(places: FloatArray) -> FloatArray:
        found: FloatArray = np.sin(places @ runs + begins) @ deep
        return found

    return heights


def true_gap_mm(floor: Floor) -> float:
    """Largest gap along rows and columns, looked at every 50 mm on lines 0.1 m apart."""
    worst = 0.0
    for along, across in ((0, 1), (1, 0)):
        run = np.arange(0, ROOM_M[along] + FINE_M / 2, FINE_M)
        beside = np.arange(0, ROOM_M[across] + FINE_M, 2 * FINE_M)
        places = np.empty((len(beside), len(run), 2))
        places[..., along], places[..., across] = run, beside[:, None]
        worst = max(worst, worst_gap(run, floor(places), EDGE_M).mm)
    return worst


def scanned(
    random: Generator, floor: Floor, points: int, noise_mm: float, shared_mm: float, base: Job
) -> Job:
    """The job with a scan of the floor."""
    places = random.uniform(0, 1, (points, 2)) * ROOM_M
    heights = floor(places) + random.normal(0, noise_mm, points)
    patches = random.normal(0, shared_mm, tuple(int(side / PATCH_M) + 1 for side in ROOM_M))
    heights += patches[tuple((places / PATCH_M).astype(int).T)]
    for _ in range(BOXES):
        middle = random.uniform(0, 1, 2) * ROOM_M
        heights[(np.abs(places - middle) < 0.2).all(axis=1)] += random.uniform(40, 400)
    hit = random.uniform(0, 1, points) < CLUTTER
    heights[hit] += random.uniform(3, 200, int(hit.sum()))
    side = cell_side_m(ROOM_M[0] * ROOM_M[1], max(ROOM_M), points)
    cells = cells_of(places, heights, side, (0.0, 0.0), ROOM_M)
    rows, columns = cells.median_mm.shape
    event = ScanImported(
        "scan.csv", "", points, good_to=Measure(Decimal(str(shared_mm)), "mm"),
        side=Measure(Decimal(str(side)), "m"), columns=columns, rows=rows,
        cells=packed_cells(cells),
    )  # fmt: skip
    return record(base, next_number(base), "import scan.csv", (event,), Site().now)


def scan_verdicts(
    random: Generator, points: int, noise_mm: float, shared_mm: float, floors: int
) -> Count:
    """Of the largest gap under 2 m against 3, 5 and 10 mm."""
    base, count = Site("room 6 by 4 metres").job, Count()
    for number in range(floors):
        limit = (3, 5, 10)[number % 3]
        floor = drawn_floor(random)
        truth = limit * random.uniform(0.7, 1.3)
        stretch = truth / true_gap_mm(floor)

        def stretched(
            places: FloatArray, floor: Floor = floor, stretch: float = stretch
        ) -> FloatArray:
            return stretch * floor(places)

        job = scanned(random, stretched, points, noise_mm, shared_mm, base)
        gap = SpecLimit("gap", Fraction(EDGE_M), Fraction(limit))
        (found,) = found_of(job, Spec("drawn", "use", "here", "practice", (gap,)))
        count.add(found.met, truth <= limit)
    return count


def main(floors: int, seed: int = 1) -> None:
    """Print the table."""
    random = np.random.default_rng(seed)
    for points, noise, shared in (
        (60_000, 1.0, 0.2),
        (60_000, 1.0, 0.5),
        (60_000, 3.0, 0.5),
        (5_000, 1.0, 0.5),
    ):
        told = scan_verdicts(random, points, noise, shared, floors).told
        print(
            f"gap under 2 m, {points:,} scanned points ± {noise} mm, ± {shared} mm in common, "
            f"clutter: {told}"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 150)
