"""One row of the phrase table."""

from __future__ import annotations

from decimal import Decimal
from functools import cached_property

from grammar.commands import Command
from grammar.frozen import frozen
from grammar.template import Node, OneOf, held_fields, read_template


class Aloud(str):
    """A way to say a phrase that may be spoken as well as typed; a plain string is for typing."""

    __slots__ = ()


@frozen
class Phrase:
    """
    One thing that can be asked for, and the ways to ask for it.

    A template is read when a line may be of it: one line is of one or two of hundreds.
    """

    template: str
    """How it is said; its short form is the shortest sentence of it."""
    command: type[Command]
    help: str
    examples: tuple[str, ...]
    topic: str
    speakable: bool = True
    """Whether it may be said aloud; short words that noise can sound like may not."""
    spoken: str = ""
    """The template as it is said aloud, where fewer ways to say it are heard better."""
    fixed: tuple[tuple[str, str | bool | int | Decimal], ...] = ()
    """Fields that the words themselves fill: ``(("clock", "hose"),)``."""
    ways: tuple[str, ...] = ()
    """Other templates for the same; each holds what the first one holds, and none of them is ever
    the short form. :class:`Aloud` where it may be spoken too, and else only typed."""
    offered: tuple[str, ...] = ()
    """Talk that is likely meant so, as templates without values: it is offered ("Did you mean
    ...?") and does nothing at once."""

    @property
    def templates(self) -> tuple[str, ...]:
        """The template and each way, as they are written."""
        return (self.template, *self.ways)

    @cached_property
    def nodes(self) -> tuple[Node, ...]:
        """Of the template alone."""
        return read_template(self.template)

    @cached_property
    def way_nodes(self) -> tuple[tuple[Node, ...], ...]:
        """
        Of each way.

        Raises ValueError for one that the row can't have; every row is read by the tests.
        """
        found = tuple(map(read_template, self.ways))
        for way, nodes in zip(self.ways, found, strict=True):
            # What a way alone holds, the short form would lose.
            if extra := held_fields(nodes) - self.fields:
                raise ValueError(f"“{way}” holds {sorted(extra)}, “{self.template}” does not")
            if isinstance(way, Aloud) and not self.speakable:
                raise ValueError(f"“{way}” may be said aloud, “{self.template}” may not")
        return found

    @cached_property
    def fields(self) -> frozenset[str]:
        """What it holds."""
        return held_fields(self.nodes)

    @property
    def every_way(self) -> tuple[tuple[Node, ...], ...]:
        """The template, and each way, as nodes."""
        return (self.nodes, *self.way_nodes)

    @property
    def aloud_nodes(self) -> tuple[Node, ...]:
        """All that may be said aloud of it; made anew each time."""
        base = read_template(self.spoken) if self.spoken else self.nodes
        more = [
            nodes
            for way, nodes in zip(self.ways, self.way_nodes, strict=True)
            if isinstance(way, Aloud)
        ]
        return (OneOf((base, *more)),) if more else base
