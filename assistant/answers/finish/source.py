"""What the finish was set from, in words; and where nobody set it, that it is assumed."""

from __future__ import annotations

from assistant.events.finish import (
    FinishFeathered,
    FinishSet,
    FinishSetAtDoor,
)
from assistant.floor.finish_source import moved_since_mm, source_moved_mm, under_mm
from assistant.job import Job
from assistant.reply import wording
from assistant.units.lengths import exact_mm


def source_told(job: Job) -> str:
    """
    Such as ``level with the floor outside door 1``.

    Empty where it is as it was said, or assumed: there is nothing to tell it by.
    """
    source, unit = job.finish_from, job.reading_unit
    told = ""
    if isinstance(source, FinishSetAtDoor):
        told = f"level with the floor outside door {source.door}"
        if source.covering is not None:
            told += f" once its covering of {wording.length(under_mm(source), unit)} is on"
    elif isinstance(source, FinishFeathered):
        told = f"at the floor in door {source.door}, where the pour runs out to nothing"
    elif source is not None and not isinstance(source, FinishSet):
        over = f"{wording.length(exact_mm(source.over), unit)} over" if source.over else "at"
        told = f"{over} the highest point, {source.point}"
    moved = moved_since_mm(job)
    if not moved:
        return told
    way = f"then {wording.length(abs(moved), unit)} {'higher' if moved > 0 else 'lower'}"
    if source is None:
        return f"{'raised' if moved > 0 else 'lowered'} from the zero, which was assumed"
    if isinstance(source, FinishSet):
        return f"set {wording.height(exact_mm(source.height), unit)}, {way}"
    return f"set {told}, {way}"


def decided_told(job: Job) -> str:
    """What decided the finish, without a full stop; or that it is assumed, as nobody set it."""
    if not job.finish_said:
        return "assumed, as nobody has set it"
    return source_told(job) or "as it was said"


def source_since(job: Job) -> list[str]:
    """Says that the finish stays, where what it was set from is another height by now."""
    source, off, unit = job.finish_from, source_moved_mm(job), job.reading_unit
    if source is None or not off:
        return []
    way = "higher" if off > 0 else "lower"
    what = "the highest point"
    if isinstance(source, FinishSetAtDoor):
        what = f"the floor outside door {source.door}"
    elif isinstance(source, FinishFeathered):
        what = f"the floor in door {source.door}"
    return [
        f"The finish stays {wording.height(job.finish_mm, unit)}: it was set from {what} as read "
        f"before, which is {wording.length(abs(off), unit)} {way} now. To follow, say it again."
    ]
