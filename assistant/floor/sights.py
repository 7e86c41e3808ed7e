"""Readings, ties and checks as sights for the adjustment: each on a mark, from a set-up."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from assistant.floor.zero_checks import Watch
from assistant.job import Job
from assistant.job.set_ups import Height, KnownMark
from grammar.frozen import frozen


@frozen
class Sight:
    """One reading of a mark."""

    what: str
    """In words: ``tie on C4 from set-up 2``."""
    on: str | int
    """The mark that was read: a point's name, or a benchmark's number."""
    height: Height
    exact_mm: Fraction
    """Corrected for offset, not for drift."""
    drift_mm: float
    """Drift correction, to be added."""


def ties_and_benchmark_sights(job: Job) -> tuple[KnownMark, ...]:
    """Ties, and all other readings on benchmarks."""
    return tuple(mark for mark in job.survey.marks if mark.on is not None)


def sights_of(job: Job, watches: Sequence[Watch]) -> list[Sight]:
    """All readings that count, doubtful or not; those of the points first."""
    several = len(job.survey.set_ups) > 1
    named: list[tuple[str, str | int, Height]] = [
        (point, point, reading) for point, reading in job.readings.items()
    ]
    for mark in ties_and_benchmark_sights(job):
        assert mark.on is not None
        where = mark.on if isinstance(mark.on, str) else f"benchmark {mark.on}"
        named.append((f"{'check' if mark.check else 'tie'} on {where}", mark.on, mark.height))
    found = []
    for what, on, height in named:
        there = f" from set-up {height.set_up + 1}" if several else ""
        found.append(sight_of(job, watches, f"{what}{there}", on, height))
    return found


def sight_of(job: Job, watches: Sequence[Watch], what: str, on: str | int, height: Height) -> Sight:
    """A reading with its drift correction."""
    drift = watches[height.set_up].correction_mm.get(height.order, 0.0)
    return Sight(what, on, height, height.mm - job.survey.offset_mm, drift)


def heights_from(job: Job, set_up: int) -> list[Height]:
    """All readings from a set-up: those that count, superseded ones, ties, checks and lines."""
    read = list(job.readings.values())
    for before in job.survey.superseded.values():
        read += before
    read += [mark.height for mark in job.survey.marks]
    for line in job.proof.lines.values():
        read += line.values
    return [height for height in read if height.set_up == set_up]
