"""The language as it is spoken: phrases to a word-by-word automaton for a recogniser.

It comes from the phrase table, with narrower slots than typing has: only plus
and minus, the unit said (but for a reading in a job of millimetres), the ICAO
alphabet, and numbers in one of two manners but never both, because a recogniser that
must choose between "eighteen" and "one eight" hears either worse. Every sentence
of it is understood by the typed parser, which stays the only judge of what words mean.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, fields, replace
from functools import cache
from random import Random
from typing import Any
from typing import Literal as OneWord

from grammar.automaton import Automaton
from grammar.commands import Change, Command, Reading
from grammar.commands.material import ChooseProduct
from grammar.misses import Misunderstood
from grammar.numbers import TEENS, TENS, in_words
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.points import ALPHABET
from grammar.site_words import SUBSTRATES
from grammar.template import Literal, Node, OneOf, SlotNode, read
from grammar.understanding import understand
from grammar.words import cut
from grammar.written import APART, FIGURES, PLAIN, TIED

Manner = OneWord["words", "digits"]
"""Numbers as words ("eighteen") or digit by digit ("one eight")."""


def _one_of(words: Iterable[str]) -> str:
    return f"({' | '.join(words)})"


_DIGITS = [in_words(number) for number in range(1, 10)]
_ODD_SIXTEENTHS = [in_words(number) for number in range(3, 16, 2)]

_SLOTS: dict[str, str] = {
    "digit": _one_of(_DIGITS),
    "any_digit": _one_of(["zero", *_DIGITS]),
    "teen": _one_of(TEENS),
    "tens": _one_of(word for word in TENS if word != "fourty"),
    "letter": _one_of(ALPHABET),
    "sign": "(minus | plus)",
    "tenths": "(<worded_hundred> | zero) point <digit>",
    "part": "(one | a) half | (one | a) quarter | three quarters | (one | an) eighth"
    " | (three | five | seven) eighths | (one | a) sixteenth"
    f" | {_one_of(_ODD_SIXTEENTHS)} sixteenths",
    "millimetres": "(<under_thousand> | <tenths>) millimetres",
    "centimetres": "(<under_hundred> | <tenths>) centimetres",
    "inches": "(<under_hundred> | [<under_hundred> and] (<part>)) inches",
    "size": "(<millimetres> | <centimetres> | <inches>)",
    "reading": "(<sign> <size> | level)",
    "signed_reading": "<sign> <size>",
    "open_size": "((<under_thousand> | <tenths>) [millimetres] | <centimetres> | <inches>)",
    "open_reading": "(<sign> <open_size> | level)",
    "open_signed_reading": "<sign> <open_size>",
    "loose": "<size>",
    "metre_number": "(<under_hundred> | (<worded_hundred> | zero) point <any_digit> [<any_digit>])",
    "feet": "<under_hundred> feet [<under_twelve> inches]",
    "length": "(<metre_number> metres | <feet> | <under_ten_thousand> millimetres"
    " | <centimetres> | <under_hundred> inches)",
    "pair": "(<metre_number> [metres] by <metre_number> metres | <feet> by <feet>"
    " | <under_hundred> by <under_hundred> feet"
    " | <under_ten_thousand> [millimetres] by <under_ten_thousand> millimetres)",
    "percent": "(<under_hundred> | <hundred> | <tenths>) percent",
    "number": "(<under_hundred> | <tenths>)",
    "temperature": "[minus] <under_hundred> degrees [celsius | fahrenheit]",
    "substrate": _one_of(SUBSTRATES),
    "point": "<letter> <under_hundred>",
    "wide_point": "<letter> [<letter>] <under_hundred>",
    "whole": "<under_hundred>",
    "direction": "(north [east | west] | south [east | west] | east | west)",
    "reading_unit": "(inches | millimetres)",
}
"""What each slot sounds like. Readings in metres or decimal inches, thirty-seconds, bare
numbers and zero itself are for typing: each word more is one more to be mistaken for."""

_NUMBERS: dict[Manner, dict[str, str]] = {
    "words": {
        "under_twelve": "(<digit> | ten | eleven)",
        "under_hundred": "(<digit> | <teen> | <tens> [<digit>])",
        "hundred": "one hundred",
        "under_thousand": "(<under_hundred> | (<digit> | a) hundred [[and] <worded_rest>])",
        "under_ten_thousand": "(<under_thousand>"
        " | <digit> thousand [<digit> hundred] [[and] <worded_rest>])",
    },
    "digits": {
        "under_twelve": "(<digit> | one zero | one one)",
        "under_hundred": "<digit> [<any_digit>]",
        "hundred": "one zero zero",
        "under_thousand": "<digit> [<any_digit> [<any_digit>]]",
        "under_ten_thousand": "<digit> [<any_digit> [<any_digit> [<any_digit>]]]",
    },
}

_APART_FIGURES = re.compile(r"(?<=[0-9]) +(?=[0-9]+(?![0-9/]))")
"""Between figures of one number; not before a fraction's."""


