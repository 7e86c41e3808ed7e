"""The finished height against the zero: set, raised, or fixed at points."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

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
from assistant.events.finish import (
    FallSet,
    FinishMoved,
    FinishSet,
    FinishSetAtDoor,
    FinishSetOverHighest,
    HeightFixed,
    PointGround,
)
from assistant.floor.finish_source import highest_point, outside_mm
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.examples import outside_of, reading_of
from assistant.units.lengths import exact_mm
from grammar.commands import Change, Measure, Reading
from grammar.commands.finish import (
    FinishAtDoor,
    FinishOverHighest,
    FixHeight,
    Grind,
    LowerFinish,
    RaiseFinish,
    SetFall,
    SetFinish,
)


def set_finish(job: Job, command: SetFinish, _world: World) -> Decision:
    if lacks_side(command.height):
        return side_question(command, "Finish", command.height)
    event = FinishSet(height_said(command.height))
    return unless_far_off(job, command, event, ("Finish", command.height), set_up=DATUM)


def finish_at_door(job: Job, command: FinishAtDoor, _world: World) -> Decision:
    number, door = command.door, job.doors.get(command.door)
    if door is None or door.outside is None:
        raise Refusal(
            f"The floor outside door {number} is not read yet: ",
            outside_of(number),
            ".",
            spoken=f"The floor outside door {wording.spoken_number(number)} is not read yet.",
        )
    height = outside_mm(job, number)
    if height is None:
        raise Refusal(
            f"The floor outside door {number} was read from set-up {door.outside.set_up + 1}, "
            "which is not tied to the first yet.",
            spoken="That door's set-up is not tied yet.",
        )
    event = FinishSetAtDoor(number, _in_mm(height))
    return unless_far_off(job, command, event, ("Finish", _read_in_mm(height)), set_up=DATUM)


def finish_over_highest(job: Job, command: FinishOverHighest, _world: World) -> Decision:
    highest = highest_point(job)
    if highest is None:
        raise Refusal(
            "No point is read yet, so none is the highest: ",
            reading_of("B3"),
            ".",
            spoken="No readings yet.",
        )
    point, height = highest
    over = command.over if command.over and command.over.number else None
    if over is not None:
        height += exact_mm(length_of(over, "The height over it"))
    event = FinishSetOverHighest(point, over, _in_mm(height))
    return unless_far_off(job, command, event, ("Finish", _read_in_mm(height)), set_up=DATUM)


def _in_mm(height: Fraction) -> Measure:
    """A worked height to record; heights come from decimals, so it is one exactly."""
    return Measure(Decimal(height.numerator) / Decimal(height.denominator), "mm")


def _read_in_mm(height: Fraction) -> Reading:
    return Reading(_in_mm(height).number, "mm")


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
    FinishAtDoor: finish_at_door,
    FinishOverHighest: finish_over_highest,
    FixHeight: fix_height,
    SetFall: set_fall,
    Grind: grind,
    SetFinish: set_finish,
    RaiseFinish: raise_finish,
    LowerFinish: lower_finish,
}
