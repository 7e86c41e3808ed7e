"""Many points as cells: medians on a drawn scan with clutter, and what stands on the floor."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.flatness.cells import (
    CLEAR,
    FEW,
    MIXED,
    NOTHING,
    STANDS,
    cell_side_m,
    cells_of,
)
from assistant.levels.arrays import FloatArray

FAR = (6.0, 4.0)


def _scan(count: int, clutter: float) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Places, heights with errors of 1 mm and some of them on clutter, and the true heights."""
    random = np.random.default_rng(6)
    places = random.uniform(0, 1, (count, 2)) * FAR
    true = 3 * np.sin(places[:, 0]) + 2 * places[:, 1]
    heights = true + random.normal(0, 1, count)
    on = random.random(count) < clutter
    heights[on] += random.uniform(5, 200, int(on.sum()))
    return places, heights, true


def test_medians_hardly_feel_clutter_and_means_do() -> None:
    """5 % of the points 5 to 200 mm too high, as in what the medians were chosen by."""
    places, heights, _ = _scan(60_000, 0.05)
    cells = cells_of(places, heights, 0.2, (0.0, 0.0), FAR)
    x, y = cells.middles_m[..., 0], cells.middles_m[..., 1]
    off = cells.floor_mm - (3 * np.sin(x) + 2 * y)
    assert abs(float(np.nanmean(off))) < 0.15
    assert float(np.nanstd(off)) < 0.4
    assert np.count_nonzero(cells.kind == CLEAR) > 0.95 * cells.kind.size
    row, column = (places[:, 1] // 0.2).astype(int), (places[:, 0] // 0.2).astype(int)
    there = row * 30 + column
    mean = np.bincount(there, heights, 600) / np.bincount(there, minlength=600)
    assert float(np.mean(mean.reshape(20, 30) - (3 * np.sin(x) + 2 * y))) > 3


def test_median_count_and_spread_are_numpys() -> None:
    places, heights, _ = _scan(3_000, 0.0)
    cells = cells_of(places, heights, 0.5, (0.0, 0.0), FAR)
    assert int(cells.count.sum()) == 3_000
    assert cells.median_mm.shape == (8, 12)
    for row, column in ((0, 0), (3, 7), (7, 11)):
        on = (places // 0.5 == (column, row)).all(axis=1)
        low, median, high = np.percentile(heights[on], [25, 50, 75])
        assert cells.median_mm[row, column] == pytest.approx(median)
        assert cells.count[row, column] == on.sum()
        assert cells.spread_mm[row, column] == pytest.approx((high - low) / 1.349)


def test_the_deviation_of_a_median() -> None:
    """1.2533 s/√n (exact for many normal points), here s 1 and about 125 points."""
    places, heights, _ = _scan(12_000, 0.0)
    cells = cells_of(
        places, heights - 3 * np.sin(places[:, 0]) - 2 * places[:, 1], 0.5, (0, 0), FAR
    )
    assert cells.sd_mm == pytest.approx(1.2533 / np.sqrt(125), rel=0.1)


def test_what_stands_on_the_floor_is_told_not_averaged() -> None:
    places, heights, _ = _scan(60_000, 0.0)
    heights[(np.abs(places - (2.0, 1.0)) < 0.3).all(axis=1)] += 140
    hidden = (np.abs(places - (5.0, 3.0)) < 0.3).all(axis=1)
    few = (np.abs(places - (4.0, 2.0)) < 0.05).all(axis=1)
    some = np.flatnonzero(few)[2:]
    left = np.logical_not(hidden)
    left = np.setdiff1d(np.flatnonzero(left), some)
    cells = cells_of(places[left], heights[left], 0.1, (0.0, 0.0), FAR)
    assert cells.kind[10, 20] == STANDS
    assert np.isnan(cells.floor_mm[10, 20])
    assert cells.kind[30, 50] == NOTHING
    assert np.count_nonzero(cells.kind == STANDS) == pytest.approx(36, abs=3)
    assert {FEW, MIXED, CLEAR} <= set(range(5))
    assert float(np.nanmax(cells.floor_mm)) < 25


def test_half_on_something_is_mixed_and_a_slope_is_not() -> None:
    random = np.random.default_rng(1)
    places = random.uniform(0, 1, (4_000, 2))
    step = np.where(places[:, 0] < 0.55, 0.0, 20.0)
    assert cells_of(places, step, 0.1, (0.0, 0.0), (1.0, 1.0)).kind[0, 5] == MIXED
    slope = 60 * places[:, 0]
    assert (cells_of(places, slope, 0.1, (0.0, 0.0), (1.0, 1.0)).kind == CLEAR).all()


def test_few_points_make_larger_cells_and_far_edges_are_in() -> None:
    assert cell_side_m(24.0, 6.0, 10**6) == 0.1
    assert cell_side_m(24.0, 6.0, 288) == 1.0
    assert cell_side_m(2400.0, 60.0, 10**6) == 0.5
    cells = cells_of([[1.0, 1.0], [0.0, 0.0]], [3.0, 4.0], 0.5, (0.0, 0.0), (1.0, 1.0))
    assert cells.count.tolist() == [[1, 0], [0, 1]]


def test_what_no_cells_can_be_made_of() -> None:
    with pytest.raises(SurveyError, match="No point lies on the floor"):
        cells_of([[9.0, 9.0]], [1.0], 0.1, (0.0, 0.0), FAR)
    with pytest.raises(SurveyError, match="row 2"):
        cells_of([[1.0, 1.0], [1.0, 2.0]], [1.0, np.nan], 0.1, (0.0, 0.0), FAR)
    with pytest.raises(SurveyError, match="side above zero"):
        cells_of([[1.0, 1.0]], [1.0], 0.0, (0.0, 0.0), FAR)
    with pytest.raises(SurveyError, match="no points"):
        cell_side_m(24.0, 6.0, 0)
