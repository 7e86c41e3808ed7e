"""The job that phrases are said into: a room half read, whose next point is C2."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from itertools import count
from pathlib import Path

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.products.cards import Card
from assistant.record.journal import Journal
from assistant.wiring import gather_cards

MORNING = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)
LINES = (
    "room 6 by 8 metres",
    "product example standard",
    "grid 1 metre starting 0.5 metres",
    "waste 5 percent",
    "door 1 left minus 4 right minus 6 outside plus 2",
    "door 1 at B1",
    "finish 3 mm above zero",
)
WHERE_KNOWN = ("zone kitchen A1 to C3", "bag costs 24 euros")
"""Said as well where the program knows such a thing."""
READINGS = (
    # Fewer than the floor around can be judged by: what is asked is asked about the words.
    "A1 minus 8",
    "B1 minus 9",
    "C1 minus 10",
    "D3 minus 11",
    "D2 minus 10",
)


def ticking(start: datetime) -> Callable[[], datetime]:
    """A clock that goes on by a second whenever it is looked at."""
    seconds = count()
    return lambda: start + timedelta(seconds=next(seconds))


@dataclass(frozen=True)
class PreparedJob:
    """A job file, of which each phrase gets a copy of its own."""

    folder: Path
    cards: dict[str, Card] = field(default_factory=lambda: gather_cards(None, ())[0])

    @property
    def path(self) -> Path:
        """The file that is copied."""
        return self.folder / "prepared.leadsman"

    def make(self) -> PreparedJob:
        """Write the file."""
        with self._talk(self.path, MORNING) as talk:
            _prepare(talk, LINES)
            for line in WHERE_KNOWN:
                if not talk.hear(line).ok and talk.pending:
                    talk.let_lapse()
            _prepare(talk, READINGS)
        return self

    @contextmanager
    def copy(self) -> Iterator[Conversation]:
        """A conversation about a copy, an hour later."""
        path = self.folder / "copy.leadsman"
        shutil.copyfile(self.path, path)
        try:
            with self._talk(path, MORNING + timedelta(hours=1)) as talk:
                yield talk
        finally:
            path.unlink()

    @contextmanager
    def _talk(self, path: Path, start: datetime) -> Iterator[Conversation]:
        with Journal.open(path) as journal:
            yield Conversation(journal, World(self.cards), clock=ticking(start))


def _prepare(talk: Conversation, lines: tuple[str, ...]) -> None:
    for line in lines:
        turn = talk.hear(line)
        if not turn.ok or talk.pending:
            raise AssertionError(f"{line}: {turn.reply.headline}")
