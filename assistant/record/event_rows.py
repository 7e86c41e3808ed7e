"""Events as readable JSON, and back again.

How a field is written follows from its type, so an event is described only by its
class. Both directions are strict: what could not be read back is never written, and
what is not exactly as we would write it is never read as an event.
"""

from __future__ import annotations

import json
import types
import typing
from collections.abc import Callable
from dataclasses import fields, is_dataclass
from decimal import Decimal, InvalidOperation
from functools import cache
from math import isfinite
from typing import Any, cast

from assistant.errors import JournalError, NewerRecordError
from assistant.events import EVENTS, Event
from grammar.frozen import frozen

Facts = dict[str, Any]


def _scan_of_its_floor(facts: Facts) -> Facts:
    """Before, there was one scan of a job, in cells from the room's corner on, medians all."""
    new = {"corner": [], "single": False, "turn": None, "either": facts.get("file") is None}
    return {**facts, **new}


def _finish_without_covering(facts: Facts) -> Facts:
    return {**facts, "covering": None}


UPGRADES: dict[tuple[str, int], Callable[[Facts], Facts]] = {
    ("scan-imported", 1): _scan_of_its_floor,
    ("finish-set-at-door", 1): _finish_without_covering,
}
"""(event name, old version) -> the function that turns its facts into the next version's."""


@frozen
class Row:
    """An event as the record keeps it."""

    name: str
    version: int
    facts: str
    """A JSON object; numbers that were said are strings in it, so that 18.0 stays 18.0."""


@frozen
class Form:
    """How values of one type go into JSON and come out again."""

    write: Callable[[Any], Any]
    read: Callable[[Any], Any]


class UnfitError(ValueError):
    """Raised for a value that its field cannot have."""


@cache
def event_classes() -> dict[str, type[Event]]:
    """Every event class, by its stable name."""
    return {kind.NAME: kind for kind in EVENTS}


def row_of(event: Event) -> Row:
    """Write an event down; JournalError where it holds what could not be read back."""
    kind = type(event)
    if event_classes().get(event.NAME) is not kind:
        raise JournalError(f"{kind.__name__} is no event that the record knows.")
    try:
        facts = form_of(cast(Any, kind)).write(event)
        text = json.dumps(facts, ensure_ascii=False, allow_nan=False)
    except (ValueError, RecursionError) as error:
        raise JournalError(f"Nothing was recorded: {event.NAME} does not fit, {error}.") from error
    return Row(event.NAME, event.VERSION, text)


def event_of(row: Row) -> Event:
    """
    Read an event back.

    NewerRecordError where the name or the version is not known yet, JournalError
    where the facts are not what the event is made of.
    """
    kind = event_classes().get(row.name)
    if kind is None or row.version > kind.VERSION:
        raise NewerRecordError(
            f'"{row.name}" (version {row.version}) was recorded by a newer Leadsman.'
        )
    try:
        facts = _brought_up_to(kind.VERSION, row, _object(row.facts))
        event: Event = form_of(cast(Any, kind)).read(facts)
    except (ValueError, RecursionError) as error:
        raise JournalError(f'"{row.name}" cannot be read: {error}.') from error
    return event


def _object(text: str) -> Facts:
    facts = json.loads(text, parse_constant=_no_such_number, object_pairs_hook=_each_name_once)
    if not isinstance(facts, dict):
        raise UnfitError("its facts are no JSON object")
    return facts


def _no_such_number(text: str) -> None:
    raise UnfitError(f"{text} is no number")


def _each_name_once(pairs: list[tuple[str, Any]]) -> Facts:
    facts = dict(pairs)
    if len(facts) < len(pairs):
        raise UnfitError("a name stands in it twice")
    return facts


def _brought_up_to(version: int, row: Row, facts: Facts) -> Facts:
    for old in range(row.version, version):
        upgrade = UPGRADES.get((row.name, old))
        if upgrade is None:
            raise UnfitError(f"there has been no version {old} of it")
        facts = upgrade(facts)
    return facts


# --- one form for each type a field can have ---------------------------------


@cache
def form_of(kind: Any) -> Form:
    """The form of a type; TypeError where none exists, so no event class can lack one."""
    if kind in _SIMPLE:
        return _SIMPLE[kind]
    if isinstance(kind, type) and is_dataclass(kind):
        return _fields_form(kind)
    origin, arguments = typing.get_origin(kind), typing.get_args(kind)
    if origin is dict and arguments == (str, Any):
        return Form(_whole_json_object, _whole_json_object)
    if origin is tuple and arguments[1:] == (...,):
        return _row_form(form_of(arguments[0]))
    if origin in (types.UnionType, typing.Union) and len(arguments) == 2:
        (other,) = (argument for argument in arguments if argument is not type(None))
        return _optional_form(form_of(other))
    raise TypeError(f"no way to write {kind} in the record")


