"""Parts of the floor with a name, and what is poured in each."""

from __future__ import annotations

from typing import Any, ClassVar

from assistant.events.kinds import Event
from assistant.reply.wording import spoken_height, spoken_zone
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class ZoneAdded(Event):
    """
    A part of the floor has a name.

    It is the floor on one side of a line, or between two lines along the first side of the room
    and two along the second. They stay where they are, whatever becomes of the points.
    """

    NAME: ClassVar[str] = "zone-added"
    name: str
    said: str
    """The words that described it: ``rows 1 to 3``."""
    along: tuple[Measure | None, ...]
    """From where and to where along the first side; None for the wall. Empty with a line."""
    across: tuple[Measure | None, ...]
    """The same along the second side."""
    line: tuple[Measure, ...]
    """Two places on the line, each by its distances along both sides; empty without one."""
    side: str | None
    """Of the line, as on a plan with A1 at the bottom left: ``left``, ``right``, ``above`` or
    ``below``."""

    def in_words(self) -> str:
        return spoken_zone(self.name)


@frozen
class ZoneDropped(Event):
    """A part of the floor is no longer one of its own."""

    NAME: ClassVar[str] = "zone-dropped"
    name: str

    def in_words(self) -> str:
        return f"dropping {spoken_zone(self.name)}"


@frozen
class ZoneFinishSet(Event):
    """Height of the finish above the zero in one zone."""

    NAME: ClassVar[str] = "zone-finish-set"
    zone: str
    height: Measure

    def in_words(self) -> str:
        return f"finish in {spoken_zone(self.zone)} {spoken_height(self.height)}"


@frozen
class ZoneProductChosen(Event):
    """The product of one zone, with the whole of its card as it was on that day."""

    NAME: ClassVar[str] = "zone-product-chosen"
    zone: str
    card: dict[str, Any]

    def in_words(self) -> str:
        return f"product in {spoken_zone(self.zone)} {self.card.get('name', '')}".strip()
