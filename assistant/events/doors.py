"""Heights at doors, where the doors are, and the step that they allow."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event, Setting
from assistant.reply.wording import spoken_number
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class DoorMeasured(Event):
    """Heights at the two jambs; the floor outside stays as known where it is None."""

    NAME: ClassVar[str] = "door-measured"
    door: int
    left: Measure
    right: Measure
    outside: Measure | None

    def in_words(self) -> str:
        return f"door {spoken_number(self.door)}"


@frozen
class OutsideMeasured(Event):
    """Height of the floor outside a door."""

    NAME: ClassVar[str] = "outside-measured"
    door: int
    outside: Measure

    def in_words(self) -> str:
        return f"door {spoken_number(self.door)}"


@frozen
class DoorPlaced(Event):
    """A door is at a point."""

    NAME: ClassVar[str] = "door-placed"
    door: int
    point: str

    def in_words(self) -> str:
        return f"door {spoken_number(self.door)}"


@frozen
class DoorwayStepLimited(Event):
    """The most that a doorway of this job may step."""

    NAME: ClassVar[str] = "doorway-step-limited"
    most: Measure | None
    usual: bool
    """Without a length: the usual limit again, or none at all."""

    def in_words(self) -> str:
        return "the doorway step limit"


@frozen
class ClearanceMeasured(Event):
    """What a door's leaf clears the floor by that lay open then."""

    NAME: ClassVar[str] = "clearance-measured"
    door: int
    clearance: Measure

    def in_words(self) -> str:
        return f"the clearance of door {spoken_number(self.door)}"


@frozen
class CoveringSet(Setting):
    """What is laid on the finished floor; None for nothing."""

    NAME: ClassVar[str] = "covering-set"
    thickness: Measure | None

    def in_words(self) -> str:
        return "the covering"


@frozen
class DoorRulesSet(Setting):
    """Whose rules the step of a doorway is held against."""

    NAME: ClassVar[str] = "door-rules-set"
    country: str

    def in_words(self) -> str:
        return "the rules for doors"
