"""Fills in what was left unsaid and is known from the job."""

from __future__ import annotations

from dataclasses import replace

from assistant.decide.things.lines import with_known_things
from assistant.decide.unit_meant import is_unit_open
from assistant.decide.unsaid import with_unit
from assistant.decide.walk import same_reading
from assistant.errors import Refusal
from assistant.floor.places import places_of
from assistant.floor.walk import next_point
from assistant.job import Job, being_read
from assistant.job.proof import ProofLine
from assistant.reply.examples import correction_of, reading_of
from grammar.commands import Command, Reading
from grammar.commands.finish import FeatherTo, FinishAtDoor
from grammar.commands.material import ChooseProduct
from grammar.commands.proof import CorrectLineValue, EndLine, TakeLineValues
from grammar.commands.readings import TakeReading
from grammar.commands.talk import WhatIf
from grammar.commands.walk import SkipPoint, TakeRun, TakeSame


def resolve(job: Job, command: Command) -> Command:
    """
    The command with the job's reading unit and the next point filled in.

    Numbers that :mod:`assistant.decide.unit_meant` asks about stay without a unit.

    Raises
    ------
    Refusal
        If a reading names no point and there is no next one.
    """
    # Fractions without a unit are asked about; until then the line stays as it was said.
    is_open = job.reading_unit != "in" and is_unit_open(command)
    filled: Command = command if is_open else with_unit(command, job.reading_unit)
    if isinstance(filled, WhatIf):
        change = resolve(job, filled.change)
        return replace(filled, change=change)  # type: ignore[arg-type]  # a change stays a change
    if isinstance(filled, ChooseProduct):
        from assistant.decide.zones import of_its_zone  # for no other line's start

        return of_its_zone(job, filled)
    if (on_line := _for_open_line(being_read(job), filled)) is not None:
        return on_line
    if isinstance(filled, TakeSame):
        filled = same_reading(being_read(job), filled)
    filled = with_known_things(job, filled)
    if isinstance(filled, FinishAtDoor | FeatherTo) and filled.door is None and len(job.doors) == 1:
        filled = replace(filled, door=next(iter(job.doors)))
    if isinstance(filled, TakeReading | SkipPoint) and filled.point is None:
        return replace(filled, point=_point_to_read(being_read(job)))
    return filled


def _for_open_line(job: Job, command: Command) -> Command | None:
    """
    The command as it is meant while a line is read; None where it has nothing to do with it.

    What names a point stays that point's, and so nothing slides from one to the other.
    """
    line = job.proof.line
    if line is None:
        return None
    if isinstance(command, TakeReading) and command.point is None:
        return TakeLineValues((command.reading,), line.number)
    if isinstance(command, TakeRun):
        return TakeLineValues(command.readings, line.number)
    if isinstance(command, TakeSame) and command.point is None and command.like is None:
        if not line.values:
            raise Refusal(
                f"Line {line.number} has no value yet that could be the same.",
                spoken="The line has no value yet.",
            )
        last = line.values[-1].said
        return TakeLineValues((Reading(last.number, last.unit),), line.number)
    if isinstance(command, TakeLineValues | CorrectLineValue | EndLine) and command.line is None:
        return _named(command, line)
    return None


def _named(command: TakeLineValues | CorrectLineValue | EndLine, line: ProofLine) -> Command:
    if isinstance(command, TakeLineValues):
        return TakeLineValues(command.readings, line.number)
    if isinstance(command, CorrectLineValue):
        if not line.values:
            raise Refusal(
                f"Line {line.number} has no value yet that could be put right.",
                spoken="The line has no value yet.",
            )
        return replace(
            command,
            line=line.number,
            number=len(line.values) if command.number is None else command.number,
        )
    return EndLine(line.number)


def _point_to_read(job: Job) -> str:
    point = next_point(job)
    if point is not None:
        return point
    if places_of(job.layout).names:
        raise Refusal(
            "Every point has a reading. To change one, name it: ",
            correction_of("B3"),
            ".",
            spoken="Every point has a reading. To change one, name it.",
        )
    raise Refusal(
        "There is no next point yet. Set a grid, or name the point: ",
        reading_of("B3"),
        ".",
        spoken="There is no next point. Name the point.",
    )
