"""The time of what is said, and what clocks have to say while it passes."""

from __future__ import annotations

from datetime import datetime

from assistant.clocks import Ringing, rung_between
from assistant.job import Job
from assistant.record.journal import Clock


class Timekeeper:
    """
    Keeps the time of one conversation.

    Parameters
    ----------
    clock : callable
        Gives the time, with its zone.
    """

    def __init__(self, clock: Clock) -> None:
        self._clock = clock
        self._listened_until: datetime | None = None

    def now(self, job: Job) -> datetime:
        """The clock's time; never before what is on record, whatever was done to the clock."""
        last = job.last_time
        return self._clock() if last is None else max(self._clock(), last)

    def rings(self, job: Job) -> bool:
        """Whether a clock has something to say that was not heard yet."""
        return bool(self._rung_by(job, self.now(job)))

    def listen(self, job: Job, now: datetime) -> tuple[Ringing, ...]:
        """What clocks had to say up to now, oldest first; each of it once."""
        rung, self._listened_until = self._rung_by(job, now), now
        return rung

    def _rung_by(self, job: Job, now: datetime) -> tuple[Ringing, ...]:
        """What clocks said since they were listened to last; at first, since the record's end.

        So a clock that ended while the program was closed is still heard of.
        """
        since = self._listened_until or job.last_time or now
        return rung_between(job.site.clocks, job.card, since, now)
