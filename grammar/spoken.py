"""The language as it is spoken: the phrases as an automaton over words, for a recogniser.

It comes from the phrase table, with narrower slots than typing has: only plus
and minus, the unit said (but for a reading in a job of millimetres), the ICAO
alphabet, and numbers in one of two manners but never both, because a recogniser that
must choose between "eighteen" and "one eight" hears either worse. Every sentence
of it is understood by the typed parser, which stays the only judge of what words mean.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, replace
from functools import cache, cached_property
from random import Random
from typing import Any, get_args

from grammar.automaton import Automaton
from grammar.commands import Change, Command, Reading
from grammar.commands.material import ChooseProduct
from grammar.frozen import frozen
from grammar.misses import Misunderstood
from grammar.numbers import in_words
from grammar.phrase import Phrase
from grammar.phrases import PHRASES
from grammar.slots import KINDS, SLOTS, SpokenForm
from grammar.slots.slot import Manner as Manner
from grammar.template import Literal, Node, OneOf, SlotNode, read_template
from grammar.understanding import understand
from grammar.words import split_words
from grammar.written import PLAIN

_SPOKEN = {slot.name: slot.aloud for slot in SLOTS.values() if isinstance(slot.aloud, SpokenForm)}
"""What each slot sounds like; a slot that is not here is for typing."""
_PIECES = {
    **{name: ways for kind in KINDS for name, ways in kind.spoken_pieces.items()},
    **{name: form.heard for name, form in _SPOKEN.items() if isinstance(form.heard, str)},
}
_NUMBERS: dict[Manner, dict[str, str]] = {
    manner: {
        name: ways for kind in KINDS for name, ways in kind.spoken_numbers.get(manner, {}).items()
    }
    for manner in get_args(Manner)
}
_FIGURES = {name: ways for kind in KINDS for name, ways in kind.figures.items()}
_APART = {name: ways for kind in KINDS for name, ways in kind.apart.items()}
_TIED = {name: ways for kind in KINDS for name, ways in kind.tied.items()}

_APART_FIGURES = re.compile(r"(?<=[0-9]) +(?=[0-9]+(?![0-9/]))")
"""Between figures of one number; not before a fraction's."""


@frozen
class Spoken:
    """
    The spoken language under some settings.

    >>> Spoken().automaton.accepts("bravo three minus eighteen millimetres".split())
    True
    """

    manner: Manner = "words"
    names: tuple[str, ...] = ()
    """Product names that may be said; without any, "product" cannot be said either."""
    two_letter_columns: bool = False
    """Whether points beyond column Z may be said."""
    open_unit: bool = False
    """Whether readings may be said without a unit, in millimetres, as in a job of millimetres.
    Inches are always said: with a fraction and a unit free at once, a recogniser that stops early
    makes "plus three" of "plus three and five eighths inches"."""
    unit_missed: bool = False
    """Whether a reading without a unit lacks it, as in a job of inches. It may be heard all the
    same, keeping no unit, so that nothing else is made of it: "minus eight inch" of "minus
    eighteen"."""

    @cached_property
    def names_said(self) -> dict[str, str]:
        """A name as it is said -> the name on the card."""
        said: dict[str, str] = {}
        for name in self.names:
            words = _name_words(name)
            if words:
                said.setdefault(words, " ".join(name.lower().split()))
        return said

    @property
    def automaton(self) -> Automaton:
        """All that may be said."""
        return _automaton(self, written=False)

    @property
    def written_automaton(self) -> Automaton:
        """The same, as a recogniser that writes may write it; see :mod:`grammar.written`."""
        return _automaton(self, written=True)

    @property
    def unit_is_plain(self) -> bool:
        """Whether a reading without a unit is one in millimetres."""
        return self.open_unit and not self.unit_missed

    def readings_in(self, unit: str | None) -> Spoken:
        """The same in a job whose readings are in a unit; None where that is not known."""
        return replace(self, open_unit=unit in ("mm", "in"), unit_missed=unit == "in")

    @property
    def phrases(self) -> tuple[Phrase, ...]:
        """The phrases that may be said: those marked speakable all of whose slots can be said."""
        return _speakable(bool(self.names_said))

    @property
    def changes(self) -> tuple[tuple[Node, ...], ...]:
        """The templates of those phrases that change the job."""
        return tuple(spoken_nodes(p) for p in self.phrases if issubclass(p.command, Change))

    def slot(self, name: str, written: bool = False) -> tuple[Node, ...]:
        """How a slot is said, or also written, as a template."""
        form = _SPOKEN.get(name)
        if form and callable(form.heard):
            return form.heard(self)
        if form:
            name = next((form.under[one] for one in form.under if getattr(self, one)), name)
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
        return _in_millimetres(command) if self.unit_is_plain else command

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
    The command with its unit filled in, so that with the unit said or not it is the same.
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
    can = {name for name, form in _SPOKEN.items() if with_names or not form.needs_names}
    return tuple(phrase for phrase in PHRASES if phrase.speakable and _slots_of(phrase) <= can)


@cache
def _commands_of(with_names: bool) -> frozenset[type[Command]]:
    return frozenset(phrase.command for phrase in _speakable(with_names))


@cache
def spoken_nodes(phrase: Phrase) -> tuple[Node, ...]:
    """All that may be said aloud of a phrase, as one template; always the very same nodes."""
    return phrase.aloud_nodes


def plain_words(text: str) -> list[str]:
    """
    The words of a text as the automaton spells them.

    >>> plain_words("Alpha 3, minus one millimeter.")
    ['alfa', '3', 'minus', 'one', 'millimetres']
    """
    words = text.lower().replace("x-ray", "xray").replace("x ray", "xray")
    return [PLAIN.get(word.text, word.text) for word in split_words(words)]


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
_DIGIT_WORDS = [in_words(number) for number in range(1, 10)]
_MORE = re.compile(rf"(?:ty|hundred|and|thousand|point|zero|{'|'.join(_DIGIT_WORDS)}) $")
_SINGLE = {
    "millimetres": "millimetre", "centimetres": "centimetre", "metres": "metre",
    "inches": "inch", "feet": "foot",
}  # fmt: skip


def _singular(words: str) -> str:
    """
    The unit in the singular after a one.

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


@cache
def _slot_nodes(manner: Manner, name: str, written: bool) -> tuple[Node, ...]:
    if name == "worded_hundred":
        # Before a decimal point: figures and words are never mixed in one number.
        return _slot_nodes(manner, "under_hundred", written=False)
    if name == "worded_rest":
        # "Nine hundred seventy-two", but not "nine hundred 72", which is two numbers.
        tied = f" | {_TIED['under_hundred']}" if written else ""
        return read_template(f"({_NUMBERS[manner]['under_hundred']}{tied})")
    plain = _NUMBERS[manner].get(name) or _PIECES.get(name)
    ways = [plain] if plain else []
    if written:
        other = _TIED if manner == "words" else _APART
        ways += [more[name] for more in (_FIGURES, other) if name in more]
    return read_template(f"({' | '.join(ways)})")


@cache
def _automaton(spoken: Spoken, written: bool) -> Automaton:
    sentences = [spoken_nodes(phrase) for phrase in spoken.phrases]
    slots = cache(lambda name: spoken.slot(name, written))
    return Automaton(sentences, slots, written)
