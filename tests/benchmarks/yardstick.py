"""What speeds are held against: other work of the same kind, measured in the same run.

Machines differ and are shared, so no goal is a number of seconds: it is so many times the work
of the yardstick, which took so long on the machine where the goal was set. All is processor time,
of which another program's work takes nothing away.
"""

from __future__ import annotations

import resource
import subprocess
import sys
import time
from collections.abc import Callable

import numpy as np

NUMPY_MS = 2.15
"""Of :func:`numpy_ms` where the goals were set."""
PYTHON_MS = 10.0
"""Of :func:`python_ms` there."""


def numpy_ms() -> float:
    """numpy's own work on small matrices, as a reading's is; the median of 50."""
    away = np.hypot(*np.random.default_rng(1).uniform(0, 8, (2, 60, 60)))
    taken = []
    for _ in range(50):
        start = time.process_time()
        for _ in range(60):
            covariance = np.exp(-(away + away.T)) + np.eye(60)
            np.linalg.slogdet(covariance)
        taken.append(time.process_time() - start)
    return 1000 * float(np.median(taken))


def python_ms() -> float:
    """Python's own start; the median of 10."""
    alone = OfChildren(lambda: subprocess.run([sys.executable, "-c", "pass"], check=True))
    for _ in range(10):
        alone()
    return alone.median_ms


class Clocked:
    """Something to be run, and the processor time that each run took."""

    def __init__(self, run: Callable[[], object]) -> None:
        self._run = run
        self.taken_ms: list[float] = []

    def __call__(self) -> object:
        start = self._now_s()
        result = self._run()
        self.taken_ms.append(1000 * (self._now_s() - start))
        return result

    @property
    def median_ms(self) -> float:
        return float(np.median(self.taken_ms))

    def percentile_ms(self, percentile: float) -> float:
        return float(np.percentile(self.taken_ms, percentile))

    def _now_s(self) -> float:
        return time.process_time()


class OfChildren(Clocked):
    """The same of programs that are started, once they have ended."""

    def _now_s(self) -> float:
        used = resource.getrusage(resource.RUSAGE_CHILDREN)
        return used.ru_utime + used.ru_stime


def within(goal_ms: float, clocked: Clocked, percentile: float = 50) -> None:
    """Fails where something took more of numpy's yardstick than its goal does."""
    stick = numpy_ms()
    taken_ms = clocked.percentile_ms(percentile)
    told = f"{taken_ms:.1f} ms, {taken_ms / stick:.1f} yardsticks of {stick:.2f}"
    assert taken_ms / stick <= goal_ms / NUMPY_MS, told


def starts_within(goal_ms: float, clocked: OfChildren) -> None:
    """Fails where a program took more of Python's own start than its goal does."""
    stick = python_ms()
    told = f"{clocked.median_ms:.1f} ms, {clocked.median_ms / stick:.1f} starts of {stick:.1f}"
    assert clocked.median_ms / stick <= goal_ms / PYTHON_MS, told
