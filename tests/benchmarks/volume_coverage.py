"""
How good volumes and their intervals are, on floors whose volume is known.

``python tests/benchmarks/volume_coverage.py`` from the project's folder prints two tables; it
needs GSTools, and takes about five minutes. The first is of the surface alone. The second, which
docs/sureness.md quotes, is of whole jobs read from one set-up or several: heights come from the
adjustment and bags from the order, as the installer gets them. The floors are those numbered
from 0; priors and texture were settled on floors 10000 to 11199.
"""

from __future__ import annotations

import argparse
import os
import sys
import warnings
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

# Before numpy is: small matrices are slower on several threads.
os.environ.setdefault("OMP_NUM_THREADS", "1")

import numpy as np

sys.path.append(str(Path(__file__).parents[2]))

from assistant.floor.interval import volume_of
from assistant.levels.kriged.volume import volume_with_interval
from assistant.levels.kriging import fit_surface
from assistant.levels.outline import outline_area
from assistant.levels.surface import mesh_over
from assistant.levels.volume import fill
from tests.benchmarks.chained import JOINED, surveyed
from tests.benchmarks.floors import FAMILIES, Floor, franke, simulated

COVERED = (0.92, 0.98)
"""The 95 % interval is to hold the true volume in this part of floors."""
COVERED_JOBS = (0.93, 0.97)
"""And in this part of jobs, each number of set-ups taken together."""
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
    fitted = fit_surface(floor.points_m, floor.readings_m, size_m=size)
    found = volume_with_interval(fitted, floor.outline_m, floor.finish_m)
    depths = floor.finish_m - floor.readings_m
    triangles = fill(mesh_over(floor.points_m, floor.outline_m), depths).volume_m3
    # Negative depths count as none, which flatters the mean where high spots stand out.
    mean = float(np.maximum(depths, 0).mean()) * area
    true = floor.true_volume_m3

    def off(volume: float) -> float:
        return float(abs(volume - true) / area * 1000)

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


@dataclass(frozen=True)
class JudgedJob:
    """One job; its error is that of the volume over the area."""

    set_ups: int
    joined: str
    covered: bool
    bagged: bool
    error_mm: float
    sd_mm: float


def judge_job(floor: Floor, number: int, set_ups: int, joined: str) -> JudgedJob:
    """What a job makes of one floor."""
    # A finish is said in whole millimetres.
    floor = replace(floor, finish_m=round(floor.finish_m, 3))
    found = volume_of(surveyed(floor, number, set_ups, joined))
    assert found is not None
    true, area = floor.true_volume_m3, outline_area(floor.outline_m)
    return JudgedJob(
        set_ups=set_ups,
        joined=joined,
        covered=found.low_m3 <= true <= found.high_m3,
        bagged=true <= found.quantile(0.95),
        error_mm=(found.mean_m3 - true) / area * 1000,
        sd_mm=found.sd_m3 / area * 1000,
    )


def judge_jobs(jobs: int, first: int, counts: Sequence[int]) -> list[JudgedJob]:
    """So many jobs for each number of set-ups and each way they hang together."""
    judged = []
    for number in range(first, first + jobs):
        floor = simulated(number)
        for set_ups in counts:
            for joined in JOINED if set_ups > 1 else JOINED[:1]:
                judged.append(judge_job(floor, number, set_ups, joined))
    return judged


def job_table(judged: Sequence[JudgedJob]) -> str:
    """A line for each number of set-ups and each way they hang together."""
    lines = [
        f"{'set-ups':10}{'joined':12}{'jobs':>6}{'covered':>9}{'enough':>8}"
        f"{'rms mm':>8}{'sd mm':>8}"
    ]
    for set_ups, joined in dict.fromkeys((one.set_ups, one.joined) for one in judged):
        some = [one for one in judged if (one.set_ups, one.joined) == (set_ups, joined)]
        covered, bagged = np.mean([(one.covered, one.bagged) for one in some], axis=0)
        rms, sd = np.sqrt(np.mean([(one.error_mm**2, one.sd_mm**2) for one in some], axis=0))
        how = joined if set_ups > 1 else ""
        lines.append(
            f"{set_ups:<10}{how:12}{len(some):6}{covered:9.1%}{bagged:8.1%}{rms:8.3f}{sd:8.3f}"
        )
    return "\n".join(lines)


def jobs_met(judged: Sequence[JudgedJob]) -> bool:
    """Whether each row is covered as it is to be."""
    rows = {(one.set_ups, one.joined) for one in judged}
    parts = [
        float(np.mean([one.covered for one in judged if (one.set_ups, one.joined) == row]))
        for row in rows
    ]
    return all(COVERED_JOBS[0] <= part <= COVERED_JOBS[1] for part in parts)


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


def _numbers(first: int, count: int) -> range:
    return range(first, first + count)


def main(arguments: Sequence[str] | None = None) -> int:
    """Print the table; 1 when a goal is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--floors", type=int, default=1000, help="random fields (1000)")
    parser.add_argument("--franke", type=int, default=50, help="readings of Franke's (50)")
    parser.add_argument("--jobs", type=int, default=400, help="jobs for each row (400)")
    parser.add_argument(
        "--set-ups", type=int, nargs="*", default=[1, 3, 6], help="of those jobs (1 3 6)"
    )
    parser.add_argument("--first", type=int, default=0, help="number of the first floor (0)")
    chosen = parser.parse_args(arguments)
    # The random fields' own sampler warns where a chance is zero.
    warnings.simplefilter("ignore", RuntimeWarning)
    met = True
    if chosen.floors or chosen.franke:
        judged = [judge(simulated(number)) for number in _numbers(chosen.first, chosen.floors)]
        judged += [judge(franke(number)) for number in _numbers(chosen.first, chosen.franke)]
        print(table(judged), flush=True)
        met = goals_met(judged)
    if chosen.jobs:
        jobs = judge_jobs(chosen.jobs, chosen.first, chosen.set_ups)
        print(job_table(jobs))
        met = jobs_met(jobs) and met
    print("All goals met." if met else "A goal was missed.")
    return 0 if met else 1


if __name__ == "__main__":
    raise SystemExit(main())
