"""From a command to a template of every way to say it aloud.

The reverse of :mod:`grammar.spoken`. A recogniser is given these to score a command that
it did not propose itself.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import fields
from typing import Any

from grammar.commands import Command
from grammar.errors import Unsayable
from grammar.figures import in_figures
from grammar.numbers import DIGITS, TENS, ZEROS
from grammar.phrase import Phrase
from grammar.slots import SLOTS, SpokenForm
from grammar.slots.number import SpokenNumbers
from grammar.spoken import Spoken, plain_words, spoken_nodes
from grammar.template import Literal, Node, SlotNode, read_template


def said_aloud(spoken: Spoken, command: Command, written: bool = False) -> str | None:
    """
    A template of all ways to say a command, or None where it cannot be said.

    With ``written`` the numbers may also be figures.

    >>> said_aloud(Spoken(), Command())
    """
    values = {
        field.name: getattr(command, field.name)
        for field in fields(command)
        if getattr(command, field.name) is not None
    }
    voice = _Voice(spoken, written)
    ways = [
        way
        for phrase in spoken.phrases
        if isinstance(command, phrase.command)
        and (way := voice.phrase(phrase, dict(values))) is not None
    ]
    return " | ".join(ways) if ways else None


def first_way(template: str) -> str:
    """
    The first of all ways that a template gives.

    >>> first_way("[point] bravo (three | 3) minus (one | a) hundred [and] five")
    'bravo three minus one hundred five'
    """
    return " ".join(_first_words(read_template(template)))


def _first_words(nodes: tuple[Node, ...]) -> Iterator[str]:
    for node in nodes:
        if isinstance(node, Literal):
            yield node.word
        elif not isinstance(node, SlotNode) and not node.optional:
            yield from _first_words(node.ways[0])


def written_ways(words: str) -> str:
    """
    A template of all ways in which a piece of a sentence may be written.

    >>> written_ways("fifteen"), written_ways("one five"), written_ways("delta")
    ('(fifteen | 1 +5)', '(one five | 1 5 | 1 +5)', '(delta)')
    """
    plainly = plain_words(words)
    said = " ".join(plainly)
    ways = [said, _TENS_AND_ONES.sub(r"\1 +- +\2", said)]
    if all(word in _FIGURES for word in plainly):
        ways.append(" ".join(str(_FIGURES[word]) for word in plainly))
    ways.append(" ".join(_token(token) for token in in_figures(said).split()))
    return f"({' | '.join(dict.fromkeys(ways))})"


_FIGURES = DIGITS | ZEROS
_TENS_AND_ONES = re.compile(rf"\b({'|'.join(TENS)}) ({'|'.join(DIGITS)})\b")


def _token(token: str) -> str:
    """A number in figures as the pieces that a recogniser joins, any other word as it is."""
    if not token[:1].isdigit():
        return token
    first, *rest = re.findall(r"[0-9]|[./]", token)
    return " ".join([first, *(f"+{sign}" for sign in rest)])


class _Voice(SpokenNumbers):
    """Whole commands to templates."""

    def phrase(self, phrase: Phrase, values: dict[str, Any]) -> str | None:
        """One phrase with these values, or None where it does not hold just them."""
        for name, value in phrase.fixed:
            if values.pop(name, None) != value:
                return None
        if not phrase.fields >= values.keys():
            return None
        used: set[str] = set()
        try:
            words = self.nodes(spoken_nodes(phrase), values, used)
        except Unsayable:
            return None
        return words if used == values.keys() else None

    def nodes(self, nodes: tuple[Node, ...], values: Mapping[str, Any], used: set[str]) -> str:
        """A row of nodes; raises :class:`Unsayable` where one lacks its value."""
        parts = []
        for node in nodes:
            if isinstance(node, Literal):
                parts.append(node.word.lower())
            elif isinstance(node, SlotNode):
                held = [values.get(name) for name in node.fields]
                if any(value is None for value in held):
                    raise Unsayable
                used.update(node.fields)
                parts.append(self.slot(node.slot, held[0] if len(held) == 1 else held))
            else:
                parts.append(self._either(node.ways, node.optional, values, used))
        return " ".join(part for part in parts if part)

    def _either(
        self,
        choices: tuple[tuple[Node, ...], ...],
        optional: bool,
        values: Mapping[str, Any],
        used: set[str],
    ) -> str:
        ways, needed = [], False
        for choice in choices:
            mine: set[str] = set()
            try:
                ways.append(self.nodes(choice, values, mine))
            except Unsayable:
                continue
            needed = needed or bool(mine)
            used |= mine
        if not ways:
            if optional:
                return ""
            raise Unsayable
        inside = " | ".join(ways)
        return f"[{inside}]" if optional and not needed else f"({inside})"

    def slot(self, slot: str, value: Any) -> str:
        """A value as its slot is said."""
        form = SLOTS[slot].aloud
        if not isinstance(form, SpokenForm):
            raise Unsayable
        return form.say(self, value)
