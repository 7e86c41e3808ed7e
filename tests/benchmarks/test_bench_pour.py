"""A pour: its plan, a what-if on it, and a batch with a hundred on record.

``python -m pytest tests/benchmarks/test_bench_pour.py --benchmark-only -s``
"""

from __future__ import annotations

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.floor.places import places_of
from assistant.floor.pour import bays as pour_bays
from assistant.floor.pour import plan as pour_plan
from assistant.record.journal import Journal
from assistant.wiring import gather_cards
from tests.benchmarks.yardstick import Clocked, within

ROOM = (
    "room 30 by 20 metres", "product example standard", "grid 1 metre starting 0.5 metres",
    *(f"column 0.4 by 0.4 metres at {x} by {y} metres" for x in (6, 12, 18, 24) for y in (7, 13)),
)  # fmt: skip
"""600 m² with eight columns."""
CREW = ("crew 4", "mixers 3", "batches of 2 bags", "minutes per batch 6", "start at column A")


class Pouring:
    """A floor that is read, and a clock that is put by hand."""

    def __init__(self, path: Path) -> None:
        self.time = datetime(2026, 5, 4, 7, 0, tzinfo=UTC)
        self.journal = Journal.open(path)
        cards, _ = gather_cards(None, ())
        self.talk = Conversation(self.journal, World(cards), clock=lambda: self.time)
        self.say(*ROOM, *CREW)
        x, y = places_of(self.talk.job.layout).xy_m.T
        heights = -9 + 3 * np.sin(x / 4) * np.cos(y / 5)
        self.say(*(f"{abs(height):.1f} below" for height in heights))

    def say(self, *lines: str) -> None:
        for line in lines:
            self.time += timedelta(minutes=2)
            turn = self.talk.hear(line)
            assert turn.ok, (line, turn.reply.headline)


@pytest.fixture
def floor(tmp_path: Path) -> Iterator[Pouring]:
    pouring = Pouring(tmp_path / "pour.leadsman")
    yield pouring
    pouring.journal.close()


def forget(floor: Pouring) -> None:
    """As if the floor had never been planned."""
    kept = floor.talk.job.layout.kept
    for name in [name for name in kept if name.startswith(pour_plan.__name__)]:
        del kept[name]
    pour_bays._filled.cache_clear()
    pour_plan._cut.cache_clear()


def test_bench_plan_of_600_m2_with_columns(floor: Pouring, benchmark: BenchmarkFixture) -> None:
    """Two seconds at most."""

    def planned() -> None:
        forget(floor)
        floor.talk.job.kept.clear()
        floor.say("plan")

    clocked = Clocked(planned)
    benchmark.pedantic(clocked, rounds=5, iterations=1)
    within(2000, clocked)


def test_bench_what_if_on_the_plan(floor: Pouring, benchmark: BenchmarkFixture) -> None:
    """Two seconds at most."""
    floor.say("plan")

    def supposed() -> None:
        forget(floor)
        floor.say("what if mixers 1")

    clocked = Clocked(supposed)
    benchmark.pedantic(clocked, rounds=5, iterations=1)
    within(2000, clocked)


def test_bench_a_batch_after_a_hundred(floor: Pouring, benchmark: BenchmarkFixture) -> None:
    """Fifty milliseconds at most."""
    floor.say("start pour anyway because this is a benchmark", *(100 * ["batch"]))
    clocked = Clocked(lambda: floor.say("batch"))
    benchmark.pedantic(clocked, rounds=20, iterations=1)
    within(50, clocked)
