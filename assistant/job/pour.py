"""What is known of the pour; part of the job, built up from the events."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime

from assistant.events.kinds import Event
from assistant.events.pour import DamPlaced, DamsTakenUp
from grammar.frozen import frozen


@frozen
class PourState:
    """What is known of the pour, as it was said."""

    dams: tuple[DamPlaced, ...] = ()
    """Dams and joints, in the order they were told."""


def after_event(state: PourState, event: Event, _time: datetime) -> PourState:
    """The pour after one of its events, which happened at that time."""
    if isinstance(event, DamPlaced):
        return replace(state, dams=(*(dam for dam in state.dams if dam != event), event))
    return replace(state, dams=())


POUR_EVENTS: tuple[type[Event], ...] = (DamPlaced, DamsTakenUp)
