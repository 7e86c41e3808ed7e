"""
A row of the phrase table with the values of a line in its gaps: a command, or what is missing.

The values stay in their own words, and the sentence made of them is given to the parser.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from grammar.commands import Command
from grammar.match import meanings_of
from grammar.phrase import Phrase
from grammar.template import Literal, Node, OneOf, SlotNode, render_template
from grammar.values_said import TAKES
from grammar.words import split_words


def parsed(line: str, most: int = 1) -> tuple[Command, ...]:
    """What a line means, where it means no more than so many things."""
    commands = meanings_of(split_words(line))
    return commands if len(commands) <= most else ()


def takes(slot: str) -> tuple[str, ...]:
    """The sorts of value that may fill a gap."""
    return TAKES.get(slot, ())


def slots_of(nodes: tuple[Node, ...]) -> list[tuple[SlotNode, bool]]:
    """The gaps of a template, each with whether it may be left out."""
    found: list[tuple[SlotNode, bool]] = []

    def look(inside: tuple[Node, ...], optional: bool) -> None:
        for node in inside:
            if isinstance(node, SlotNode):
                found.append((node, optional))
            elif isinstance(node, OneOf):
                for way in node.ways:
                    look(way, optional or node.optional or len(node.ways) > 1)

    look(nodes, False)
    return found


def row_sentence(nodes: tuple[Node, ...], texts: dict[str, str]) -> str | None:
    """A template said with these values, all of them in it."""

    def said(_slot: str, value: str | tuple[str, ...]) -> str:
        return value if isinstance(value, str) else value[0]

    line = render_template(nodes, texts, said)
    return line if line is not None and all(text in line for text in texts.values()) else None


_ASKED = {
    "point": "which point",
    "reading": "how high",
    "signed_reading": "how high",
    "length": "how long",
    "loose": "how much",
    "pair": "how long and how wide",
    "number": "how much",
    "whole": "which number",
    "count": "how many",
    "percent": "how many percent",
    "temperature": "how warm",
    "name": "which one",
    "line": "which row or column",
    "substrate": "what",
    "direction": "which way",
    "reading_unit": "which unit",
}
"""What is asked for in the place of a gap."""
MOST_ASKED = 8
"""Words of a question for what is missing."""


def asked_for(phrase: Phrase, texts: dict[str, str], lacking: Sequence[SlotNode]) -> str:
    """
    A question for what a row lacks, in its own words; empty where it would be long.

    >>> from grammar.phrases import PHRASES
    >>> row = next(row for row in PHRASES if row.template.startswith("how deep (at"))
    >>> asked_for(row, {}, [gap for gap, _ in slots_of(row.nodes)])
    'How deep at which point?'
    """
    if any(gap.slot not in _ASKED for gap in lacking) or len(lacking) > 1:
        return ""
    asked = {field: _ASKED[gap.slot] for gap in lacking for field in gap.fields}
    line = row_sentence(phrase.nodes, {**texts, **asked})
    if line is None:
        return ""
    if len(line.split()) > MOST_ASKED:
        before = _words_before(phrase.nodes, lacking[0])
        if not before:
            return ""
        line = f"{before} {_ASKED[lacking[0].slot]}"
    return f"{line[0].upper()}{line[1:]}?"


def _words_before(nodes: tuple[Node, ...], gap: SlotNode) -> str:
    """The words of a template that lead up to a gap; none of those that may be left out."""
    words: list[str] = []
    for leaf in _needed(nodes):
        if isinstance(leaf, SlotNode):
            if leaf == gap:
                break
            words = []
        else:
            words.append(leaf.word)
    return " ".join(words)


def _needed(nodes: tuple[Node, ...]) -> Iterator[Literal | SlotNode]:
    """The words and gaps of a template's first way, without what may be left out."""
    for node in nodes:
        if not isinstance(node, OneOf):
            yield node
        elif not node.optional:
            yield from _needed(node.ways[0])
