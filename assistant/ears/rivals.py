"""Rivals of a command: the commands it may be mistaken for, with one thing changed.

A search keeps what looks likely on the way and cannot score what it dropped. Commands
that are known to be confused are therefore scored in any case.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import MISSING, fields, replace
from decimal import Decimal
from functools import cache
from typing import Any

from grammar.commands import Command, Measure, Reading
from grammar.commands.depths import AskCut, AskDepthAtPoint
from grammar.commands.finish import LowerFinish, RaiseFinish, SetFinish
from grammar.commands.material import ExtendWithAggregate, SetWaste
from grammar.commands.readings import CorrectReading, StrikePoint, TakeReading
from grammar.commands.set_ups import CheckZero, TieOnPoint
from grammar.commands.site import Temperature
from grammar.confusable import LETTERS, UNITS, numbers_alike
from grammar.numbers import as_fraction, plain_number
from grammar.slots.direction import DIRECTIONS
from grammar.spoken import Spoken

_TEENS = numbers_alike("teen")
_AT_A_POINT = (StrikePoint, AskDepthAtPoint, AskCut)


def sounding_alike(command: Command, spoken: Spoken) -> list[Command]:
    """Commands that sound like this one, each once, without the command itself."""
    found = {repr(command): command}
    for rival in (*_changed(command, spoken), *_other_verbs(command), *short_ones(spoken)):
        found.setdefault(repr(rival), rival)
    return list(found.values())[1:]


def _changed(command: Command, spoken: Spoken) -> Iterator[Command]:
    for field in fields(command):
        value = getattr(command, field.name)
        for other in _values(field.name, value, spoken):
            yield replace(command, **{field.name: other})
        if value is not None and _may_be_left_out(command, field.name):
            yield replace(command, **{field.name: None})


def _may_be_left_out(command: Command, name: str) -> bool:
    return "None" in str(type(command).__dataclass_fields__[name].type)


def _values(name: str, value: Any, spoken: Spoken) -> Iterator[Any]:
    if isinstance(value, str):
        yield from _texts(name, value, spoken)
    elif isinstance(value, Command):
        yield from _changed(value, spoken)
        yield from _other_verbs(value)
    elif isinstance(value, Reading) and value.number == 0:
        return
    elif isinstance(value, Measure | Reading):
        yield from _measures(value, spoken)
    elif isinstance(value, int) and not isinstance(value, bool):
        yield from confusable_wholes(value)
    elif isinstance(value, Decimal):
        yield from _numbers(value)
    elif isinstance(value, Temperature):
        yield from (replace(value, number=number) for number in _numbers(value.number))


def _texts(name: str, value: str, spoken: Spoken) -> Iterator[str]:
    if name == "point":
        letters = value.rstrip("0123456789")
        row = int(value[len(letters) :])
        yield from (f"{letters[:-1]}{other}{row}" for other in LETTERS)
        yield from (f"{letters}{other}" for other in confusable_wholes(row))
    elif name == "direction":
        yield from DIRECTIONS
    elif name == "unit":
        yield from ("mm", "in")
    elif name == "name":
        yield from spoken.names_said.values()


def _measures(value: Any, spoken: Spoken) -> Iterator[Any]:
    yield from (replace(value, number=number) for number in _numbers(value.number, value.unit))
    units: Iterable[str | None] = UNITS.get(value.unit or "", ())
    if isinstance(value, Reading) and spoken.unit_missed:
        units = (*units, None) if value.unit else ("in", "mm", "cm")
    yield from (replace(value, unit=unit) for unit in units)
    if isinstance(value, Reading):
        yield replace(value, number=-value.number)
        yield Reading(Decimal(0), None)


def _numbers(number: Decimal, unit: str | None = None) -> Iterator[Decimal]:
    sign = -1 if number < 0 else 1
    size = abs(number)
    if unit == "in" and (size < 100):
        yield from (sign * other for other in _fractions(size))
    elif size == int(size):
        yield from (Decimal(sign * other) for other in confusable_wholes(int(size)))
        yield from (sign * (size + Decimal(tenth) / 10) for tenth in range(1, 10))
        text = str(int(size))
        yield from (sign * Decimal(f"{text[:at]}.{text[at:]}") for at in range(1, len(text)))
    else:
        whole, _, decimals = plain_number(size).partition(".")
        yield from (
            Decimal(f"{sign * other}.{decimals}") for other in confusable_wholes(int(whole))
        )
        yield from (Decimal(f"{'-' * (sign < 0)}{whole}.{other}") for other in _decimals(decimals))
        yield Decimal(sign * int(whole + decimals))
        yield Decimal(sign * int(whole))


def _decimals(decimals: str) -> Iterator[str]:
    for at in range(len(decimals)):
        yield from (f"{decimals[:at]}{other}{decimals[at + 1 :]}" for other in range(10))
    if len(decimals) > 1:
        yield decimals[:-1]


def _fractions(size: Decimal) -> Iterator[Decimal]:
    whole = int(size)
    parts = as_fraction(size)
    part = size - whole
    for bottom in (2, 4, 8, 16):
        yield from (whole + Decimal(top) / bottom for top in range(1, bottom, 2))
    if whole:
        yield from (Decimal(other) + part for other in confusable_wholes(whole))
        yield Decimal(whole)
        if parts:
            yield part
    else:
        yield from (part + other for other in range(1, 10))


def confusable_wholes(number: int) -> Iterator[int]:
    """
    Whole numbers that sound like one: confusables, a digit changed, lost or added, a hundred off.

    Each is one of its own rivals' rivals: which of two was heard first must not decide whether
    the other is weighed.

    >>> 50 in confusable_wholes(15), 105 in confusable_wholes(5)
    (True, True)
    >>> 8 in confusable_wholes(18), 155 in confusable_wholes(15)
    (True, True)
    """
    hundreds, tail = number - number % 100, number % 100
    if tail in _TEENS:
        yield hundreds + _TEENS[tail]
    # No number begins with a zero, so none is left of 205 without its two.
    yield from (int(text) for text in _figures_off(str(number)) if text == str(int(text)))
    yield number + 100
    if number >= 100:
        yield number - 100
    # "Twenty" and "five" run together or apart.
    yield from (number + ten for ten in range(20, 100, 10) if number < 10)


def _figures_off(text: str) -> Iterator[str]:
    """Figures with one changed, dropped or added."""
    for at in range(len(text)):
        yield from (f"{text[:at]}{other}{text[at + 1 :]}" for other in range(10))
        if len(text) > 1:
            yield text[:at] + text[at + 1 :]
    for at in range(len(text) + 1):
        yield from (f"{text[:at]}{other}{text[at:]}" for other in range(10))


def _other_verbs(command: Command) -> Iterator[Command]:
    if isinstance(command, TakeReading):
        if command.point is not None:
            yield CorrectReading(command.point, command.reading)
            yield replace(command, point=None)
            yield TieOnPoint(command.point, command.reading)
        yield CheckZero(command.reading)
        yield SetFinish(command.reading)
    elif isinstance(command, CorrectReading | TieOnPoint):
        yield TakeReading(command.point, command.reading)
    elif isinstance(command, CheckZero):
        yield TakeReading(None, command.reading)
        yield SetFinish(command.reading)
    elif isinstance(command, SetFinish):
        yield TakeReading(None, command.height)
        yield CheckZero(command.height)
    elif isinstance(command, RaiseFinish):
        yield LowerFinish(command.by)
    elif isinstance(command, LowerFinish):
        yield RaiseFinish(command.by)
    elif isinstance(command, SetWaste):
        yield ExtendWithAggregate(command.percent)
    elif isinstance(command, ExtendWithAggregate):
        yield SetWaste(command.percent)
    point = getattr(command, "point", None)
    if isinstance(point, str):
        yield from (verb(point) for verb in _AT_A_POINT)
        yield TakeReading(point, Reading(Decimal(0), None))


@cache
def _short(spoken: Spoken) -> tuple[Command, ...]:
    return tuple(
        phrase.command(**dict(phrase.fixed))
        for phrase in spoken.phrases
        if not phrase.fields and not _needed(phrase.command, phrase.fixed)
    )


def _needed(command: type[Command], fixed: Iterable[tuple[str, object]]) -> set[str]:
    without_default = {field.name for field in fields(command) if field.default is MISSING}
    return without_default - {name for name, _ in fixed}


def short_ones(spoken: Spoken) -> tuple[Command, ...]:
    """The commands without values, as which noise is easily heard."""
    return _short(spoken)
