"""The job as it stands in its file, and whoever waits for it to change."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator, Callable, Mapping
from contextlib import suppress
from datetime import datetime
from typing import Protocol

from assistant.board.shown import board_of
from assistant.errors import JournalError
from assistant.job import Job, fold, record
from assistant.record.table import RecordEntry
from assistant.record.watched import WatchedFile
from assistant.reply.visible import visible
from grammar.frozen import frozen

LOOK_S = 0.05
"""Between two looks at the file. Raising it makes the board slower, and the machine idler."""
BEAT_S = 4.0
"""Between two signs of life, so that a page knows an end from a quiet hour."""
MOST_REPLAYED = 200


@frozen
class JobLook:
    """The job at one look."""

    number: int
    """Of the last utterance; what a page asks to go on from."""
    job: Job
    fault: str = ""
    """Why it is not newer."""


class Followed(Protocol):
    """A job that somebody else goes on with."""

    @property
    def name(self) -> str:
        """What the job is called now."""

    def look(self) -> Job | None:
        """
        The job, where it has changed since the last look; else None.

        Raises JournalError where it cannot be seen any more.
        """


class FollowedFile:
    """
    A job in its file, which another window of the program has open.

    Parameters
    ----------
    file : WatchedFile
    """

    def __init__(self, file: WatchedFile) -> None:
        self._file = file
        self._job = Job()

    @property
    def name(self) -> str:
        """What the job is called."""
        return self._file.path.stem

    def look(self) -> Job | None:
        """The job, where its file has changed."""
        entries = self._file.look()
        if entries is None:
            return None
        known = len(self._job.history)
        if not known or not _goes_on(self._job, entries):
            self._job, known = fold(()), 0
        for each in entries[known:]:
            self._job = record(
                self._job, each.number, each.said, each.events, each.time, each.device
            )
        return self._job


def _goes_on(job: Job, entries: list[RecordEntry]) -> bool:
    """Whether a record begins with all of a job, so that only what is new has to be taken."""
    known, last = len(job.history), job.history[-1]
    if len(entries) < known:
        return False
    there = entries[known - 1]
    return (there.said, there.events, there.time) == (last.said, last.events, last.time)


class Following:
    """
    Follows a job and tells pages of it.

    Parameters
    ----------
    followed : Followed
    clock : callable
        Gives the time, with its zone.
    """

    def __init__(self, followed: Followed, clock: Callable[[], datetime]) -> None:
        self._followed = followed
        self._clock = clock
        self._changed = asyncio.Condition()
        self.seen = JobLook(0, Job())
        self._looked = asyncio.Event()

    @property
    def name(self) -> str:
        """What the job is called now."""
        return self._followed.name

    async def follow(self) -> None:
        """Look at the job until the program ends."""
        while True:
            found = await asyncio.to_thread(self._look)
            if found is not None:
                if _is_news(found, self.seen):
                    async with self._changed:
                        self.seen = found
                        self._changed.notify_all()
                self._looked.set()
            await asyncio.sleep(LOOK_S)

    def _look(self) -> JobLook | None:
        try:
            job = self._followed.look()
        except JournalError as why:
            return JobLook(self.seen.number, self.seen.job, str(why))
        if job is None:
            # It can be seen again, and is as it was.
            return JobLook(self.seen.number, self.seen.job) if self.seen.fault else None
        return JobLook(len(job.history), job)

    async def events(self, after: int | None) -> AsyncIterator[str]:
        """
        Server-sent events: what was recorded since an utterance, the board, and signs of life.

        Parameters
        ----------
        after : int or None
            The last one that the page has; all later ones are sent, then new ones as they come.
            None for a page that was never here: it has nothing to catch up with.
        """
        yield "retry: 2000\n\n"
        # Before the first look at the file the job seems empty; a page must not be shown that.
        while not self._looked.is_set():
            with suppress(TimeoutError):
                await asyncio.wait_for(self._looked.wait(), BEAT_S)
                break
            yield event_text("beat", {})
        after = self.seen.number if after is None else after
        shown: JobLook | None = None
        while True:
            seen = self.seen
            if seen is not shown:
                for text in await asyncio.to_thread(self._told, seen, after):
                    yield text
                after, shown = seen.number, seen
            if not await self._changes_from(shown):
                yield event_text("beat", {})

    async def _changes_from(self, shown: JobLook) -> bool:
        """Wait for something else to be seen; False where nothing is for a while."""
        try:
            async with asyncio.timeout(BEAT_S), self._changed:
                await self._changed.wait_for(lambda: self.seen is not shown)
        except TimeoutError:
            return False
        return True

    def _told(self, seen: JobLook, after: int) -> list[str]:
        new = [each for each in seen.job.history if after < each.number][-MOST_REPLAYED:]
        told = [
            event_text(
                "said",
                {"words": visible("; ".join(event.in_words() for event in each.events))},
                each.number,
            )
            for each in new
        ]
        board = {**board_of(seen.job, self.name, self._clock()), "fault": visible(seen.fault)}
        return [*told, event_text("board", board, seen.number)]


def _is_news(found: JobLook, shown: JobLook) -> bool:
    # Jobs are the same object or differ; comparing them would go through the whole record.
    return found.job is not shown.job or found.fault != shown.fault


def event_text(name: str, data: Mapping[str, object], number: int | str | None = None) -> str:
    """A server-sent event; its number must be a figure or a plain word."""
    # On one line, and only ASCII: nothing in it can end the event.
    id = "" if number is None else f"id: {number}\n"
    return f"{id}event: {name}\ndata: {json.dumps(data)}\n\n"
