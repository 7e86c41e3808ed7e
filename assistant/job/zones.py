"""Parts of the floor with a name, and what is poured in each."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field, replace
from fractions import Fraction

from assistant.events.kinds import Event
from assistant.events.zones import (
    ZoneAdded,
    ZoneDropped,
    ZoneFinishSet,
    ZoneProductChosen,
)
from assistant.products.cards import Card, card_from_dict
from assistant.units.lengths import exact_mm
from grammar.frozen import frozen

REST = "rest"
"""The name of all that is in no zone."""


@frozen
class Pour:
    """What is poured in one zone, where it differs from the room's."""

    finish_mm: Fraction | None = None
    card: Card | None = None


@frozen
class Zones:
    """What is poured in each zone; where the zones lie stands in the layout."""

    pours: Mapping[str, Pour] = field(default_factory=dict)

    def pour_in(self, name: str) -> Pour:
        """What is poured in a zone."""
        return self.pours.get(name, Pour())


ZONE_EVENTS = (ZoneAdded, ZoneDropped, ZoneFinishSet, ZoneProductChosen)


def shapes_after(
    shapes: Mapping[str, ZoneAdded], event: ZoneAdded | ZoneDropped
) -> dict[str, ZoneAdded]:
    """Where the zones lie after an event, in the order in which they were named."""
    others = {name: shape for name, shape in shapes.items() if name != event.name}
    return {**others, event.name: event} if isinstance(event, ZoneAdded) else others


def zones_after(zones: Zones, event: Event) -> Zones:
    """What is poured in them after an event; a zone that is dropped takes its own along."""
    match event:
        case ZoneAdded() | ZoneDropped():
            pours = {name: pour for name, pour in zones.pours.items() if name != event.name}
            return Zones(pours)
        case ZoneFinishSet():
            pour = replace(zones.pour_in(event.zone), finish_mm=exact_mm(event.height))
        case ZoneProductChosen():
            pour = replace(zones.pour_in(event.zone), card=card_from_dict(event.card))
        case _:
            return zones
    return Zones({**zones.pours, event.zone: pour})
