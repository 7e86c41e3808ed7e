"""What stands on the floor, goes through it, or runs over it."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event
from assistant.reply.wording import spoken_name, spoken_number
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class ObstacleAdded(Event):
    """A column, hole, cabinet or shaft, which is off the area; or an opening to be plugged."""

    NAME: ClassVar[str] = "obstacle-added"
    kind: str
    number: int
    """Counted for each kind."""
    first: Measure
    """Its side along the first side of the room; how far it is across where it is round."""
    second: Measure | None
    """None where it is round."""
    along: Measure
    """Of its middle, from the corner along the first side. It stays there whatever becomes of a
    point that was named."""
    across: Measure
    point: str | None
    """Where it was said to be."""

    def in_words(self) -> str:
        return f"{self.kind} {spoken_number(self.number)}"


@frozen
class ThingDropped(Event):
    """An obstacle, a drain, a joint or a crack is not there, or no longer."""

    NAME: ClassVar[str] = "thing-dropped"
    kind: str
    number: int

    def in_words(self) -> str:
        return f"dropping {self.kind} {spoken_number(self.number)}"


@frozen
class OpeningPlugged(Event):
    """Nothing runs through an opening any more."""

    NAME: ClassVar[str] = "opening-plugged"
    number: int

    def in_words(self) -> str:
        return f"opening {spoken_number(self.number)}, plugged"


@frozen
class DrainPlaced(Event):
    """A drain at a point, and its height above the datum, which the finish must meet."""

    NAME: ClassVar[str] = "drain-placed"
    number: int
    point: str
    height: Measure

    def in_words(self) -> str:
        return f"the drain at {spoken_name(self.point)}"


@frozen
class LineMarked(Event):
    """A joint or a crack, from one place to another."""

    NAME: ClassVar[str] = "line-marked"
    kind: str
    """``joint`` or ``crack``."""
    number: int
    start: str
    """The point it was said to begin at."""
    end: str | None
    places: tuple[Measure, ...]
    """Of its start, then of its end, from the corner: along the first side, along the second.
    They stay, whatever becomes of the points."""

    def in_words(self) -> str:
        return f"{self.kind} {spoken_number(self.number)}"


@frozen
class CrackRepaired(Event):
    """A crack has been seen to, as somebody said."""

    NAME: ClassVar[str] = "crack-repaired"
    number: int

    def in_words(self) -> str:
        return f"crack {spoken_number(self.number)}, repaired"
