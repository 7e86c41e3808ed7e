"""The instrument, its set-ups, ties and checks, and the check of the whole survey."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.commands.kinds import Ask, Change, Measure, Reading


@dataclass(frozen=True, slots=True)
class NewSetUp(Change):
    """The instrument stands anew, with a zero of its own until it is tied."""


@dataclass(frozen=True, slots=True)
class PlaceBenchmark(Change):
    """A mark of known height."""

    benchmark: int
    height: Reading
    """Above or below the zero of the first set-up, the datum."""


@dataclass(frozen=True, slots=True)
class TieOnBenchmark(Change):
    """A reading on a benchmark, joining this set-up to the others."""

    benchmark: int
    reading: Reading


@dataclass(frozen=True, slots=True)
class TieOnPoint(Change):
    """A reading on a point that was read from another set-up."""

    point: str
    reading: Reading


@dataclass(frozen=True, slots=True)
class CheckZero(Change):
    """What the instrument reads at its own zero now."""

    reading: Reading


@dataclass(frozen=True, slots=True)
class CheckBenchmark(Change):
    """What the instrument reads at a benchmark now."""

    benchmark: int
    reading: Reading


@dataclass(frozen=True, slots=True)
class MoveReference(Change):
    """The zero has moved: readings since the last good check are doubtful until re-tied."""


@dataclass(frozen=True, slots=True)
class TheyHold(Change):
    """Readings in doubt hold, as those of them that were read again show."""


@dataclass(frozen=True, slots=True)
class SetInstrumentResolution(Change):
    """The smallest difference the instrument shows."""

    step: Measure


@dataclass(frozen=True, slots=True)
class SetInstrumentRepeatability(Change):
    """How far apart repeated readings of one height lie, as a standard deviation."""

    spread: Measure


@dataclass(frozen=True, slots=True)
class SetInstrumentOffset(Change):
    """What the instrument is known to read at its zero."""

    offset: Reading


@dataclass(frozen=True, slots=True)
class SetInstrumentRange(Change):
    """How far from its zero the instrument reads."""

    reach: Measure


@dataclass(frozen=True, slots=True)
class AskSurveyCheck(Ask):
    """Whether the survey can be trusted, and what to take again."""

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""
