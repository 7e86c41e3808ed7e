"""Asks about a fraction without a unit in a job of millimetres: was it of an inch?

Fractions are read off a rule of inches, and 3/8 of an inch is 25 times 3/8 of a millimetre. Only
a half beside a whole number is taken as it is: four and a half is read off a millimetre scale.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import fields, is_dataclass
from decimal import Decimal
from typing import Any

from assistant.decide.parts import Decision
from assistant.decide.questions import WhichUnit
from assistant.decide.unsaid import UNITS_MEANT, with_unit
from assistant.errors import Refusal
from assistant.reply import wording
from grammar import short_form
from grammar.commands import IN_PARTS, Command, Measure, Reading
from grammar.numbers import as_fraction, spoken_fraction
from grammar.slots.measure import short_measure

_HALF = Decimal("0.5")


def is_unit_open(said: Any) -> bool:
    """Whether any of its numbers may be a fraction of an inch, in a job of millimetres."""
    return any(True for _ in _in_question(said))


def _in_question(said: Any) -> Iterator[Measure | Reading]:
    if isinstance(said, Measure | Reading):
        size = abs(said.number)
        if said.unit == IN_PARTS and not (size > 1 and size % 1 == _HALF):
            yield said
    elif isinstance(said, tuple):
        for part in said:
            yield from _in_question(part)
    elif is_dataclass(said) and not isinstance(said, type):
        for field in fields(said):
            yield from _in_question(getattr(said, field.name))


def ask_unit(command: Command, try_out: Callable[[Command], object]) -> Decision:
    """
    Ask which unit was meant, for a command that could be taken with either.

    Parameters
    ----------
    command : Command
        One answer fills in all units that it lacks.
    try_out : callable
        Raises Refusal for a command that the job cannot take.

    Raises
    ------
    Refusal
        If the command can be taken in neither unit.
    """
    refused: list[Refusal] = []
    for unit in UNITS_MEANT:
        try:
            try_out(with_unit(command, unit))
        except Refusal as refusal:
            refused.append(refusal)
    if len(refused) == len(UNITS_MEANT):
        raise refused[0]
    first = next(_in_question(command))
    size = abs(first.number)
    parts = as_fraction(size)
    assert parts is not None  # it was said in parts
    spoken = spoken_fraction(*parts)
    inches = " inches" if size > 1 else " of an inch"
    point = getattr(command, "point", None)
    is_it = f"is it {spoken}{inches}?"
    aloud = f"{wording.spoken_name(point)}, {is_it}" if isinstance(point, str) else is_it
    shown = short_measure(Measure(size, IN_PARTS))
    return Decision(
        ask=WhichUnit(
            f"“{short_form(command)}” has no unit: is it {shown}{inches}? "
            "Confirm, or say millimetres.",
            f"{wording.sentence(aloud)} Confirm, or say millimetres.",
            command,
            {"which": [short_form(with_unit(command, unit)) for unit in UNITS_MEANT]},
        )
    )
