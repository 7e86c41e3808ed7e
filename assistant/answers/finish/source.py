"""What the finish was set from, in words."""

from __future__ import annotations

from assistant.events.finish import FinishSetAtDoor
from assistant.floor.finish_source import source_moved_mm
from assistant.job import Job
from assistant.reply import wording
from assistant.units.lengths import exact_mm


def source_told(job: Job) -> str:
    """Such as ``level with the floor outside door 1``; empty where it was set as a height."""
    source, unit = job.finish_from, job.reading_unit
    if source is None:
        return ""
    if isinstance(source, FinishSetAtDoor):
        told = f"level with the floor outside door {source.door}"
    else:
        over = f"{wording.length(exact_mm(source.over), unit)} over" if source.over else "at"
        told = f"{over} the highest point, {source.point}"
    moved = job.finish_mm - exact_mm(source.height)
    if not moved:
        return told
    way = "higher" if moved > 0 else "lower"
    return f"set {told}, then {wording.length(abs(moved), unit)} {way}"


def source_since(job: Job) -> list[str]:
    """Says that the finish stays, where what it was set from is another height by now."""
    source, off, unit = job.finish_from, source_moved_mm(job), job.reading_unit
    if source is None or not off:
        return []
    way = "higher" if off > 0 else "lower"
    what = "the highest point"
    if isinstance(source, FinishSetAtDoor):
        what = f"the floor outside door {source.door}"
    return [
        f"The finish stays {wording.height(job.finish_mm, unit)}: it was set from {what} as read "
        f"before, which is {wording.length(abs(off), unit)} {way} now. To follow, say it again."
    ]
