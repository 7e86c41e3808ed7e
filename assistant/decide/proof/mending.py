"""What was promised of a finished floor, and what of it was mended."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World, length_of
from assistant.decide.readings import check_point
from assistant.errors import Refusal
from assistant.events.proof import PointsMended, PromiseMade, PunchLimitSet
from assistant.floor.punch import punch_of
from assistant.job import Job
from assistant.reply import wording
from assistant.units.lengths import exact_mm
from grammar.commands import Change
from grammar.commands.proof import LimitPunch, Mend, TellPromise


def tell_promise(_job: Job, command: TellPromise, _world: World) -> Decision:
    both = command.kind == "both"
    return Decision((PromiseMade(both or command.kind == "flat", both or command.kind == "level"),))


def limit_punch(_job: Job, command: LimitPunch, _world: World) -> Decision:
    most = length_of(command.most, "The limit of the punch list")
    if exact_mm(most) > MOST_LIMIT_MM:
        raise Refusal(
            f"A punch list over {wording.as_said(most)} lists nothing. It is in millimetres, or "
            "parts of an inch: punch over 3 millimetres.",
            spoken="That limit lists nothing.",
        )
    return Decision((PunchLimitSet(most),))


MOST_LIMIT_MM = 100
"""Of a punch list: no floor that was poured is off by so much. Our own choice, no source."""


def mend(job: Job, command: Mend, _world: World) -> Decision:
    if job.slab is None:
        raise Refusal(
            "The punch list is of the finished floor, and this one is not poured on record.",
            spoken="The floor is not poured on record.",
        )
    if command.point is None:
        # A stretch of a line has no point to read again: its line is.
        points = tuple(
            dict.fromkeys(each.point for each in punch_of(job) if each.point in _to_read(job))
        )
        if not points and punch_of(job):
            raise Refusal(
                "What is on the punch list was seen along lines or by a scan. Once it is mended, "
                "read the line again, or import a scan of it as it is then.",
                spoken="Read or scan it again once it is mended.",
            )
        if not points:
            raise Refusal(
                "Nothing is on the punch list. A single point: mended B2.",
                spoken="Nothing is on the punch list.",
            )
        return Decision((PointsMended(points),))
    check_point(job, command.point)
    if command.point not in _to_read(job):
        raise Refusal(
            f"{command.point} has no reading of the finished floor that mending would change.",
            spoken=f"{wording.spoken_name(command.point)} has no reading.",
        )
    return Decision((PointsMended((command.point,)),))


def _to_read(job: Job) -> set[str]:
    """The points that a reading or a gap tells of."""
    return {*job.readings, *(gap.point for gap in job.proof.gaps)}


DECIDERS: dict[type[Change], Decider] = {
    TellPromise: tell_promise,
    LimitPunch: limit_punch,
    Mend: mend,
}
