"""Random walks through a job: whatever was said, undone and redone, the record gives the same job.

Run by hand, ``python tests/walks.py 300 --seed 1``; the test suite walks a few. Each walk says
valid commands, goes back and forward among them in between, and reads its record again. A walk
with a wild clock reads times that jump by years, to and fro.
"""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Callable, Sequence
from dataclasses import fields, replace
from datetime import UTC, datetime, timedelta
from decimal import Decimal
from random import Random
from typing import Any

from assistant.decide import World, decide, resolve
from assistant.errors import Refusal, SurveyError
from assistant.floor.places import places_of
from assistant.job import EMPTY, Job, fold, next_number, record, to_redo, to_undo
from assistant.job.state import Utterance
from assistant.products.cards import cards_in, shipped_folder
from grammar.commands import Change, Command, Reading
from grammar.commands.material import ChooseProduct
from grammar.commands.readings import TakeReading
from grammar.commands.site import StartClock
from grammar.commands.talk import BringBack, TakeBack
from grammar.phrases import PHRASES
from grammar.sentences import random_sentence

SAID = [
    phrase
    for phrase in PHRASES
    if issubclass(phrase.command, Change) and phrase.command not in (TakeBack, BringBack)
]
MORNING = datetime(2026, 5, 4, 7, 0, tzinfo=UTC)
OPENING = ("room 6 by 4 metres", "grid 2 metres", "product example standard")


class Walk:
    """One job, and the states that an undo and a redo have to come to."""

    def __init__(self, seed: int, *, wild_clock: bool = False) -> None:
        self.random = Random(seed)
        self.world = World(cards_in(shipped_folder()))
        self.wild_clock = wild_clock
        self.job: Job = EMPTY
        self.now = MORNING
        self.line = [EMPTY]
        """The job after each thing that counts."""
        self.undone: list[Job] = []
        """What a redo comes to, the next last."""
        self.counts = {"said": 0, "undone": 0, "redone": 0, "refused": 0, "replayed": 0}

    def go(self, commands: int) -> None:
        """Say so many things that are taken; AssertionError where a rule is broken."""
        from grammar import understand

        for said in OPENING:
            self._say(understand(said)[0])
        while self.counts["said"] < commands:
            if self.random.random() < 0.2:
                self._to_and_fro()
            elif not self._say(self._something()):
                self.counts["refused"] += 1
        self._replay()

    def _something(self) -> Command:
        if self.random.random() < 0.4:
            return TakeReading(None, Reading(-self._tenths(), "mm"))
        if self.random.random() < 0.02:
            return StartClock("pour")
        command = random_sentence(self.random.choice(SAID), self.random).command
        if isinstance(command, ChooseProduct):
            return ChooseProduct(self.random.choice(sorted(self.world.cards)))
        names = places_of(self.job.layout).names
        if names and any(field.name == "point" for field in fields(command)):
            elsewhere: dict[str, Any] = {"point": self.random.choice(names)}
            command = replace(command, **elsewhere)
        return command

    def _tenths(self) -> Decimal:
        return Decimal(self.random.randrange(80, 220)) / 10

    def _say(self, command: Command) -> bool:
        """Record what it comes to, confirmed; False where the job refuses it."""
        self._time_passes()
        try:
            filled = resolve(self.job, command)
            # None where it lacks its side: nobody is there to be asked.
            events = decide(self.job, filled, self.world, confirmed=True).events
        except (Refusal, SurveyError):
            return False
        if not events:
            return False
        self.job = record(self.job, next_number(self.job), "", events, self.now)
        self.line.append(self.job)
        self.undone.clear()
        self.counts["said"] += 1
        return True

    def _time_passes(self) -> None:
        self.now += timedelta(seconds=self.random.randrange(300))
        if self.wild_clock and self.random.random() < 0.1:
            self.now += timedelta(days=self.random.choice((-9000, -365, -1, 1, 365, 9000)))

    def _to_and_fro(self) -> None:
        before = self.job
        back = self._steps(to_undo)
        self._turn(TakeBack, back)
        if self.random.random() < 0.5:
            self._turn(BringBack, back)
            if not self.wild_clock:
                assert self.job == before, f"{back} undone and redone is another job"
        elif self.random.random() < 0.5:
            self._turn(BringBack, self._steps(to_redo))
        if self.random.random() < 0.1:
            self._replay()

    def _steps(self, reached_by: Callable[[Sequence[Utterance]], Sequence[Utterance]]) -> int:
        return self.random.randrange(min(len(reached_by(self.job.history)), 8) + 1)

    def _turn(self, kind: type[TakeBack] | type[BringBack], steps: int) -> None:
        """Undo or redo so many things, one by one or at once, and hold it against what was."""
        at_once = self.random.random() < 0.5
        for many in [steps] if at_once and steps else [None] * steps:
            self._time_passes()
            events = decide(self.job, kind(many), self.world).events
            self.job = record(self.job, next_number(self.job), "", events, self.now)
        there, other = self.line, self.undone
        if kind is BringBack:
            there, other = other, there
        for _ in range(steps):
            other.append(there.pop())
        self.counts["undone" if kind is TakeBack else "redone"] += steps
        assert len(to_redo(self.job.history)) == len(self.undone)
        assert len(to_undo(self.job.history)) == len(self.line) - 1
        if not self.wild_clock:
            assert self.job == self.line[-1], f"{kind.__name__} {steps} is not what was then"

    def _replay(self) -> None:
        """The record read again, and once more, is the job that was said line by line."""
        entries = [(each.number, each.said, each.events, each.time) for each in self.job.history]
        again = fold(entries)
        assert again == self.job == fold(entries), "the record gives another job"
        assert again.history == self.job.history
        self.counts["replayed"] += 1


def main() -> int:
    """The campaign."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("walks", type=int, nargs="?", default=100)
    parser.add_argument("--commands", type=int, default=200)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    started, total = time.monotonic(), dict.fromkeys(Walk(0).counts, 0)
    for number in range(asked.walks):
        walk = Walk(asked.seed + number, wild_clock=number % 4 == 3)
        try:
            walk.go(asked.commands)
        except Exception as error:
            error.add_note(f"walk with the seed {asked.seed + number}")
            raise
        total = {name: total[name] + walk.counts[name] for name in total}
    print(total, f"{time.monotonic() - started:.0f} s, seed {asked.seed}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
