"""Where lines are written: as they are, or by rich in its colours.

rich is loaded for a terminal that shows them, and nowhere else: it takes as long as parsing does.
"""

from __future__ import annotations

import os
import sys
from typing import Protocol, TextIO

from assistant.terminal.line import StyledLine

NARROW = 80
"""Columns where no terminal says its own; common practice, no source."""


class Output(Protocol):
    """Takes lines that are as wide as they may be."""

    @property
    def width(self) -> int:
        """Columns there are."""

    def write(self, line: StyledLine) -> None:
        """Write a line, now."""


def output_to(file: TextIO | None = None, *, plain: bool = False) -> Output:
    """Standard output, or a file. Plain has no escape codes whatever it is connected to."""
    if plain:
        return PlainOutput(file)
    from assistant.terminal.rich_output import RichOutput

    return RichOutput(file)


class PlainOutput:
    """Text without colours or escape codes."""

    def __init__(self, file: TextIO | None = None, width: int | None = None) -> None:
        self._file, self._width = file, width

    @property
    def width(self) -> int:
        """Columns there are; a terminal's may change while the chat is open."""
        return terminal_width() if self._width is None else self._width

    def write(self, line: StyledLine) -> None:
        file = self._file or sys.stdout
        file.write(f"{line}\n")
        file.flush()


def terminal_width() -> int:
    """
    Columns: those that COLUMNS says, or else of whatever terminal the program is started from.

    Answers that go into a file are laid out for the terminal that asked for them.
    """
    said = os.environ.get("COLUMNS", "")
    if said.isdigit() and int(said):
        return int(said)
    for stream in (sys.__stdin__, sys.__stdout__, sys.__stderr__):
        try:
            columns = os.get_terminal_size(stream.fileno()).columns if stream else 0
        except (OSError, ValueError):
            continue
        return columns or NARROW
    return NARROW
