"""The instrument: its range and precision, its set-ups, and checks of its zero."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event
from assistant.reply.wording import spoken_name, spoken_number
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class InstrumentRangeSet(Event):
    """How far from its zero the instrument reads."""

    NAME: ClassVar[str] = "instrument-range-set"
    reach: Measure

    def in_words(self) -> str:
        return "the instrument's range"


@frozen
class InstrumentResolutionSet(Event):
    """The smallest difference the instrument shows."""

    NAME: ClassVar[str] = "instrument-resolution-set"
    step: Measure

    def in_words(self) -> str:
        return "the instrument's resolution"


@frozen
class InstrumentRepeatabilitySet(Event):
    """Standard deviation of repeated readings of one height."""

    NAME: ClassVar[str] = "instrument-repeatability-set"
    spread: Measure

    def in_words(self) -> str:
        return "the instrument's repeatability"


@frozen
class InstrumentOffsetSet(Event):
    """What the instrument is known to read at its zero; taken off every reading."""

    NAME: ClassVar[str] = "instrument-offset-set"
    offset: Measure

    def in_words(self) -> str:
        return "the instrument's offset"


@frozen
class SetUpStarted(Event):
    """The instrument stands anew, with a zero of its own."""

    NAME: ClassVar[str] = "set-up-started"

    def in_words(self) -> str:
        return "the new set-up"


@frozen
class BenchmarkPlaced(Event):
    """A mark of known height above the zero of the first set-up."""

    NAME: ClassVar[str] = "benchmark-placed"
    benchmark: int
    height: Measure

    def in_words(self) -> str:
        return f"benchmark {spoken_number(self.benchmark)}"


@frozen
class BenchmarkTied(Event):
    """A benchmark was read, to join the set-up to it."""

    NAME: ClassVar[str] = "benchmark-tied"
    benchmark: int
    reading: Measure

    def in_words(self) -> str:
        return f"the tie on benchmark {spoken_number(self.benchmark)}"


@frozen
class PointTied(Event):
    """A point read from another set-up was read from this one too."""

    NAME: ClassVar[str] = "point-tied"
    point: str
    reading: Measure

    def in_words(self) -> str:
        return f"the tie on {spoken_name(self.point)}"


@frozen
class ZeroChecked(Event):
    """What the instrument read at its own zero."""

    NAME: ClassVar[str] = "zero-checked"
    reading: Measure

    def in_words(self) -> str:
        return "the check of the zero"


@frozen
class BenchmarkChecked(Event):
    """What the instrument read at a benchmark, to see whether its zero still stands."""

    NAME: ClassVar[str] = "benchmark-checked"
    benchmark: int
    reading: Measure

    def in_words(self) -> str:
        return f"the check of benchmark {spoken_number(self.benchmark)}"


@frozen
class ReferenceMoved(Event):
    """The zero has moved since the last good check."""

    NAME: ClassVar[str] = "reference-moved"

    def in_words(self) -> str:
        return "the move of the reference"
