"""The time of each utterance, and what clocks have to say as time passes."""

from __future__ import annotations

from datetime import datetime, timedelta

from assistant.floor.pour.clock import pour_rung_between
from assistant.floor.zones import mix_card
from assistant.job import Job
from assistant.job.clocks import Ringing, rung_between
from assistant.record.journal import Clock

SAME_TIME = timedelta(minutes=2)
"""A clock that is corrected by less is not reported. Common practice, no source; raising it
hides that a mix has that much less time than is said."""


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
        """The clock's time; that of the last entry where the clock is only a little behind it."""
        now, last = self._clock(), job.last_time
        return last if last is not None and now < last <= now + SAME_TIME else now

    def behind(self, job: Job) -> timedelta:
        """How far the clock is behind the time of the last entry."""
        now, last = self.now(job), job.last_time
        return timedelta(0) if last is None else max(timedelta(0), last - now)

    def rings(self, job: Job) -> bool:
        """Whether a clock has something to say that was not said yet."""
        return bool(self._rung_by(job, self.now(job)))

    def listen(self, job: Job, now: datetime) -> tuple[Ringing, ...]:
        """What clocks had to say until now, oldest first; each once."""
        rung, self._listened_until = self._rung_by(job, now), now
        return rung

    def _rung_by(self, job: Job, now: datetime) -> tuple[Ringing, ...]:
        """What clocks had to say since the last call, at first since the record's end.

        So a clock that ended while the program was closed is still reported.
        """
        since = min(self._listened_until or job.last_time or now, now)
        rung = rung_between(job.site.clocks, mix_card(job), since, now)
        edges = pour_rung_between(job, since, now)
        return tuple(sorted((*rung, *edges), key=lambda each: each.time))
