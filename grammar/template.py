"""Phrase templates: read once, then turned into rules and back into words.

A template is plain words with four marks: ``[may be left out]``,
``(either | or)``, ``<slot>`` and ``<field:slot>``. A slot that fills two
fields at once names both: ``<first,second:pair>``.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Mapping
from functools import cache
from typing import Any

from grammar.frozen import frozen

_PIECE = re.compile(r"<([a-z_,]+)(?::([a-z_]+))?>|([\[\]()|])|([^\s\[\]()|<>]+)")


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
_Piece = tuple[str, str, str, str]
"""Fields, slot, mark and word of one piece; those that it is not are empty."""


def read_template(template: str) -> tuple[Node, ...]:
    """
    A template as a tree.

    Raises ValueError for a mark that is not closed.

    >>> read_template("strike <point>")
    (Literal(word='strike'), SlotNode(fields=('point',), slot='point'))
    """
    pieces: list[_Piece] = _PIECE.findall(template)
    nodes, rest = _ways(pieces, 0, closing="")
    if rest != len(pieces) or len(nodes) != 1:
        raise ValueError(f"template does not close: {template}")
    return nodes[0]


def _ways(pieces: list[_Piece], at: int, closing: str) -> tuple[tuple[tuple[Node, ...], ...], int]:
    ways: list[tuple[Node, ...]] = []
    nodes: list[Node] = []
    while at < len(pieces):
        fields, slot, mark, word = pieces[at]
        at += 1
        if word:
            nodes.append(_literal(word))
        elif mark == "|":
            ways.append(tuple(nodes))
            nodes = []
        elif mark in ("[", "("):
            inner, at = _ways(pieces, at, "]" if mark == "[" else ")")
            nodes.append(OneOf(inner, optional=mark == "["))
        elif mark and mark == closing:
            return (*ways, tuple(nodes)), at
        elif fields:
            nodes.append(SlotNode(tuple(fields.split(",")), slot or fields))
        else:
            raise ValueError(f"'{mark}' closes nothing")
    if closing:
        raise ValueError(f"'{closing}' is missing")
    return (*ways, tuple(nodes)), at


def walk_template(nodes: tuple[Node, ...]) -> Iterator[Literal | SlotNode]:
    """Every word and slot of a template, in order."""
    for node in nodes:
        if isinstance(node, OneOf):
            for way in node.ways:
                yield from walk_template(way)
        else:
            yield node


def first_leaves(nodes: tuple[Node, ...]) -> Iterator[Literal | SlotNode]:
    """
    The words and slots that a row of nodes can begin with.

    >>> [leaf.word for leaf in first_leaves(read_template("[the [old]] (room | new) floor"))]
    ['the', 'room', 'new']
    """
    for node in nodes:
        if not isinstance(node, OneOf):
            yield node
            return
        for way in node.ways:
            yield from first_leaves(way)
        if not may_be_left_out(node):
            return


def may_be_left_out(node: Node) -> bool:
    """Whether a row may go on without this part of it."""
    return isinstance(node, OneOf) and (
        node.optional or any(all(map(may_be_left_out, way)) for way in node.ways)
    )


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
