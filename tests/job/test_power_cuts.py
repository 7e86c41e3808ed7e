"""After a power cut at any moment all lines are there that were answered; see ``power_cuts.py``."""

from __future__ import annotations

import random
import shutil
import subprocess

import pytest

from assistant.errors import JournalError
from tests.power_cuts import LostError, cut_often

STATES = 120
"""``python tests/power_cuts.py`` for more."""


def _can_trace() -> bool:
    strace = shutil.which("strace")
    return (
        strace is not None
        and subprocess.run([strace, "-o", "/dev/null", "true"], check=False).returncode == 0
    )


pytestmark = [
    pytest.mark.slow,
    pytest.mark.skipif(not _can_trace(), reason="needs strace, and leave to trace"),
]


def test_no_answered_line_is_lost_to_a_power_cut() -> None:
    seed = random.SystemRandom().randrange(10**6)
    print(f"seed {seed}")
    lines, torn = cut_often(STATES, seed)
    assert lines > STATES
    assert torn > STATES / 10, "too few of the cuts came while something was being written"


def test_a_disk_that_takes_no_notice_of_flushes_would_be_found_out() -> None:
    with pytest.raises((LostError, JournalError)):
        cut_often(STATES, 1, flushes=False)
