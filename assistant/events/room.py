"""Where things lie: the room, its walls, its grid, and points of their own."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event
from assistant.reply.wording import spoken_name
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class RoomMeasured(Event):
    """The room is a rectangle; replaces any outline before."""

    NAME: ClassVar[str] = "room-measured"
    first: Measure
    second: Measure

    def in_words(self) -> str:
        return "the room"


@frozen
class WallMeasured(Event):
    """One more wall of an outline; the first one after a closed room starts anew."""

    NAME: ClassVar[str] = "wall-measured"
    direction: str
    length: Measure

    def in_words(self) -> str:
        return f"the wall {self.direction}"


@frozen
class RoomClosed(Event):
    """The outline is complete."""

    NAME: ClassVar[str] = "room-closed"
    straight_wall_added: bool
    """True where the gap to the start is a wall of its own;
    False where it is a misclosure, spread over the walls by their length."""

    def in_words(self) -> str:
        return "closing the room"


@frozen
class GridSet(Event):
    """Where the points of the grid lie; replaces the grid before."""

    NAME: ClassVar[str] = "grid-set"
    first: Measure
    second: Measure
    starting: Measure | None

    def in_words(self) -> str:
        return "the grid"


@frozen
class PointPlaced(Event):
    """A point off the grid."""

    NAME: ClassVar[str] = "point-placed"
    point: str
    first: Measure
    second: Measure

    def in_words(self) -> str:
        return f"the place of {spoken_name(self.point)}"
