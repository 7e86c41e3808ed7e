"""
How much work lies between a reading that is on disk and the board that shows it.

``python -m pytest tests/benchmarks/test_bench_board.py --benchmark-only`` prints it. Goal: 200 ms
after the reading, of which up to 50 go by before the board looks again (``LOOK_S``).
"""

from __future__ import annotations

from pathlib import Path

from pytest_benchmark.fixture import BenchmarkFixture

from assistant.board.following import LOOK_S, FollowedFile, Following
from assistant.record.journal import utc_now
from assistant.record.watched import WatchedFile
from tests.benchmarks.yardstick import Clocked, within
from tests.board.load import recorded
from tests.board.test_board import told

EVENTS = 1000


def test_a_board_shows_a_reading(benchmark: BenchmarkFixture, tmp_path: Path) -> None:
    job = tmp_path / "hall.leadsman"
    told(job, "room 24 by 48 metres", "grid 2 metres")
    with recorded(job, EVENTS) as lines:
        assert max(lines) >= EVENTS
    following = Following(FollowedFile(WatchedFile(job)), utc_now)
    following.seen = following._look() or following.seen

    def one_more() -> None:
        with recorded(job, 1) as lines:
            list(lines)

    def shown() -> None:
        seen = following._look()
        assert seen is not None
        texts = following._told(seen, seen.number - 1)
        assert len(texts) == 2
        following.seen = seen

    clocked = Clocked(shown)
    benchmark.pedantic(clocked, setup=one_more, rounds=10)
    within(200 - 1000 * LOOK_S, clocked)
