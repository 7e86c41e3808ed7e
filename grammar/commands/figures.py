"""One number of the job, asked for by itself."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import OPEN_FLOOR, Ask
from grammar.frozen import frozen


@frozen
class AskFigure(Ask):
    """A number that nothing else has to be said for."""

    figure: str
    """Which: ``bags``, ``litres``, ``mean-depth`` ..., filled by the words of its phrase."""


@frozen
class AskDifference(Ask):
    """How much higher one point is than another."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    start: str
    end: str


@frozen
class AskSlope(Ask):
    """How steeply the floor runs from one point to another."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    start: str
    end: str


@frozen
class AskPlace(Ask):
    """Where a point lies, from the walls and from the point read last."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str


@frozen
class AskBagsEnough(Ask):
    """Whether so many bags will do."""

    bags: int


@frozen
class AskBagsReach(Ask):
    """How much of the floor so many bags make."""

    bags: int
