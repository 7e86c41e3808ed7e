"""What stands on the floor, goes through it, or runs over it."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from assistant.events.kinds import Event
from assistant.events.things import (
    CrackRepaired,
    DrainPlaced,
    LineMarked,
    ObstacleAdded,
    OpeningPlugged,
    ThingDropped,
)
from assistant.units.lengths import exact_mm
from grammar.commands import Measure
from grammar.frozen import frozen

OFF_THE_AREA = ("column", "hole", "cabinet", "shaft")
"""Kinds that nothing is poured over. An opening is plugged, and then poured over."""


@frozen
class Obstacle:
    """A column, hole, cabinet, shaft or opening, sides along the room's own."""

    kind: str
    number: int
    first: Measure
    """Along the first side; how far it is across where it is round."""
    second: Measure | None
    """None where it is round."""
    along: Measure
    """Of its middle, from the corner along the first side."""
    across: Measure
    point: str | None = None
    """Where it was said to be."""
    plugged: bool = False

    @property
    def is_off_the_area(self) -> bool:
        """Whether nothing is poured where it is."""
        return self.kind in OFF_THE_AREA


@frozen
class JointOrCrack:
    """A joint or a crack, from place to place, or at one."""

    kind: str
    number: int
    start: str
    end: str | None
    places: tuple[Measure, ...]
    """Of its start, then of its end: along the first side, along the second."""
    repaired: bool = False
    after_pour: bool = False
    """Whether it was found in the finished floor, and not in the slab."""


@frozen
class Drain:
    """A drain at a point."""

    number: int
    point: str
    height: Measure
    """Above the datum."""

    @property
    def mm(self) -> Fraction:
        """Its height above the datum."""
        return exact_mm(self.height)


Thing = Obstacle | JointOrCrack | Drain


@frozen
class Things:
    """All of them, in the order in which they were described."""

    obstacles: tuple[Obstacle, ...] = ()
    lines: tuple[JointOrCrack, ...] = ()
    drains: tuple[Drain, ...] = ()

    def numbers(self, kind: str) -> tuple[int, ...]:
        """The numbers in use of one kind."""
        return tuple(thing.number for thing in self.every if _kind(thing) == kind)

    def next_number(self, kind: str) -> int:
        """The number of one more."""
        return max(self.numbers(kind), default=0) + 1

    def drain(self, number: int) -> Drain | None:
        """The drain of a number."""
        return next((one for one in self.drains if one.number == number), None)

    @property
    def every(self) -> tuple[Thing, ...]:
        """All of them."""
        return (*self.obstacles, *self.drains, *self.lines)


def _kind(thing: Thing) -> str:
    return "drain" if isinstance(thing, Drain) else thing.kind


def after_event(things: Things, event: Event, *, after_pour: bool = False) -> Things:
    """The things after one of their events; whether it happened on the finished floor."""
    match event:
        case ObstacleAdded():
            new = Obstacle(
                event.kind,
                event.number,
                event.first,
                event.second,
                event.along,
                event.across,
                event.point,
            )
            return replace(things, obstacles=(*things.obstacles, new))
        case LineMarked():
            line = JointOrCrack(
                event.kind,
                event.number,
                event.start,
                event.end,
                event.places,
                after_pour=after_pour,
            )
            return replace(things, lines=(*things.lines, line))
        case DrainPlaced():
            # One drain a point: a second one there is the same drain, described again.
            kept = tuple(one for one in things.drains if one.point != event.point)
            return replace(things, drains=(*kept, Drain(event.number, event.point, event.height)))
        case OpeningPlugged():
            obstacles = tuple(
                replace(one, plugged=True) if _is(one, "opening", event.number) else one
                for one in things.obstacles
            )
            return replace(things, obstacles=obstacles)
        case CrackRepaired():
            lines = tuple(
                replace(one, repaired=True) if _is(one, "crack", event.number) else one
                for one in things.lines
            )
            return replace(things, lines=lines)
        case _:
            assert isinstance(event, ThingDropped)
            return _without(things, event.kind, event.number)


def _is(thing: Thing, kind: str, number: int) -> bool:
    return (_kind(thing), thing.number) == (kind, number)


def _without(things: Things, kind: str, number: int) -> Things:
    return Things(
        tuple(one for one in things.obstacles if not _is(one, kind, number)),
        tuple(one for one in things.lines if not _is(one, kind, number)),
        tuple(one for one in things.drains if not _is(one, kind, number)),
    )


THING_EVENTS: tuple[type[Event], ...] = (
    ObstacleAdded,
    ThingDropped,
    OpeningPlugged,
    DrainPlaced,
    LineMarked,
    CrackRepaired,
)
