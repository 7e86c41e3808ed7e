"""Whole commands that change the job, inside another: what if raise finish 3 mm and waste 5 %."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grammar.commands import Change, Command
from grammar.errors import Unsayable
from grammar.slots.number import SpokenNumbers
from grammar.slots.slot import Slot, SpokenForm, TypedOnly, ValueKind
from grammar.template import OneOf

if TYPE_CHECKING:
    from random import Random

# Phrases are made of slots, and this slot is made of phrases: what needs the phrase table is
# loaded when it is used.


def _short(change: Command) -> str:
    from grammar.language import short_form

    return short_form(change)


def _say(voice: SpokenNumbers, change: Command) -> str:
    from grammar.aloud import said_aloud

    said = said_aloud(voice.spoken, change, voice.written)
    if said is None:
        raise Unsayable
    return f"({said})"


def _sample(random: Random) -> tuple[str, Command]:
    from grammar.phrases import PHRASES
    from grammar.sentences import random_sentence

    # A remark keeps every word only where it opens the line; nobody supposes one.
    # Points listed with readings are, beside another change, as many changes of their own.
    phrase = random.choice(
        [
            phrase
            for phrase in PHRASES
            if issubclass(phrase.command, Change)
            and "words" not in phrase.fields
            and "points_and_readings" not in phrase.template
        ]
    )
    made = random_sentence(phrase, random)
    return made.text, made.command


Several = tuple[Command, tuple[Command, ...]]
"""The first of them, and the others."""


def _several(*parts: Command | tuple[Command, ...] | None) -> Several:
    first, *more = (part for part in parts if part is not None)
    others = tuple(more)
    return first, (others[0] if isinstance(others[0], tuple) else others)  # type: ignore[return-value]


def _more(*parts: Command | tuple[Command, ...] | None) -> tuple[Command, ...]:
    changes: tuple[Command, ...] = ()
    for part in parts:
        changes += part if isinstance(part, tuple) else () if part is None else (part,)
    return changes


def _short_several(changes: Several) -> str:
    first, others = changes
    return " and ".join(_short(change) for change in (first, *others))


def _sample_several(random: Random) -> tuple[str, Several]:
    made: list[tuple[str, Command]] = []
    while len(made) < 2 or (len(made) < 3 and random.random() < 0.3):
        text, change = _sample(random)
        # Words of one's own go on to the end of a line; a number in words has an "and" of its own.
        if not _OWN_WORDS & set(text.lower().split()) and " and " not in f" {text.lower()} ":
            made.append((text, change))
    (_, first), *others = made
    return " and ".join(text for text, _ in made), (first, tuple(one for _, one in others))


_OWN_WORDS = frozenset("because note remark comment memo client customer address product".split())


KIND = ValueKind(
    rules="more_changes: change | more_changes r_and change",
    builders={"more_changes": _more},
    slots=(
        Slot(
            name="change",
            rule="",
            build=lambda change: change,
            short=_short,
            sample=_sample,
            aloud=SpokenForm(heard=lambda spoken: (OneOf(spoken.changes),), say=_say),
        ),
        Slot(
            name="changes",
            rule="change r_and more_changes",
            build=_several,
            short=_short_several,
            sample=_sample_several,
            aloud=TypedOnly(why="with two changes in a breath a recogniser hears either worse"),
        ),
    ),
)
