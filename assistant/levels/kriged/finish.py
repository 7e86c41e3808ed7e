"""
The finish as a height everywhere: level, a plane, or level in parts.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from assistant.levels.kriged.cells import OVERLAY_GRID_M, CutCells
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from shapely import Geometry

_AT_THE_EDGE_M = 1e-6
"""A place this near to a part is in it. Far more than rounding."""


@frozen_identity
class FinishInParts:
    """A finish that is level in each part of the floor, with steps between them."""

    parts: tuple[Geometry, ...]
    """Polygons, metres; together they are the floor. Of two that meet the first has the edge."""
    levels_m: tuple[float, ...]
    """Height of the finish in each."""

    def at(self, places_m: FloatArray) -> FloatArray:
        """Its height at places, (m, 2); off the floor that of the nearest part."""
        import shapely

        points = shapely.points(places_m)
        away = np.array([shapely.distance(part, points) for part in self.parts])
        nearest = np.argmax(away <= np.maximum(away.min(axis=0), _AT_THE_EDGE_M), axis=0)
        heights: FloatArray = np.array(self.levels_m)[nearest]
        return heights

    def over(self, cells: CutCells) -> FloatArray:
        """Its mean height over each cell, so that a cell across a step counts both sides."""
        import shapely

        half = np.array(cells.spacing_m[::-1]) / 2
        signs = np.array([[-1, -1], [1, -1], [1, 1], [-1, 1]]) * half
        boxes = shapely.polygons(cells.centres_m[:, None, :] + signs @ cells.frame)
        # Only what lies across an edge is cut; the others are where their middle is.
        heights = self.at(cells.centroids_m)
        edges = shapely.STRtree(boxes).query(
            [part.boundary for part in self.parts], predicate="intersects"
        )[1]
        across = np.unique(edges)
        shares = np.array(
            [
                shapely.area(shapely.intersection(part, boxes[across], grid_size=OVERLAY_GRID_M))
                for part in self.parts
            ]
        )
        total = shares.sum(axis=0)
        some = total > 0
        heights[across[some]] = (np.array(self.levels_m) @ shares[:, some]) / total[some]
        return heights


FinishLike = float | ArrayLike | FinishInParts
"""A level; a height at (0, 0) and two slopes; or levels of parts."""


def finish_over(finish_m: FinishLike, cells: CutCells) -> FloatArray:
    """Mean height of a finish over each cell, (q,), metres."""
    if isinstance(finish_m, FinishInParts):
        return finish_m.over(cells)
    return finish_at(finish_m, cells.centroids_m)


def finish_at(finish_m: FinishLike, places_m: FloatArray) -> FloatArray:
    """
    Height of the finish at places.

    Parameters
    ----------
    finish_m : float, (3,) array_like or FinishInParts
        A level, metres; a plane's height at (0, 0), and its slopes along x and y; or levels.
    places_m : (m, 2) array of float

    Returns
    -------
    heights_m : (m,) array of float

    Raises
    ------
    SurveyError
        If it is neither one number nor three, or not finite.

    Examples
    --------
    >>> print(finish_at([0.020, -0.010, 0], np.array([[0.0, 0.0], [1.0, 5.0]])))
    [0.02 0.01]
    """
    if isinstance(finish_m, FinishInParts):
        return finish_m.at(places_m)
    finish = np.asarray(finish_m, dtype=np.float64)
    if finish.shape not in {(), (3,)} or not np.isfinite(finish).all():
        raise SurveyError("A finish is one level, or a height and two slopes.")
    if finish.ndim == 0:
        return np.full(len(places_m), float(finish))
    heights: FloatArray = finish[0] + places_m @ finish[1:]
    return heights
