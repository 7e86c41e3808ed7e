"""Filling in what was left unsaid, and what an answer settles."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any

from assistant.errors import Refusal
from assistant.floor import next_point, places_of
from assistant.job import Job, being_read
from grammar.commands import Command, Measure, Reading, TakeReading, WhatIf


def resolve(job: Job, command: Command) -> Command:
    """
    The command with nothing left to guess: the job's reading unit, the next point.

    Raises
    ------
    Refusal
        If a reading names no point and there is no next one.
    """
    filled: Command = _with_unit(command, job.reading_unit)
    if isinstance(filled, WhatIf):
        change = resolve(job, filled.change)
        return replace(filled, change=change)  # type: ignore[arg-type]  # a change stays a change
    if isinstance(filled, TakeReading) and filled.point is None:
        return replace(filled, point=_point_to_read(being_read(job)))
    return filled


def _with_unit(said: Any, unit: str) -> Any:
    if isinstance(said, Measure | Reading):
        return replace(said, unit=unit) if said.unit is None else said
    if isinstance(said, tuple):
        return tuple(_with_unit(part, unit) for part in said)
    if not is_dataclass(said) or isinstance(said, type):
        return said
    changed = {}
    for part in fields(said):
        before = getattr(said, part.name)
        after = _with_unit(before, unit)
        if after is not before:
            changed[part.name] = after
    return replace(said, **changed) if changed else said


def _point_to_read(job: Job) -> str:
    point = next_point(job)
    if point is not None:
        return point
    if places_of(job.layout).names:
        raise Refusal("Every point has a reading. To change one, name it: correct B3 to minus 16.")
    raise Refusal("There is no next point yet. Set a grid, or name the point: B3 minus 18.")


def with_side(command: Command, side: str) -> Command:
    """
    The waiting command once below or above has been said.

    Parameters
    ----------
    command : Command
        The first of its readings without a side gets this one; a door may have more, and
        each is asked about by itself.
    side : {"below", "above"}
    """
    sided: Command = _with_side(command, -1 if side == "below" else 1)
    return sided


def _with_side(said: Any, sign: int) -> Any:
    if isinstance(said, Reading):
        return said if said.side_said else Reading(sign * abs(said.number), said.unit)
    if not is_dataclass(said) or isinstance(said, type | Measure):
        return said
    for part in fields(said):
        before = getattr(said, part.name)
        after = _with_side(before, sign)
        if after != before:
            return replace(said, **{part.name: after})
    return said
