"""Remarks in the installer's own words."""

from __future__ import annotations

from typing import ClassVar

from assistant.events.kinds import Event
from assistant.reply.wording import spoken_name
from grammar.frozen import frozen


@frozen
class NoteTaken(Event):
    """A remark was made."""

    NAME: ClassVar[str] = "note-taken"
    words: str
    """As they were said."""
    point: str | None = None

    def in_words(self) -> str:
        return "the note" if self.point is None else f"the note at {spoken_name(self.point)}"
