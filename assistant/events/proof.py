"""What was found on a floor to prove it: lines of heights, gaps, and what can be seen."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event, Setting
from assistant.reply.wording import spoken_count, spoken_name, spoken_number
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class LineStarted(Event):
    """Heights are read along a line at even spacing; one begun before goes on another time."""

    NAME: ClassVar[str] = "line-started"
    line: int
    spacing: Measure
    places: tuple[Measure, ...] = ()
    """Of its start, then of its end: along the first side, along the second. Empty where nobody
    said where it lies."""
    start: str | None = None
    """The point it starts at; None where it was given by distances."""
    end: str | None = None

    def in_words(self) -> str:
        return f"line {spoken_number(self.line)}"


@frozen
class LineRead(Event):
    """Heights along a line, one after the other, on from the last one."""

    NAME: ClassVar[str] = "line-read"
    line: int
    values: tuple[Measure, ...]

    def in_words(self) -> str:
        count = len(self.values)
        values = "a value" if count == 1 else f"{spoken_number(count)} values"
        return f"{values} of line {spoken_number(self.line)}"


@frozen
class LineValueCorrected(Event):
    """One height of a line put right."""

    NAME: ClassVar[str] = "line-value-corrected"
    line: int
    number: int
    """Which of its values, counted from 1."""
    value: Measure

    def in_words(self) -> str:
        return f"line {spoken_number(self.line)}, point {spoken_number(self.number)}"


@frozen
class LineEnded(Event):
    """All of a line is read; values that name no point are for points again."""

    NAME: ClassVar[str] = "line-ended"
    line: int

    def in_words(self) -> str:
        return f"the end of line {spoken_number(self.line)}"


@frozen
class LineTakenUp(Event):
    """A line is gone on with."""

    NAME: ClassVar[str] = "line-taken-up"
    line: int

    def in_words(self) -> str:
        return f"going on with line {spoken_number(self.line)}"


@frozen
class GapMeasured(Event):
    """The largest gap under a straightedge that was laid by hand."""

    NAME: ClassVar[str] = "gap-measured"
    gap: Measure
    under: Measure
    """The straightedge's length."""
    point: str

    def in_words(self) -> str:
        return f"the gap at {spoken_name(self.point)}"


@frozen
class DefectFound(Event):
    """Something heard or seen at a point of the floor."""

    NAME: ClassVar[str] = "defect-found"
    kind: str
    """``hollow`` or ``pinholes``."""
    point: str

    def in_words(self) -> str:
        return f"the {self.kind} at {spoken_name(self.point)}"


@frozen
class FindingDropped(Event):
    """A line, a gap or a defect is not there, or no longer."""

    NAME: ClassVar[str] = "finding-dropped"
    kind: str
    """``line``, ``gap``, ``hollow`` or ``pinholes``."""
    number: int

    def in_words(self) -> str:
        return f"dropping {self.kind} {spoken_number(self.number)}"


@frozen
class PointsMended(Event):
    """Points were ground or filled: what was read there counts no more, and is read again."""

    NAME: ClassVar[str] = "points-mended"
    points: tuple[str, ...]

    def in_words(self) -> str:
        if len(self.points) == 1:
            return f"mending {spoken_name(self.points[0])}"
        return f"mending {spoken_count(len(self.points), 'point')}"


@frozen
class PromiseMade(Setting):
    """What was promised of the finished floor."""

    NAME: ClassVar[str] = "promise-made"
    flat: bool
    level: bool

    def in_words(self) -> str:
        return "what was promised"


@frozen
class PunchLimitSet(Setting):
    """How far a finished floor may be off before it is on the punch list."""

    NAME: ClassVar[str] = "punch-limit-set"
    most: Measure

    def in_words(self) -> str:
        return "the limit of the punch list"
