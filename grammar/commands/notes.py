"""Remarks in the installer's own words."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import Ask, Change
from grammar.frozen import frozen


@frozen
class TakeNote(Change):
    """Keep a remark as it was said; nothing in it is a command or a value."""

    IS_ASIDE: ClassVar = True

    words: str
    """As said, on one line."""
    point: str | None = None
    """The point it is about; None where none was named before it."""


@frozen
class AskNotes(Ask):
    """The remarks so far."""

    point: str | None = None
    """Only those about this point."""


@frozen
class BeginNote(Ask):
    """Aloud: what is said from now on is a remark, till its end is said."""

    point: str | None = None
    """The point it is about."""


@frozen
class EndNote(Ask):
    """Aloud: the remark is at its end, and is kept."""


@frozen
class DropNote(Ask):
    """Aloud: the remark that was begun is not kept."""
