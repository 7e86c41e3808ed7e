"""The time of what is said, and what clocks have to say while it passes."""

from __future__ import annotations

from datetime import datetime, timedelta

from assistant.job import Job
from assistant.job.clocks import Ringing, rung_between
from assistant.record.journal import Clock

SAME_TIME = timedelta(minutes=2)
"""A clock that is set right by so little is not told of. Common practice, no source; raising it
hides that a mix has so much less time than is told."""


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
        """What the clock reads; as of the last entry where it is hardly behind that."""
        now, last = self._clock(), job.last_time
        return last if last is not None and now < last <= now + SAME_TIME else now

    def behind(self, job: Job) -> timedelta:
        """How far the clock is behind what it read when something was recorded last."""
        now, last = self.now(job), job.last_time
        return timedelta(0) if last is None else max(timedelta(0), last - now)

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
        since = min(self._listened_until or job.last_time or now, now)
        return rung_between(job.site.clocks, job.card, since, now)
