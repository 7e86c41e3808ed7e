"""The day of the pour: who mixes, where it begins and ends."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from assistant.events.kinds import Event, Setting
from grammar.commands import Measure
from grammar.frozen import frozen


@frozen
class CrewSet(Setting):
    """How many people there are."""

    NAME: ClassVar[str] = "crew-set"
    people: int

    def in_words(self) -> str:
        return "the crew"


@frozen
class MixersSet(Setting):
    """Mixers that run side by side."""

    NAME: ClassVar[str] = "mixers-set"
    mixers: int

    def in_words(self) -> str:
        return "the mixers"


@frozen
class BatchSet(Setting):
    """Bags in one batch."""

    NAME: ClassVar[str] = "batch-set"
    bags: int

    def in_words(self) -> str:
        return "the size of a batch"


@frozen
class BatchTimeSet(Setting):
    """Minutes that one mixer takes from batch to batch."""

    NAME: ClassVar[str] = "batch-time-set"
    minutes: Decimal

    def in_words(self) -> str:
        return "the minutes per batch"


@frozen
class PumpSet(Setting):
    """What a pump places."""

    NAME: ClassVar[str] = "pump-set"
    bags_per_hour: int | None
    """None where there is none, since mixers were told after it."""

    def in_words(self) -> str:
        return "the pump"


@frozen
class WayOutSet(Setting):
    """The door that the pour ends at."""

    NAME: ClassVar[str] = "way-out-set"
    door: int

    def in_words(self) -> str:
        return "the way out"


@frozen
class PourStartSet(Setting):
    """Where the pour begins; one of the three."""

    NAME: ClassVar[str] = "pour-start-set"
    wall: str | None
    column: str | None
    row: int | None

    def in_words(self) -> str:
        return "the start of the pour"


@frozen
class StripWidthSet(Setting):
    """The widest that a strip may be."""

    NAME: ClassVar[str] = "strip-width-set"
    width: Measure

    def in_words(self) -> str:
        return "the width of strips"


@frozen
class DamPlaced(Event):
    """A dam or joint across the floor; one of the three."""

    NAME: ClassVar[str] = "dam-placed"
    column: str | None
    row: int | None
    distance: Measure | None
    """From the start of the pour."""

    def in_words(self) -> str:
        return "the dam"


@frozen
class DamsTakenUp(Event):
    """No dams any more."""

    NAME: ClassVar[str] = "dams-taken-up"

    def in_words(self) -> str:
        return "taking up the dams"
