"""
Many thousand points as a grid of cells: the median height of each, with count and spread.

The median is what a few points on dust, a cable or a hose move least: with 5 % of clutter it was
0.03 mm off where the mean of the highest was far off (tried on a drawn scan; the tests have it).
A cell that something stands on is reported, not averaged into the floor. Where there are too few
points for that, each is one reading, and stays one (:mod:`assistant.flatness.few_points`).
"""

from __future__ import annotations

from math import ceil, sqrt

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, IntArray, as_levels, as_places
from grammar.frozen import frozen_identity

__all__ = [
    "CLEAR",
    "FEW",
    "MIXED",
    "NOTHING",
    "STANDS",
    "CellGrid",
    "cell_side_m",
    "cells_of",
    "sturdy_plane",
]

CLEAR, NOTHING, FEW, STANDS, MIXED = range(5)
"""What a cell is: floor; not seen; seen by too few points; something stands on it; partly so."""

FEWEST_IN_CELL = 3
LEAST_SIDE_M = 0.1
MOST_A_SIDE = 120
"""Cells along the longer side. Raising it costs time and room with its square."""
WANTED_IN_CELL = 12
"""On average: by chance hardly one cell has then fewer than it needs, and no edge is laid across a
cell that was not seen. Raising it makes cells larger."""
STANDS_MM = 25.0
"""Above the floor within a metre. Our own choice: more than a floor rises, less than what is left
standing about. Raising it averages low things in."""
MIXED_MM = 12.0
"""Half of a cell's points spread over more than this: an edge of something."""
_AROUND_M = 1.0
_SD_OF_QUARTILES = 1.349
"""Between the quartiles of a normal distribution lie so many deviations."""
_SD_OF_MEDIAN = 1.2533


@frozen_identity
class CellGrid:
    """A grid of cells over a floor, rows along y."""

    corner_m: tuple[float, float]
    """Of the first cell: least x and y."""
    side_m: float
    median_mm: FloatArray
    """(rows, columns); NaN where nothing was seen."""
    count: IntArray
    spread_mm: FloatArray
    """Standard deviation within a cell, from its quartiles; NaN where nothing was seen."""
    kind: IntArray
    """:data:`CLEAR` and the others."""

    @property
    def floor_mm(self) -> FloatArray:
        """The medians of clear cells; NaN elsewhere."""
        return np.where(self.kind == CLEAR, self.median_mm, np.nan)

    @property
    def middles_m(self) -> FloatArray:
        """(rows, columns, 2) of the cells."""
        rows, columns = self.median_mm.shape
        x = self.corner_m[0] + (np.arange(columns) + 0.5) * self.side_m
        y = self.corner_m[1] + (np.arange(rows) + 0.5) * self.side_m
        return np.stack(np.meshgrid(x, y), axis=-1)

    @property
    def sd_mm(self) -> float:
        """Standard deviation of a clear cell's median, by its points; the usual one of all."""
        clear = self.kind == CLEAR
        if not clear.any():
            return 0.0
        each = _SD_OF_MEDIAN * self.spread_mm[clear] / np.sqrt(self.count[clear])
        return float(np.median(each))


def cell_side_m(area_m2: float, longest_m: float, points: int) -> float:
    """
    A side that leaves a few points in most cells, whole centimetres.

    >>> cell_side_m(24.0, 6.0, 100_000), cell_side_m(24.0, 6.0, 200)
    (0.1, 1.2)
    """
    if points < 1:
        raise SurveyError("There are no points.")
    wanted = sqrt(area_m2 * WANTED_IN_CELL / points)
    side = max(LEAST_SIDE_M, longest_m / MOST_A_SIDE, wanted)
    return ceil(side * 100 - 1e-6) / 100


