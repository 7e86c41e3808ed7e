"""The job and its record: additions go to disk first, then into the job."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from assistant.conversation.recording import Record
from assistant.events.kinds import Event
from assistant.job import EMPTY, Job, Utterance, fold, record
from assistant.record.sent_lines import Sender


class JobOnRecord:
    """
    One job and its record, kept together.

    Parameters
    ----------
    journal : Record
        Has the job so far, and takes what is new.
    """

    def __init__(self, journal: Record) -> None:
        self._journal = journal
        self._behind = True
        self.job: Job = EMPTY
        self.just_added: tuple[str, ...] = ()
        """Names of the events added since the record was last looked at."""
        self.sender: Sender | None = None
        """The device whose line is being taken."""
        self.catch_up()

    def add(self, said: str, events: Sequence[Event], now: datetime) -> None:
        """Write to disk, then add to the job; if interrupted between, the record is read again."""
        self._behind = True
        sender = self.sender if said else None  # what nobody said came from nobody
        number = self._journal.append(said, events, now, sender=sender)
        self.just_added = tuple(event.NAME for event in events)
        device = sender.device if sender else ""
        self.job = record(self.job, number, said, events, now, device)
        self._behind = False

    def catch_up(self) -> tuple[Utterance, ...]:
        """
        Read the job again where the last addition was interrupted.

        Returns
        -------
        tuple of Utterance
            Recorded utterances whose answer was never shown.

        Raises
        ------
        JournalError
            While the disk cannot be read.
        """
        self.just_added = ()
        if not self._behind:
            return ()
        known = len(self.job.history)
        self.job = fold(self._journal.utterances())
        self._behind = False
        return tuple(self.job.history[known:])
