"""The finished height: set, or found as the one that suits the floor best."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar

from grammar.commands.kinds import OPEN_FLOOR, Ask, Change, Measure, Reading


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


@dataclass(frozen=True, slots=True)
class FixHeight(Change):
    """The finish must meet this height at a point."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str
    height: Reading


@dataclass(frozen=True, slots=True)
class SetFall(Change):
    """The floor is to fall so steeply towards a point, a drain perhaps; level where zero."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    percent: Decimal
    point: str


@dataclass(frozen=True, slots=True)
class Grind(Change):
    """A high spot is to be ground down by so much."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

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
