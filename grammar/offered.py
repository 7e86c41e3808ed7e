"""Lines of talk that are likely meant as a command, and are offered instead of taken at once."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from itertools import product

from grammar.commands import Command
from grammar.phrases import PHRASES
from grammar.template import Literal, Node, SlotNode, read_template


def offered_for(line: str) -> Command | None:
    """
    The command that a line of plain words is likely meant as; None for any other line.

    >>> offered_for("all poured"), offered_for("we poured the slab in may")
    (StartClock(clock='pour'), None)
    """
    return _offers().get(line)


@cache
def _offers() -> dict[str, Command]:
    return {
        line: phrase.command(**dict(phrase.fixed))
        for phrase in PHRASES
        for template in phrase.offered
        for line in _lines(read_template(template))
    }


def _lines(nodes: tuple[Node, ...]) -> Iterator[str]:
    """Every sentence of a template that holds no value."""
    parts: list[list[str]] = []
    for node in nodes:
        if isinstance(node, SlotNode):
            raise ValueError("what is offered for a line holds no value: nobody said one")
        if isinstance(node, Literal):
            parts.append([node.word])
            continue
        ways = [line for way in node.ways for line in _lines(way)]
        parts.append(["", *ways] if node.optional else ways)
    for chosen in product(*parts):
        yield " ".join(part for part in chosen if part)
