"""One row of the phrase table."""

from __future__ import annotations

from dataclasses import dataclass, field

from grammar.commands import Command
from grammar.template import Node, held_fields, read


@dataclass(frozen=True)
class Phrase:
    """One way to ask for one thing."""

    template: str
    command: type[Command]
    help: str
    examples: tuple[str, ...]
    topic: str
    speakable: bool = True
    """Whether it may be said aloud; short words that noise can sound like may not."""
    spoken: str = ""
    """The template as it is said aloud, where fewer ways to say it are heard better."""
    fixed: tuple[tuple[str, str | bool], ...] = ()
    """Fields that the words themselves fill: ``(("clock", "hose"),)``."""
    nodes: tuple[Node, ...] = field(init=False, repr=False, compare=False)
    fields: frozenset[str] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "nodes", read(self.template))
        object.__setattr__(self, "fields", held_fields(self.nodes))
