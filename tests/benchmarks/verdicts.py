"""
How often "met" and "not met" are wrong, and how often it cannot be told, on drawn floors.

A floor is a sum of undulations of wavelengths from 0.8 to 9 m, deeper where they are longer, and
is stretched so that its true worst value lies from 30 % under a limit to 30 % over it. It is read
at some spacing with errors of some deviation; the truth is that of the same lines every 50 mm, of
gaps by their own distance every 100 mm, and of levels by neighbours at the points themselves.

    python -m tests.benchmarks.verdicts 2000
"""

from __future__ import annotations

import sys
from dataclasses import dataclass

import numpy as np
from numpy.random import Generator
from scipy.ndimage import gaussian_filter1d

from assistant.flatness.f_numbers import (
    Constants,
    Spread,
    f_number,
    line_f,
    own_interval,
    pooled_spread,
)
from assistant.flatness.limits_by_distance import LimitsByDistance
from assistant.flatness.own_distance import worst_facet, worst_of_three
from assistant.flatness.straightedge import gaps_under, worst_gap
from assistant.flatness.verdicts import f_verdict, hidden_share, places_in_reach, verdict
from assistant.floor.by_distance import neighbours_of, own_distance_of
from assistant.floor.profiles import LINE, Lines
from assistant.levels.arrays import FloatArray
from assistant.limits.specs import specs_named

FINE_M = 0.05
EDGE_M = 2.0
LONG_M = 6.0
LONGEST_M = 4.0
"""The longest edge of DIN 18202's own distances."""
LINES = 3
WAVES_M = (0.8, 1.3, 2.0, 3.2, 5.0, 9.0)
FROM_MEMORY = Constants(4.57 * 25.4, 12.5 * 25.4)


@dataclass
class Count:
    """Verdicts, by what was true."""

    met: int = 0
    met_wrong: int = 0
    not_met: int = 0
    not_met_wrong: int = 0
    untold: int = 0

    def add(self, said: bool | None, truly: bool) -> None:
        """One verdict more."""
        if said is None:
            self.untold += 1
        elif said:
            self.met += 1
            self.met_wrong += not truly
        else:
            self.not_met += 1
            self.not_met_wrong += truly

    @property
    def told(self) -> str:
        """A line of the table."""
        count = self.met + self.not_met + self.untold
        wrong_met = 100 * self.met_wrong / max(self.met, 1)
        wrong_not = 100 * self.not_met_wrong / max(self.not_met, 1)
        return (
            f"met {self.met:5d} (wrong {wrong_met:4.1f} %)   "
            f"not met {self.not_met:5d} (wrong {wrong_not:4.1f} %)   "
            f"cannot be told {100 * self.untold / count:4.1f} %"
        )


def drawn(random: Generator, lines: int = LINES, waves: FloatArray | None = None) -> FloatArray:
    """(lines, n) heights in millimetres, every 50 mm."""
    along = np.arange(0, LONG_M + FINE_M / 2, FINE_M)
    deep = random.gamma(2, 0.4, len(WAVES_M)) if waves is None else waves
    floor = np.zeros((lines, len(along)))
    for wave, amplitude in zip(WAVES_M, deep, strict=True):
        of_each = wave * random.uniform(0.9, 1.1, (lines, 1))
        begins = random.uniform(0, 1, (lines, 1))
        floor += amplitude * wave / 3 * np.sin(2 * np.pi * (along / of_each + begins))
    return floor


def gap_verdicts(random: Generator, spacing_m: float, noise_mm: float, floors: int) -> Count:
    """Of the largest gap under 2 m against 3, 5 and 10 mm."""
    step = round(spacing_m / FINE_M)
    fine = np.arange(0, LONG_M + FINE_M / 2, FINE_M)
    along = fine[::step]
    count = Count()
    for number in range(floors):
        limit = (3.0, 5.0, 10.0)[number % 3]
        floor = drawn(random)
        truth = limit * random.uniform(0.7, 1.3)
        floor *= truth / worst_gap(fine, floor, EDGE_M).mm  # a gap is linear in the heights
        read = floor[:, ::step] + random.normal(0, noise_mm, (LINES, len(along)))
        worst = worst_gap(along, read, EDGE_M)
        sd = noise_mm * worst.noise
        said = verdict(
            worst.mm,
            limit,
            sd,
            hidden_mm=limit * hidden_share(spacing_m, EDGE_M),
            choices=places_in_reach(gaps_under(along, read, EDGE_M), limit, sd),
        )
        count.add(said.met, truth <= limit)
    return count


