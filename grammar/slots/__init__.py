"""What phrases can hold: one module for each kind of value, with all that belongs to it.

A new kind of value is a module here and its name in ``KINDS``. The parser, short
forms, completion, hints, the recogniser's words and the tests' random sentences
follow from it.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from grammar.slots import (
    change,
    clock_time,
    currency,
    direction,
    measure,
    name,
    number,
    percent,
    point,
    reading,
    remark,
    run,
    substrate,
    temperature,
    thing,
    whole,
    zone,
)
from grammar.slots.slot import Slot, SpokenForm, TypedOnly, ValueKind

__all__ = [
    "ANY_WORDS", "BUILDERS", "EXPECTED", "KINDS", "NEVER_UNSAID", "OFFERED", "ROLES", "RULES",
    "SLOTS", "UNBROKEN", "USUAL", "Slot", "SpokenForm", "TypedOnly", "ValueKind",
]  # fmt: skip

KINDS: tuple[ValueKind, ...] = (
    number.KIND,
    reading.KIND,
    measure.KIND,
    percent.KIND,
    point.KIND,
    run.KIND,
    whole.KIND,
    direction.KIND,
    temperature.KIND,
    substrate.KIND,
    thing.KIND,
    currency.KIND,
    clock_time.KIND,
    zone.KIND,
    name.KIND,
    remark.KIND,
    change.KIND,
)

SLOTS: dict[str, Slot] = {slot.name: slot for kind in KINDS for slot in kind.slots}
"""What a phrase can hold, by the name of its rule."""

ROLES: dict[str, Mapping[str, Any]] = {
    role: words for kind in KINDS for role, words in kind.roles.items()
}
"""What a word can stand for: role -> word -> value."""

BUILDERS: dict[str, Callable[..., Any]] = {
    **{rule: build for kind in KINDS for rule, build in kind.builders.items()},
    **{slot.name: slot.build for slot in SLOTS.values()},
}
"""Rule -> the function that makes its value of its parts."""

RULES = "\n".join(
    [
        *(kind.rules for kind in KINDS),
        *(f"{slot.name}: {slot.rule}" for slot in SLOTS.values() if slot.rule),
    ]
)
"""The rules of all values, over words."""

UNBROKEN = frozenset(rule for kind in KINDS for rule in kind.unbroken)
"""Rules whose words are one value, with no pause inside."""

ANY_WORDS = frozenset(slot.name for slot in SLOTS.values() if slot.any_words)
"""Slots that take any words, to the end of the line."""

EXPECTED = {rule: words for kind in KINDS for rule, words in kind.expected.items()}
"""How a gap is named, by the rule that would fill it."""

OFFERED = {role: words for kind in KINDS for role, words in kind.offered.items()}
"""Words offered to complete a line, by their role."""

NEVER_UNSAID = {role: about for kind in KINDS for role, about in kind.never_unsaid.items()}
"""Roles that a hint names only where the line speaks of them -> what they are about."""

USUAL = {role: word for kind in KINDS for role, word in kind.usual.items()}
"""Roles of units that may be left out -> the one word for each."""
