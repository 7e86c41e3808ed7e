"""What a finish is set from: nothing yet, a height as said, a door, or the highest point read."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from assistant.events.finish import FinishFeathered, FinishSet, FinishSetAtDoor
from assistant.floor.heights import above_datum_mm, heights_of
from assistant.job import Job
from assistant.units.lengths import exact_mm


def outside_mm(job: Job, door: int) -> Fraction | None:
    """Height of the floor outside a door above the datum; None while it is not known."""
    known = job.doors.get(door)
    return None if known is None or known.outside is None else above_datum_mm(job, known.outside)


def doorway_mm(job: Job, door: int) -> Fraction | None:
    """Height of the higher jamb of a door above the datum; None while not both are known."""
    known = job.doors.get(door)
    if known is None or known.left is None or known.right is None:
        return None
    left, right = above_datum_mm(job, known.left), above_datum_mm(job, known.right)
    return None if left is None or right is None else max(left, right)


def highest_point(job: Job) -> tuple[str, Fraction] | None:
    """The highest point read, and its height above the datum in mm; None before any reading."""
    return max(heights_of(job).items(), key=lambda spot: spot[1], default=None)


def moved_since_mm(job: Job) -> Fraction:
    """How far the finish was raised since it was set, or from the zero where nobody set it; mm."""
    source = job.finish_from
    return job.finish_mm - (exact_mm(source.height) if source else 0)


def under_mm(source: FinishSetAtDoor | FinishFeathered) -> Fraction:
    """How far under the floor outside a door the finish was set, for its covering; mm."""
    covering = source.covering if isinstance(source, FinishSetAtDoor) else None
    return Fraction(0) if covering is None else exact_mm(covering)


def source_moved_mm(job: Job) -> Fraction:
    """How far what the finish was set from lies higher by now than it did then; mm."""
    source = job.finish_from
    if source is None or isinstance(source, FinishSet):
        return Fraction(0)
    then = exact_mm(source.height)
    if isinstance(source, FinishSetAtDoor | FinishFeathered):
        is_outside = isinstance(source, FinishSetAtDoor)
        now = (outside_mm if is_outside else doorway_mm)(job, source.door)
        return Fraction(0) if now is None else now - under_mm(source) - then
    highest = highest_point(job)
    over = exact_mm(source.over) if source.over else Fraction(0)
    return Fraction(0) if highest is None else highest[1] + over - then


def finish_data(job: Job) -> dict[str, Any]:
    """The finish for programs: its height, and what decided it; JSON types only, millimetres."""
    source = job.finish_from
    decided: dict[str, Any] = {"by": "zero"}
    if isinstance(source, FinishSet):
        decided = {"by": "height"}
    elif isinstance(source, FinishSetAtDoor):
        decided = {"by": "outside-door", "door": source.door}
        if source.covering is not None:
            decided["covering_mm"] = float(exact_mm(source.covering))
    elif isinstance(source, FinishFeathered):
        decided = {"by": "doorway", "door": source.door}
    elif source is not None:
        over = float(exact_mm(source.over)) if source.over else 0.0
        decided = {"by": "highest-point", "point": source.point, "over_mm": over}
    if source is not None:
        decided["height_mm"] = float(exact_mm(source.height))
    return {
        "finish_mm": float(job.finish_mm),
        "assumed": not job.finish_said,
        "decided": {**decided, "moved_since_mm": float(moved_since_mm(job))},
    }
