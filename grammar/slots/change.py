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
    phrase = random.choice(
        [
            phrase
            for phrase in PHRASES
            if issubclass(phrase.command, Change) and "words" not in phrase.fields
        ]
    )
    made = random_sentence(phrase, random)
    return made.text, made.command


def _several(*parts: Command | tuple[Command, ...] | None) -> tuple[Command, ...]:
    changes: tuple[Command, ...] = ()
    for part in parts:
        changes += part if isinstance(part, tuple) else () if part is None else (part,)
    return changes


def _short_several(changes: tuple[Command, ...]) -> str:
    return " and ".join(_short(change) for change in changes)


def _sample_several(random: Random) -> tuple[str, tuple[Command, ...]]:
    made = [_sample(random) for _ in range(random.choice((1, 1, 2)))]
    return " and ".join(text for text, _ in made), tuple(change for _, change in made)


KIND = ValueKind(
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
            rule="change | changes r_and change",
            build=_several,
            short=_short_several,
            sample=_sample_several,
            aloud=TypedOnly(why="with two changes in a breath a recogniser hears either worse"),
        ),
    )
)
