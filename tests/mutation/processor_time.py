"""A pytest plugin: a test takes as long as it keeps processors busy, its programs' too.

What a clock on the wall says depends on who else is at work on the machine.
"""

from __future__ import annotations

import os
from collections.abc import Generator

import pytest

_phase_began_s = 0.0


def spent_s() -> float:
    """By this process and by those that it has waited for."""
    return sum(os.times()[:4])


def pytest_runtest_logstart() -> None:
    """Pytest's own name for this; setting up, calling and tearing down follow each other."""
    global _phase_began_s
    _phase_began_s = spent_s()


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Pytest's own name for this."""
    global _phase_began_s
    report = yield
    now_s = spent_s()
    report.duration, _phase_began_s = now_s - _phase_began_s, now_s
    return report
