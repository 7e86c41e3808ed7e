"""What is said in the benchmark: commands with their meaning, and talk with none."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import cache
from itertools import cycle
from pathlib import Path
from random import Random
from typing import Literal

from grammar import short_form
from grammar.numbers import in_words, spelled_digits
from grammar.slots.point import ALPHABET
from grammar.spoken import Manner, Spoken, plain_words

Half = Literal["tune", "report"]
HALVES: tuple[Half, ...] = ("tune", "report")
MANNERS: tuple[Manner, ...] = ("words", "digits")
NAMES = ("Example Standard", "Example Thin Skim", "Example Gypsum", "Example Deep Fill")
"""Products that may be said."""
FIELD_READINGS = 150
"""Readings as a survey has them, a half: most of what is ever said."""
CONFUSABLE_READINGS = 200
"""More readings with a fifteen or a fifty in them, for tuning only: how far one of the two may
be trusted is a threshold of its own."""
CONFUSABLE_COMMANDS = 150
"""The same of every phrase that may hold one, before all sorts of words."""
EACH_PHRASE = 5
"""Sentences of each speakable phrase, a half."""
LEFT_OUT = 60
"""Readings of a survey without their unit, a half; and a few of each other phrase that may be said
so. In a job of millimetres they mean what they mean with it."""
EACH_LEFT_OUT = 3
UNIT_LEFT_OUT = "unit left out"
"""The topic of all of them."""
_TALK: dict[Half, Path] = {
    "tune": Path(__file__).with_name("site_talk.txt"),
    "report": Path(__file__).with_name("site_talk_reported.txt"),
}
_TRIES = 200


@dataclass(frozen=True, slots=True)
class Said:
    """A sentence of the benchmark."""

    text: str
    kind: str
    """``reading``, ``command``, or of talk ``plain``, ``near``, ``cut``."""
    topic: str = ""
    """The phrase's template; nothing for talk of the site."""
    manner: Manner | None = None
    """How its numbers are said; None for talk."""

    @property
    def truth(self) -> str | None:
        """The command in its short form; None for talk."""
        return None if self.manner is None else _truth(self.text, self.manner)


@cache
def _truth(text: str, manner: Manner) -> str:
    meanings = heard_language(manner).meanings(text)
    if not meanings:
        raise ValueError(f"may be said, is not understood: {text}")
    return short_form(meanings[0])


@cache
def spoken_language(manner: Manner) -> Spoken:
    """The language that the benchmark speaks, but for what leaves its unit out."""
    return Spoken(manner, names=NAMES)


@cache
def heard_language(manner: Manner) -> Spoken:
    """What may be said to the ears: all of that, and readings without their unit."""
    return replace(spoken_language(manner), open_unit=True)


def commands(half: Half, manner: Manner = "words") -> tuple[Said, ...]:
    """
    Commands of one half, the same every time.

    The other half's sentences are others, but for phrases that can be said in one way
    only: there is but one "tally".
    """
    open_ones = (*_cut_but_whole(half, manner), *_without_unit(manner)[half])
    if half == "report":
        return (*_made_anew(manner, _LOOKED_AT), *open_ones)
    confusables = _confusable_commands() if manner == "words" else ()
    return (*_first_halves(manner)["tune"], *confusables, *open_ones)


_LOOKED_AT = 3
"""Halves that were reported on and looked at while limits were chosen, one after the other."""


