"""The day of the pour: who mixes and pours, where it begins and ends, and its strips."""

from __future__ import annotations

from decimal import Decimal

from grammar.commands.kinds import Ask, Change, Measure
from grammar.frozen import frozen


@frozen
class SetCrew(Change):
    """How many people there are, whoever mixes among them."""

    people: int


@frozen
class SetMixers(Change):
    """Mixers, or barrels, that run side by side."""

    mixers: int


@frozen
class SetBatch(Change):
    """Bags that go into one batch."""

    bags: int


@frozen
class SetBatchTime(Change):
    """How long one mixer takes from batch to batch."""

    minutes: Decimal


@frozen
class SetPump(Change):
    """What a pump places, instead of mixers."""

    bags: int
    """An hour."""


@frozen
class SetWayOut(Change):
    """The door that the pour ends at."""

    door: int


@frozen
class SetPourStart(Change):
    """Where the pour begins; one of the three."""

    wall: str | None = None
    """The side of the room that it is, ``north`` and so on."""
    column: str | None = None
    row: int | None = None


@frozen
class SetStripWidth(Change):
    """The widest that a strip may be."""

    width: Measure


@frozen
class PlaceDam(Change):
    """Where a dam or joint runs across the floor, so that the pour may stop there."""

    column: str | None = None
    row: int | None = None
    distance: Measure | None = None
    """From the start."""


@frozen
class TakeUpDams(Change):
    """No dams any more."""


@frozen
class ShowPlan(Ask):
    """The strips of the pour."""


@frozen
class ShowStrip(Ask):
    """One strip of it."""

    strip: int


@frozen
class AskStaging(Ask):
    """How many bags stand where, so that nobody walks wet floor."""


# --- before the first bag ------------------------------------------------------------------


@frozen
class TellEdgeStrip(Change):
    """The edge strip stands along the walls and round what stands on the floor."""


@frozen
class CarryJoints(Change):
    """The joints of the floor below are carried through what is poured."""


# --- while it is poured --------------------------------------------------------------------


@frozen
class StartPour(Change):
    """The first bag is about to be mixed."""

    reason: str | None = None
    """Why, in the speaker's own words, where something stands against it."""


@frozen
class PourBatch(Change):
    """A batch was poured."""

    bags: int | None = None
    """None for as many as a batch has."""
    water: Decimal | None = None
    """Litres a bag; None where nobody said."""
    quarts: Decimal | None = None
    """The same in US quarts, where it was said so."""
    gallons: Decimal | None = None
    """The same in US gallons."""


@frozen
class ReachFront(Change):
    """The front stands there; one of the three."""

    distance: Measure | None = None
    """From the start."""
    column: str | None = None
    row: int | None = None


@frozen
class FinishStrip(Change):
    """A strip is poured to its far edge."""

    strip: int


@frozen
class CountBagsLeft(Change):
    """Bags that are still there, counted."""

    bags: int


@frozen
class TellSpiked(Change):
    """The floor was gone over with the spiked roller up to here."""


@frozen
class TellHole(Change):
    """Whether something of what the part poured last took was lost, down a hole."""

    lost: bool


@frozen
class StopPour(Change):
    """The pour stands still, or is given up."""

    reason: str | None = None


@frozen
class GoOnPouring(Change):
    """The pour goes on after it stood still."""


@frozen
class SetMixWater(Change):
    """Water for one bag, one figure for the whole pour."""

    litres: Decimal | None = None
    quarts: Decimal | None = None
    gallons: Decimal | None = None
    """US ones; one of the three."""


@frozen
class TellFlow(Change):
    """How far a mix spread, in the flow test of its data sheet."""

    spread: Measure


@frozen
class TellLeftOver(Change):
    """Why bags were left over."""

    reason: str


@frozen
class AskPour(Ask):
    """How far the pour has come."""


@frozen
class AskShort(Ask):
    """What can still be done where the bags run short."""
