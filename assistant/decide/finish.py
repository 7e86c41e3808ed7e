"""The finished height against the zero: set, raised, or fixed at points."""

from __future__ import annotations

from decimal import Decimal

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.readings import check_point, check_read
from assistant.decide.suspect import DATUM, unless_far_off
from assistant.errors import Refusal
from assistant.events.finish import FallSet, FinishMoved, FinishSet, HeightFixed, PointGround
from assistant.job import Job
from assistant.reply import wording
from grammar.commands import Change, Measure
from grammar.commands.finish import FixHeight, Grind, LowerFinish, RaiseFinish, SetFall, SetFinish


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


MOST_FALL_PERCENT = Decimal(10)
"""Steepest fall: a self-levelling pour cannot be steeper, nor should a floor be. Common practice,
no source; only meant to catch a slip of the tongue."""


def fix_height(job: Job, command: FixHeight, _world: World) -> Decision:
    check_point(job, command.point)
    if lacks_side(command.height):
        return side_question(command, command.point, command.height)
    event = HeightFixed(command.point, height_said(command.height))
    return unless_far_off(
        job, command, event, (f"Finish at {command.point}", command.height), set_up=DATUM
    )


def set_fall(job: Job, command: SetFall, _world: World) -> Decision:
    if not 0 <= command.percent <= MOST_FALL_PERCENT:
        raise Refusal(
            f"A fall is from 0 to {wording.percent(MOST_FALL_PERCENT)}, not "
            f"{wording.percent(command.percent)}: fall 1 percent towards A1.",
            spoken="A fall is at most ten percent.",
        )
    check_point(job, command.point)
    return Decision((FallSet(command.percent, command.point),))


def grind(job: Job, command: Grind, _world: World) -> Decision:
    check_read(job, command.point)
    return Decision((PointGround(command.point, length_of(command.by, "What is ground off")),))


DECIDERS: dict[type[Change], Decider] = {
    FixHeight: fix_height,
    SetFall: set_fall,
    Grind: grind,
    SetFinish: set_finish,
    RaiseFinish: raise_finish,
    LowerFinish: lower_finish,
}
