"""Depths at points and places, pins, high and low spots, and where to read next."""

from __future__ import annotations

from grammar.commands.kinds import Ask, Measure
from grammar.frozen import frozen


@frozen
class AskDepthAtPoint(Ask):
    """Pour depth at a named point, whether read there or worked out from the points around it."""

    point: str


@frozen
class AskDepthAtPlace(Ask):
    """Pour depth anywhere on the floor."""

    first: Measure
    second: Measure


@frozen
class AskCutList(Ask):
    """What to cut every pin to."""


@frozen
class AskCut(Ask):
    """What to cut one pin to."""

    point: str


@frozen
class AskHighSpots(Ask):
    """Where the pour is thinnest, or the floor stands above the finish."""


@frozen
class AskLowSpots(Ask):
    """Where the pour is deepest."""


@frozen
class AskHiddenHighSpots(Ask):
    """The chance of a high spot between the points."""


@frozen
class AskWhereNext(Ask):
    """Where one more reading would help most."""


@frozen
class AskEnough(Ask):
    """Whether more readings are still worth taking."""
