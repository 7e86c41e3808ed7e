"""
How good volumes and their intervals are, on floors whose volume is known.

``python tests/benchmarks/volume_coverage.py`` from the project's folder prints the table
that DEVELOPERS.md quotes; it needs GSTools, and takes three minutes. The floors are those
numbered from 0; priors and texture were settled on floors 10000 to 11199.
"""

from __future__ import annotations

import argparse
import os
import sys
import warnings
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from pathlib import Path

# Before numpy is: small matrices are slower on several threads.
os.environ.setdefault("OMP_NUM_THREADS", "1")

import numpy as np

sys.path.extend([str(Path(__file__).parents[2]), str(Path(__file__).parent)])

from floors import FAMILIES, Floor, franke, simulated

from assistant.levels.kriged.volume import volume_with_interval
from assistant.levels.kriging import fit
from assistant.levels.outline import outline_area
from assistant.levels.surface import mesh_over
from assistant.levels.volume import fill

COVERED = (0.92, 0.98)
"""The 95 % interval is to hold the true volume in this part of floors."""
BELOW_MEAN = 0.08
"""Part by which errors are to be below those of mean depth times area."""
BELOW_TRIANGLES = 0.05
"""Part by which errors are to be below those of the triangles."""


@dataclass(frozen=True)
class Judged:
    """One floor; errors are volumes over the area, so that large floors don't outweigh."""

    kind: str
    points: int
    covered: bool
    error_mm: float
    triangles_error_mm: float
    mean_error_mm: float
    sd_mm: float
    bagged: bool
    """Whether the volume said to be enough with a chance of 19 in 20 was enough."""


def judge(floor: Floor) -> Judged:
    """What surface, triangles and mean make of one floor."""
    area = outline_area(floor.outline_m)
    size = float(np.hypot(*np.ptp(floor.outline_m, axis=0)))
    fitted = fit(floor.points_m, floor.readings_m, size_m=size)
    found = volume_with_interval(fitted, floor.outline_m, floor.finish_m)
    depths = floor.finish_m - floor.readings_m
    triangles = fill(mesh_over(floor.points_m, floor.outline_m), depths).volume_m3
    # Negative depths count as none, which flatters the mean where high spots stand out.
    mean = float(np.maximum(depths, 0).mean()) * area
    true = floor.true_volume_m3

    def off(volume: float) -> float:
        return abs(volume - true) / area * 1000

    return Judged(
        kind=floor.kind,
        points=len(floor.points_m),
        covered=found.low_m3 <= true <= found.high_m3,
        error_mm=off(found.mean_m3),
        triangles_error_mm=off(triangles),
        mean_error_mm=off(mean),
        sd_mm=found.sd_m3 / area * 1000,
        bagged=true <= found.quantile(0.95),
    )


def table(judged: Sequence[Judged]) -> str:
    """The table, a line for all floors and one for each sort."""
    lines = [
        f"{'':22}{'floors':>7}{'covered':>9}{'enough':>8}{'error mm':>10}{'triangles':>11}"
        f"{'mean':>7}{'below tri.':>12}{'below mean':>12}{'sd mm':>7}",
        _line("all", judged),
    ]
    lines += [
        _line(name, [one for one in judged if one.kind.split(",")[0] == name])
        for name in (*FAMILIES, "Franke")
    ]
    lines += [
        _line(name, [one for one in judged if name in one.kind]) for name in ("curled", "stepped")
    ]
    for low, high in ((0, 19), (20, 39), (40, 59), (60, 99)):
        some = [one for one in judged if low <= one.points <= high]
        lines.append(_line(f"{low} to {high} points" if low else "under 20 points", some))
    return "\n".join(line for line in lines if line)


def goals_met(judged: Sequence[Judged]) -> bool:
    """Whether coverage and both errors are where they are to be."""
    error, triangles, mean = _errors(judged)
    covered = float(np.mean([one.covered for one in judged]))
    return (
        COVERED[0] <= covered <= COVERED[1]
        and error <= (1 - BELOW_TRIANGLES) * triangles
        and error <= (1 - BELOW_MEAN) * mean
    )


def _errors(judged: Iterable[Judged]) -> tuple[float, float, float]:
    rows = [(one.error_mm, one.triangles_error_mm, one.mean_error_mm) for one in judged]
    error, triangles, mean = np.mean(rows, axis=0).tolist()
    return error, triangles, mean


def _line(name: str, some: Sequence[Judged]) -> str:
    if not some:
        return ""
    error, triangles, mean = _errors(some)
    covered, bagged, sd = np.mean([(one.covered, one.bagged, one.sd_mm) for one in some], axis=0)
    return (
        f"{name:22}{len(some):7}{covered:9.1%}{bagged:8.1%}{error:10.3f}{triangles:11.3f}"
        f"{mean:7.3f}{1 - error / triangles:12.1%}{1 - error / mean:12.1%}{sd:7.3f}"
    )


def main(arguments: Sequence[str] | None = None) -> int:
    """Print the table; 1 when a goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--floors", type=int, default=1000, help="random fields (1000)")
    parser.add_argument("--franke", type=int, default=50, help="readings of Franke's (50)")
    parser.add_argument("--first", type=int, default=0, help="number of the first floor (0)")
    chosen = parser.parse_args(arguments)
    # The random fields' own sampler warns where a chance is zero.
    warnings.simplefilter("ignore", RuntimeWarning)
    numbers = range(chosen.first, chosen.first + chosen.floors)
    judged = [judge(simulated(number)) for number in numbers]
    numbers = range(chosen.first, chosen.first + chosen.franke)
    judged += [judge(franke(number)) for number in numbers]
    print(table(judged))
    met = goals_met(judged)
    print("All goals met." if met else "A goal was missed.")
    return 0 if met else 1


if __name__ == "__main__":
    raise SystemExit(main())
