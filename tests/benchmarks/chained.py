"""
Simulated floors surveyed from several set-ups, as jobs.

Each set-up stands on its own zero, which nobody knows; what joins it to the others is read as
everything else is, with 1 mm noise, to whole millimetres.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import numpy as np

sys.path.append(str(Path(__file__).parents[2]))

from assistant.events.finish import FinishSet
from assistant.events.kinds import Event
from assistant.events.readings import ReadingTaken
from assistant.events.room import PointPlaced, RoomClosed, RoomMeasured, WallMeasured
from assistant.events.set_ups import BenchmarkPlaced, BenchmarkTied, PointTied, SetUpStarted
from assistant.job import EMPTY, Job, apply
from grammar.commands import Measure
from tests.benchmarks.floors import MM, Floor

JOINED = ("chain", "loop", "benchmark")
"""How set-ups hang together: each tied to the one before on one point; the last one tied to the
first as well; or each tied on one benchmark, too."""
_ZERO_SD_M = 0.5
"""Zeros of set-ups lie anywhere within arm's reach."""


def surveyed(floor: Floor, number: int, set_ups: int, joined: str) -> Job:
    """
    A floor as a job, read strip by strip.

    Parameters
    ----------
    floor : Floor
        Its points, outline, finish and true heights; its own readings are those of the first
        set-up only.
    number : int
        What chance follows from.
    set_ups : int
    joined : str
        One of :data:`JOINED`.
    """
    return apply(EMPTY, *_events(floor, number, set_ups, joined))


def _events(floor: Floor, number: int, set_ups: int, joined: str) -> Iterator[Event]:
    chance = np.random.default_rng([13, number, set_ups, JOINED.index(joined)])
    yield from _walls(floor)
    yield FinishSet(_metric(floor.finish_m))
    for row, place in enumerate(floor.points_m.tolist()):
        yield PointPlaced(f"P{row + 1}", _metres(place[0]), _metres(place[1]))
    benchmark_m = float(chance.normal(0, _ZERO_SD_M))
    benchmark_m = round(benchmark_m / MM) * MM
    if joined == "benchmark":
        yield BenchmarkPlaced(1, _metric(benchmark_m))
    strips = np.array_split(np.lexsort(floor.points_m.T[::-1]), set_ups)
    zero_m = 0.0
    for set_up, strip in enumerate(strips):
        if set_up:
            yield SetUpStarted()
            zero_m = float(chance.normal(0, _ZERO_SD_M))
            before = int(strips[set_up - 1][-1])
            yield PointTied(f"P{before + 1}", _read(floor.true_at_m[before], zero_m, chance))
        if joined == "benchmark":
            yield BenchmarkTied(1, _read(benchmark_m, zero_m, chance))
        if joined == "loop" and set_up and set_up == set_ups - 1:
            first = int(strips[0][0])
            yield PointTied(f"P{first + 1}", _read(floor.true_at_m[first], zero_m, chance))
        for row in strip.tolist():
            yield ReadingTaken(f"P{row + 1}", _read(floor.true_at_m[row], zero_m, chance))


def _walls(floor: Floor) -> Iterator[Event]:
    outline = floor.outline_m
    if len(outline) == 4:
        yield RoomMeasured(_metres(outline[2, 0]), _metres(outline[2, 1]))
        return
    for leg in (np.roll(outline, -1, axis=0) - outline).tolist():
        along = 0 if abs(leg[0]) > abs(leg[1]) else 1
        direction = (("west", "east"), ("south", "north"))[along][leg[along] > 0]
        yield WallMeasured(direction, _metres(abs(leg[along])))
    yield RoomClosed(straight_wall_added=False)


def _read(height_m: float, zero_m: float, chance: np.random.Generator) -> Measure:
    return _metric(height_m - zero_m + chance.normal(0, MM))


def _metric(height_m: float) -> Measure:
    return Measure(Decimal(round(height_m / MM)), "mm")


def _metres(length_m: float) -> Measure:
    return Measure(Decimal(round(length_m / MM)) / 1000, "m")
