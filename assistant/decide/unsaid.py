"""Fills in the side or unit that a sentence lacked, once it is known."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any

from grammar.commands import IN_PARTS, Command, Measure, Reading

UNSAID = (None, IN_PARTS)
"""Units of a number that was said without one."""
UNITS_MEANT = ("in", "mm")
"""Units that a fraction without one may be in, the likelier first."""


def with_unit(said: Any, unit: str) -> Any:
    """The command with this unit wherever none was said."""
    if isinstance(said, Measure | Reading):
        return replace(said, unit=unit) if said.unit in UNSAID else said
    if isinstance(said, tuple):
        return tuple(with_unit(part, unit) for part in said)
    if not is_dataclass(said) or isinstance(said, type):
        return said
    changed = {}
    for part in fields(said):
        before = getattr(said, part.name)
        after = with_unit(before, unit)
        if after is not before:
            changed[part.name] = after
    return replace(said, **changed) if changed else said


def with_side(command: Command, side: str) -> Command:
    """
    The waiting command with the side that was given.

    Parameters
    ----------
    command : Command
        Its first reading without a side gets this one; a door may have more, which are
        asked about one by one.
    side : {"below", "above"}
    """
    sided: Command = _with_side(command, -1 if side == "below" else 1)
    return sided


def _with_side(said: Any, sign: int) -> Any:
    if isinstance(said, Reading):
        return said if said.side_said else Reading(sign * abs(said.number), said.unit)
    if isinstance(said, tuple):
        return _first_with_side(said, sign)
    if not is_dataclass(said) or isinstance(said, type | Measure):
        return said
    for part in fields(said):
        before = getattr(said, part.name)
        after = _with_side(before, sign)
        if after != before:
            return replace(said, **{part.name: after})
    return said


def _first_with_side(said: tuple[Any, ...], sign: int) -> tuple[Any, ...]:
    """Several, of which the first that lacks a side has it: the others are asked about in turn."""
    for place, part in enumerate(said):
        if (after := _with_side(part, sign)) != part:
            return (*said[:place], after, *said[place + 1 :])
    return said
