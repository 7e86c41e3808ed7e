"""What is on record: readings as they were taken, what changed, and the record itself."""

from __future__ import annotations

from datetime import time
from typing import ClassVar

from grammar.commands.kinds import OPEN_FLOOR, Ask
from grammar.frozen import frozen


@frozen
class AskReading(Ask):
    """What was read at a point, when, and what was read there before."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    point: str


@frozen
class AskLastReadings(Ask):
    """The readings taken last."""

    SPEAKS_OF: ClassVar = OPEN_FLOOR

    count: int | None = None
    """How many of them; None for the last one."""


@frozen
class AskChanges(Ask):
    """What was recorded last, the newest first."""

    count: int | None = None
    """How many; None for as many as go on a screen."""
    since: time | None = None
    """From this time of day on."""


@frozen
class AskRecord(Ask):
    """How much is on record, since when, in which file, and what waits."""
