"""Parts of the floor with a name, what is poured in each, and where a pour might stop."""

from __future__ import annotations

from grammar.commands.kinds import Ask, Change, Reading
from grammar.frozen import frozen


@frozen
class AddZone(Change):
    """A part of the floor gets a name: columns and rows of the grid, or one side of a line."""

    name: str
    kind: str
    """``points``, ``rows``, ``columns``, ``left``, ``right``, ``above`` or ``below``."""
    first: str | int
    """A point, a row or a column."""
    last: str | int | None = None
    """The one across from it; None for a single row or column."""


@frozen
class DropZone(Change):
    """A part of the floor is no longer one of its own."""

    name: str


@frozen
class AskZones(Ask):
    """All zones, and what each takes."""


@frozen
class SetZoneFinish(Change):
    """Height of the finish in one zone, against the zero."""

    zone: str
    height: Reading


@frozen
class SetZoneProduct(Change):
    """The bag that is poured in one zone."""

    zone: str
    name: str
    """As said, lower case, single spaces."""


@frozen
class StopAt(Ask):
    """What a pour takes that stops at a column or row. Nothing is recorded of it."""

    column: str | None = None
    row: int | None = None
    """Neither where it was not said where."""
