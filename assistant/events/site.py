"""The site: what is poured on, air, moisture, and clocks that run."""

from __future__ import annotations

from decimal import Decimal
from typing import ClassVar

from assistant.events.kinds import Event
from grammar.commands.site import Temperature
from grammar.frozen import frozen


@frozen
class FloorDescribed(Event):
    """What is to be poured on."""

    NAME: ClassVar[str] = "floor-described"
    substrate: str

    def in_words(self) -> str:
        return f"floor is {self.substrate}"


@frozen
class AirTemperatureTaken(Event):
    """Air, in the room; always with its scale."""

    NAME: ClassVar[str] = "air-temperature-taken"
    temperature: Temperature
    point: str | None

    def in_words(self) -> str:
        return "the air temperature"


@frozen
class SlabTemperatureTaken(Event):
    """The slab's surface; always with its scale."""

    NAME: ClassVar[str] = "slab-temperature-taken"
    temperature: Temperature
    point: str | None

    def in_words(self) -> str:
        return "the slab temperature"


@frozen
class HumidityTaken(Event):
    """Relative humidity of the air, percent."""

    NAME: ClassVar[str] = "humidity-taken"
    percent: Decimal
    point: str | None

    def in_words(self) -> str:
        return "the humidity"


@frozen
class SlabHumidityTaken(Event):
    """Relative humidity in the slab, percent."""

    NAME: ClassVar[str] = "slab-humidity-taken"
    percent: Decimal
    point: str | None

    def in_words(self) -> str:
        return "the slab humidity"


@frozen
class EmissionTaken(Event):
    """Moisture vapour emission, pounds a thousand square feet in 24 hours."""

    NAME: ClassVar[str] = "emission-taken"
    rate: Decimal
    point: str | None

    def in_words(self) -> str:
        return "the moisture emission"


@frozen
class PhTaken(Event):
    """Alkalinity of the surface."""

    NAME: ClassVar[str] = "ph-taken"
    value: Decimal
    point: str | None

    def in_words(self) -> str:
        return "the pH"


@frozen
class ReasonAccepted(Event):
    """A reason against the pour was accepted, in the speaker's words."""

    NAME: ClassVar[str] = "reason-accepted"
    matter: str
    seen: tuple[str, ...]
    """The reason as it read then: one that reads otherwise later was not accepted."""
    words: str

    def in_words(self) -> str:
        return f"accepting the {self.matter}"


@frozen
class ClockStarted(Event):
    """Something that takes its time began when this was said."""

    NAME: ClassVar[str] = "clock-started"
    clock: str
    """``hose``, ``primer``, ``mix`` or ``pour``."""

    def in_words(self) -> str:
        return f"the {self.clock} clock"


@frozen
class ClockEnded(Event):
    """Something that takes its time is over, however long it has had: the floor is poured."""

    NAME: ClassVar[str] = "clock-ended"
    clock: str
    """``mix`` or ``primer``; all mixes that run."""

    def in_words(self) -> str:
        return f"the end of the {self.clock} clock"
