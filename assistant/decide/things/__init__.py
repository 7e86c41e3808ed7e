"""What stands on the floor, goes through it, or runs over it."""

from __future__ import annotations

from assistant.decide.parts import Decider
from assistant.decide.things import lines, numbered, obstacles
from grammar.commands import Change

DECIDERS: dict[type[Change], Decider] = {
    **obstacles.DECIDERS,
    **numbered.DECIDERS,
    **lines.DECIDERS,
}