@cache
def _made_anew(manner: Manner, times: int) -> tuple[Said, ...]:
    """
    What is reported on: nothing that any of the halves had before, in either manner.

    A half that was looked at tells no more how new sentences fare, so another is made. Of a
    phrase whose few ways are used up, it has what the first one had.
    """
    spoken = spoken_language(manner)
    random = Random(f"commands made anew {manner}{'' if times == 1 else f' {times}'}")
    first = [said for each in MANNERS for half in HALVES for said in _first_halves(each)[half]]
    later = [
        said for each in MANNERS for time in range(1, times) for said in _made_anew(each, time)
    ]
    known = {said.text for said in (*first, *later, *(_confusable_commands() if times > 1 else ()))}
    readings = (field_reading(spoken, random) for _ in range(_TRIES * FIELD_READINGS))
    fresh = _different(readings, FIELD_READINGS, known)
    made = [Said(text, "reading", "field reading", manner) for text in fresh]
    for phrase in spoken.phrases:
        ways = (spoken.sample(phrase, random) for _ in range(_TRIES))
        fresh = _different(ways, EACH_PHRASE, known)
        made += [Said(text, "command", phrase.template, manner) for text in fresh] or [
            said for said in _first_halves(manner)["report"] if said.topic == phrase.template
        ]
    return tuple(made)


@cache
def _without_unit(manner: Manner) -> dict[Half, tuple[Said, ...]]:
    """Commands that have their meaning in a job of millimetres only."""
    spoken, heard = spoken_language(manner), heard_language(manner)
    random = Random(f"unit left out {manner}")
    known = {said.text for half in HALVES for said in _cut_but_whole(half, manner)}

    def open_ones(texts: Iterable[str]) -> Iterator[str]:
        return (text for text in texts if text not in known and lacks_a_unit(text, manner))

    readings = (
        re.sub(" millimetres?$", "", field_reading(spoken, random))
        for _ in range(_TRIES * FIELD_READINGS)
    )
    made = {half: list[Said]() for half in HALVES}
    for half, texts in _dealt(open_ones(readings), LEFT_OUT).items():
        made[half] += [Said(text, "reading", UNIT_LEFT_OUT, manner) for text in texts]
        known.update(texts)
    for phrase in heard.phrases:
        ways = (heard.sample(phrase, random) for _ in range(_TRIES))
        for half, texts in _dealt(open_ones(ways), EACH_LEFT_OUT).items():
            made[half] += [Said(text, "command", UNIT_LEFT_OUT, manner) for text in texts]
            known.update(texts)
    return {half: tuple(said) for half, said in made.items()}


def lacks_a_unit(text: str, manner: Manner) -> bool:
    """Whether a sentence is a command only where the unit goes without saying."""
    words = plain_words(text)
    closed = spoken_language(manner).automaton.accepts(words)
    return not closed and heard_language(manner).automaton.accepts(words)


@cache
def _confusable_commands() -> tuple[Said, ...]:
    """Commands whose number sounds like another, of all phrases by turns."""
    spoken, random = spoken_language("words"), Random("commands with a twin")
    known = {said.text for half in HALVES for said in _first_halves("words")[half]}
    found: dict[str, None] = {}
    for phrase in cycle(spoken.phrases):
        if len(found) == CONFUSABLE_COMMANDS:
            break
        ways = (spoken.sample(phrase, random) for _ in range(_FEW))
        for text in ways:
            if _TEEN_OR_TY.search(text) and text not in known and text not in found:
                found[text] = None
                break
    return tuple(
        Said(text, "command", "command with a confusable number", "words") for text in found
    )


_FEW = 40
_TEEN_OR_TY = re.compile(
    r"\b(?:thir|four|for|fif|six|seven|eigh|nine)(?:teen|ty)\b"
    r"(?! (?:one|two|three|four|five|six|seven|eight|nine)\b)"
)


@cache
def _first_halves(manner: Manner) -> dict[Half, tuple[Said, ...]]:
    """The halves as they were made first, the one to tune on as it still is."""
    spoken = spoken_language(manner)
    random = Random(f"commands {manner}")
    readings = (field_reading(spoken, random) for _ in range(_TRIES * FIELD_READINGS))
    made = {half: list[Said]() for half in HALVES}
    for half, texts in _dealt(readings, FIELD_READINGS).items():
        made[half] += [Said(text, "reading", "field reading", manner) for text in texts]
    for phrase in spoken.phrases:
        ways = (spoken.sample(phrase, random) for _ in range(_TRIES))
        for half, texts in _dealt(ways, EACH_PHRASE).items():
            made[half] += [Said(text, "command", phrase.template, manner) for text in texts]
    if manner == "words":
        known = {said.text for half in HALVES for said in made[half]}
        made["tune"] += _confusable_readings(spoken, random, known)
    return {half: tuple(said) for half, said in made.items()}