@dataclass(frozen=True)
class Spoken:
    """
    The spoken language under some settings.

    >>> Spoken().automaton.accepts("bravo three minus eighteen millimetres".split())
    True
    """

    manner: Manner = "words"
    names: tuple[str, ...] = ()
    """Product names that may be said; none makes "product" unspeakable."""
    two_letter_columns: bool = False
    """Whether points beyond column Z may be said."""
    open_unit: bool = False
    """Whether a reading without a unit is one in millimetres, as in a job whose readings are.
    Inches are always said: with a fraction and a unit free at once, a recogniser that stops early
    makes "plus three" of "plus three and five eighths inches"."""
    names_said: dict[str, str] = field(init=False, repr=False, compare=False)
    """A name as it is said -> the name on the card."""

    def __post_init__(self) -> None:
        said: dict[str, str] = {}
        for name in self.names:
            words = _name_words(name)
            if words:
                said.setdefault(words, " ".join(name.lower().split()))
        object.__setattr__(self, "names_said", said)

    @property
    def automaton(self) -> Automaton:
        """All that may be said."""
        return _automaton(self, written=False)

    @property
    def written_automaton(self) -> Automaton:
        """The same, as a recogniser that writes may write it; see :mod:`grammar.written`."""
        return _automaton(self, written=True)

    @property
    def phrases(self) -> tuple[Phrase, ...]:
        """The phrases that may be said: those that should be, and whose every slot can be."""
        return _speakable(bool(self.names_said))

    def slot(self, name: str, written: bool = False) -> tuple[Node, ...]:
        """How a slot is said, or also written, as a template."""
        if name == "name":
            return read(_one_of(self.names_said))
        if name == "change":
            return (OneOf(tuple(spoken_nodes(p) for p in self.phrases if _is_change(p))),)
        if name == "point" and self.two_letter_columns:
            name = "wide_point"
        if name in ("reading", "signed_reading") and self.open_unit:
            name = f"open_{name}"
        return _slot_nodes(self.manner, name, written)

    def meanings(self, words: str) -> tuple[Command, ...]:
        """
        What some words ask for, the likeliest first; empty where they are in no phrase.

        A product comes back under the name on its card.
        """
        if self.manner == "digits":
            words = _APART_FIGURES.sub("", words)
        try:
            commands = understand(words)
        except Misunderstood:
            return ()
        # Some words are a command when typed that may not be said: "B3 -5 8", two readings.
        spoken = _commands_of(bool(self.names_said))
        return tuple(self._named(command) for command in commands if type(command) in spoken)

    def _named(self, command: Command) -> Command:
        if isinstance(command, ChooseProduct):
            return replace(command, name=self.names_said.get(command.name, command.name))
        change = getattr(command, "change", None)
        if isinstance(change, ChooseProduct):
            return replace(command, change=self._named(change))  # type: ignore[call-arg]
        return _in_millimetres(command) if self.open_unit else command

    def sample(self, phrase: Phrase, random: Random) -> str:
        """A random way to say a phrase aloud, as a person would: "one millimetre"."""
        return _singular(" ".join(self._say(spoken_nodes(phrase), random)))

    def _say(self, nodes: tuple[Node, ...], random: Random) -> Iterator[str]:
        for node in nodes:
            if isinstance(node, Literal):
                yield node.word.lower()
            elif isinstance(node, SlotNode):
                yield from self._say(self.slot(node.slot), random)
            elif not (node.optional and random.random() < 0.5):
                yield from self._say(random.choice(node.ways), random)


