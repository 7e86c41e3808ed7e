"""What a conversation needs of the place where its events are kept."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from typing import Protocol

from assistant.events.kinds import Event
from assistant.record.left_open import LeftOpen
from assistant.record.news import FileNews


class Record(Protocol):
    """Where events are kept; a journal, in short."""

    def append(self, said: str, events: Sequence[Event], time: datetime | None = None) -> int:
        """Put on disk what one utterance came to, and when; its number."""

    def utterances(self) -> Iterable[tuple[int, str, Sequence[Event], datetime]]:
        """All that was put there, in order."""

    def news(self) -> Sequence[FileNews]:
        """What is to be told of the file, once; mostly nothing."""

    def keep_open(self, left: LeftOpen | None) -> None:
        """Keep the question that waits, for the next opening; None where it waits no more."""

    def left_open(self) -> LeftOpen | None:
        """The question that waited when the job was closed."""
