"""The job as it stands in its file, and whoever waits for it to change."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator, Callable
from datetime import datetime

from assistant.board.shown import board_of
from assistant.errors import JournalError
from assistant.job import Job, fold
from assistant.record.watched import WatchedFile
from assistant.reply.visible import visible
from grammar.frozen import frozen

LOOK_S = 0.05
"""Between two looks at the file. Raising it makes the board slower, and the machine idler."""
BEAT_S = 4.0
"""Between two signs of life, so that a page knows an end from a quiet hour."""
MOST_REPLAYED = 200


@frozen
class Seen:
    """The job at one look."""

    number: int
    """Of the last utterance; what a page asks to go on from."""
    job: Job
    fault: str = ""
    """Why it is not newer."""


class Following:
    """
    Follows a job file and tells pages of it.

    Parameters
    ----------
    file : WatchedFile
    clock : callable
        Gives the time, with its zone.
    """

    def __init__(self, file: WatchedFile, clock: Callable[[], datetime]) -> None:
        self._file = file
        self._clock = clock
        self._changed = asyncio.Condition()
        self.seen = Seen(0, Job())

    async def follow(self) -> None:
        """Look at the file until the program ends."""
        while True:
            found = await asyncio.to_thread(self._look)
            if found is not None and found != self.seen:
                async with self._changed:
                    self.seen = found
                    self._changed.notify_all()
            await asyncio.sleep(LOOK_S)

    def _look(self) -> Seen | None:
        try:
            entries = self._file.look()
        except JournalError as why:
            return Seen(self.seen.number, self.seen.job, str(why))
        if entries is None:
            return None
        job = fold((each.number, each.said, each.events, each.time) for each in entries)
        return Seen(len(job.history), job)

    async def events(self, after: int) -> AsyncIterator[str]:
        """
        Server-sent events: what was recorded since an utterance, the board, and signs of life.

        Parameters
        ----------
        after : int
            The last one that the page has; what came since is told again, and then what comes.
        """
        yield "retry: 2000\n\n"
        shown: Seen | None = None
        while True:
            seen = self.seen
            if seen is not shown:
                for text in await asyncio.to_thread(self._told, seen, after):
                    yield text
                after, shown = seen.number, seen
            if not await self._changes_from(shown):
                yield _event("beat", {})

    async def _changes_from(self, shown: Seen) -> bool:
        """Wait for something else to be seen; False where nothing is for a while."""
        try:
            async with asyncio.timeout(BEAT_S), self._changed:
                await self._changed.wait_for(lambda: self.seen is not shown)
        except TimeoutError:
            return False
        return True

    def _told(self, seen: Seen, after: int) -> list[str]:
        new = [each for each in seen.job.history if after < each.number][-MOST_REPLAYED:]
        told = [
            _event(
                "said",
                {"words": visible("; ".join(event.in_words() for event in each.events))},
                each.number,
            )
            for each in new
        ]
        name = self._file.path.stem
        board = {**board_of(seen.job, name, self._clock()), "fault": visible(seen.fault)}
        return [*told, _event("board", board, seen.number)]


def _event(name: str, data: dict[str, object], number: int | None = None) -> str:
    # On one line, and only ASCII: nothing in it can end the event.
    id = "" if number is None else f"id: {number}\n"
    return f"{id}event: {name}\ndata: {json.dumps(data)}\n\n"
