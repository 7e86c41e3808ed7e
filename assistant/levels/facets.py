"""A surface as triangles that share their corners and never overlap, for programs that draw it."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from assistant.levels.area import as_area
from assistant.levels.arrays import FloatArray, IntArray, cross
from assistant.levels.surface import Mesh
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.area import AreaLike

SAME_CORNER_M = 1e-6
"""Corners nearer to each other than this are one. Far more than rounding, and far less than
anybody measures on a floor; raising it closes gaps between triangles and moves their corners."""
_SLIVER_M2 = 1e-9
"""Triangles with less area are left out: their corners are in line but for rounding."""


@frozen_identity
class Facets:
    """Flat pieces that together are a floor."""

    corners_m: FloatArray
    """(c, 2) places, no two of them the same."""
    triangles: IntArray
    """(t, 3) rows of the corners, counter-clockwise."""

    @property
    def areas_m2(self) -> FloatArray:
        """(t,) all of them more than nothing."""
        a, b, c = (self.corners_m[self.triangles[:, corner]] for corner in range(3))
        areas: FloatArray = cross(b - a, c - a) / 2
        return areas


def facets_of(mesh: Mesh, area_m: AreaLike) -> Facets:
    """
    The pieces of a surface over a floor.

    The triangles of a mesh may have a negative area, where its floor has an inside corner or a
    hole; these here have none. The surface is the same: on each of them it is flat.

    Parameters
    ----------
    mesh : Mesh
    area_m : (k, 2) array_like, or shapely polygon or multipolygon
        The floor that the mesh lies over.

    Returns
    -------
    facets : Facets
        Heights at its corners are those of ``mesh.heights_at(corners_m, ...)``.

    Examples
    --------
    >>> from assistant.levels.surface import mesh_over
    >>> floor = [[0, 0], [4, 0], [4, 2], [2, 2], [2, 4], [0, 4]]
    >>> facets = facets_of(mesh_over([[1, 1], [3, 1], [1, 3]], floor), floor)
    >>> round(float(facets.areas_m2.sum()), 6), bool((facets.areas_m2 > 0).all())
    (12.0, True)
    """
    if (mesh.areas_m2 > 0).all():
        return _joined(mesh.corners_m[mesh.triangles])
    import shapely

    floor = as_area(area_m).polygon
    low_x, low_y, high_x, high_y = floor.bounds
    # A rectangle cuts convex pieces into convex ones, whose fans have no negative triangles.
    whole = mesh.over([[low_x, low_y], [high_x, low_y], [high_x, high_y], [low_x, high_y]])
    corners = whole.corners_m[whole.triangles]
    pieces = shapely.polygons(corners)
    shapely.prepare(floor)
    inside = shapely.contains(floor, pieces)
    cut = shapely.intersection(pieces[~inside], floor, grid_size=SAME_CORNER_M / 1000)
    parts = shapely.get_parts(shapely.constrained_delaunay_triangles(cut))
    rings = [shapely.get_coordinates(part)[:3] for part in parts]
    return _joined(np.concatenate([corners[inside], np.array(rings).reshape(-1, 3, 2)]))


def _joined(corners: FloatArray) -> Facets:
    """Triangles whose corners are found to be the same; (t, 3, 2)."""
    every = corners.reshape(-1, 2)
    on_lattice = np.round(every / SAME_CORNER_M).astype(np.int64)
    _, first, row = np.unique(on_lattice, axis=0, return_index=True, return_inverse=True)
    triangles = row.reshape(-1, 3)
    places = every[first]
    a, b, c = (places[triangles[:, corner]] for corner in range(3))
    areas = cross(b - a, c - a) / 2
    turned = areas < 0
    triangles[turned] = triangles[turned][:, ::-1]
    triangles = triangles[np.abs(areas) > _SLIVER_M2]
    used, rows = np.unique(triangles, return_inverse=True)
    return Facets(places[used], rows.reshape(-1, 3).astype(np.intp))
