"""The room, the grid over it, and points that were placed by themselves."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from typing import Any

from assistant.events.room import GridSet
from assistant.events.zones import ZoneAdded
from assistant.job.things import Things
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class Rectangle:
    """A rectangular room."""

    first: Measure
    second: Measure


@frozen
class Wall:
    """One wall of a walked outline."""

    direction: str
    length: Measure


@frozen
class WalkedRoom:
    """An outline by its walls; not a room until it is closed."""

    walls: tuple[Wall, ...]
    closed: bool = False
    straight_wall_added: bool = False
    """True where the gap to the start is a wall of its own, not a misclosure."""


@frozen
class Place:
    """A point of its own, by its distances from the corner."""

    first: Measure
    second: Measure


@frozen
class Layout:
    """The room, the grid over it, and points that were placed by themselves."""

    room: Rectangle | WalkedRoom | None = None
    grid: GridSet | None = None
    own_points: Mapping[str, Place] = field(default_factory=dict)
    things: Things = field(default_factory=Things)
    """What stands on the floor, goes through it, or runs over it."""
    zones: Mapping[str, ZoneAdded] = field(default_factory=dict)
    """Parts of the floor by their names, in the order in which they were named."""
    walk_along: str = "rows"
    """Lines of the grid along which it is walked to and fro: ``rows`` or ``columns``."""
    part: str | None = None
    """Of a layout that shows one part of the floor, which; never of the one that is kept."""
    whole: Layout | None = field(default=None, compare=False, repr=False)
    """The layout that it is a part of."""
    kept: dict[str, Any] = field(init=False, compare=False, repr=False, default_factory=dict)
    """Room for :func:`~assistant.job.once.cached`."""
