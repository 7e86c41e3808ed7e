"""A small part of the campaign in ``tests/fuzz.py``, with other lines every time."""

from __future__ import annotations

from random import SystemRandom

import pytest

from tests.fuzz import run


@pytest.mark.slow
def test_random_lines_are_taken_or_refused() -> None:
    seed = SystemRandom().randrange(10**6)
    counts = run(300, seed)
    assert counts["understood"] > 25, f"seed {seed}: {counts}"
    assert counts["refused"] > 25, f"seed {seed}: {counts}"
