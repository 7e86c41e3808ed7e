"""The whole job at a glance: tally, what is missing, warnings, map."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import EITHER_FLOOR, Ask
from grammar.frozen import frozen


@frozen
class AskTally(Ask):
    """Points, depths, volume, bags."""

    zone: str | None = None
    """None for the whole floor."""


@frozen
class AskMissing(Ask):
    """What the job still lacks."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""


@frozen
class AskCautions(Ask):
    """The usual safety words, all of them in full."""


@frozen
class AskWarnings(Ask):
    """Everything that is past a limit or should be looked at."""


@frozen
class AskMap(Ask):
    """The floor from above, with its depths."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""
