"""A whole command that changes the job, inside another: what if raise finish 3 mm."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grammar.commands import Change, Command
from grammar.errors import Unsayable
from grammar.slots.number import SpokenNumbers
from grammar.slots.slot import Slot, SpokenForm, ValueKind
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

    phrase = random.choice([phrase for phrase in PHRASES if issubclass(phrase.command, Change)])
    made = random_sentence(phrase, random)
    return made.text, made.command


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
    )
)
