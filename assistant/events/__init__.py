"""What happened, in the past tense: the only things a job file holds.

Each event has a stable name and a version. A name is never reused for another
meaning; a changed meaning gets a higher version, and the old one stays readable.
"""

from __future__ import annotations

from assistant.events import (
    doors,
    finish,
    flatness,
    guide,
    jobs,
    material,
    notes,
    pour,
    proof,
    readings,
    room,
    set_ups,
    site,
    talk,
    things,
    walk,
    zones,
)
from assistant.events.kinds import Event, Setting

__all__ = ["EVENTS", "Event", "Setting"]

_MATTERS = (
    room,
    readings,
    walk,
    set_ups,
    finish,
    flatness,
    doors,
    material,
    pour,
    site,
    guide,
    notes,
    jobs,
    talk,
    things,
    zones,
    proof,
)

EVENTS: tuple[type[Event], ...] = tuple(
    thing
    for matter in _MATTERS
    for thing in vars(matter).values()
    if isinstance(thing, type) and issubclass(thing, Event) and thing.NAME
)
"""Every event there is, matter by matter: a class in the file of its matter is one of them."""
