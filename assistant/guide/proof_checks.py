"""The checks of the steps after the pour: what was read of the finished floor, and said of it."""

from __future__ import annotations

from assistant.events.proof import PromiseMade
from assistant.floor.places import places_of
from assistant.floor.punch import punch_of
from assistant.floor.scans.scan import scan_event
from assistant.floor.spec_check import held_to
from assistant.floor.walk import next_point, points_missing
from assistant.guide.looks import Check, CheckContext
from assistant.job import Job, finished_floor
from assistant.reply import wording

NOT_YET = "The finished floor lies open once it is poured: pour finished, or verify."
_FEWEST = 3
"""Values of a line that an edge can be laid over."""


def finished_floor_read(look: CheckContext) -> Check:
    """Whether every point of the finished floor was read."""
    after = finished_floor(look.job)
    if after is None:
        return Check(False, NOT_YET)
    missing, count = points_missing(after), len(places_of(after.layout).names)
    if not count:
        return Check(False, "There are no points to read: grid 2 metres.")
    if not missing:
        return Check(True, f"All {wording.counted(count, 'point')} of the finished floor are read.")
    following = next_point(after) or missing[0]
    return Check(
        False,
        f"{len(missing)} of {wording.counted(count, 'point')} of the finished floor still missing; "
        f"next is {following}.",
        f"{wording.spoken_number(len(missing))} of {wording.spoken_count(count, 'point')} still "
        f"missing. Next is {wording.spoken_name(following)}.",
    )


def edge_laid(look: CheckContext) -> Check:
    """Whether an edge was laid by hand, a line was read or a scan taken of the finished floor."""
    after = finished_floor(look.job)
    if after is None:
        return Check(False, NOT_YET)
    lines = [line for line in after.proof.lines.values() if len(line.values) >= _FEWEST]
    told = [
        wording.counted(len(each), name)
        for each, name in ((after.proof.gaps, "gap"), (lines, "line"))
        if each
    ]
    if scan_event(after) is not None:
        told.append("1 scan")
    if not told:
        return Check(False, "No gap, line or scan of the finished floor yet: straightedge 2 metres "
                     "tells what the points alone show.")  # fmt: skip
    return Check(True, f"On record: {wording.join_names(told)}.")


def held_to_something(look: CheckContext) -> Check:
    """Whether it was said what was promised, and what the floor is held to."""
    if look.job.setting(PromiseMade) is None:
        return Check(False, "What was promised is not said yet: promised flat, promised level, or "
                     "promised both.")  # fmt: skip
    held = held_to(look.job)
    if not held:
        return Check(False, "It is held to nothing yet: specs lists what there is.")
    names = wording.join_names([spec.name for spec in held])
    return Check(True, f"Held to {names}; verdicts tells what the readings say of it.")


def nothing_left_to_mend(look: CheckContext) -> Check:
    """Whether the punch list is empty, by what was read."""
    after = finished_floor(look.job)
    if after is None or not _is_read(after):
        return Check(False, "Nothing of the finished floor is read yet.")
    found = punch_of(after)
    if found:
        places = wording.counted(len(found), "place")
        return Check(False, f"{places} on the punch list; first {found[0].point}.")
    if missing := points_missing(after):
        points = wording.counted(len(missing), "point")
        return Check(False, f"Nothing on the punch list, but {points} still to be read.")
    return Check(True, "Nothing to grind or fill by what was read.")


def _is_read(floor: Job) -> bool:
    return bool(floor.readings or floor.proof.gaps or floor.proof.lines)
