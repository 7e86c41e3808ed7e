"""Lines in colour, as far as the terminal has any."""

from __future__ import annotations

from typing import TextIO

from rich.console import Console
from rich.text import Text

from assistant.terminal.line import StyledLine


class RichOutput:
    """Writes lines by rich, which finds out what the terminal can show."""

    def __init__(self, file: TextIO | None = None, console: Console | None = None) -> None:
        self._console = _Console(file=file, emoji=False) if console is None else console

    @property
    def width(self) -> int:
        """Columns there are."""
        return self._console.width

    def write(self, line: StyledLine) -> None:
        # The lines are already as wide as they may be; rich must not wrap them again.
        self._console.print(Text.assemble(*line.pieces), soft_wrap=True, highlight=False)


class _Console(Console):
    """Leaves a broken pipe to the program; rich itself would exit with a plain 1."""

    def on_broken_pipe(self) -> None:
        raise  # called while the fault is being handled
