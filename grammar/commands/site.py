"""Air, slab and moisture, clocks that run, and whether anything stands against pouring."""

from __future__ import annotations

from decimal import Decimal

from grammar.commands.kinds import Ask, Change, Measure
from grammar.frozen import frozen


@frozen
class Temperature:
    """A temperature as it was said."""

    number: Decimal
    scale: str | None
    """``C`` or ``F``; None where none was said."""


@frozen
class DescribeFloor(Change):
    """What is to be poured on."""

    substrate: str
    """``concrete``, ``screed``, ``timber``, ``tile``, ``old adhesive``, ``levelling compound``."""


@frozen
class TakeAirTemperature(Change):
    """Air, in the room."""

    temperature: Temperature
    point: str | None = None


@frozen
class TakeSlabTemperature(Change):
    """The slab's surface."""

    temperature: Temperature
    point: str | None = None


@frozen
class TakeHumidity(Change):
    """Relative humidity of the air."""

    percent: Decimal
    point: str | None = None


@frozen
class TakeSlabHumidity(Change):
    """Relative humidity in the slab, from a probe."""

    percent: Decimal
    point: str | None = None


@frozen
class TakeEmission(Change):
    """Moisture vapour emission, pounds per thousand square feet in 24 hours."""

    rate: Decimal
    point: str | None = None


@frozen
class TakePh(Change):
    """Alkalinity of the surface."""

    value: Decimal
    point: str | None = None


@frozen
class AskSite(Ask):
    """All readings of air, slab and moisture."""


@frozen
class AskDewPoint(Ask):
    """The dew point, and how far the slab is above it."""


@frozen
class AskDrying(Ask):
    """How long a thickness may take to dry: an estimate, never leave to cover it."""

    thickness: Measure


@frozen
class AskReadyToPour(Ask):
    """Go or not yet, with each reason and what would clear it."""


@frozen
class AskWhetherDry(Ask):
    """Whether the slab is dry, which no tool can say: who does, and where the tests stand."""


@frozen
class AcceptReason(Change):
    """A reason against the pour has been looked at by whoever answers for it."""

    matter: str
    """``weight``, ``jambs``, ``range``, ``zero``, ``readings``, ``moisture`` or ``adhesive``."""
    words: str
    """In the speaker's own words: who has looked at it, and what they said."""


@frozen
class AskWarmLeg(Ask):
    """The error of a reading when one leg of a fluid hose is warmer than the rest."""

    run: Measure
    """How far the leg goes up or down; a hose lying flat has none."""
    leg: Temperature
    rest: Temperature
    """Temperature of the rest of the water."""


@frozen
class StartClock(Change):
    """Something that takes a known time has begun."""

    clock: str
    """``hose``, ``primer``, ``mix`` or ``pour``."""


@frozen
class AskClocks(Ask):
    """What is running, and for how much longer."""
