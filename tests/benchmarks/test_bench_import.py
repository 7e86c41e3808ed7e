"""A file of points: read, and made into cells.

``python -m pytest tests/benchmarks/test_bench_import.py --benchmark-only -s``
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.flatness.cells import cell_side_m, cells_of
from assistant.point_files.text import read_text
from tests.benchmarks.yardstick import Clocked, within

ROOM = (12.0, 8.0)


@pytest.mark.parametrize("count", [100_000, 1_000_000])
def test_points_from_csv_to_cells(benchmark: BenchmarkFixture, tmp_path: Path, count: int) -> None:
    random = np.random.default_rng(1)
    places = random.uniform(0, 1, (count, 2)) * ROOM
    heights = 100 + random.normal(0, 0.001, count)
    path = tmp_path / "scan.csv"
    head = "easting,northing,height"
    np.savetxt(path, np.column_stack((places, heights)), "%.4f", ",", header=head, comments="")

    def imported() -> None:
        points = read_text(path)
        at = np.column_stack((points.first, points.second))
        side = cell_side_m(ROOM[0] * ROOM[1], ROOM[0], count)
        cells_of(at, points.height * 1000, side, (0.0, 0.0), ROOM)

    clocked = Clocked(imported)
    benchmark.pedantic(clocked, rounds=3)
    within(10_000 * count / 100_000, clocked)
