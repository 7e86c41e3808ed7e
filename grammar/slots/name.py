"""Any words, to the end of the line: a product's name, or a reason."""

from __future__ import annotations

from typing import TYPE_CHECKING

from grammar.errors import Impossible, Unsayable
from grammar.slots.number import SpokenNumbers
from grammar.slots.slot import Slot, SpokenForm, TypedOnly, ValueKind, alternatives_of
from grammar.template import Node, read_template
from grammar.words import join_words, split_words

if TYPE_CHECKING:
    from random import Random

    from grammar.spoken import Spoken

_NAME_WORDS = 8
_STOPS = " ,;:.!?"
"""What may part words of one's own from the word that opens them."""


def _name(*said: str) -> str:
    words = _cut_again("".join(said))
    if len(words) > _NAME_WORDS:
        raise Impossible(f"a name has at most {_NAME_WORDS} words")
    # As it is cut when said again: "1 / 2" is then one fraction, and "2,5" keeps its comma.
    while (again := _cut_again(join_words(words))) != words:
        words = again
    return join_words(words)


def _cut_again(text: str) -> list[str]:
    return [word.text for word in split_words(f"because {text}")[1:]]


def _own_words(*said: str) -> str:
    return " ".join("".join(said).split()).lstrip(_STOPS)


def _heard(spoken: Spoken) -> tuple[Node, ...]:
    return read_template(alternatives_of(spoken.names_said))


def _say(voice: SpokenNumbers, name: str) -> str:
    for said, meant in voice.spoken.names_said.items():
        if meant == name:
            return said
    raise Unsayable


def _sample_name(random: Random) -> tuple[str, str]:
    name = " ".join(random.sample(("harbour", "deep", "fine", "coarse", "fill", "standard"), 2))
    return name, name


def _sample_reason(random: Random) -> tuple[str, str]:
    said = random.choice(("it is 3 weeks old", "client tested b3 minus 2 times", "no time left"))
    return said, said


KIND = ValueKind(
    slots=(
        Slot(
            name="name",
            rule="_name_words",
            build=_name,
            short=str,
            sample=_sample_name,
            aloud=SpokenForm(heard=_heard, say=_say, needs_names=True),
            any_words=True,
        ),
        Slot(
            name="sentence",
            rule="_name_words",
            build=_own_words,
            short=str,
            sample=_sample_reason,
            aloud=TypedOnly(why="a recogniser held to the language hears no other words"),
            any_words=True,
        ),
    ),
    rules="_name_words: ANY | _name_words ANY",
    expected=dict.fromkeys(("name", "sentence"), "a name"),
)
