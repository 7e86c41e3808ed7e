"""What proves a floor: a second survey, lines of heights, gaps, and what can be seen."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import EITHER_FLOOR, OPEN_FLOOR, Ask, Change, Measure, Reading
from grammar.frozen import frozen


@frozen
class Verify(Change):
    """The floor is poured: what is read from now on is of what was made."""


@frozen
class StartLine(Change):
    """Heights are going to be read along a line, at even spacing."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    line: int
    start: str | None = None
    """The point it starts at; None where it is given by distances, or nobody says where it lies."""
    end: str | None = None
    along: Measure | None = None
    """Where it starts, from the corner along the first side."""
    across: Measure | None = None
    to_along: Measure | None = None
    """Where it ends."""
    to_across: Measure | None = None
    spacing: Measure | None = None
    """None for the usual spacing."""


@frozen
class TakeLineValues(Change):
    """Heights along a line, one after the other."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    readings: tuple[Reading, ...]
    line: int | None = None
    """None for the line that is being read."""


@frozen
class CorrectLineValue(Change):
    """Another value for one of a line."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    reading: Reading
    number: int | None = None
    """Which of its values, counted from 1; None for the last one."""
    line: int | None = None
    """None for the line that is being read."""


@frozen
class EndLine(Change):
    """All of a line is read."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    line: int | None = None
    """None for the line that is being read."""


@frozen
class GoOnWithLine(Change):
    """Values without a point are for this line again."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    line: int


@frozen
class MeasureGap(Change):
    """The largest gap under a straightedge that was laid by hand."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    gap: Measure
    under: Measure
    """The straightedge's length."""
    point: str


@frozen
class FindDefect(Change):
    """Something heard or seen at a point."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    kind: str
    """``hollow`` or ``pinholes``."""
    point: str


@frozen
class DropFinding(Change):
    """A line, a gap or a defect is not there, or no longer."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    kind: str
    """``line``, ``gap``, ``hollow`` or ``pinholes``."""
    number: int


@frozen
class AskLines(Ask):
    """All lines, with how far each is read."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR


@frozen
class AskLine(Ask):
    """One line with all its values."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    line: int


@frozen
class AskDefects(Ask):
    """Gaps under the straightedge, hollows, pinholes and cracks of the floor."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR


@frozen
class AskPoured(Ask):
    """What was really laid, against what was planned."""


@frozen
class TellPromise(Change):
    """What was promised of the finished floor: that it is flat, level, or both."""

    kind: str
    """``flat``, ``level`` or ``both``."""


@frozen
class LimitPunch(Change):
    """How far the finished floor may be off before it is on the punch list."""

    most: Measure


@frozen
class Mend(Change):
    """Points were ground or filled, and are to be read again."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str | None = None
    """None for all on the punch list."""


@frozen
class AskPunch(Ask):
    """What is to be ground or filled, in walking order."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR


@frozen
class AskPromise(Ask):
    """What was promised."""


@frozen
class AskProfile(Ask):
    """Heights along a line, a row, a column or between any two places, drawn."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    number: int | None = None
    """Of a line that was read."""
    line: str | None = None
    """A column (``B``) or a row (``3``) of points."""
    start: str | None = None
    """The point that any other line begins at; None where it is given by distances."""
    end: str | None = None
    along: Measure | None = None
    """As of :class:`StartLine`."""
    across: Measure | None = None
    to_along: Measure | None = None
    to_across: Measure | None = None
    spacing: Measure | None = None
    """From one place drawn to the next; None for what fits a screen."""
