"""The day of the pour: its plan, and what goes on while it is poured."""

from __future__ import annotations

from assistant.decide.parts import Decider
from assistant.decide.pour import mixing, planning, pouring
from grammar.commands import Change

DECIDERS: dict[type[Change], Decider] = {
    **planning.DECIDERS,
    **pouring.DECIDERS,
    **mixing.DECIDERS,
}
