"""The instrument, its set-ups, ties and checks, and the check of the whole survey."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import EITHER_FLOOR, OPEN_FLOOR, Ask, Change, Measure, Reading
from grammar.frozen import frozen


@frozen
class NewSetUp(Change):
    """The instrument was set up anew; it has a zero of its own until it is tied."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR


@frozen
class PlaceBenchmark(Change):
    """A mark of known height."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    benchmark: int
    height: Reading
    """Above or below the zero of the first set-up, the datum."""


@frozen
class TieOnBenchmark(Change):
    """A reading on a benchmark, joining this set-up to the others."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    benchmark: int
    reading: Reading


@frozen
class TieOnPoint(Change):
    """A reading on a point that was read from another set-up."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    reading: Reading


@frozen
class CheckZero(Change):
    """What the instrument reads at its own zero now."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    reading: Reading


@frozen
class CheckBenchmark(Change):
    """What the instrument reads at a benchmark now."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    benchmark: int
    reading: Reading


@frozen
class MoveReference(Change):
    """The zero has moved: readings since the last good check are doubtful until re-tied."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR


@frozen
class TheyHold(Change):
    """Doubtful readings are good after all, as those of them that were read again show."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR


@frozen
class SetInstrumentResolution(Change):
    """The smallest difference the instrument shows."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    step: Measure


@frozen
class SetInstrumentRepeatability(Change):
    """How far apart repeated readings of one height lie, as a standard deviation."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    spread: Measure


@frozen
class SetInstrumentOffset(Change):
    """What the instrument is known to read at its zero."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    offset: Reading


@frozen
class SetInstrumentRange(Change):
    """How far from its zero the instrument reads."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    reach: Measure


@frozen
class AskSurveyCheck(Ask):
    """Whether the survey can be trusted, and what to take again."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""
