"""What is said though nobody asked: clocks that ring, news of the file, where an opened job stands.

Each is said once: alone while nobody says anything, or else behind the next answer.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from datetime import datetime, timedelta

from assistant.conversation.saying import (
    at_opening,
    clock_behind_reply,
    rung_reply,
    with_clock_behind,
    with_news,
    with_rung,
    with_standing,
    with_was_open,
)
from assistant.conversation.standing import standing_reply
from assistant.floor.pour.clock import not_met_since
from assistant.job import Job
from assistant.job.clocks import Ringing
from assistant.record.news import FileNews
from assistant.reply.replies import Reply


class Unasked:
    """
    Keeps what is still to be said of the program's own accord.

    Parameters
    ----------
    job : Job
        As it was opened.
    left_open : Reply or None
        The question that waited when it was closed.
    news : callable
        Gives messages about the job file, each once.
    """

    def __init__(
        self, job: Job, left_open: Reply | None, news: Callable[[], Sequence[FileNews]]
    ) -> None:
        self._news = news
        self._was_open = at_opening(left_open, news())
        self._stands = bool(job.history)
        self.behind = timedelta(0)
        """How far the machine's clock was found behind the record, when it was last looked at."""
        self.rung: tuple[Ringing, ...] = ()
        """What clocks had to say then."""

    @property
    def is_of_opening(self) -> bool:
        """Whether the job's opening has something to say that was not said yet."""
        return self._stands or self._was_open is not None

    def a_line_came(self) -> None:
        """Where the job stands is for somebody who has said nothing yet."""
        self._stands = False
        self.rung, self.behind = (), timedelta(0)

    def drop_met(self, job: Job, now: datetime) -> None:
        """Say nothing of an edge that the line just taken has met."""
        self.rung = not_met_since(self.rung, job, now)

    def alone(self, job: Job, *, waits: bool) -> Reply | None:
        """All of it with no line to answer; None where there is nothing."""
        rung, behind = self.rung, self.behind
        was_open, self._was_open = self._was_open, None
        stands = standing_reply(job, waits=waits) if self._stands else None
        self._stands = False
        if was_open is not None:
            reply = with_rung(with_standing(was_open, stands), rung)
        elif stands is not None:
            reply = with_rung(stands, rung)
        elif rung:
            reply = rung_reply(rung)
        else:
            return clock_behind_reply(behind) if behind else None
        return with_clock_behind(reply, behind)

    def behind_answer(self, reply: Reply) -> Reply:
        """An answer with all of it after it, as somebody waits for the answer."""
        was_open, self._was_open = self._was_open, None
        reply = with_clock_behind(with_rung(reply, self.rung), self.behind)
        return with_news(with_was_open(reply, was_open), self._news())
