"""The finished height: set, or found as the one that suits the floor best."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar

from grammar.commands.kinds import OPEN_FLOOR, Ask, Change, Measure, Reading


@dataclass(frozen=True, slots=True)
class SetFinish(Change):
    """Height of the finished surface against the zero; the zero itself until this is said."""

    height: Reading


@dataclass(frozen=True, slots=True)
class RaiseFinish(Change):
    """Finish higher than before."""

    by: Measure


@dataclass(frozen=True, slots=True)
class LowerFinish(Change):
    """Finish lower than before."""

    by: Measure


@dataclass(frozen=True, slots=True)
class FixHeight(Change):
    """The finish must meet this height at a point."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    height: Reading


@dataclass(frozen=True, slots=True)
class SetFall(Change):
    """How steeply the floor is to fall towards a point, such as a drain; zero for level."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    percent: Decimal
    point: str


@dataclass(frozen=True, slots=True)
class Grind(Change):
    """Grind a high spot down by this much."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    by: Measure


@dataclass(frozen=True, slots=True)
class AskBestFinish(Ask):
    """The level finish that takes least material."""


@dataclass(frozen=True, slots=True)
class AskBestPlane(Ask):
    """The plane, flat but not level, that takes least material."""

    slope: Decimal | None = None
    """Steepest slope, percent; None for the usual limit."""


@dataclass(frozen=True, slots=True)
class AskGrindingOptions(Ask):
    """How many bags grinding would save, by how much is ground off."""


@dataclass(frozen=True, slots=True)
class AskLifts(Ask):
    """What deep places need: several lifts, or aggregate in the mix."""
