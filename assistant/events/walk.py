"""The way from point to point."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event
from assistant.reply.wording import spoken_name
from grammar.frozen import frozen


@frozen
class WalkMoved(Event):
    """The next value without a point is for this one."""

    NAME: ClassVar[str] = "walk-moved"
    point: str

    def in_words(self) -> str:
        return f"going to {spoken_name(self.point)}"


@frozen
class PointSkipped(Event):
    """A point cannot be read; until it is read after all."""

    NAME: ClassVar[str] = "point-skipped"
    point: str
    reason: str = ""
    """In the speaker's own words; empty where none was given."""

    def in_words(self) -> str:
        return f"skipping {spoken_name(self.point)}"


@frozen
class WalkTurned(Event):
    """The walk goes along rows, or along columns."""

    NAME: ClassVar[str] = "walk-turned"
    along: str

    def in_words(self) -> str:
        return f"walking along {self.along}"
