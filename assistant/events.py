"""What happened, in the past tense: the only things a job file holds.

Each event has a stable name and a version. A name is never reused for another
meaning; a changed meaning gets a higher version, and the old one stays readable.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Any, ClassVar

from grammar.commands import Measure, Temperature


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


# --- the site -----------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class FloorDescribed(Event):
    """What is to be poured on."""

    NAME: ClassVar[str] = "floor-described"
    substrate: str


@dataclass(frozen=True, slots=True)
class AirTemperatureTaken(Event):
    """Air, in the room; always with its scale."""

    NAME: ClassVar[str] = "air-temperature-taken"
    temperature: Temperature
    point: str | None


@dataclass(frozen=True, slots=True)
class SlabTemperatureTaken(Event):
    """The slab's surface; always with its scale."""

    NAME: ClassVar[str] = "slab-temperature-taken"
    temperature: Temperature
    point: str | None


@dataclass(frozen=True, slots=True)
class HumidityTaken(Event):
    """Relative humidity of the air, percent."""

    NAME: ClassVar[str] = "humidity-taken"
    percent: Decimal
    point: str | None


@dataclass(frozen=True, slots=True)
class SlabHumidityTaken(Event):
    """Relative humidity in the slab, percent."""

    NAME: ClassVar[str] = "slab-humidity-taken"
    percent: Decimal
    point: str | None


@dataclass(frozen=True, slots=True)
class EmissionTaken(Event):
    """Moisture vapour emission, pounds a thousand square feet in 24 hours."""

    NAME: ClassVar[str] = "emission-taken"
    rate: Decimal
    point: str | None


@dataclass(frozen=True, slots=True)
class PhTaken(Event):
    """Alkalinity of the surface."""

    NAME: ClassVar[str] = "ph-taken"
    value: Decimal
    point: str | None


@dataclass(frozen=True, slots=True)
class ClockStarted(Event):
    """Something that takes its time began when this was said."""

    NAME: ClassVar[str] = "clock-started"
    clock: str
    """``hose``, ``primer``, ``mix`` or ``pour``."""


# --- the guide ------------------------------------------------------------------------


# The step that opens is recorded with what opened it: a job does not change its mind when
# a later version of the program has other steps.


@dataclass(frozen=True, slots=True)
class GuideStarted(Event):
    """Led from here; again after a pause."""

    NAME: ClassVar[str] = "guide-started"
    opens: str | None


@dataclass(frozen=True, slots=True)
class StepQuestioned(Event):
    """Said to be done while its check was not met, and told so."""

    NAME: ClassVar[str] = "step-questioned"
    step: str


@dataclass(frozen=True, slots=True)
class StepFinished(Event):
    """Gone through: its check met, or passed knowingly."""

    NAME: ClassVar[str] = "step-finished"
    step: str
    met: bool
    opens: str | None


@dataclass(frozen=True, slots=True)
class StepSkipped(Event):
    """Left out, for a reason."""

    NAME: ClassVar[str] = "step-skipped"
    step: str
    reason: str
    opens: str | None


@dataclass(frozen=True, slots=True)
class StepReopened(Event):
    """Back to a step before."""

    NAME: ClassVar[str] = "step-reopened"
    opens: str


# --- set-ups, ties and checks ---------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ReadingsTaken(Event):
    """A display that jumped at a point: all it showed; the median counts."""

    NAME: ClassVar[str] = "readings-taken"
    point: str
    readings: tuple[Measure, ...]


@dataclass(frozen=True, slots=True)
class ReadingAccepted(Event):
    """The reading at a point was asked about, since its neighbours say otherwise, and kept."""

    NAME: ClassVar[str] = "reading-accepted"
    point: str


@dataclass(frozen=True, slots=True)
class SetUpStarted(Event):
    """The instrument stands anew, with a zero of its own."""

    NAME: ClassVar[str] = "set-up-started"


@dataclass(frozen=True, slots=True)
class BenchmarkPlaced(Event):
    """A mark of known height above the zero of the first set-up."""

    NAME: ClassVar[str] = "benchmark-placed"
    benchmark: int
    height: Measure


@dataclass(frozen=True, slots=True)
class BenchmarkTied(Event):
    """A benchmark was read, to join the set-up to it."""

    NAME: ClassVar[str] = "benchmark-tied"
    benchmark: int
    reading: Measure


@dataclass(frozen=True, slots=True)
class PointTied(Event):
    """A point read from another set-up was read from this one too."""

    NAME: ClassVar[str] = "point-tied"
    point: str
    reading: Measure


@dataclass(frozen=True, slots=True)
class ZeroChecked(Event):
    """What the instrument read at its own zero."""

    NAME: ClassVar[str] = "zero-checked"
    reading: Measure


@dataclass(frozen=True, slots=True)
class BenchmarkChecked(Event):
    """What the instrument read at a benchmark, to see whether its zero still stands."""

    NAME: ClassVar[str] = "benchmark-checked"
    benchmark: int
    reading: Measure


@dataclass(frozen=True, slots=True)
class ReferenceMoved(Event):
    """The zero has moved since the last good check."""

    NAME: ClassVar[str] = "reference-moved"


@dataclass(frozen=True, slots=True)
class InstrumentResolutionSet(Event):
    """The smallest difference the instrument shows."""

    NAME: ClassVar[str] = "instrument-resolution-set"
    step: Measure


@dataclass(frozen=True, slots=True)
class InstrumentRepeatabilitySet(Event):
    """Standard deviation of repeated readings of one height."""

    NAME: ClassVar[str] = "instrument-repeatability-set"
    spread: Measure


@dataclass(frozen=True, slots=True)
class InstrumentOffsetSet(Event):
    """What the instrument is known to read at its zero; taken off every reading."""

    NAME: ClassVar[str] = "instrument-offset-set"
    offset: Measure


@dataclass(frozen=True, slots=True)
class StepMarked(Event):
    """The floor really steps between two columns, rows or points."""

    NAME: ClassVar[str] = "step-marked"
    first: str
    second: str


# --- what the finish must meet -----------------------------------------------------------


@dataclass(frozen=True, slots=True)
class HeightFixed(Event):
    """The finish must meet this height above the datum at a point."""

    NAME: ClassVar[str] = "height-fixed"
    point: str
    height: Measure


@dataclass(frozen=True, slots=True)
class FallSet(Event):
    """The floor is to fall so many percent towards a point; zero takes that back."""

    NAME: ClassVar[str] = "fall-set"
    percent: Decimal
    point: str


@dataclass(frozen=True, slots=True)
class PointGround(Event):
    """So much is to be ground off at a point, in all."""

    NAME: ClassVar[str] = "point-ground"
    point: str
    by: Measure