def cells_of(
    places_m: ArrayLike,
    heights_mm: ArrayLike,
    side_m: float,
    corner_m: tuple[float, float],
    far_m: tuple[float, float],
    *,
    fewest: int = FEWEST_IN_CELL,
) -> CellGrid:
    """
    The cells of a grid from one corner to the far one.

    Parameters
    ----------
    places_m : (n, 2) array_like
        Places of the points, metres; those off the grid count for nothing.
    heights_mm : (n,) array_like
    side_m : float
    corner_m, far_m : (float, float)
        Least and greatest x and y.
    fewest : int
        Points that a cell takes to count as seen.

    Raises
    ------
    SurveyError
        If a number is not finite (names the row), the side is not above zero, or no point is on
        the grid.

    Notes
    -----
    Memory: the points, their order and the cells; some 60 bytes a point.
    """
    places = as_places(places_m)
    heights = as_levels(heights_mm, len(places))
    if not side_m > 0:
        raise SurveyError(f"A cell has a side above zero, not {side_m} m.")
    columns = max(int(np.ceil((far_m[0] - corner_m[0]) / side_m - 1e-9)), 1)
    rows = max(int(np.ceil((far_m[1] - corner_m[1]) / side_m - 1e-9)), 1)
    column = np.floor((places[:, 0] - corner_m[0]) / side_m).astype(np.intp)
    row = np.floor((places[:, 1] - corner_m[1]) / side_m).astype(np.intp)
    # What lies on the far edges is of the last cells.
    column[places[:, 0] == far_m[0]] = columns - 1
    row[places[:, 1] == far_m[1]] = rows - 1
    on = (column >= 0) & (column < columns) & (row >= 0) & (row < rows)
    if not on.any():
        raise SurveyError("No point lies on the floor.")
    cell = row[on] * columns + column[on]
    order = np.lexsort((heights[on], cell))
    quartiles, count = _quartiles(cell[order], heights[on][order], rows * columns)
    low, median, high = (each.reshape(rows, columns) for each in quartiles)
    spread = (high - low) / _SD_OF_QUARTILES
    counts = count.reshape(rows, columns)
    kind = _kinds(median, counts, high - low, side_m, fewest)
    return CellGrid(corner_m, side_m, median, counts, spread, kind)


def _quartiles(
    cell: IntArray, heights: FloatArray, cells: int
) -> tuple[tuple[FloatArray, FloatArray, FloatArray], IntArray]:
    """Lower quartile, median and upper quartile of sorted heights, cell by cell."""
    count = np.bincount(cell, minlength=cells)
    start = np.concatenate(([0], np.cumsum(count)[:-1]))

    def at(share: float) -> FloatArray:
        place = start + share * np.maximum(count - 1, 0)
        low = np.minimum(np.floor(place).astype(np.intp), len(heights) - 1)
        high = np.minimum(np.ceil(place).astype(np.intp), len(heights) - 1)
        found = heights[low] + (heights[high] - heights[low]) * (place - np.floor(place))
        return np.where(count > 0, found, np.nan)

    return (at(0.25), at(0.5), at(0.75)), count


def _kinds(
    median: FloatArray, count: IntArray, halves: FloatArray, side_m: float, fewest: int
) -> IntArray:
    kind = np.full(median.shape, CLEAR, dtype=np.intp)
    with np.errstate(invalid="ignore"):
        flat = median - _slope(median)
        above = flat - _floor_around(flat, max(round(_AROUND_M / side_m), 1))
        kind[halves > MIXED_MM] = MIXED
        kind[above > STANDS_MM] = STANDS
    kind[count < fewest] = FEW
    kind[count == 0] = NOTHING
    return kind


def _slope(median: FloatArray) -> FloatArray:
    """The plane of a floor, so that a fall is no step; hardly moved by what stands on it."""
    rows, columns = np.meshgrid(*map(np.arange, median.shape), indexing="ij")
    seen = np.isfinite(median)
    there = np.column_stack((np.ones(seen.sum()), columns[seen], rows[seen]))
    heights = median[seen]
    plane = sturdy_plane(there, heights)
    slope: FloatArray = plane[0] + plane[1] * columns + plane[2] * rows
    return slope


def sturdy_plane(there: FloatArray, heights: FloatArray) -> FloatArray:
    """Least absolute deviations, by least squares weighted anew."""
    weights: FloatArray = np.ones(len(heights))
    plane: FloatArray = np.zeros(there.shape[1])
    for _ in range(12):
        plane = np.asarray(
            np.linalg.lstsq(there * weights[:, None], heights * weights, rcond=None)[0],
            dtype=np.float64,
        )
        off = np.abs(np.asarray(heights - there @ plane, dtype=np.float64))
        weights = np.asarray(1 / np.sqrt(np.maximum(off, 1.0)), dtype=np.float64)
    return plane


def _floor_around(median: FloatArray, reach: int) -> FloatArray:
    """The floor near each cell: a low quantile of the medians within reach.

    A third, so that something may cover the most part of what is near.
    """
    rows, columns = median.shape
    found = np.full(median.shape, np.nan)
    for row in range(rows):
        strip = median[max(row - reach, 0) : row + reach + 1]
        for column in range(columns):
            if np.isfinite(median[row, column]):
                near = strip[:, max(column - reach, 0) : column + reach + 1].ravel()
                near = near[np.isfinite(near)]
                third = len(near) // 3
                found[row, column] = np.partition(near, third)[third]
    return found
