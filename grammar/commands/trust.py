"""Set-ups, ties and checks; how sure the survey is; the finish that suits the floor best."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from grammar.commands.kinds import Ask, Change, Measure, Reading

# --- set-ups, ties and checks ------------------------------------------------


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
class ReferenceMoved(Change):
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
class TakeReadings(Change):
    """A display that jumps: several values in one breath, of which the median counts."""

    point: str
    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True)
class MarkStep(Change):
    """The floor really steps between two columns, rows or points."""

    first: str
    """A column (``B``), a row (``3``) or a point (``B3``)."""
    second: str


@dataclass(frozen=True, slots=True)
class Hold(Ask):
    """The last value once more."""


@dataclass(frozen=True, slots=True)
class AskSurveyCheck(Ask):
    """Whether the survey can be trusted, and what to take again."""

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""


# --- how sure, and where to look next ---------------------------------------------


@dataclass(frozen=True, slots=True)
class AskOrder(Ask):
    """Bags for a chosen risk of running short."""

    risk: Decimal | None = None
    """Percent; None for the usual 1 in 20."""


@dataclass(frozen=True, slots=True)
class AskHiddenHighSpots(Ask):
    """The chance of a high spot between the points."""


@dataclass(frozen=True, slots=True)
class AskWhereNext(Ask):
    """The reading that tells most."""


@dataclass(frozen=True, slots=True)
class AskEnough(Ask):
    """Whether more points still pay."""


# --- the finish ------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class FixHeight(Change):
    """The finish must meet this height at a point."""

    point: str
    height: Reading


@dataclass(frozen=True, slots=True)
class SetFall(Change):
    """The floor is to fall so steeply towards a point, a drain perhaps; level where zero."""

    percent: Decimal
    point: str


@dataclass(frozen=True, slots=True)
class Grind(Change):
    """A high spot is to be ground down by so much."""

    point: str
    by: Measure


@dataclass(frozen=True, slots=True)
class AskBestFinish(Ask):
    """The level finish that takes least material."""


@dataclass(frozen=True, slots=True)
class AskBestPlane(Ask):
    """The same for a plane that is flat, not level."""

    slope: Decimal | None = None
    """Steepest slope, percent; None for the usual limit."""


@dataclass(frozen=True, slots=True)
class AskGrindingOptions(Ask):
    """Bags saved against height ground."""


@dataclass(frozen=True, slots=True)
class AskLifts(Ask):
    """The lifts or the mix that deep places take."""
