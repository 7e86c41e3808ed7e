"""The interface to the record that a conversation needs."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import datetime
from pathlib import Path
from typing import Protocol

from assistant.events.kinds import Event
from assistant.record.left_open import LeftOpen
from assistant.record.news import FileNews
from assistant.record.sent_lines import Sender


class Record(Protocol):
    """Where events are kept, such as a journal."""

    @property
    def path(self) -> Path | None:
        """The job file; None where they are kept in memory only."""

    def append(
        self,
        said: str,
        events: Sequence[Event],
        time: datetime | None = None,
        *,
        sender: Sender | None = None,
    ) -> int:
        """Write the events of one utterance, with its time and device; returns its number."""

    def utterances(self) -> Iterable[tuple[int, str, Sequence[Event], datetime, str]]:
        """All utterances, in order."""

    def news(self) -> Sequence[FileNews]:
        """A message about the file, given once; mostly empty."""

    def keep_open(self, left: LeftOpen | None) -> None:
        """Save the waiting question for the next opening; None where none waits any more."""

    def left_open(self) -> LeftOpen | None:
        """The question that waited when the job was closed."""
