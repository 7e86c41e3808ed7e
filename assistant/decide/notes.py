"""Remarks: taken as they are."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World
from assistant.decide.readings import check_point
from assistant.events.notes import NoteTaken
from assistant.job import Job, being_read
from grammar.commands import Change
from grammar.commands.notes import TakeNote


def take_note(job: Job, command: TakeNote, _world: World) -> Decision:
    if command.point is not None:
        check_point(being_read(job), command.point)
    return Decision((NoteTaken(command.words, command.point),))


DECIDERS: dict[type[Change], Decider] = {TakeNote: take_note}
