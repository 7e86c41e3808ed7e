"""The room, its walls, its grid, and single points off the grid."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import OPEN_FLOOR, Change, Measure
from grammar.frozen import frozen


@frozen
class SetRoom(Change):
    """A rectangular room."""

    first: Measure
    """The side along which the columns are lettered."""
    second: Measure
    """The side along which the rows are numbered."""


@frozen
class AddWall(Change):
    """One wall of an outline, from where the last one ended."""

    direction: str
    """``north``, ``north east``, ``east`` … ``north west``."""
    length: Measure


@frozen
class CloseRoom(Change):
    """All walls have been given."""


@frozen
class SetGrid(Change):
    """Points at even spacing over the floor."""

    first: Measure
    second: Measure | None = None
    """None where both spacings are the same."""
    starting: Measure | None = None
    """Distance of A1 from the corner, along both sides; None for a centred grid."""


@frozen
class AddPoint(Change):
    """A single point off the grid."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    first: Measure
    """From the corner, along the first side."""
    second: Measure
    """From the corner, along the second side."""
