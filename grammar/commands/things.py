"""What stands on the floor or goes through it: columns, holes, drains, joints, cracks."""

from __future__ import annotations

from grammar.commands.kinds import Ask, Change, Measure, Reading
from grammar.frozen import frozen


@frozen
class AddObstacle(Change):
    """A column, a hole, a cabinet, a shaft; or an opening that is to be plugged."""

    kind: str
    """``column``, ``hole``, ``cabinet``, ``shaft`` or ``opening``."""
    first: Measure | None = None
    """Its side along the lettered side of the room; of a round one how far it is across. None
    where no size was said, which is asked for."""
    second: Measure | None = None
    """Its other side; None where it is round or square."""
    along: Measure | None = None
    """Its place from the corner, along the first side; None where a point is named."""
    across: Measure | None = None
    """Its place from the corner, along the second side."""
    point: str | None = None
    shape: str | None = None
    """``square``; None for a rectangle where there is a second side, and else round."""
    placed: str | None = None
    """``corner`` where the place is that of its corner nearest to A1; None for its middle."""


@frozen
class DropThing(Change):
    """It is not there, or no longer."""

    kind: str
    """Of an obstacle, or ``drain``, ``joint``, ``crack``."""
    number: int


@frozen
class PlugOpening(Change):
    """Nothing runs through an opening any more."""

    number: int | None = None
    """None where there is only one that it can be."""


@frozen
class AddDrain(Change):
    """A drain, whose height the finished floor must meet."""

    point: str
    height: Reading


@frozen
class AddJoint(Change):
    """A joint of the slab, which is to be carried through."""

    start: str
    end: str


@frozen
class AddJointAlong(Change):
    """A joint all along a column or a row of points."""

    line: str


@frozen
class AddJointBetween(Change):
    """A joint somewhere between two columns or rows; where, is asked for."""

    first_line: str
    second_line: str


@frozen
class AddCrack(Change):
    """A crack in the slab."""

    start: str
    end: str | None = None
    """None for a crack at one point."""


@frozen
class RepairCrack(Change):
    """A crack has been seen to."""

    number: int | None = None
    """None where there is only one that it can be."""


@frozen
class AskObstacles(Ask):
    """All that stands on the floor, goes through it or runs over it."""
