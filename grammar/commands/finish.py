"""The finished height: set, or found as the one that suits the floor best."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from grammar.commands.kinds import OPEN_FLOOR, Ask, Change, Measure, Reading
from grammar.frozen import frozen


@frozen
class SetFinish(Change):
    """Height of the finished surface against the zero; the zero itself until this is said."""

    height: Reading


@frozen
class RaiseFinish(Change):
    """Finish higher than before."""

    by: Measure


@frozen
class LowerFinish(Change):
    """Finish lower than before."""

    by: Measure


@frozen
class FinishAtDoor(Change):
    """Finish level with the floor outside a door."""

    door: int | None = None
    """None for the only one."""
    covered: bool | None = None
    """Whether it is to be level with its covering on; None for as it is poured."""


@frozen
class FinishOverHighest(Change):
    """Finish so much over the highest point read."""

    over: Measure | None = None
    """None for at it."""


@frozen
class FeatherTo(Change):
    """Finish at the floor in a doorway, so that the pour runs out to nothing there."""

    door: int | None = None
    """None for the only one."""


@frozen
class OwnLimit(Change):
    """A limit of depth of one's own, beside the product's."""

    end: str
    """``least`` or ``most``."""
    depth: Measure | None = None
    """None for no such limit any more."""


@frozen
class FixHeight(Change):
    """The finish must meet this height at a point."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    height: Reading


@frozen
class SetFall(Change):
    """How steeply the floor is to fall towards a point, such as a drain; zero for level."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    percent: Decimal
    point: str


@frozen
class Grind(Change):
    """Grind a high spot down by this much."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    by: Measure


@frozen
class AskBestFinish(Ask):
    """The level finish that takes least material."""


@frozen
class AskBestPlane(Ask):
    """The plane, flat but not level, that takes least material."""

    slope: Decimal | None = None
    """Steepest slope, percent; None for the usual limit."""


@frozen
class AskGrindingOptions(Ask):
    """How many bags grinding would save, by how much is ground off."""


@frozen
class AskLifts(Ask):
    """What deep places need: several lifts, or aggregate in the mix."""
