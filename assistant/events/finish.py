"""The finished height, and what it must meet."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from assistant.events.kinds import Event, Setting
from assistant.reply.wording import spoken_height, spoken_name, spoken_number, spoken_said
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class FinishSet(Event):
    """Height of the finish above the zero."""

    NAME: ClassVar[str] = "finish-set"
    height: Measure

    def in_words(self) -> str:
        return f"finish {spoken_height(self.height)}"


@frozen
class FinishSetAtDoor(Event):
    """Finish set level with the floor outside a door, at the height that this then had."""

    NAME: ClassVar[str] = "finish-set-at-door"
    VERSION: ClassVar[int] = 2
    door: int
    height: Measure
    """Above the datum."""
    covering: Measure | None = None
    """How far under that floor, for the covering as it was then; None where level with it."""

    def in_words(self) -> str:
        return f"finish level with door {spoken_number(self.door)}"


@frozen
class FinishSetOverHighest(Event):
    """Finish set over what was then the highest point read."""

    NAME: ClassVar[str] = "finish-set-over-highest"
    point: str
    over: Measure | None
    """None for at it."""
    height: Measure
    """Of the finish, above the datum."""

    def in_words(self) -> str:
        return f"finish by the highest point, {spoken_name(self.point)}"


@frozen
class FinishFeathered(Event):
    """Finish set at the floor in a doorway, where the pour is to run out to nothing."""

    NAME: ClassVar[str] = "finish-feathered-to-door"
    door: int
    height: Measure
    """Of the higher jamb, above the datum, as it then was."""

    def in_words(self) -> str:
        return f"feathering to door {spoken_number(self.door)}"


@frozen
class MostDepthSet(Setting):
    """The greatest depth that somebody wants, beside the product's."""

    NAME: ClassVar[str] = "most-depth-set"
    depth: Measure | None
    """None for none any more."""

    def in_words(self) -> str:
        return "your own most depth"


@frozen
class LeastDepthSet(Setting):
    """The least depth that somebody wants, beside the product's."""

    NAME: ClassVar[str] = "least-depth-set"
    depth: Measure | None
    """None for none any more."""

    def in_words(self) -> str:
        return "your own least depth"


@frozen
class FinishMoved(Event):
    """Finish raised (plus) or lowered (minus)."""

    NAME: ClassVar[str] = "finish-moved"
    by: Measure

    def in_words(self) -> str:
        return f"finish {'down' if self.by.number < 0 else 'up'} {spoken_said(self.by)}"


@frozen
class HeightFixed(Event):
    """The finish must meet this height above the datum at a point."""

    NAME: ClassVar[str] = "height-fixed"
    point: str
    height: Measure

    def in_words(self) -> str:
        return f"the fixed height at {spoken_name(self.point)}"


@frozen
class FallSet(Event):
    """The floor is to fall so many percent towards a point; zero takes that back."""

    NAME: ClassVar[str] = "fall-set"
    percent: Decimal
    point: str

    def in_words(self) -> str:
        return f"the fall towards {spoken_name(self.point)}"


@frozen
class PointGround(Event):
    """So much is to be ground off at a point, in all."""

    NAME: ClassVar[str] = "point-ground"
    point: str
    by: Measure

    def in_words(self) -> str:
        return f"grinding {spoken_name(self.point)}"
