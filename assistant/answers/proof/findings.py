"""Answers about the start of the second survey, and about gaps and defects."""

from __future__ import annotations

from typing import Any

from assistant.answers.finished import promise_asked
from assistant.answers.parts import Answerer, Moment
from assistant.floor.places import place_of_point, places_of
from assistant.job import Job, being_read
from assistant.job.proof import Defect, HandLaidGap
from assistant.reply import wording
from assistant.reply.examples import GAP
from assistant.reply.replies import Reply, Table
from assistant.units.lengths import metres
from grammar.commands import Command
from grammar.commands.proof import AskDefects, DropFinding, FindDefect, MeasureGap, Verify


def verify_begun(moment: Moment, _command: Verify) -> Reply:
    job = being_read(moment.job)
    count = len(job.readings)
    every = len(places_of(job.layout).names)
    data = {"verify": {"read": count, "points": every}}
    if not moment.events:
        return Reply(
            f"The finished floor's survey is open: {count} of {wording.counted(every, 'point')} "
            "read.",
            f"The finished floor is open, {wording.spoken_number(count)} of "
            f"{wording.spoken_number(every)} read.",
            ("The slab's readings stay as they are (readings of the slab).",),
            data=data,
        )
    details = [
        "Same zero, same points; new set-ups, ties and checks as before. The slab's readings stay "
        "as they are (readings of the slab). Not so: undo.",
        *promise_asked(moment.job),
    ]
    return Reply(
        "What is read from now on is of the finished floor.",
        "From now on, the finished floor.",
        tuple(details),
        data=data,
    )


def gap_data(job: Job, gap: HandLaidGap) -> dict[str, Any]:
    """One gap for programs."""
    place = place_of_point(job.layout, gap.point)
    return {
        "id": gap.number,
        "point": gap.point,
        "x_m": None if place is None else place[0],
        "y_m": None if place is None else place[1],
        "gap_mm": float(gap.mm),
        "under_m": float(metres(gap.under)),
    }


def gap_measured(moment: Moment, _command: MeasureGap) -> Reply:
    gap = moment.job.proof.gaps[-1]
    others = [one for one in moment.job.proof.gaps[:-1] if one.point == gap.point]
    details = (
        (f"{wording.counted(len(others) + 1, 'gap')} there now; each placing counts by itself.",)
        if others
        else ()
    )
    return Reply(
        f"Gap {gap.number} at {gap.point}: {wording.as_said(gap.gap)} under "
        f"{wording.as_said(gap.under)}.",
        f"Gap of {wording.spoken_said(gap.gap)} at {wording.spoken_name(gap.point)}.",
        details,
        data={"gap": gap_data(moment.job, gap)},
    )


def defect_data(job: Job, found: Defect) -> dict[str, Any]:
    """One defect for programs."""
    place = place_of_point(job.layout, found.point)
    return {
        "kind": found.kind,
        "id": found.number,
        "point": found.point,
        "x_m": None if place is None else place[0],
        "y_m": None if place is None else place[1],
    }


def defect_found(moment: Moment, _command: FindDefect) -> Reply:
    found = moment.job.proof.defects[-1]
    return Reply(
        f"{found.kind.capitalize()} at {found.point}, on record as {found.kind} {found.number}.",
        f"{found.kind} at {wording.spoken_name(found.point)}.",
        data={"defect": defect_data(moment.job, found)},
    )


def finding_dropped(_moment: Moment, command: DropFinding) -> Reply:
    more = ("Its values stay in the record, but count no more.",) if command.kind == "line" else ()
    return Reply(
        f"{command.kind.capitalize()} {command.number} dropped.",
        f"{command.kind} {wording.spoken_number(command.number)} dropped.",
        more,
        data={"dropped": {"kind": command.kind, "number": command.number}},
    )


def defects_listed(moment: Moment, _command: AskDefects) -> Reply:
    job = moment.job
    gaps, defects = job.proof.gaps, job.proof.defects
    rows = [
        (f"gap {gap.number}", gap.point,
         f"{wording.as_said(gap.gap)} under {wording.as_said(gap.under)}")
        for gap in gaps
    ]  # fmt: skip
    rows += [(f"{each.kind} {each.number}", each.point, "") for each in defects]
    of_floor = job.slab is not None
    cracks = [
        line
        for line in job.layout.things.lines
        if line.kind == "crack" and line.after_pour == of_floor
    ]
    for crack in cracks:
        where = crack.start if crack.end is None else f"{crack.start} to {crack.end}"
        rows.append((f"crack {crack.number}", where, "repaired" if crack.repaired else ""))
    data = {
        "gaps": [gap_data(job, gap) for gap in gaps],
        "defects": [defect_data(job, each) for each in defects],
        "cracks": [
            {"id": crack.number, "from": crack.start, "to": crack.end, "repaired": crack.repaired}
            for crack in cracks
        ],
    }
    if not rows:
        return Reply(
            "No gap or defect is on record.",
            details=(
                f"They are told so: {GAP.in_unit(moment.unit)}, hollow at C3, pinholes at D1, "
                "crack at B2.",
            ),
            data=data,
        )
    return Reply(
        f"{wording.counted(len(rows), 'finding')}.",
        f"{wording.spoken_count(len(rows), 'finding')}.",
        tables=(Table("Findings", ("What", "At", ""), tuple(rows)),),
        data=data,
    )


ANSWERS: dict[type[Command], Answerer] = {
    Verify: verify_begun,
    MeasureGap: gap_measured,
    FindDefect: defect_found,
    DropFinding: finding_dropped,
    AskDefects: defects_listed,
}
