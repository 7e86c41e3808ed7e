"""How long the surface with its uncertainty takes, and whether its intervals hold.

Times with ``pytest --benchmark-only``; none is asserted. ``volume_coverage.py`` prints the
whole table of coverage; here it is made of fewer floors.
"""

from __future__ import annotations

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.levels.arrays import FloatArray
from assistant.levels.kriged.cells import _cells_over, cells_for
from assistant.levels.kriged.high_spots import hidden_high_spots
from assistant.levels.kriged.volume import volume_with_interval
from assistant.levels.kriging import fit_surface
from assistant.levels.next_reading import where_next
from assistant.levels.outliers import NeighbourPrediction, look_at
from assistant.levels.outline import rectangle

ROOM = rectangle(15, 10)
SIZE = float(np.hypot(15, 10))
counts = pytest.mark.parametrize("count", [24, 80, 200, 500])


def survey(count: int) -> tuple[FloatArray, FloatArray]:
    chance = np.random.default_rng(count)
    points = chance.uniform(0, 1, (count, 2)) * [15, 10]
    x, y = points.T
    heights = 4 * np.sin(x) * np.cos(0.7 * y) + 0.5 * x + chance.normal(0, 1, count)
    return points, heights.round() / 1000


@counts
@pytest.mark.benchmark(group="fitted from nothing")
def test_fit(benchmark: BenchmarkFixture, count: int) -> None:
    points, heights = survey(count)
    floor = benchmark(lambda: fit_surface(points, heights, size_m=SIZE))
    assert len(floor.points_m) == count


@counts
@pytest.mark.benchmark(group="the last reading worked in, the next one looked at")
def test_a_reading_is_looked_at(benchmark: BenchmarkFixture, count: int) -> None:
    points, heights = survey(count)
    before = fit_surface(points[:-1], heights[:-1], size_m=SIZE)

    def read() -> NeighbourPrediction:
        floor = fit_surface(points, heights, size_m=SIZE, like=before)
        return look_at(floor, [7.3, 4.1], -0.050, mishearings_m=[-0.015])

    assert benchmark(read).suspect


@counts
@pytest.mark.parametrize("above", [0.005, -0.004], ids=["all under", "high spots"])
@pytest.mark.benchmark(group="volume with its interval")
def test_volume(benchmark: BenchmarkFixture, count: int, above: float) -> None:
    points, heights = survey(count)
    floor = fit_surface(points, heights, size_m=SIZE)
    finish = float(heights.max()) + above
    found = benchmark(lambda: volume_with_interval(floor, ROOM, finish))
    assert found.low_m3 < found.mean_m3 < found.high_m3


@counts
@pytest.mark.benchmark(group="hidden high spots")
def test_high_spots(benchmark: BenchmarkFixture, count: int) -> None:
    points, heights = survey(count)
    floor = fit_surface(points, heights, size_m=SIZE)
    finish = float(heights.max()) + 0.004
    spots = benchmark(lambda: hidden_high_spots(floor, ROOM, finish, 0.003))
    assert 0 <= spots.chance <= 1


@counts
@pytest.mark.benchmark(group="where next, three readings")
def test_next(benchmark: BenchmarkFixture, count: int) -> None:
    points, heights = survey(count)
    floor = fit_surface(points, heights, size_m=SIZE)
    found = benchmark(lambda: where_next(floor, ROOM, float(heights.max()) + 0.005, count=3))
    assert len(found.rows) == 3


@pytest.mark.benchmark(group="a floor cut into cells")
def test_cells(benchmark: BenchmarkFixture) -> None:
    """Of an outline that is new; those of the last few are kept."""
    cells = benchmark.pedantic(
        lambda: cells_for(ROOM, 500), setup=lambda: _cells_over.cache_clear(), rounds=20
    )
    assert cells.areas_m2.sum() == pytest.approx(150)


@pytest.mark.slow
def test_intervals_hold_the_true_volume(capsys: pytest.CaptureFixture[str]) -> None:
    """Forty floors can't tell 92 from 98 %, but they can tell that something broke."""
    pytest.importorskip("gstools")
    from tests.benchmarks import volume_coverage

    # Jobs of several set-ups are a campaign of minutes, command and table: docs/sureness.md.
    volume_coverage.main(["--floors", "28", "--franke", "12", "--jobs", "0"])
    overall = capsys.readouterr().out.splitlines()[1].split()
    assert overall[:2] == ["all", "40"]
    assert 88 <= float(overall[2].rstrip("%")) <= 100
    assert float(overall[4]) < 1.05 * float(overall[5])