def _fields_form(kind: type) -> Form:
    hints = typing.get_type_hints(kind)
    forms = {field.name: form_of(hints[field.name]) for field in fields(kind)}

    def write(value: Any) -> Facts:
        if type(value) is not kind:
            raise _not_a(kind.__name__, value)
        return {name: _in_field(name, form.write, getattr(value, name)) for name, form in parts}

    def read(facts: Any) -> Any:
        if not isinstance(facts, dict):
            raise _not_a(kind.__name__, facts)
        if facts.keys() != forms.keys():
            raise UnfitError(_names_amiss(forms.keys(), facts.keys()))
        return kind(**{name: _in_field(name, form.read, facts[name]) for name, form in parts})

    parts = tuple(forms.items())
    return Form(write, read)


def _in_field(name: str, step: Callable[[Any], Any], value: Any) -> Any:
    try:
        return step(value)
    except ValueError as error:
        raise UnfitError(f"{name}: {error}") from error


def _names_amiss(wanted: typing.AbstractSet[str], found: typing.AbstractSet[str]) -> str:
    missing, extra = sorted(wanted - found), sorted(found - wanted)
    said = [f"{', '.join(missing)} missing"] if missing else []
    return " and ".join([*said, f"{', '.join(extra)} too much"] if extra else said)


def _optional_form(form: Form) -> Form:
    return Form(
        lambda value: None if value is None else form.write(value),
        lambda value: None if value is None else form.read(value),
    )


def _row_form(form: Form) -> Form:
    def write(values: Any) -> list[Any]:
        if type(values) is not tuple:
            raise _not_a("tuple", values)
        return [form.write(value) for value in values]

    def read(values: Any) -> tuple[Any, ...]:
        if type(values) is not list:
            raise _not_a("list", values)
        return tuple(form.read(value) for value in values)

    return Form(write, read)


def _just(kind: type) -> Form:
    def check(value: Any) -> Any:
        # isinstance takes a bool for an int.
        if type(value) is not kind:
            raise _not_a(kind.__name__, value)
        return value

    return Form(check, check)


def _text(value: Any) -> str:
    if type(value) is not str:
        raise _not_a("text", value)
    if not value.isascii():
        try:
            value.encode()
        except UnicodeEncodeError:
            raise UnfitError(f"{value!r} holds half a character") from None
    return value


def _number(value: Any) -> float:
    if type(value) is not float or not isfinite(value):
        raise _not_a("number", value)
    return value


def _decimal_to_text(value: Any) -> str:
    if type(value) is not Decimal or not value.is_finite():
        raise _not_a("decimal number", value)
    return str(value)


def _decimal_from_text(text: Any) -> Decimal:
    if type(text) is not str:
        raise _not_a("decimal number in quotes", text)
    try:
        value = Decimal(text)
    except InvalidOperation:
        raise _not_a("decimal number", text) from None
    # Decimal also takes blanks, underscores and NaN; none of them was written by us.
    if not value.is_finite() or str(value) != text:
        raise _not_a("decimal number", text)
    return value


def _whole_json_object(value: Any) -> Facts:
    """A dict that comes back from JSON equal to itself, such as a product card."""
    if type(value) is not dict:
        raise _not_a("table", value)
    for name, inner in value.items():
        _text(name)
        _in_field(name, _check_json, inner)
    return value


def _check_json(value: Any) -> None:
    if type(value) is dict:
        _whole_json_object(value)
    elif type(value) is list:
        for inner in value:
            _check_json(inner)
    elif type(value) is str:
        _text(value)
    elif type(value) is float:
        _number(value)
    elif value is not None and type(value) not in (bool, int):
        raise _not_a("text, number, list or table", value)


def _not_a(wanted: str, value: Any) -> UnfitError:
    return UnfitError(f"{wanted} expected, not {value!r:.60}")


_SIMPLE: dict[Any, Form] = {
    str: Form(_text, _text),
    int: _just(int),
    bool: _just(bool),
    float: Form(_number, _number),
    Decimal: Form(_decimal_to_text, _decimal_from_text),
}
