"""The instrument: what it can do, where it stands, and looks at its zero."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from assistant.events.kinds import Event
from grammar.commands import Measure


@dataclass(frozen=True, slots=True)
class InstrumentRangeSet(Event):
    """How far from its zero the instrument reads."""

    NAME: ClassVar[str] = "instrument-range-set"
    reach: Measure


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
