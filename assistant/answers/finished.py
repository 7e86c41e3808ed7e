"""Words about the finished floor, and to say which of two floors an answer is about."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from assistant.events.kinds import Event
from assistant.events.proof import PromiseMade
from assistant.events.readings import FinishedFloorBegun
from assistant.job import Job, survey_named
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.kinds import EITHER_FLOOR, WHOLE_JOB


def naming_the_floor(shown: Job, command: Command, reply: Reply) -> Reply:
    """The reply, which names its floor once there are two."""
    named = survey_named(shown)
    if named is None or command.SPEAKS_OF == WHOLE_JOB:
        return reply
    # Said aloud only for questions: a reading has to be read back in few words.
    read = shown.readings or any(line.values for line in shown.proof.lines.values())
    aloud = command.SPEAKS_OF == EITHER_FLOOR or not read
    return replace(reply, floor=named, floor_aloud=aloud, data={**reply.data, "survey": named})


WHICH_PROMISE = (
    "Which was promised, flat or level? They are two promises: promised flat, promised level, or "
    "promised both."
)
"""Asked once, with the start of the second survey, where nobody said."""


def promise_asked(job: Job) -> tuple[str, ...]:
    """The question what was promised; nothing where it is on record."""
    return () if job.setting(PromiseMade) else (WHICH_PROMISE,)


def poured_details(job: Job, events: Sequence[Event], *, again: bool) -> tuple[str, ...]:
    """What the end of a pour changes for readings."""
    if any(isinstance(event, FinishedFloorBegun) for event in events):
        return (
            *promise_asked(job),
            "What is read from now on is of the finished floor; the slab's readings stay as they "
            "are (readings of the slab). Not finished after all: undo.",
        )
    return ("The finished floor's readings go on.",) if again else ()


def against_finish(depth_mm: Fraction, unit: str) -> str:
    """How far a finished floor is from its finish, as a sentence."""
    if not depth_mm:
        return "At the finish."
    return f"{_away(depth_mm, unit)} the finish."


def finish_cell(depth_mm: Fraction, unit: str) -> str:
    """How far it is from its finish, for a column."""
    return _away(depth_mm, unit) if depth_mm else "at it"


def _away(depth_mm: Fraction, unit: str) -> str:
    return f"{wording.length(abs(depth_mm), unit)} {'below' if depth_mm > 0 else 'above'}"


def spoken_against_finish(depth_mm: Fraction, unit: str) -> str:
    """How far it is from its finish, to say."""
    if not depth_mm:
        return "at the finish"
    side = "below" if depth_mm > 0 else "above"
    return f"{wording.spoken_length(abs(depth_mm), unit)} {side} the finish"
