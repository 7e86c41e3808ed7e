"""
A floor cut into small cells, to add up over.
"""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

import numpy as np

from assistant.levels.area import FloorArea, as_area
from assistant.levels.arrays import FloatArray, IntArray
from assistant.levels.kriged.covariance import matern
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from shapely import Geometry

    from assistant.levels.area import AreaLike

FEWEST_CELLS = 400
"""About so many cells at least; raising it makes sums finer and slower."""
MOST_CELLS = 1500
CELLS_A_POINT = 4
"""With as many cells as points, cells could stand on the points and know too much."""
OVERLAY_GRID_M = 1e-9
"""Corners of cut cells are put on a lattice as fine as this: without one, an overlay now and then
loses or keeps a whole piece where borders meet but for rounding. Coarser, areas are less true."""

WALL_MARGIN = 1e-3
"""A wall this near to a cell, as part of its sides, is taken to touch it. Far more than rounding;
raising it cuts more cells than need be."""


@frozen_identity
class CutCells:
    """Rows of cells along a wall, cut to the floor."""

    centres_m: FloatArray
    """(q, 2) of the cells before they were cut, in even rows."""
    centroids_m: FloatArray
    """(q, 2) of what is floor."""
    areas_m2: FloatArray
    """(q,) of what is floor."""
    row: IntArray
    """(q,)"""
    column: IntArray
    """(q,)"""
    spacing_m: tuple[float, float]
    """Between rows and between columns."""
    frame: FloatArray
    """(2, 2) unit vectors along the rows and across them."""

    def spread(self, sums: FloatArray, range_m: float) -> float:
        """
        Double sum of correlations between all cells, each weighed.

        Parameters
        ----------
        sums : (q,) array of float
            Weight of each cell.
        range_m : float

        Returns
        -------
        total : float
            ``sums @ R @ sums``.

        Notes
        -----
        The cells stand in even rows, so the sum is a convolution: a Fourier transform of
        a field twice as large, instead of all pairs.
        """
        from scipy.fft import irfft2, next_fast_len, rfft2

        rows, columns = int(self.row.max()) + 1, int(self.column.max()) + 1
        shape = (next_fast_len(2 * rows), next_fast_len(2 * columns))
        grid = np.zeros(shape)
        grid[self.row, self.column] = sums
        down = np.minimum(np.arange(shape[0]), shape[0] - np.arange(shape[0]))
        along = np.minimum(np.arange(shape[1]), shape[1] - np.arange(shape[1]))
        away = np.hypot(down[:, None] * self.spacing_m[0], along * self.spacing_m[1])
        correlated = irfft2(rfft2(grid) * rfft2(matern(away, range_m)), s=shape)
        return float((grid * correlated).sum())


def cells_for(area_m: AreaLike, points: int) -> CutCells:
    """
    Cells fine enough for a floor with so many points.

    Parameters
    ----------
    area_m : (k, 2) array_like, or shapely polygon or multipolygon
        The floor, as :func:`~assistant.levels.area.as_area` takes it.
    points : int

    Returns
    -------
    cells : Cells

    Raises
    ------
    SurveyError
        As :func:`~assistant.levels.area.as_area`.

    Examples
    --------
    >>> cells = cells_for([[0, 0], [6, 0], [6, 2.5], [4, 2.5], [4, 4], [0, 4]], 20)
    >>> round(float(cells.areas_m2.sum()), 6)
    21.0
    """
    # In steps, so that a reading more keeps the cells there were.
    about = FEWEST_CELLS
    while about < min(CELLS_A_POINT * points, MOST_CELLS):
        about *= 2
    return about_so_many(area_m, min(about, MOST_CELLS))


def about_so_many(area_m: AreaLike, count: int) -> CutCells:
    """
    Cells of a floor, about so many.

    Parameters
    ----------
    area_m : (k, 2) array_like, or shapely polygon or multipolygon
        The floor, as :func:`~assistant.levels.area.as_area` takes it.
    count : int

    Returns
    -------
    cells : Cells

    Raises
    ------
    SurveyError
        As :func:`~assistant.levels.area.as_area`.
    """
    area = as_area(area_m)
    rings = tuple(ring.tobytes() for ring in area.rings_m)
    return _cells_over(rings, area.outer, area.wall_m.tobytes(), count)


@lru_cache(maxsize=32)
def _cells_over(
    rings: tuple[bytes, ...], outer: tuple[int, ...], wall_bytes: bytes, about: int
) -> CutCells:
    start, end = np.frombuffer(wall_bytes).reshape(2, 2)
    wall = (end - start) / np.hypot(*(end - start))
    turned = np.array([wall, [-wall[1], wall[0]]])
    own = tuple((np.frombuffer(ring).reshape(-1, 2) - start) @ turned.T for ring in rings)
    corners = np.vstack([own[row] for row in outer])
    least, sides = corners.min(axis=0), np.ptp(corners, axis=0)
    floor = FloorArea(own, outer, 0.0, np.zeros((2, 2))).polygon
    cell = np.sqrt(floor.area / about)
    counts = np.maximum(np.ceil(sides / cell), 1).astype(np.intp)
    spacing = sides / counts
    column, row = (each.ravel() for each in np.meshgrid(*map(np.arange, counts)))
    corner = least + np.column_stack([column, row]) * spacing
    areas, centroids = _inside(floor, own, corner, spacing)
    kept = areas > 1e-9 * spacing.prod()
    centres = corner[kept] + spacing / 2
    return CutCells(
        centres_m=centres @ turned + start,
        centroids_m=centroids[kept] @ turned + start,
        areas_m2=areas[kept],
        row=row[kept],
        column=column[kept],
        spacing_m=(float(spacing[1]), float(spacing[0])),
        frame=turned,
    )


def _inside(
    floor: Geometry, rings: tuple[FloatArray, ...], corner: FloatArray, spacing: FloatArray
) -> tuple[FloatArray, FloatArray]:
    """Area, (q,), and centroid, (q, 2), of what of each box is floor."""
    # Imported late: many commands need no outline.
    import shapely

    walls = shapely.linestrings(
        np.vstack([np.stack([ring, np.roll(ring, -1, axis=0)], axis=1) for ring in rings])
    )
    near = WALL_MARGIN * spacing
    around = shapely.box(*(corner - near).T, *(corner + spacing + near).T)
    cut = np.unique(shapely.STRtree(around).query(walls, predicate="intersects")[1])
    # A cell that no wall comes near is all inside or all outside, as its middle is. The others are
    # cut, and not asked whether they lie inside: "covers" now and then says so of a cell outside,
    # where a wall runs through a corner of it but for rounding.
    centroids = corner + spacing / 2
    shapely.prepare(floor)
    areas = np.where(shapely.contains_xy(floor, *centroids.T), spacing.prod(), 0.0)
    boxes = shapely.box(*corner[cut].T, *(corner[cut] + spacing).T)
    pieces = shapely.intersection(floor, boxes, grid_size=OVERLAY_GRID_M)
    areas[cut] = shapely.area(pieces)
    some = cut[areas[cut] > 0]
    centroids[some] = shapely.get_coordinates(shapely.centroid(pieces[areas[cut] > 0]))
    return areas, centroids
