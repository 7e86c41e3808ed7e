"""
The sides of the region that triangles fill, and the points on each.

A side runs from corner to corner of the region. Points count as on it when they are on the
straight line between its ends as well as places are known.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from assistant.levels.arrays import BoolArray, FloatArray, IntArray, cross

PLACED_WITHIN_M = 0.01
"""How well the place of a point is known (common practice, no source).

A point this little inside the line through its neighbours at the edge counts as on it.
Raising it moves more of the floor from triangles to what is carried from the edge.
"""
_FLAT_COSINE = -np.cos(np.radians(10))
"""A triangle is thin only if also its middle corner is within ten degrees of straight, so
that the small triangles of closely set points stay."""


def boundary_sides(
    points_m: FloatArray, simplices: IntArray, neighbours: IntArray
) -> tuple[tuple[IntArray, ...], BoolArray]:
    """
    Sides with their points, and the thin triangles left out for them.

    Parameters
    ----------
    points_m : (n, 2) array of float
        Metres.
    simplices, neighbours : (d, 3) arrays of int
        Corners of Delaunay triangles, and the triangle across from each corner or -1.

    Returns
    -------
    sides : tuple of arrays of int
        Counter-clockwise; each from its start to its end, and the next starts there.
    left_out : (d,) array of bool

    Examples
    --------
    Four points, one of them 2 mm inside the line through its neighbours.

    >>> points = np.array([[0.0, 0.0], [1.0, 0.002], [2.0, 0.0], [1.0, 2.0]])
    >>> triangles = np.array([[0, 2, 1], [2, 3, 1], [3, 0, 1]])
    >>> sides, left_out = boundary_sides(
    ...     points, triangles, np.array([[1, 2, -1], [2, 0, -1], [0, 1, -1]])
    ... )
    >>> [side.tolist() for side in sides], left_out.tolist()
    ([[0, 1, 2], [2, 3], [3, 0]], [True, False, False])
    """
    left_out = np.zeros(len(simplices), dtype=np.bool_)
    sides = []
    for start, end, simplex in _edges_in_order(points_m, simplices, neighbours):
        side = list(_points_of_side(points_m, simplices, neighbours, left_out, start, end, simplex))
        sides.append(np.array(side, dtype=np.intp))
    return tuple(sides), left_out


def _edges_in_order(
    points: FloatArray, simplices: IntArray, neighbours: IntArray
) -> Iterator[tuple[int, int, int]]:
    """Edges with nothing beyond them, counter-clockwise: start, end, triangle behind."""
    simplex, opposite = np.nonzero(neighbours == -1)
    starts = simplices[simplex, (opposite + 1) % 3].tolist()
    ends = simplices[simplex, (opposite + 2) % 3].tolist()
    # A sliver may come the wrong way round, so edges are joined without regard to direction.
    at_point: dict[int, list[int]] = {}
    for edge, pair in enumerate(zip(starts, ends, strict=True)):
        for point in pair:
            at_point.setdefault(point, []).append(edge)
    walk: list[tuple[int, int, int]] = []
    edge, here = 0, starts[0]
    used: set[int] = set()
    while edge not in used:
        used.add(edge)
        there = ends[edge] if starts[edge] == here else starts[edge]
        walk.append((here, there, int(simplex[edge])))
        edge = next((other for other in at_point[there] if other not in used), edge)
        here = there
    ring = points[[start for start, _, _ in walk]]
    if cross(ring, np.roll(ring, -1, axis=0)).sum() < 0:
        walk = [(end, start, behind) for start, end, behind in reversed(walk)]
    yield from walk


def _points_of_side(
    points: FloatArray,
    simplices: IntArray,
    neighbours: IntArray,
    left_out: BoolArray,
    start: int,
    end: int,
    simplex: int,
) -> Iterator[int]:
    """Points of one side from start to end; marks the thin triangles they take the place of."""
    side = points[end] - points[start]
    yield start
    waiting = [(start, end, simplex)]
    while waiting:
        a, c, behind = waiting.pop()
        middle = -1 if behind < 0 or left_out[behind] else int(sum(simplices[behind])) - a - c
        if middle >= 0 and _is_thin(points[[a, middle, c]] - points[start], side):
            left_out[behind] = True
            row = simplices[behind].tolist()
            waiting.append((middle, c, int(neighbours[behind, row.index(a)])))
            waiting.append((a, middle, int(neighbours[behind, row.index(c)])))
        else:
            yield c


def _is_thin(corners: FloatArray, side: FloatArray) -> bool:
    """Whether the middle corner is, as well as places are known, on the side between the others."""
    length = float(np.hypot(side[0], side[1]))
    feet = corners @ side
    depth = abs(float(cross(side, corners[1]))) / length
    to_start, to_end = corners[0] - corners[1], corners[2] - corners[1]
    cosine = to_start @ to_end / np.sqrt((to_start @ to_start) * (to_end @ to_end))
    in_order = feet[0] < feet[1] < feet[2]
    return bool(in_order and depth <= PLACED_WITHIN_M and cosine < _FLAT_COSINE)
