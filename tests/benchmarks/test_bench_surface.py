"""How long surfaces and volumes take. Run with ``pytest --benchmark-only``; asserts no times."""

from __future__ import annotations

import numpy as np
import pytest
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.levels.arrays import FloatArray
from assistant.levels.outline import rectangle
from assistant.levels.surface import mesh_over
from assistant.levels.volume import fill

L_SHAPE = np.array([[0, 0], [15, 0], [15, 6], [10, 6], [10, 10], [0, 10]])


def grid(columns: int, rows: int) -> FloatArray:
    x, y = np.linspace(0.3, 14.7, columns), np.linspace(0.3, 9.7, rows)
    return np.stack(np.meshgrid(x, y), axis=2).reshape(-1, 2)


def scattered(count: int) -> FloatArray:
    return np.random.default_rng(1).uniform(0, 1, (count, 2)) * [15, 10]


FLOORS = {
    "24 grid points": (grid(6, 4), rectangle(15, 10)),
    "500 grid points": (grid(25, 20), rectangle(15, 10)),
    "500 grid points, L-shaped": (grid(25, 20), L_SHAPE),
    "500 scattered points": (scattered(500), rectangle(15, 10)),
    "500 scattered points, L-shaped": (scattered(500), L_SHAPE),
    "10,000 grid points": (grid(100, 100), rectangle(15, 10)),
    "10,000 scattered points": (scattered(10_000), rectangle(15, 10)),
}
floors = pytest.mark.parametrize(("points", "outline"), FLOORS.values(), ids=FLOORS.keys())


@floors
@pytest.mark.benchmark(group="mesh_over")
def test_mesh(benchmark: BenchmarkFixture, points: FloatArray, outline: FloatArray) -> None:
    mesh = benchmark(mesh_over, points, outline)
    assert len(mesh.points_m) == len(points)


@floors
@pytest.mark.benchmark(group="fill")
def test_fill(benchmark: BenchmarkFixture, points: FloatArray, outline: FloatArray) -> None:
    depths = np.random.default_rng(2).normal(size=len(points)) * 0.01
    result = benchmark(fill, mesh_over(points, outline), depths)
    assert result.volume_m3 > 0


@floors
@pytest.mark.benchmark(group="heights at 1,000 places")
def test_heights(benchmark: BenchmarkFixture, points: FloatArray, outline: FloatArray) -> None:
    depths = np.random.default_rng(2).normal(size=len(points)) * 0.01
    places = np.random.default_rng(3).uniform(0, 10, (1000, 2))
    found = benchmark(mesh_over(points, outline).heights_at, places, depths)
    assert found.shape == (1000,)
