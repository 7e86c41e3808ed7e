"""A walk over a floor of 651 points, read one by one, each reply after its event is on disk.

``python -m pytest tests/benchmarks/test_bench_walk.py --benchmark-only -s`` prints processor
times over the walk. The machine may be busy with other things and is not always the same one, so
the goal is held against a yardstick that is measured in the same run.
"""

from __future__ import annotations

import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.floor.places import places_of
from assistant.levels.arrays import FloatArray
from assistant.record.journal import Journal
from assistant.wiring import gather_cards
from tests.benchmarks.yardstick import NUMPY_MS, numpy_ms

GOAL_MS = 30
"""Mean of the walk, alone on the machine."""


@pytest.fixture
def talk(tmp_path: Path) -> Iterator[Conversation]:
    cards, _ = gather_cards(None, ())
    journal = Journal.open(tmp_path / "walk.leadsman")
    talk = Conversation(journal, World(cards))
    for line in (
        "room 31 by 21 metres",
        "product example standard",
        "grid 1 metre starting 0.5 metres",
    ):
        assert talk.hear(line).ok
    yield talk
    journal.close()


def readings_of(talk: Conversation) -> list[str]:
    """What is said at each point: a smooth floor, with 1 mm noise."""
    x, y = places_of(talk.job.layout).xy_m.T
    noise = np.random.default_rng(1).normal(0, 1, len(x))
    heights = -22 + 6 * np.sin(x / 4) * np.cos(y / 5) + 0.3 * x + noise
    return [f"{abs(round(h))} {'below' if h < 0 else 'above'}" for h in heights.tolist()]


def walked(talk: Conversation) -> FloatArray:
    """Processor time of each reading, milliseconds."""
    taken = []
    for said in readings_of(talk):
        start = time.process_time()
        turn = talk.hear(said)
        taken.append(1000 * (time.process_time() - start))
        if not turn.ok:
            assert talk.hear("confirm").ok
    return np.array(taken)


def test_a_walk(benchmark: BenchmarkFixture, talk: Conversation) -> None:
    """651 readings; goal 30 ms each on average."""
    taken = benchmark.pedantic(lambda: walked(talk), rounds=1)
    assert len(talk.job.readings) == len(taken) == 651
    stick = numpy_ms()
    mean, median, most = taken.mean(), np.median(taken), np.percentile(taken, 95)
    benchmark.extra_info.update(mean_ms=mean, median_ms=median, p95_ms=most, yardstick_ms=stick)
    print(
        f"\nreading: mean {mean:.1f} ms, median {median:.1f} ms, 95th percentile {most:.1f} ms "
        f"of processor time; {mean / stick:.1f} yardsticks of {stick:.1f} ms"
    )
    assert mean / stick <= GOAL_MS / NUMPY_MS
