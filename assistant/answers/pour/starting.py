"""Answers before the first bag: what stands against it, and its water."""

from __future__ import annotations

from assistant.answers.parts import Answerer, Moment
from assistant.answers.pour.mixing import water_lines
from assistant.events.pour import PourStarted
from assistant.reply import wording
from assistant.reply.examples import FRONT
from assistant.reply.replies import Reply
from assistant.reply.times import shown_time
from assistant.site.before_pour import against_pour, draught_notes, joints_of
from grammar.commands import Command
from grammar.commands.pour import CarryJoints, StartPour, TellEdgeStrip


def start_told(moment: Moment, _command: StartPour) -> Reply:
    job, now = moment.job, moment.world.now
    started = next((each for each in moment.events if isinstance(each, PourStarted)), None)
    notes = tuple(draught_notes(job))
    water = water_lines(moment)
    if started is None:
        return _not_started(moment, notes)
    anyway: tuple[str, ...] = ()
    if started.words is not None:
        count = wording.counted(len(started.against), "reason")
        anyway = (f"{count} stood against it; on record, in your words: “{started.words}”.",)
    return Reply(
        f"Pour started at {shown_time(now, now, moment.world.zone)}.",
        "Pour started.",
        (
            *anyway,
            *water,
            *notes,
            f"Say batch at each, and {FRONT.in_unit(moment.unit)} or strip 1 done.",
        ),
        data={"pour_started": {"against": list(started.against), "words": started.words}},
    )


def _not_started(moment: Moment, notes: tuple[str, ...]) -> Reply:
    reasons = against_pour(moment.job, moment.world.now)
    lines = tuple(
        f"{number}. {each.message} To clear it: {each.clears_by}. ({each.source})"
        for number, each in enumerate(reasons, start=1)
    )
    return Reply(
        f"Not started: {wording.counted(len(reasons), 'reason')} against it.",
        f"Not started, {wording.spoken_count(len(reasons), 'reason')} against it.",
        (*lines, "All the same: start pour anyway because, and why, in your words.", *notes),
        data={"pour_started": None, "reasons": [each.as_data() for each in reasons]},
    )


def edge_strip_told(moment: Moment, _command: TellEdgeStrip) -> Reply:
    return Reply(
        "The edge strip is in place, as said.",
        "Edge strip in place.",
        data={"edge_strip": moment.job.pour.edge_strip},
    )


def joints_told(moment: Moment, _command: CarryJoints) -> Reply:
    numbers = joints_of(moment.job)
    count = wording.counted(len(numbers), "joint")
    return Reply(
        f"{count} carried through, as said.",
        f"{wording.spoken_count(len(numbers), 'joint')} carried through.",
        ("Whether a dam or a profile will do is for the data sheet and whoever designed it.",),
        data={"joints_carried": list(numbers)},
    )


ANSWERS: dict[type[Command], Answerer] = {
    StartPour: start_told,
    TellEdgeStrip: edge_strip_told,
    CarryJoints: joints_told,
}
