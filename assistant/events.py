"""What happened, in the past tense: the only things a job file holds.

Each event has a stable name and a version. A name is never reused for another
meaning; a changed meaning gets a higher version, and the old one stays readable.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any, ClassVar

from grammar.commands import Measure


@dataclass(frozen=True, slots=True)
class Event:
    """A fact about the job."""

    NAME: ClassVar[str] = ""
    VERSION: ClassVar[int] = 1


@dataclass(frozen=True, slots=True)
class RoomMeasured(Event):
    """The room is a rectangle; replaces any outline before."""

    NAME: ClassVar[str] = "room-measured"
    first: Measure
    second: Measure


@dataclass(frozen=True, slots=True)
class WallMeasured(Event):
    """One more wall of an outline; the first one after a closed room starts anew."""

    NAME: ClassVar[str] = "wall-measured"
    direction: str
    length: Measure


@dataclass(frozen=True, slots=True)
class RoomClosed(Event):
    """The outline is complete."""

    NAME: ClassVar[str] = "room-closed"
    straight_wall_added: bool
    """True where the gap to the start is a wall of its own;
    False where it is a misclosure, spread over the walls by their length."""


@dataclass(frozen=True, slots=True)
class GridSet(Event):
    """Where the points of the grid lie; replaces the grid before."""

    NAME: ClassVar[str] = "grid-set"
    first: Measure
    second: Measure
    starting: Measure | None


@dataclass(frozen=True, slots=True)
class PointPlaced(Event):
    """A point off the grid."""

    NAME: ClassVar[str] = "point-placed"
    point: str
    first: Measure
    second: Measure


@dataclass(frozen=True, slots=True)
class ReadingUnitChosen(Event):
    """What a reading without a unit is in."""

    NAME: ClassVar[str] = "reading-unit-chosen"
    unit: str


@dataclass(frozen=True, slots=True)
class InstrumentRangeSet(Event):
    """How far from its zero the instrument reads."""

    NAME: ClassVar[str] = "instrument-range-set"
    reach: Measure


@dataclass(frozen=True, slots=True)
class ProductChosen(Event):
    """The product, with the whole of its card as it was on that day."""

    NAME: ClassVar[str] = "product-chosen"
    card: dict[str, Any]


@dataclass(frozen=True, slots=True)
class WasteSet(Event):
    """Allowance on top of the volume."""

    NAME: ClassVar[str] = "waste-set"
    percent: Decimal


@dataclass(frozen=True, slots=True)
class AggregateSet(Event):
    """Aggregate by mass of the powder; zero is neat."""

    NAME: ClassVar[str] = "aggregate-set"
    percent: Decimal


@dataclass(frozen=True, slots=True)
class FinishSet(Event):
    """Height of the finish above the zero."""

    NAME: ClassVar[str] = "finish-set"
    height: Measure


@dataclass(frozen=True, slots=True)
class FinishMoved(Event):
    """Finish raised (plus) or lowered (minus)."""

    NAME: ClassVar[str] = "finish-moved"
    by: Measure


@dataclass(frozen=True, slots=True)
class ReadingTaken(Event):
    """A height read at a point; a later one at the same point stands in its place."""

    NAME: ClassVar[str] = "reading-taken"
    point: str
    reading: Measure


@dataclass(frozen=True, slots=True)
class ReadingCorrected(Event):
    """A reading put right."""

    NAME: ClassVar[str] = "reading-corrected"
    point: str
    reading: Measure


@dataclass(frozen=True, slots=True)
class ReadingScratched(Event):
    """The reading at a point no longer counts."""

    NAME: ClassVar[str] = "reading-scratched"
    point: str


@dataclass(frozen=True, slots=True)
class DoorMeasured(Event):
    """Heights at the two jambs; the floor outside stays as known where it is None."""

    NAME: ClassVar[str] = "door-measured"
    door: int
    left: Measure
    right: Measure
    outside: Measure | None


@dataclass(frozen=True, slots=True)
class OutsideMeasured(Event):
    """Height of the floor outside a door."""

    NAME: ClassVar[str] = "outside-measured"
    door: int
    outside: Measure


@dataclass(frozen=True, slots=True)
class DoorPlaced(Event):
    """A door is at a point."""

    NAME: ClassVar[str] = "door-placed"
    door: int
    point: str


@dataclass(frozen=True, slots=True)
class UtteranceScratched(Event):
    """All that one utterance recorded no longer counts; scratching this one brings it back."""

    NAME: ClassVar[str] = "utterance-scratched"
    utterance: int
