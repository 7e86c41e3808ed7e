"""Random walks with undo and redo; ``python tests/walks.py 300`` walks further."""

from __future__ import annotations

import pytest

from tests.walks import Walk


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(3))
def test_undone_and_redone_it_is_the_same_job(seed: int) -> None:
    walk = Walk(seed)
    walk.go(120)
    assert walk.counts["undone"] > 30
    assert walk.counts["redone"] > 15


def test_the_record_gives_the_same_job_by_a_clock_that_jumps() -> None:
    walk = Walk(3, wild_clock=True)
    walk.go(120)
    assert walk.job.clock_put_back
