"""The floor, its readings, its product, and questions about them."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from grammar.commands.kinds import Answer, Ask, Change, Measure, Reading

# --- the room and the points on its floor ---------------------------------


@dataclass(frozen=True, slots=True)
class SetRoom(Change):
    """A rectangular room."""

    first: Measure
    """The side along which the columns are lettered."""
    second: Measure
    """The side along which the rows are numbered."""


@dataclass(frozen=True, slots=True)
class AddWall(Change):
    """One wall of an outline walked round, from where the last one ended."""

    direction: str
    """``north``, ``north east``, ``east`` … ``north west``."""
    length: Measure


@dataclass(frozen=True, slots=True)
class CloseRoom(Change):
    """The walls are all told."""


@dataclass(frozen=True, slots=True)
class SetGrid(Change):
    """Points at even spacing over the floor."""

    first: Measure
    second: Measure | None = None
    """None where both spacings are the same."""
    starting: Measure | None = None
    """Distance of A1 from the corner, along both sides; None for a centred grid."""


@dataclass(frozen=True, slots=True)
class AddPoint(Change):
    """A point of its own, off the grid."""

    point: str
    first: Measure
    """From the corner, along the first side."""
    second: Measure
    """From the corner, along the second side."""


# --- settings --------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SetReadingUnit(Change):
    """What a reading without a unit is in, and what pins are cut in."""

    unit: str
    """``mm`` or ``in``."""


@dataclass(frozen=True, slots=True)
class SetInstrumentRange(Change):
    """How far from its zero the instrument reads."""

    reach: Measure


@dataclass(frozen=True, slots=True)
class ChooseProduct(Change):
    """The bag in the installer's hand."""

    name: str
    """As said, lower case, single spaces."""


@dataclass(frozen=True, slots=True)
class SetWaste(Change):
    """What is lost in buckets and hoses, on top of the volume."""

    percent: Decimal


@dataclass(frozen=True, slots=True)
class ExtendWithAggregate(Change):
    """Aggregate added to the mix, by mass of the powder."""

    percent: Decimal


@dataclass(frozen=True, slots=True)
class PourNeat(Change):
    """No aggregate in the mix."""


# --- the finish ------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SetFinish(Change):
    """Height of the finished surface against the zero; without this it is the zero."""

    height: Reading


@dataclass(frozen=True, slots=True)
class RaiseFinish(Change):
    """Finish higher than before."""

    by: Measure


@dataclass(frozen=True, slots=True)
class LowerFinish(Change):
    """Finish lower than before."""

    by: Measure


# --- readings ----------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class TakeReading(Change):
    """The floor's height at a point."""

    point: str | None
    """None where no point was named: the next one in walking order."""
    reading: Reading


@dataclass(frozen=True, slots=True)
class CorrectReading(Change):
    """Another value for a point that has one."""

    point: str
    reading: Reading


@dataclass(frozen=True, slots=True)
class ScratchPoint(Change):
    """The reading at a point no longer counts."""

    point: str


@dataclass(frozen=True, slots=True)
class ScratchThat(Change):
    """Undo the last utterance that changed the job; said again, the one before it."""

    steps: int | None = None
    """How many of them; None for one."""


@dataclass(frozen=True, slots=True)
class BringBack(Change):
    """Redo what was undone last."""

    steps: int | None = None
    """How many of them; None for one."""


# --- doors -------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class MeasureDoor(Change):
    """Heights at the two jambs, and of the floor outside where it was read."""

    door: int
    left: Reading
    right: Reading
    outside: Reading | None = None


@dataclass(frozen=True, slots=True)
class MeasureOutside(Change):
    """Height of the floor outside a door, on its own."""

    door: int
    outside: Reading


@dataclass(frozen=True, slots=True)
class PlaceDoor(Change):
    """Which point a door is nearest to."""

    door: int
    point: str


@dataclass(frozen=True, slots=True)
class LimitDoorwayStep(Change):
    """The most a doorway may step on this job."""

    most: Measure | None = None
    """None for no limit, or the usual one."""
    usual: bool | None = None
    """True, without a length, for the usual one again."""


# --- answers to a waiting question -------------------------------------------


@dataclass(frozen=True, slots=True)
class ChooseSide(Answer):
    """Below or above, where a reading was given without."""

    side: str
    """``below`` or ``above``."""


@dataclass(frozen=True, slots=True)
class ChooseUnit(Answer):
    """Inches or millimetres, where a fraction was given without a unit."""

    unit: str
    """``mm`` or ``in``."""


@dataclass(frozen=True, slots=True)
class Confirm(Answer):
    """Do it as asked."""


@dataclass(frozen=True, slots=True)
class CancelThat(Answer):
    """Leave it; nothing is recorded."""


# --- questions ---------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class AskTally(Ask):
    """Points, depths, volume, bags."""


@dataclass(frozen=True, slots=True)
class AskDepthAtPoint(Ask):
    """Pour depth at a named point, read or worked out from those around it."""

    point: str


@dataclass(frozen=True, slots=True)
class AskDepthAtPlace(Ask):
    """Pour depth anywhere on the floor."""

    first: Measure
    second: Measure


@dataclass(frozen=True, slots=True)
class AskCutList(Ask):
    """What to cut every pin to."""


@dataclass(frozen=True, slots=True)
class AskCut(Ask):
    """What to cut one pin to."""

    point: str


@dataclass(frozen=True, slots=True)
class AskHighSpots(Ask):
    """Where the floor leaves least depth, or stands above the finish."""


@dataclass(frozen=True, slots=True)
class AskLowSpots(Ask):
    """Where the pour is deepest."""


@dataclass(frozen=True, slots=True)
class AskDoors(Ask):
    """All doors, with what is out of level and what steps."""

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""


@dataclass(frozen=True, slots=True)
class AskReadings(Ask):
    """All readings as they were said."""

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""


@dataclass(frozen=True, slots=True)
class AskNextPoint(Ask):
    """The point that a bare reading would go to."""


@dataclass(frozen=True, slots=True)
class AskMissing(Ask):
    """What the job still lacks."""

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""


@dataclass(frozen=True, slots=True)
class AskWarnings(Ask):
    """Everything that is past a limit or needs a look."""


@dataclass(frozen=True, slots=True)
class AskMap(Ask):
    """The floor from above, with its depths."""

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""


@dataclass(frozen=True, slots=True)
class AskWeight(Ask):
    """What the pour weighs on the floor."""


@dataclass(frozen=True, slots=True)
class ListProducts(Ask):
    """The product cards at hand."""


@dataclass(frozen=True, slots=True)
class AskPhrases(Ask):
    """What can be said."""


@dataclass(frozen=True, slots=True)
class SayAgain(Ask):
    """The last reply once more, or the question that waits."""


@dataclass(frozen=True, slots=True)
class StopListening(Ask):
    """Take nothing that is heard until told to listen again; what is typed still counts."""


@dataclass(frozen=True, slots=True)
class StartListening(Ask):
    """Take all that is heard, without a key for each."""


@dataclass(frozen=True, slots=True)
class WhatIf(Ask):
    """What a change would do to the tally, without doing it."""

    change: Change
