"""Points of a total station: too few for medians, so none of what they show is levelled out."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.flatness.cells import CLEAR, NOTHING, STANDS
from assistant.flatness.few_points import are_few, cells_of_few, lattice_of
from assistant.flatness.straightedge import worst_gap
from assistant.levels.arrays import FloatArray


def _grid(spacing: float, off: float = 0.0) -> FloatArray:
    x, y = np.meshgrid(np.arange(0.3, 8, spacing), np.arange(0.3, 6, spacing))
    places = np.column_stack((x.ravel(), y.ravel()))
    return places + np.random.default_rng(2).uniform(-off, off, places.shape)


def _wave(places: FloatArray) -> FloatArray:
    """5 mm from trough to crest, 3 m long."""
    return 2.5 * np.cos(2 * np.pi * (places[:, 0] - 0.3) / 3)


def test_points_on_a_lattice_keep_their_heights_and_a_wave_its_depth() -> None:
    """The wave's gap under 3 m is 2a, 5 mm (exact arithmetic); cells of 3 m would show none."""
    places = _grid(0.5)
    cells = cells_of_few(places, _wave(places), 48.0)
    assert cells.side_m == pytest.approx(0.5)
    assert cells.count.max() == 1
    assert np.sort(cells.median_mm.ravel()) == pytest.approx(np.sort(_wave(places)))
    along = np.arange(cells.median_mm.shape[1]) * cells.side_m
    assert worst_gap(along, cells.floor_mm, 3.0).mm == pytest.approx(5.0, abs=0.01)
    x, y = cells.middles_m[0, 0]
    assert (x, y) == pytest.approx((0.3, 0.3))


def test_a_staff_set_down_by_eye_is_on_the_lattice_still() -> None:
    lattice = lattice_of(_grid(1.0, off=0.1))
    assert lattice is not None
    assert lattice.side_m == pytest.approx(1.0, abs=0.02)
    assert lattice_of(_grid(1.0, off=0.4)) is None
    assert lattice_of(np.zeros((9, 2))) is None
    # Twice as far apart across as along: no squares.
    assert lattice_of(_grid(1.0) * (1, 2)) is None


def test_points_that_lie_anyhow_get_a_cell_for_a_few_and_a_fall_makes_no_gap() -> None:
    places = np.random.default_rng(4).uniform(0, 1, (150, 2)) * (8, 6)
    cells = cells_of_few(places, 20 * places[:, 0], 48.0)
    assert cells.side_m == pytest.approx(1.5 * (48 / 150) ** 0.5)
    assert np.median(cells.count) <= 3
    seen = np.isfinite(cells.floor_mm)
    assert seen.mean() > 0.85
    assert cells.floor_mm[seen] == pytest.approx(20 * cells.middles_m[..., 0][seen])


def test_what_stands_on_the_floor_is_told_of_single_points_too() -> None:
    places = _grid(0.5)
    heights = _wave(places)
    heights[40] += 90
    cells = cells_of_few(np.delete(places, 7, axis=0), np.delete(heights, 7), 48.0)
    counts = [np.count_nonzero(cells.kind == kind) for kind in (CLEAR, STANDS, NOTHING)]
    assert counts == [len(places) - 2, 1, 1]


def test_ends_of_few() -> None:
    # 12 points in a cell of half a metre: 48 a square metre.
    assert are_few(47 * 48, 48.0)
    assert not are_few(48 * 48, 48.0)
    assert not are_few(0, 48.0)
    assert not are_few(20_001, 10_000.0)
    assert cells_of_few([[1.0, 1.0]], [3.0], 24.0).median_mm == pytest.approx(np.array([[3.0]]))
    with pytest.raises(SurveyError, match="no points"):
        cells_of_few(np.empty((0, 2)), [], 24.0)
