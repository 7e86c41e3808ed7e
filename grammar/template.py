"""Phrase templates: read once, then turned into rules and back into words.

A template is plain words with four marks: ``[may be left out]``,
``(either | or)``, ``<slot>`` and ``<field:slot>``. A slot that fills two
fields at once names both: ``<first,second:pair>``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache
from typing import Any

from grammar.frozen import frozen

_PIECE = re.compile(r"<([a-z_,]+)(?::([a-z_]+))?>|([\[\]()|])|([^\s\[\]()|<>]+)")
"""Fields and slot, a mark, or a word."""
_NO_WORD = re.compile(r"<[^>]*>|[\[\]()|]")


@frozen
class Literal:
    """A word said as it stands."""

    word: str


@frozen
class SlotNode:
    """A place for a value."""

    fields: tuple[str, ...]
    slot: str


@frozen
class OneOf:
    """Several ways to say a part; the first is the short typed one."""

    ways: tuple[tuple[Node, ...], ...]
    optional: bool = False


Node = Literal | SlotNode | OneOf


_literal = cache(Literal)
"""Ten thousand words stand in the templates, and a tenth of them are different ones."""


def read_template(template: str) -> tuple[Node, ...]:
    """
    A template as a tree.

    Raises ValueError for a mark that is not closed.

    >>> read_template("strike <point>")
    (Literal(word='strike'), SlotNode(fields=('point',), slot='point'))
    """
    pieces = _PIECE.finditer(template)
    try:
        return tuple(_node(piece, pieces) for piece in pieces)
    except ValueError as trouble:
        raise ValueError(f"{trouble}: {template}") from None


def _node(piece: re.Match[str], more: Iterator[re.Match[str]]) -> Node:
    """What a piece begins; where that goes on, the pieces of it are taken from the others."""
    fields, slot, mark, word = piece.groups()
    if word:
        return _literal(word)
    if fields:
        return SlotNode(tuple(fields.split(",")), slot or fields)
    if mark in "[(":
        return OneOf(_ways(more, "]" if mark == "[" else ")"), optional=mark == "[")
    raise ValueError(f"'{mark}' closes or parts nothing")


def _ways(pieces: Iterator[re.Match[str]], closing: str) -> tuple[tuple[Node, ...], ...]:
    ways: list[tuple[Node, ...]] = []
    nodes: list[Node] = []
    for piece in pieces:
        mark = piece[3]
        if mark == closing:
            return (*ways, tuple(nodes))
        if mark == "|":
            ways.append(tuple(nodes))
            nodes = []
        else:
            nodes.append(_node(piece, pieces))
    raise ValueError(f"'{closing}' is missing")


def words_of_templates(templates: Iterable[str]) -> list[str]:
    """
    Every word of some templates, in order, found without reading them as trees.

    >>> words_of_templates(["strike [the] (reading | value) <point>"])
    ['strike', 'the', 'reading', 'value']
    """
    return _NO_WORD.sub(" ", " ".join(templates)).split()


def beginnings(template: str) -> Iterator[Literal | SlotNode]:
    """
    The words and slots that a template can begin with; no more of it is read.

    >>> [leaf.word for leaf in beginnings("[the [old]] (room | new) floor")]
    ['the', 'room', 'new']
    """
    first = template.partition(" ")[0]
    if first.isalpha():
        yield _literal(first)
        return
    begins, ends_empty = True, False
    around: list[tuple[bool, bool]] = []  # of the brackets around: how it was where they opened
    for piece in _PIECE.finditer(template):
        fields, slot, mark, word = piece.groups()
        if not mark:
            if begins:
                yield _literal(word) if word else SlotNode(tuple(fields.split(",")), slot or fields)
            begins = False
        elif mark in "[(":
            around.append((begins, ends_empty))
            ends_empty = mark == "["
        elif mark == "|":
            ends_empty |= begins
            begins = around[-1][0]
        else:
            begins = around[-1][0] and (begins or ends_empty)
            ends_empty = around.pop()[1]
        if not (begins or around):
            return


def walk_template(nodes: tuple[Node, ...]) -> Iterator[Literal | SlotNode]:
    """Every word and slot of a template, in order."""
    for node in nodes:
        if isinstance(node, OneOf):
            for way in node.ways:
                yield from walk_template(way)
        else:
            yield node


def binding_rule(fill: SlotNode) -> str:
    """Name of the rule that fills these fields from this slot."""
    return f"b_{'_and_'.join(fill.fields)}__{fill.slot}"


def render_template(
    nodes: tuple[Node, ...], values: Mapping[str, Any], short: Callable[[str, Any], str]
) -> str | None:
    """
    The shortest sentence of a template that holds just these values, or None.

    Words that may be left out are; optional slots are there when their field is not None.

    >>> nodes = read_template("grid [of] <first:length>")
    >>> render_template(nodes, {"first": 2}, lambda slot, value: f"{value} m")
    'grid 2 m'
    """
    parts: list[str] = []
    for node in nodes:
        part = _render(node, values, short)
        if part is None:
            return None
        if part:
            parts.append(part)
    return " ".join(parts)


def _render(node: Node, values: Mapping[str, Any], short: Callable[[str, Any], str]) -> str | None:
    if isinstance(node, Literal):
        return node.word
    if isinstance(node, SlotNode):
        held = [values.get(field) for field in node.fields]
        if any(value is None for value in held):
            return None
        return short(node.slot, held[0] if len(held) == 1 else tuple(held))
    if node.optional and not any(
        isinstance(leaf, SlotNode) for way in node.ways for leaf in walk_template(way)
    ):
        return ""
    for way in node.ways:
        part = render_template(way, values, short)
        if part is not None:
            return part
    return "" if node.optional else None


def held_fields(nodes: tuple[Node, ...]) -> frozenset[str]:
    """The fields a template can fill."""
    return frozenset(
        field
        for leaf in walk_template(nodes)
        if isinstance(leaf, SlotNode)
        for field in leaf.fields
    )
