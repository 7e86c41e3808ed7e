"""The finished height against the zero."""

from __future__ import annotations

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.suspect import DATUM, unless_far_off
from assistant.events import FinishMoved, FinishSet
from assistant.job import Job
from grammar.commands import Change, LowerFinish, Measure, RaiseFinish, SetFinish


def set_finish(job: Job, command: SetFinish, _world: World) -> Decision:
    if lacks_side(command.height):
        return side_question(command, "Finish", command.height)
    event = FinishSet(height_said(command.height))
    return unless_far_off(job, command, event, ("Finish", command.height), set_up=DATUM)


def raise_finish(_job: Job, command: RaiseFinish, _world: World) -> Decision:
    return Decision((FinishMoved(length_of(command.by, "The step up")),))


def lower_finish(_job: Job, command: LowerFinish, _world: World) -> Decision:
    by = length_of(command.by, "The step down")
    return Decision((FinishMoved(Measure(-by.number, by.unit)),))


DECIDERS: dict[type[Change], Decider] = {
    SetFinish: set_finish,
    RaiseFinish: raise_finish,
    LowerFinish: lower_finish,
}
