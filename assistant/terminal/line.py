"""A line to be shown, and how it looks."""

from __future__ import annotations

from grammar.frozen import frozen

Style = str
"""How a piece of a line looks, in rich's words: "bold", "dim", a colour; empty for as it is."""


@frozen
class StyledLine:
    """A line of pieces, each with its style."""

    pieces: tuple[tuple[str, Style], ...] = ()

    def __str__(self) -> str:
        return "".join(text for text, _ in self.pieces)