def distance_verdicts(
    random: Generator, row: int, spacing_m: float, noise_mm: float, floors: int, *, levels: bool
) -> Count:
    """By a row of DIN 18202: levels by neighbours, or gaps by the distance they are at."""
    step = round(spacing_m / FINE_M)
    fine = np.arange(0, LONG_M + FINE_M / 2, FINE_M)
    along, limits = fine[::step], din(row)
    count = Count()
    for _ in range(floors):
        floor = drawn(random)
        times = random.uniform(0.7, 1.3)
        if levels:
            floor *= times * _to_its_limit(along, floor[:, ::step], limits, levels=True)
        else:
            floor *= times * _to_its_limit(fine[::2], floor[:, ::2], limits, levels=False)
        read = floor[:, ::step] + random.normal(0, noise_mm, (LINES, len(along)))
        lines = Lines(
            LINE, "along", ("1", "2", "3"), along, read, np.zeros((*read.shape, 2)), (), noise_mm
        )
        looked = (
            neighbours_of(lines, limits, read.size)
            if levels
            else own_distance_of(lines, LONGEST_M, limits, read.size)
        )
        count.add(None if looked is None else looked.said.met, times <= 1)
    return count


def din(row: int) -> LimitsByDistance:
    """The limits of a row of DIN 18202."""
    columns = specs_named(f"DIN 18202 row {row}")[0].limits[0].columns
    assert columns is not None
    return columns


def _to_its_limit(
    along: FloatArray, floor: FloatArray, limits: LimitsByDistance, *, levels: bool
) -> float:
    """What brings a floor exactly to its limits: all its gaps grow alike."""
    stretch = 1.0
    for _ in range(20):
        tall = floor * stretch
        found = (
            worst_of_three(along, tall, limits)
            if levels
            else worst_facet(along, tall, LONGEST_M, limits)
        )
        assert found is not None
        if abs(found.mm - found.limit_mm) < 1e-6:
            break
        # The one that is furthest over is at its limit then, and by less and less another is over.
        stretch *= found.limit_mm / max(found.mm, 0.1 * found.limit_mm)
    return stretch


def f_verdicts(random: Generator, noise_mm: float, floors: int, *, flatness: bool) -> Count:
    """Of an F-number against a limit up to 30 % off the true one of the same lines."""
    constant = FROM_MEMORY.flatness_mm if flatness else FROM_MEMORY.levelness_mm
    count = Count()
    for _ in range(floors):
        floor = drawn(random)[:, ::6]
        truth = f_number(constant, pooled_spread(_values(floor, flatness)).bottom_mm)
        limit = truth * random.uniform(0.7, 1.3)
        read = floor + random.normal(0, noise_mm, floor.shape)
        said, _ = f_verdict(_values(read, flatness), constant, limit, noise_mm, flatness=flatness)
        count.add(said.met, truth >= limit)
    return count


def _values(floor: FloatArray, flatness: bool) -> list[Spread]:
    lines = [line_f(heights, FROM_MEMORY) for heights in floor]
    return [line.q if flatness else line.z for line in lines]


def intervals_hold(
    random: Generator, smooth: float, lines: int, floors: int, *, flatness: bool
) -> float:
    """
    Share of floors whose F-number is in our own interval from a few lines.

    Heights are noise, smoothed over so many readings; the truth is that of 3,000 lines.
    """
    constant = FROM_MEMORY.flatness_mm if flatness else FROM_MEMORY.levelness_mm

    def smoothed(count: int) -> list[Spread]:
        noise = random.normal(0, 10, (count, 121))
        return _values(gaussian_filter1d(noise, smooth, axis=1)[:, 50:71], flatness)

    truth = f_number(constant, pooled_spread(smoothed(3000)).bottom_mm)
    found = [own_interval(smoothed(lines), constant) for _ in range(floors)]
    return sum(low <= truth <= high for low, high in found) / floors


def main(floors: int, seed: int = 1) -> None:
    """Print the tables."""
    random = np.random.default_rng(seed)
    for spacing, noise in ((0.1, 0.2), (0.3, 0.2), (0.3, 0.5), (0.3, 1.0), (0.5, 0.5)):
        count = gap_verdicts(random, spacing, noise, floors)
        print(f"gap under 2 m, points every {spacing} m, readings ± {noise} mm: {count.told}")
    for levels, settings in (
        (False, ((0.1, 0.2), (0.3, 0.2), (0.3, 0.5), (0.5, 0.5), (1.0, 0.5))),
        (True, ((0.3, 0.2), (0.5, 0.5), (1.0, 0.5), (1.0, 1.0))),
    ):
        name = "level by neighbours" if levels else "gap by own distance"
        for row in (1, 3):
            for spacing, noise in settings:
                # Where an edge rests takes long to look for.
                tried = floors if levels else max(floors // 3, 1)
                count = distance_verdicts(random, row, spacing, noise, tried, levels=levels)
                at = f"points every {spacing} m, readings ± {noise} mm"
                print(f"DIN row {row}, {name}, {at}: {count.told}", flush=True)
    for flatness, noises in ((True, (0.1, 0.3, 1.0)), (False, (0.3, 1.0))):
        name = "FF" if flatness else "FL"
        for noise in noises:
            count = f_verdicts(random, noise, floors, flatness=flatness)
            print(f"{name}, readings ± {noise} mm: {count.told}")
        for smooth in (0.7, 4.0):
            for lines in (3, 8):
                held = intervals_hold(random, smooth, lines, floors, flatness=flatness)
                print(
                    f"{name}, own interval (90 %), smooth over {smooth} readings, {lines} lines: "
                    f"holds {100 * held:.0f} %"
                )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 500)