def _in_millimetres(command: Command) -> Command:
    """
    The same, said in full: with the unit or without, it is one command, whatever the job holds.
    """
    full: dict[str, Any] = {}
    for part in fields(command):
        value = getattr(command, part.name)
        if isinstance(value, Reading) and value.unit is None and value.number:
            full[part.name] = replace(value, unit="mm")
        elif isinstance(value, Command):
            full[part.name] = _in_millimetres(value)
    return replace(command, **full) if full else command


@cache
def _speakable(with_names: bool) -> tuple[Phrase, ...]:
    can = {*_SLOTS, "change", *(["name"] if with_names else [])}
    return tuple(phrase for phrase in PHRASES if phrase.speakable and _slots_of(phrase) <= can)


@cache
def _commands_of(with_names: bool) -> frozenset[type[Command]]:
    return frozenset(phrase.command for phrase in _speakable(with_names))


@cache
def spoken_nodes(phrase: Phrase) -> tuple[Node, ...]:
    """The template of a phrase as it is said aloud."""
    return read(phrase.spoken) if phrase.spoken else phrase.nodes


def plain_words(text: str) -> list[str]:
    """
    The words of a text as the automaton spells them.

    >>> plain_words("Alpha 3, minus one millimeter.")
    ['alfa', '3', 'minus', 'one', 'millimetres']
    """
    words = text.lower().replace("x-ray", "xray").replace("x ray", "xray")
    return [PLAIN.get(word.text, word.text) for word in cut(words)]


_NUMBER_IN_NAME = re.compile(r"[0-9]+|[^\W\d_]+(?:'[^\W\d_]+)*")


def _name_words(name: str) -> str:
    """A name as it is said: "Fine 40" is "fine forty". Empty where it cannot be."""
    words = []
    for piece in _NUMBER_IN_NAME.findall(name.lower()):
        if piece.isdigit():
            words += in_words(int(piece)).split() if int(piece) < 10_000 else []
        else:
            words.append(piece)
    return " ".join(words)


_ONE = re.compile(
    r"\b(one|half|quarter|eighth|sixteenth) (millimetres|centimetres|metres|inches|feet)\b"
)
_MORE = re.compile(rf"(?:ty|hundred|and|thousand|point|zero|{'|'.join(_DIGITS)}) $")
_SINGLE = {
    "millimetres": "millimetre", "centimetres": "centimetre", "metres": "metre",
    "inches": "inch", "feet": "foot",
}  # fmt: skip


def _singular(words: str) -> str:
    """
    One of a unit as it is said.

    >>> _singular("plus one inches"), _singular("plus twenty one inches")
    ('plus one inch', 'plus twenty one inches')
    """

    def single(found: re.Match[str]) -> str:
        one, unit = found.groups()
        if one == "one" and _MORE.search(words[: found.start()]):
            return found.group()
        return f"{one} {_SINGLE[unit]}"

    return _ONE.sub(single, words)


def _slots_of(phrase: Phrase) -> set[str]:
    def inside(nodes: tuple[Node, ...]) -> Iterator[str]:
        for node in nodes:
            if isinstance(node, SlotNode):
                yield node.slot
            elif isinstance(node, OneOf):
                for way in node.ways:
                    yield from inside(way)

    return set(inside(spoken_nodes(phrase)))


def _is_change(phrase: Phrase) -> bool:
    return issubclass(phrase.command, Change)


@cache
def _slot_nodes(manner: Manner, name: str, written: bool) -> tuple[Node, ...]:
    if name == "worded_hundred":
        # Before a decimal point: figures and words are never mixed in one number.
        return _slot_nodes(manner, "under_hundred", written=False)
    if name == "worded_rest":
        # "Nine hundred seventy-two", but not "nine hundred 72", which is two numbers.
        tied = f" | {TIED['under_hundred']}" if written else ""
        return read(f"({_NUMBERS[manner]['under_hundred']}{tied})")
    plain = _NUMBERS[manner].get(name) or _SLOTS.get(name)
    ways = [plain] if plain else []
    if written:
        other = TIED if manner == "words" else APART
        ways += [more[name] for more in (FIGURES, other) if name in more]
    return read(f"({' | '.join(ways)})")


@cache
def _automaton(spoken: Spoken, written: bool) -> Automaton:
    sentences = [spoken_nodes(phrase) for phrase in spoken.phrases]
    slots = cache(lambda name: spoken.slot(name, written))
    return Automaton(sentences, slots, written)