def _confusable_readings(spoken: Spoken, random: Random, known: set[str]) -> list[Said]:
    """Readings whose number sounds like another."""
    found: dict[str, None] = {}
    while len(found) < CONFUSABLE_READINGS:
        text = field_reading(spoken, random)
        if _CONFUSABLE.search(text) and text not in known:
            found[text] = None
    return [Said(text, "reading", "reading with a confusable number", "words") for text in found]


_CONFUSABLE = re.compile(r"(?:teen|ty) (?:millimetres|inches)")


def _dealt(texts: Iterator[str], count: int) -> dict[Half, list[str]]:
    """Different texts dealt out by turns, so many to each half as there are of them."""
    all_of_them = _different(texts, 2 * count)
    if len(all_of_them) == 1:
        # Said in one way only: each half has it, twice, for two of its voices.
        return dict.fromkeys(HALVES, all_of_them * 2)
    return {half: all_of_them[at::2] for at, half in enumerate(HALVES)}


def _different(texts: Iterator[str], count: int, known: Collection[str] = ()) -> list[str]:
    """So many different texts that are not `known`; fewer where there are no more."""
    found: dict[str, None] = {}
    for text in texts:
        if text not in known:
            found[text] = None
        if len(found) == count:
            break
    return list(found)


def field_reading(spoken: Spoken, random: Random) -> str:
    """A floor as it is: letters and rows of a room, a few millimetres or eighths each way."""

    def number(value: int) -> str:
        return spelled_digits(Decimal(value)) if spoken.manner == "digits" else in_words(value)

    if random.random() < 0.75:
        value = round(abs(random.gauss(0, 22))) + 1
        size = f"{number(value)} {'millimetre' if value == 1 else 'millimetres'}"
    else:
        part, whole = random.choice(_PARTS), random.randrange(3)
        single = not whole and part.split()[0] in ("one", "a")
        size = f"{number(whole)} and {part} inches" if whole else part
        size += "" if whole else (" inch" if single else " inches")
    place = f"{random.choice(ALPHABET[:12])} {number(random.randrange(1, 16))}"
    sign = random.choices(("minus", "plus"), (4, 1))[0]
    return f"{random.choice(('point ', '', ''))}{place} {sign} {size}"


_PARTS = (
    "one half", "a quarter", "three quarters", "one eighth", "three eighths", "five eighths",
    "seven eighths", "five sixteenths",
)  # fmt: skip


def talk(half: Half, manner: Manner = "words") -> tuple[Said, ...]:
    """Site talk of one half: what is no command, however its numbers are said."""
    return tuple(said for said in lines_of_talk(half) if not is_command(said.text, manner))


def lines_of_talk(half: Half) -> tuple[Said, ...]:
    """All lines of its file."""
    lines = _TALK[half].read_text(encoding="utf-8").splitlines()
    told = [line.split(": ", 1) for line in lines if line.strip() and not line.startswith("#")]
    return tuple(Said(text, kind) for kind, text in told)


def _cut_but_whole(half: Half, manner: Manner) -> tuple[Said, ...]:
    """
    Lines that were written as commands broken off before their unit, and are readings without it.

    "Point hotel nine plus four" is to be recorded now.
    """
    lines = (said.text for said in lines_of_talk(half) if is_command(said.text, manner))
    return tuple(Said(text, "reading", UNIT_LEFT_OUT, manner) for text in lines)


def is_command(text: str, manner: Manner) -> bool:
    """Whether the ears may hear this sentence as a command."""
    return heard_language(manner).automaton.accepts(plain_words(text))
