"""The whole job at a glance: tally, what is missing, warnings, map."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from grammar.commands.kinds import EITHER_FLOOR, Ask


@dataclass(frozen=True, slots=True)
class AskTally(Ask):
    """Points, depths, volume, bags."""


@dataclass(frozen=True, slots=True)
class AskMissing(Ask):
    """What the job still lacks."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""


@dataclass(frozen=True, slots=True)
class AskWarnings(Ask):
    """Everything that is past a limit or should be looked at."""


@dataclass(frozen=True, slots=True)
class AskMap(Ask):
    """The floor from above, with its depths."""

    SPEAKS_OF: ClassVar = EITHER_FLOOR

    of: str | None = None
    """``slab`` where the survey before the pour is meant; None for what lies open."""
