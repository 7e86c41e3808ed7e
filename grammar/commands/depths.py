"""Depths at points and places, pins, high and low spots, and where to read next."""

from __future__ import annotations

from dataclasses import dataclass

from grammar.commands.kinds import Ask, Measure


@dataclass(frozen=True, slots=True)
class AskDepthAtPoint(Ask):
    """Pour depth at a named point, whether read there or worked out from the points around it."""

    point: str


@dataclass(frozen=True, slots=True)
class AskDepthAtPlace(Ask):
    """Pour depth anywhere on the floor."""

    first: Measure
    second: Measure


@dataclass(frozen=True, slots=True)
class AskCutList(Ask):
    """What to cut every pin to."""


@dataclass(frozen=True, slots=True)
class AskCut(Ask):
    """What to cut one pin to."""

    point: str


@dataclass(frozen=True, slots=True)
class AskHighSpots(Ask):
    """Where the pour is thinnest, or the floor stands above the finish."""


@dataclass(frozen=True, slots=True)
class AskLowSpots(Ask):
    """Where the pour is deepest."""


@dataclass(frozen=True, slots=True)
class AskHiddenHighSpots(Ask):
    """The chance of a high spot between the points."""


@dataclass(frozen=True, slots=True)
class AskWhereNext(Ask):
    """Where one more reading would help most."""


@dataclass(frozen=True, slots=True)
class AskEnough(Ask):
    """Whether more readings are still worth taking."""
