"""How somebody would say a command, in the words that the recogniser knows."""

from __future__ import annotations

from dataclasses import fields, replace
from typing import Any

from grammar import Misunderstood, understand
from grammar.aloud import first_way, said_aloud
from grammar.commands import Command, Measure, Reading
from grammar.spoken import Spoken


def words_of(line: str, spoken: Spoken) -> str | None:
    """
    How a typed line is said; None where it has no spoken form, or more than one meaning.

    >>> words_of("B3 -18", Spoken())
    'bravo three minus eighteen millimetres'
    >>> words_of("B3 18", Spoken()) is None
    True
    """
    try:
        meanings = understand(line)
    except Misunderstood:
        return None
    return words_for(meanings[0], spoken) if len(meanings) == 1 else None


def words_for(command: Command, spoken: Spoken) -> str | None:
    """How a command is said; a reading without a unit in millimetres."""
    template = said_aloud(spoken, _with_millimetres(command))
    return first_way(f"({template})") if template else None


def _with_millimetres(said: Command) -> Command:
    changed: dict[str, Any] = {}
    for part in fields(said):
        value = getattr(said, part.name)
        if isinstance(value, Measure | Reading) and value.unit is None and value.number:
            changed[part.name] = replace(value, unit="mm")
        elif isinstance(value, Command):
            changed[part.name] = _with_millimetres(value)
    return replace(said, **changed) if changed else said
