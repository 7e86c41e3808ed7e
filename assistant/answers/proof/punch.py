"""Answers about what was promised, the punch list, and what was mended."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal
from assistant.events.proof import PointsMended, PromiseMade
from assistant.floor.in_doubt import doubt_words
from assistant.floor.off_plan import off_as_a_whole_mm, unlooked_zeros
from assistant.floor.off_promise import is_flat_only, is_level_only
from assistant.floor.places import places_of
from assistant.floor.proof_lines import profiles_of
from assistant.floor.punch import GRIND, PASS_MM, ToMend, punch_of, whole_bags
from assistant.floor.punch_limit import is_held_to_gaps, punch_limit_of
from assistant.floor.scans.patches import lacks_zero
from assistant.floor.scans.scan import scan_of
from assistant.floor.spec_check import found_of, held_to
from assistant.floor.walk import next_point, points_missing
from assistant.job import Job
from assistant.limits.cautions import cautions_at
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.proof import AskPromise, AskPunch, LimitPunch, Mend, TellPromise

PROMISES = {
    (True, False): "flat",
    (False, True): "level",
    (True, True): "flat and level",
}
_MEANS = {
    "flat": "Flat: no gap shows under a straightedge, whatever the floor's height and slope.",
    "level": "Level: the floor lies at the height that was planned.",
    "flat and level": "Flat under a straightedge, and level at the height that was planned.",
}


def promise_words(job: Job) -> str | None:
    """What was promised: ``flat``, ``level`` or both; None while nobody said."""
    said = job.setting(PromiseMade)
    return None if said is None else PROMISES[said.flat, said.level]


def promise_told(moment: Moment, _command: TellPromise | AskPromise) -> Reply:
    told = promise_words(moment.job)
    data = {"promised": told}
    if told is None:
        return Reply(
            "Nobody has said yet what was promised.",
            "Nobody has said what was promised.",
            ("Flat and level are two promises: promised flat, promised level, promised both.",),
            data=data,
        )
    return Reply(f"Promised {told}.", f"Promised {told}.", (_MEANS[told],), data=data)


def limit_set(moment: Moment, _command: LimitPunch) -> Reply:
    most, unit = punch_limit_of(moment.job).mm, moment.unit
    return Reply(
        f"On the punch list goes what is off by more than {wording.length(most, unit)}.",
        f"Punch list over {wording.spoken_length(most, unit)}.",
        data={"punch_limit_mm": float(most)},
    )


def punch_listed(moment: Moment, _command: AskPunch) -> Reply:
    job, unit = moment.job, moment.unit
    if job.slab is None:
        raise Refusal(
            "The punch list is of the finished floor, and this one is not poured on record: pour "
            "finished, or verify.",
            spoken="The floor is not poured on record.",
        )
    if not (job.readings or job.proof.gaps or profiles_of(job) or scan_of(job) is not None):
        raise Refusal(
            "No point of the finished floor has been read yet.",
            spoken="No point of the finished floor has been read yet.",
        )
    found = punch_of(job)
    missing = points_missing(job)
    off = "the plane through what was read" if is_flat_only(job) else "the planned finish"
    limit = punch_limit_of(job)
    by = f", as {limit.source} has it" if limit.source else ""
    details = [f"Off {off} by more than {wording.length(limit.mm, unit)}{by} (punch over sets it)."]
    if lacks_zero(job) and not is_flat_only(job):
        details.append(
            "Nobody said the zero of the scan, so it shows nothing off the finish: import it with "
            "--zero."
        )
    if missing:
        details.append(f"{wording.counted(len(missing), 'point')} still to be read.")
    if promise_words(job) is None:
        details.append("What was promised is not said yet: promised flat, or promised level.")
    if untold := _not_met(job):
        details.append(f"Not met besides: {'; '.join(untold)} (verdicts).")
    seen = _seen(job)
    if seen:
        details.append(f"To be seen to besides: {wording.join_names(seen, most=8)} (defects).")
    data = {"punch": [_data(each) for each in found]}
    if not found:
        return Reply(
            "Nothing to grind or fill by what was read.",
            "Nothing to grind or fill.",
            tuple(details),
            data=data,
        )
    details += [*_as_a_whole(job, float(limit.mm)), *doubt_words(job)]
    details += _totals(found, unit)
    grind = sum(each.do == GRIND for each in found)
    fill = len(found) - grind
    parts = [f"{grind} to grind"] * bool(grind) + [f"{fill} to fill"] * bool(fill)
    spoken = [
        f"{wording.spoken_number(count)} to {do}"
        for count, do in ((grind, "grind"), (fill, "fill"))
        if count
    ]
    return Reply(
        f"{wording.counted(len(found), 'place')}: {', '.join(parts)}.",
        f"{', '.join(spoken)}.",
        tuple(details),
        (_table(found, unit),),
        cautions=cautions_at("grind") if grind else (),
        data=data,
    )


def _as_a_whole(job: Job, most: float) -> list[str]:
    """What is off all over the floor alike: the floor, or a zero that nobody looked at since."""
    off = None if is_flat_only(job) else off_as_a_whole_mm(job)
    if off is None or abs(off) <= most:
        return []
    size = wording.length(round(abs(off), 1), job.reading_unit)
    told = f"As a whole the floor lies {size} {'above' if off > 0 else 'below'} the planned finish."
    if unlooked_zeros(job):
        told += (
            " The zero was not looked at since the pour, and may have moved: look at it before "
            "anything is ground or filled (check zero, with what it shows)."
        )
    return [told]


def _not_met(job: Job) -> list[str]:
    """Limits that the floor is held to and that its readings break, with the place."""
    return [
        f"{each.id}, at {each.where}"
        for spec in held_to(job)
        for each in found_of(job, spec)
        if each.met is False
    ]


def _seen(job: Job) -> list[str]:
    seen = [f"{each.kind} at {each.point}" for each in job.proof.defects]
    seen += [
        f"crack at {line.start}" if line.end is None else f"crack {line.start} to {line.end}"
        for line in job.layout.things.lines
        if line.kind == "crack" and line.after_pour and not line.repaired
    ]
    if is_level_only(job) and not is_held_to_gaps(job):
        # Flat was not promised, and what an edge showed is on record all the same.
        gaps = job.proof.gaps
        seen += [
            f"gap of {wording.as_said(each.gap)} at {each.point}, as flat was not promised"
            for each in gaps
        ]
    return seen


def _totals(found: tuple[ToMend, ...], unit: str) -> list[str]:
    told = []
    bags = whole_bags(found)
    if bags is not None:
        told.append(
            f"{wording.counted(bags, 'bag')} to fill with, if the product may be poured that thin; "
            "its data sheet says, and how the floor is primed between."
        )
    if any(each.do == GRIND for each in found):
        told.append(f"A pass of the grinder is taken for {wording.length(PASS_MM, unit)}.")
    if any(not each.clear for each in found):
        told.append(
            "Where it says read again, the reading alone could be the whole of it: look twice "
            "before anything is ground."
        )
    return told


def _table(found: tuple[ToMend, ...], unit: str) -> Table:
    rows: tuple[tuple[str, ...], ...] = tuple(
        (
            f"{each.point}, {each.seen_by}" if each.seen_by else each.point,
            f"{each.do} {wording.length(round(each.mm, 1), unit)}",
            "-" if each.area_m2 is None else wording.area(each.area_m2, unit),
            _how_much(each),
            "" if each.clear else "read again",
            f"{each.mended} before" if each.mended else "",
        )
        for each in found
    )
    columns: tuple[str, ...] = ("Point", "Do", "About", "With", "", "Mended")
    if not any(each.mended for each in found):
        columns, rows = columns[:-1], tuple(row[:-1] for row in rows)
    return Table("Punch list", columns, rows)


def _how_much(each: ToMend) -> str:
    if each.passes is not None:
        return wording.counted(each.passes, "pass", "passes")
    return "-" if each.bags is None else f"{wording.figure(each.bags, 1)} bags"


def _data(each: ToMend) -> dict[str, Any]:
    """For programs; millimetres, metres."""
    return {
        "point": each.point,
        "x_m": each.x_m,
        "y_m": each.y_m,
        "do": each.do,
        "mm": each.mm,
        "area_m2": each.area_m2,
        "bags": each.bags,
        "passes": each.passes,
        "clear": each.clear,
        "seen_by": each.seen_by or None,
        "mended": each.mended,
    }


def mended(moment: Moment, _command: Mend) -> Reply:
    job = moment.job
    event = next(event for event in moment.events if isinstance(event, PointsMended))
    order = places_of(job.layout).row
    points = sorted(event.points, key=lambda name: order.get(name, len(order)))
    following = next_point(job)
    times = max(job.proof.mended[point] for point in points)
    count = wording.counted(len(points), "point")
    details = [
        "What was read there counts no more; only those are read again, in walking order.",
        f"Mended {wording.counted(times, 'time')} now." if times > 1 else "",
        f"Next: {following}." if following else "",
    ]
    return Reply(
        f"Mended: {wording.join_names(points, most=8)}. {count} to read again.",
        f"Mended. {wording.spoken_count(len(points), 'point')} to read again.",
        tuple(each for each in details if each),
        data={"mended": {"points": points, "times": times, "next": following}},
    )


ANSWERS: dict[type[Command], Answerer] = {
    TellPromise: promise_told,
    AskPromise: promise_told,
    LimitPunch: limit_set,
    AskPunch: punch_listed,
    Mend: mended,
}
