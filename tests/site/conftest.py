"""A floor, a clock that is put by hand, and what is said between them."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.events.set_ups import ZeroChecked
from assistant.job import Job
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.reply.replies import Reply, Turn
from grammar.commands import Measure

SEVEN = datetime(2026, 5, 4, 7, 0, tzinfo=UTC)

SURVEYED = (
    "product example standard", "room 8 by 6 metres", "grid 4 metres",
    "A1 -11", "minus 12", "minus 13", "minus 12",
    "door 1 left minus 2 right minus 3 outside plus 4",
)  # fmt: skip
"""48 m² with four points, all of them within what the product takes."""

TESTED = (
    "floor is concrete", "slab humidity 70 percent at A1", "slab humidity 71 percent at B1",
    "slab humidity 72 percent at B2", "pH 9",
)  # fmt: skip
CLIMATE = ("air 20 degrees", "slab 17 degrees", "humidity 50 percent")


_opened: list[Journal] = []


@pytest.fixture(autouse=True)
def closed_in_its_own_thread() -> Iterator[None]:
    """
    Every record is closed with its test.

    A morning and its clock hold each other, so only the collector frees them, in whichever thread
    it happens to run: in another one, a recogniser's, a connection cannot be closed.
    """
    yield
    while _opened:
        _opened.pop().close()


class Morning:
    """One job, its record in memory, from seven o'clock on."""

    def __init__(self, *lines: str) -> None:
        self.time = SEVEN
        self.world = World(cards_in(shipped_folder()))
        self.journal = Journal.open(None)
        _opened.append(self.journal)
        self.reopen()
        self.say(*lines)

    def reopen(self) -> None:
        """The program is closed and opened again on the same record."""
        self.talk = Conversation(self.journal, self.world, clock=lambda: self.time)

    def say(self, *lines: str) -> Turn:
        """Say lines that are taken; what came of the last."""
        turn = Turn("", True, None, None, (), Reply(""))
        for line in lines:
            turn = self.talk.hear(line)
            assert turn.ok, f"{line!r}: {turn.reply.headline}"
            assert turn.reply.ask is None, f"{line!r}: {turn.reply.ask}"
        self.turn = turn
        return turn

    def refused(self, line: str) -> str:
        """Say a line that is not taken; why."""
        before = self.job
        turn = self.talk.hear(line)
        assert not turn.ok
        assert turn.recorded == ()
        assert self.job == before
        return turn.reply.headline

    def later(self, **length: float) -> Morning:
        """Time passes: ``later(minutes=10)``."""
        self.time += timedelta(**length)
        return self

    def check_zero(self) -> None:
        """The zero was read and is level."""
        from decimal import Decimal

        event = ZeroChecked(Measure(Decimal(0), "mm"))
        self.journal.append("check zero level", [event], self.time)
        self.reopen()

    @property
    def job(self) -> Job:
        return self.talk.job

    @property
    def data(self) -> dict[str, Any]:
        return self.turn.reply.data

    def reasons(self) -> dict[str, dict[str, str]]:
        """What stands against the pour now, by its id."""
        ready = self.say("ready to pour").reply.data["ready"]
        found = {reason["id"]: reason for reason in ready["reasons"]}
        assert ready["go"] is (not found)
        assert len(found) == len(ready["reasons"])
        return found


@pytest.fixture
def morning() -> type[Morning]:
    """``morning("floor is concrete")``: a job with something said already, at seven."""
    return Morning


@pytest.fixture
def surveyed() -> Morning:
    """Measured, tested, read: all but the primer."""
    return Morning(*SURVEYED, *TESTED, *CLIMATE)


@pytest.fixture
def ready() -> Morning:
    """Nothing stands against the pour: the primer is two hours old, the climate fresh."""
    floor = Morning(*SURVEYED, *TESTED, "primer on floor", "check zero level").later(hours=2)
    floor.say(*CLIMATE)
    return floor
