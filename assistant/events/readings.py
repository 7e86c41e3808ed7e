"""Heights read at points, and what became of them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import ClassVar

from assistant.events.kinds import Event, Setting
from assistant.reply.wording import spoken_height, spoken_name
from grammar.commands import Measure
from grammar.frozen import frozen


def median(values: Sequence[Measure]) -> Measure:
    """The value in the middle of those a display showed, all in one unit; of two the mean."""
    order = sorted(value.number for value in values)
    low, high = order[(len(order) - 1) // 2], order[len(order) // 2]
    return Measure(low if low == high else (low + high) / 2, values[0].unit)


@frozen
class ReadingUnitChosen(Setting):
    """What a reading without a unit is in."""

    NAME: ClassVar[str] = "reading-unit-chosen"
    unit: str

    def in_words(self) -> str:
        return "the reading unit"


@frozen
class ReadingTaken(Event):
    """A height read at a point; a later one at the same point stands in its place."""

    NAME: ClassVar[str] = "reading-taken"
    point: str
    reading: Measure

    def in_words(self) -> str:
        return f"{spoken_name(self.point)}, {spoken_height(self.reading)}"


@frozen
class ReadingsTaken(Event):
    """A display that jumped at a point: all it showed; the median counts."""

    NAME: ClassVar[str] = "readings-taken"
    point: str
    readings: tuple[Measure, ...]

    def in_words(self) -> str:
        return f"{spoken_name(self.point)}, {spoken_height(median(self.readings))}"


@frozen
class ReadingAccepted(Event):
    """The reading at a point was asked about, for its neighbours or its zero, and kept."""

    NAME: ClassVar[str] = "reading-accepted"
    point: str

    def in_words(self) -> str:
        return f"keeping {spoken_name(self.point)}"


@frozen
class ReadingsBorneOut(Event):
    """Readings at points that were in doubt, borne out by others that were read again."""

    NAME: ClassVar[str] = "readings-borne-out"
    points: tuple[str, ...]

    def in_words(self) -> str:
        return "the word that readings hold"


@frozen
class ReadingCorrected(Event):
    """A reading put right."""

    NAME: ClassVar[str] = "reading-corrected"
    point: str
    reading: Measure

    def in_words(self) -> str:
        return f"{spoken_name(self.point)}, {spoken_height(self.reading)}"


@frozen
class ReadingStruck(Event):
    """The reading at a point no longer counts."""

    NAME: ClassVar[str] = "reading-scratched"
    point: str

    def in_words(self) -> str:
        return f"striking {spoken_name(self.point)}"


@frozen
class FinishedFloorBegun(Event):
    """
    The pour is finished: what is read from now on is of the floor that was made.

    An event of its own, not a meaning of the pour's clock: records that have the clock alone
    went on with the slab, and still do.
    """

    NAME: ClassVar[str] = "finished-floor-begun"

    def in_words(self) -> str:
        return "the start of the finished floor"


@frozen
class StepMarked(Event):
    """The floor really steps between two columns, rows or points."""

    NAME: ClassVar[str] = "step-marked"
    first: str
    second: str

    def in_words(self) -> str:
        return f"the step between {self.first} and {self.second}"
