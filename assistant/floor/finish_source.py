"""What a finish can be set from: the floor outside a door, or the highest point read."""

from __future__ import annotations

from fractions import Fraction

from assistant.events.finish import FinishSetAtDoor
from assistant.floor.heights import above_datum_mm, heights_of
from assistant.job import Job
from assistant.units.lengths import exact_mm


def outside_mm(job: Job, door: int) -> Fraction | None:
    """Height of the floor outside a door above the datum; None while it is not known."""
    known = job.doors.get(door)
    return None if known is None or known.outside is None else above_datum_mm(job, known.outside)


def highest_point(job: Job) -> tuple[str, Fraction] | None:
    """The highest point read, and its height above the datum in mm; None before any reading."""
    return max(heights_of(job).items(), key=lambda spot: spot[1], default=None)


def source_moved_mm(job: Job) -> Fraction:
    """How far what the finish was set from lies higher by now than it did then; mm."""
    source = job.finish_from
    if source is None:
        return Fraction(0)
    then = exact_mm(source.height)
    if isinstance(source, FinishSetAtDoor):
        now = outside_mm(job, source.door)
        return Fraction(0) if now is None else now - then
    highest = highest_point(job)
    over = exact_mm(source.over) if source.over else Fraction(0)
    return Fraction(0) if highest is None else highest[1] + over - then
