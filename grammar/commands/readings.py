"""Heights read at points, put right, struck out and listed."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import EITHER_FLOOR, OPEN_FLOOR, Ask, Change, Reading
from grammar.frozen import frozen


@frozen
class SetReadingUnit(Change):
    """What a reading without a unit is in, and what pins are cut in."""

    unit: str
    """``mm`` or ``in``."""


@frozen
class TakeReading(Change):
    """The floor's height at a point."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str | None
    """None where no point was named: the next one in walking order."""
    reading: Reading


@frozen
class TakeReadings(Change):
    """Several values in one breath, from a display that jumps; their median counts."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    readings: tuple[Reading, ...]


@frozen
class Hold(Ask):
    """Take the last value once more."""


@frozen
class CorrectReading(Change):
    """Another value for a point that has one."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    reading: Reading


@frozen
class StrikePoint(Change):
    """The reading at a point no longer counts."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str


@frozen
class AskReadings(Ask):
    """All readings as they were said."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""


@frozen
class AskNextPoint(Ask):
    """The point that a bare reading would go to."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR


@frozen
class MarkStep(Change):
    """There is a real step in the floor between two columns, rows or points."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    first: str
    """A column (``B``), a row (``3``) or a point (``B3``)."""
    second: str
