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
    """None where there is no pump any more, as mixers were named after it."""

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


# --- before the first bag ------------------------------------------------------------------


@frozen
class EdgeStripTold(Event):
    """The edge strip stands, as somebody said."""

    NAME: ClassVar[str] = "edge-strip-told"

    def in_words(self) -> str:
        return "the edge strip"


@frozen
class JointsCarried(Event):
    """Joints are carried through, as somebody said."""

    NAME: ClassVar[str] = "joints-carried"
    numbers: tuple[int, ...]

    def in_words(self) -> str:
        return "the joints, carried through"


# --- while it is poured --------------------------------------------------------------------


@frozen
class PourStarted(Event):
    """The first bag was about to be mixed."""

    NAME: ClassVar[str] = "pour-started"
    against: tuple[str, ...]
    """What stood against it then."""
    words: str | None
    """Why it was started all the same, in the speaker's own words."""

    def in_words(self) -> str:
        return "the start of the pour"


@frozen
class BatchPoured(Event):
    """A batch was poured."""

    NAME: ClassVar[str] = "batch-poured"
    bags: int
    water_l: Decimal | None
    """A bag; None where nobody said."""

    def in_words(self) -> str:
        return f"a batch of {self.bags}"


@frozen
class FrontReached(Event):
    """The front stood there; one of the three."""

    NAME: ClassVar[str] = "front-reached"
    distance: Measure | None
    """From the start."""
    column: str | None
    row: int | None

    def in_words(self) -> str:
        return "the front"


@frozen
class StripPoured(Event):
    """A strip was poured to its far edge."""

    NAME: ClassVar[str] = "strip-poured"
    strip: int
    to_m: float
    """Where that edge lay, metres from the start: the plan may be another one later."""

    def in_words(self) -> str:
        return f"strip {self.strip} done"


@frozen
class BagsLeftCounted(Event):
    """Bags that were still there."""

    NAME: ClassVar[str] = "bags-left-counted"
    bags: int

    def in_words(self) -> str:
        return "the bags left"


@frozen
class FloorSpiked(Event):
    """The floor was gone over with the spiked roller."""

    NAME: ClassVar[str] = "floor-spiked"

    def in_words(self) -> str:
        return "the spiking"


@frozen
class HoleTold(Event):
    """Whether something of what the part poured last took was lost once."""

    NAME: ClassVar[str] = "hole-told"
    lost: bool

    def in_words(self) -> str:
        return "the hole" if self.lost else "that there is no hole"


@frozen
class PourStopped(Event):
    """The pour stood still."""

    NAME: ClassVar[str] = "pour-stopped"
    reason: str | None

    def in_words(self) -> str:
        return "the stop of the pour"


@frozen
class PourResumed(Event):
    """The pour went on."""

    NAME: ClassVar[str] = "pour-resumed"

    def in_words(self) -> str:
        return "going on with the pour"


@frozen
class MixWaterSet(Setting):
    """Water for one bag."""

    NAME: ClassVar[str] = "mix-water-set"
    litres: Decimal

    def in_words(self) -> str:
        return "the mix water"


@frozen
class FlowMeasured(Event):
    """How far a mix spread in the flow test."""

    NAME: ClassVar[str] = "flow-measured"
    spread: Measure

    def in_words(self) -> str:
        return "the flow"


@frozen
class LeftOverExplained(Event):
    """Why bags were left over."""

    NAME: ClassVar[str] = "left-over-explained"
    words: str

    def in_words(self) -> str:
        return "why bags were left over"
