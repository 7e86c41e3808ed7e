"""How long a report of 500 points takes, started as a program of its own.

``python -m pytest tests/benchmarks/test_bench_handover.py --benchmark-only`` prints it. Goals: the
page in 3 s, page and PDF in 5 s.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from tests.benchmarks.test_bench_speed import floor_of
from tests.benchmarks.yardstick import OfChildren, starts_within


@pytest.mark.parametrize(("asked", "goal_ms"), [((), 3000), (("--pdf",), 5000)])
def test_a_report_of_five_hundred_points(
    benchmark: BenchmarkFixture, asked: tuple[str, ...], goal_ms: int, tmp_path: Path
) -> None:
    job = tmp_path / "hall.leadsman"
    journal, _ = floor_of(500, job)
    journal.close()
    command = [sys.executable, "-m", "assistant", "report", "--job", str(job), *asked]
    command += ["--replace", "--out", str(tmp_path / "out")]
    report = OfChildren(lambda: subprocess.run(command, check=True, capture_output=True))
    benchmark.pedantic(report, rounds=3)
    starts_within(goal_ms, report)
