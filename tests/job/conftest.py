"""A floor to tell stories about: lines as they are said, and what came of them."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from functools import lru_cache
from typing import Any

import pytest

from assistant.answers import answer
from assistant.decide import Question, World, decide, resolve, with_side
from assistant.errors import Refusal
from assistant.floor.tally import Tally, tally_of
from assistant.job import EMPTY, Job, next_number, record
from assistant.products.cards import cards_in, shipped_folder
from assistant.reply.replies import Reply
from assistant.reply.times import UNTIMED
from grammar import understand
from grammar.commands import Command

WORLD = World(cards_in(shipped_folder()))


@lru_cache(maxsize=4096)
def command_of(line: str) -> Command:
    return understand(line)[0]


class Site:
    """One floor, and what has been said about it so far."""

    def __init__(self, *lines: str) -> None:
        self.job: Job = EMPTY
        self.standing_world = WORLD
        self.reply = Reply("")
        self.now = UNTIMED
        if lines:
            self.job, self.reply = _begun(lines)

    @property
    def world(self) -> World:
        """The world at the floor's own time."""
        return replace(self.standing_world, now=self.now)

    def wait(self, minutes: float) -> None:
        """Time passes before the next line."""
        self.now += timedelta(minutes=minutes)

    def told(self, *lines: str) -> Reply:
        """Say the lines one after the other, confirming what is asked; the last reply."""
        for line in lines:
            self.reply = self._do(line, command_of(line), confirmed=True)
        return self.reply

    def unconfirmed(self, line: str) -> Reply | Question:
        """Say a line, and leave a question open."""
        decision = decide(self.job, command_of(line), self.world)
        return decision.ask or self.told(line)

    def at_once(self, line: str) -> Reply:
        """The reply to a line that nothing is asked about."""
        answer = self.unconfirmed(line)
        assert isinstance(answer, Reply), f"{line!r} is asked about: {answer}"
        return answer

    def asked(self, line: str) -> Question:
        """The question that a line comes to; it records nothing."""
        decision = decide(self.job, command_of(line), self.world)
        assert decision.ask is not None, f"nothing was asked about {line!r}"
        assert decision.events == ()
        return decision.ask

    def sided(self, line: str, side: str) -> Reply:
        """A line without a side, and the answer to "below or above?"."""
        command = with_side(self.asked(line).command, side)
        self.reply = self._do(f"{line}\n{side}", command, confirmed=False)
        return self.reply

    def refused(self, line: str) -> str:
        """Why a line is not taken."""
        before = self.job
        with pytest.raises(Refusal) as refusal:
            self.told(line)
        assert self.job is before
        return str(refusal.value)

    def done(self, command: Command) -> Reply:
        """The same for a command that is not said."""
        self.reply = self._do("", command, confirmed=True)
        return self.reply

    def _do(self, said: str, command: Command, *, confirmed: bool) -> Reply:
        before, command = self.job, resolve(self.job, command)
        decision = decide(before, command, self.world, confirmed=confirmed)
        assert decision.ask is None, f"{said!r} is asked about: {decision.ask}"
        after = before
        if decision.events:
            after = record(before, next_number(before), said, decision.events, self.now)
        self.job = after
        if hasattr(command, "change"):  # "what if": the answer sees the job as it would be
            events = decision.supposed
            would_be = record(before, next_number(before), said, events)
            return answer(before, would_be, command, events, self.world)
        return answer(before, after, command, decision.events, self.world)

    @property
    def tally(self) -> Tally:
        return tally_of(self.job)

    @property
    def ids(self) -> list[str]:
        """Warnings beside the last reply."""
        return [warning.id for warning in self.reply.warnings]

    @property
    def data(self) -> dict[str, Any]:
        return self.reply.data


@lru_cache(maxsize=64)
def _begun(lines: tuple[str, ...]) -> tuple[Job, Reply]:
    """
    A job with something said already, and the last reply.

    Jobs never change, so that tests which begin with the same lines may have the same one.
    """
    floor = Site()
    reply = floor.told(*lines)
    return floor.job, reply


@pytest.fixture(scope="session")
def site() -> type[Site]:
    """``site("room 12 by 8 metres", "grid 2 metres")``: a floor with a history."""
    return Site
