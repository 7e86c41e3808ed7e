"""Heights at doors, and where the doors are."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import EITHER_FLOOR, OPEN_FLOOR, Ask, Change, Measure, Reading
from grammar.frozen import frozen


@frozen
class MeasureDoor(Change):
    """Heights at the two jambs, and of the floor outside where it was read."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    door: int
    left: Reading
    right: Reading
    outside: Reading | None = None


@frozen
class MeasureOutside(Change):
    """Height of the floor outside a door, on its own."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    door: int
    outside: Reading


@frozen
class PlaceDoor(Change):
    """Which point a door is nearest to."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    door: int
    point: str


@frozen
class LimitDoorwayStep(Change):
    """The most a doorway may step on this job."""

    most: Measure | None = None
    """None for no limit, or the usual one."""
    usual: bool | None = None
    """True, without a length, for the usual one again."""


@frozen
class MeasureClearance(Change):
    """What a door's leaf clears the floor by that lies open."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    door: int
    clearance: Measure


@frozen
class SetCovering(Change):
    """What is laid on the finished floor."""

    thickness: Measure | None = None
    """None for no covering."""


@frozen
class SetDoorRules(Change):
    """Whose rules the step of a doorway is held against."""

    country: str
    """``usa`` or ``uk``."""


@frozen
class AskDoor(Ask):
    """One door: out of level across, and the step to the floor outside."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    door: int


@frozen
class AskDoors(Ask):
    """All doors, with those that are out of level and those that step."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""
