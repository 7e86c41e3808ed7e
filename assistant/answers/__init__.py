"""Answers to commands, as data for screen, voice and programs.

Pure. All of it is in the table below: the class of each command, and the
function that answers it from the job before and after.
"""

from __future__ import annotations

from collections.abc import Sequence

from assistant.answers.finished import naming_the_floor
from assistant.answers.parts import Answerer, Moment
from assistant.decide.by_matter import ByMatter
from assistant.decide.parts import World
from assistant.events.kinds import Event
from assistant.job import Job
from assistant.job.floor_meant import floor_meant
from assistant.reply.replies import Reply
from grammar.commands import Change, Command

__all__ = ["ANSWERS", "answer"]

ANSWERS: ByMatter[type[Command], Answerer] = ByMatter(
    __name__,
    "ANSWERS",
    (
        "room", "readings", "set_ups", "finish", "doors", "depths", "overview", "figures",
        "material", "pour", "site", "guide", "notes", "jobs", "handover", "record", "talk", "walk",
        "things", "zones", "proof", "flatness",
    ),
)  # fmt: skip


def answer(
    before: Job, after: Job, command: Command, events: Sequence[Event], world: World
) -> Reply:
    """
    The answer to a command.

    Parameters
    ----------
    before, after : Job
        The job before the command and after its events; the same job for an ask.
        For "what if", after is the job as it would be.
    command : Command
        Resolved: its units and points are all filled in.
    events
        What the command recorded, or would record.
    world : World

    Raises
    ------
    Refusal
        If an ask has no answer in the present job. Never for a change, which would have
        been refused when it was decided.
    """
    moment = Moment(before, after, events, world)
    shown = Moment(floor_meant(before, command), floor_meant(after, command), events, world)
    reply = ANSWERS[type(command)](shown, command)
    reply = naming_the_floor(shown.after, command, reply)
    if moment.after.guide.open is None or not isinstance(command, Change):
        return reply  # and nothing of the guide is loaded
    from assistant.answers import guide

    return guide.with_step_met(moment, command, reply)
