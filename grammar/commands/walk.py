"""The way from point to point: where the walk goes, and readings given along it."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import OPEN_FLOOR, Change, Reading
from grammar.frozen import frozen


@frozen
class TakePoints(Change):
    """Readings of several points in one breath, each with its point."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    points: tuple[str, ...]
    readings: tuple[Reading, ...]
    """One for each point."""


@frozen
class TakeLine(Change):
    """Readings along a row or a column, from its first point on."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    line: str
    """A column (``B``) or a row (``3``)."""
    readings: tuple[Reading, ...]


@frozen
class TakeRun(Change):
    """Readings of the next points of the walk."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    readings: tuple[Reading, ...]


@frozen
class TakeSame(Change):
    """A point reads what another read."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str | None = None
    """None for the next one in walking order."""
    like: str | None = None
    """None for the point read last."""


@frozen
class SkipPoint(Change):
    """A point cannot be read."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str | None = None
    """None for the next one in walking order."""
    reason: str | None = None


@frozen
class GoTo(Change):
    """The next value without a point is for this one."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str


@frozen
class GoToNextLine(Change):
    """The walk goes on in the next row, or the next column where it goes along columns."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR


@frozen
class WalkAlong(Change):
    """Along which lines the walk goes to and fro."""

    lines: str
    """``rows`` or ``columns``."""
