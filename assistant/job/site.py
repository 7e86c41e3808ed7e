"""What is known of the site; part of the job, built up from the events."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import field, replace
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from typing import Any

from assistant.events.kinds import Event
from assistant.events.site import (
    AirTemperatureTaken,
    ClockEnded,
    ClockStarted,
    EmissionTaken,
    FloorDescribed,
    HumidityTaken,
    PhTaken,
    ReasonAccepted,
    SlabHumidityTaken,
    SlabTemperatureTaken,
)
from assistant.job.clocks import Started, after_end, after_start
from assistant.units.temperature import celsius
from grammar.commands.site import Temperature
from grammar.frozen import frozen

AIR, SLAB, HUMIDITY = "air", "slab", "humidity"
SLAB_HUMIDITY, EMISSION, PH = "slab humidity", "moisture emission", "pH"
CLIMATE = (AIR, SLAB, HUMIDITY)
"""Changes with the hour; the others are of the slab itself and stay."""
KINDS = (*CLIMATE, SLAB_HUMIDITY, EMISSION, PH)


@frozen
class SiteReading:
    """One thing that was read of the site, where and when."""

    kind: str
    said: Temperature | Decimal
    """As said; of a temperature its scale too."""
    value: Fraction
    """°C, percent, pounds (1000 ft², 24 h) or pH; exactly."""
    point: str | None
    time: datetime


@frozen
class Accepted:
    """Somebody accepted a reason against the pour, and answers for it."""

    seen: tuple[str, ...]
    """As the reason read when it was accepted."""
    words: str
    """The speaker's own."""


@frozen
class SiteState:
    """What is known of the site, as it was said."""

    substrate: str | None = None
    """What is to be poured on; None until somebody says it."""
    adhesive_told: bool = False
    """Whether old adhesive was ever met here: saying another floor does not take it away."""
    accepted: Mapping[str, Accepted] = field(default_factory=dict)
    """By the matter: ``weight``, ``jambs`` and so on."""
    readings: tuple[SiteReading, ...] = ()
    """All of them, in the order they were taken."""
    clocks: tuple[Started, ...] = ()
    """Those started; of each but the mixes the last one."""

    def readings_of(self, kind: str) -> tuple[SiteReading, ...]:
        """
        The readings of a kind that count, in the order they were taken.

        A later one at the same place stands in the stead of an earlier; tests of the slab
        that name no place are each a test of their own.
        """
        counting: dict[object, SiteReading] = {}
        for number, reading in enumerate(self.readings):
            if reading.kind == kind:
                own = reading.point is None and kind not in CLIMATE
                place: object = number if own else reading.point
                counting.pop(place, None)
                counting[place] = reading
        return tuple(counting.values())

    def last(self, kind: str) -> SiteReading | None:
        """The newest reading of a kind."""
        return next((each for each in reversed(self.readings) if each.kind == kind), None)


def after_event(state: SiteState, event: Event, time: datetime) -> SiteState:
    """The site after one of its events, which happened at that time."""
    if isinstance(event, FloorDescribed):
        met = state.adhesive_told or event.substrate == "old adhesive"
        return replace(state, substrate=event.substrate, adhesive_told=met)
    if isinstance(event, ReasonAccepted):
        accepted = Accepted(event.seen, event.words)
        return replace(state, accepted={**state.accepted, event.matter: accepted})
    if isinstance(event, ClockStarted):
        return replace(state, clocks=after_start(state.clocks, Started(event.clock, time)))
    if isinstance(event, ClockEnded):
        return replace(state, clocks=after_end(state.clocks, event.clock, time))
    kind, said_of = _READ_BY[type(event)]
    said = said_of(event)
    value = celsius(said) if isinstance(said, Temperature) else Fraction(said)
    reading = SiteReading(kind, said, value, getattr(event, "point", None), time)
    return replace(state, readings=(*state.readings, reading))


_READ_BY: dict[type[Event], tuple[str, Callable[[Any], Temperature | Decimal]]] = {
    AirTemperatureTaken: (AIR, lambda event: event.temperature),
    SlabTemperatureTaken: (SLAB, lambda event: event.temperature),
    HumidityTaken: (HUMIDITY, lambda event: event.percent),
    SlabHumidityTaken: (SLAB_HUMIDITY, lambda event: event.percent),
    EmissionTaken: (EMISSION, lambda event: event.rate),
    PhTaken: (PH, lambda event: event.value),
}

SITE_EVENTS: tuple[type[Event], ...] = (
    FloorDescribed,
    ReasonAccepted,
    ClockStarted,
    ClockEnded,
    *_READ_BY,
)
