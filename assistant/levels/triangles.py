"""
Triangles between points.

Points in a grid leave the choice of diagonal open in every cell, and a volume that hung on
that choice would hang on nothing. Here corners that lie on one circle (the case in which
any diagonal is as good) form one cell, cut from its middle instead.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from assistant.levels.arrays import BoolArray, FloatArray, IntArray, cross
from assistant.levels.boundary import boundary_sides
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from scipy.spatial import Delaunay

ON_ONE_CIRCLE_RAD = 1e-7
"""Corners this near one circle form one cell. Raising it joins cells that are not quite so."""
_IN_LINE = 1e-11
"""Width over length below which points are in line for floats, without asking for triangles."""


@frozen_identity
class Triangles:
    """Triangles over the points, and the sides that bound them."""

    nodes_m: FloatArray
    """(N, 2) the points, then the middles of cells."""
    corners: IntArray
    """(I, 3) nodes of each triangle; the triangles of one cell follow each other."""
    middles: Middles
    sides: tuple[IntArray, ...]
    """Round the region counter-clockwise, for each side its points from end to end."""
    delaunay: Delaunay | None
    """To look places up in; None when the points are in line."""
    first: IntArray
    """(D,) for each Delaunay triangle the first triangle here, -1 where left to the sides."""
    count: IntArray
    """(D,) how many from there belong to the same cell; 1 for a plain triangle."""


@frozen_identity
class Middles:
    """Heights of the middles of cells as weighted sums of the points' heights."""

    middle: IntArray
    """(q,) which middle, counted from 0."""
    point: IntArray
    """(q,) which point."""
    weight: FloatArray
    """(q,)"""
    count: int

    def heights(self, heights_m: FloatArray) -> FloatArray:
        """Heights of all middles, (count,), from those of the points, (n,)."""
        terms = self.weight * heights_m[self.point]
        return np.bincount(self.middle, terms, minlength=self.count).astype(np.float64)

    def shared_out(self, weights: FloatArray, points: int) -> FloatArray:
        """What weights on the middles, (count,), come to on the points, (points,)."""
        shares = self.weight * weights[self.middle]
        return np.bincount(self.point, shares, minlength=points).astype(np.float64)


def triangulate(points_m: FloatArray) -> Triangles:
    """
    Triangles over points, whichever order the points come in.

    Delaunay triangles (no point inside the circle through the corners of another triangle),
    except that

    * corners on one circle form one cell. Four corners meet at the crossing of the
      diagonals, whose height is the mean of what the two diagonals have there: for a grid
      cell that is the unit-area (four-corner) method, to the last digit. More than four
      meet at the mean of the corners, with the mean height;
    * a triangle at the edge that is thinner than a place can be known is left out, and its
      middle point becomes a point of that side. Otherwise the reading there would count on
      a sliver of floor and vanish a centimetre further out.

    Parameters
    ----------
    points_m : (n, 2) array of float
        Metres, all different, n at least 1.

    Returns
    -------
    triangles : Triangles
        For a single point or points in line there are none, only sides: two, there and back
        (none for a single point).

    Notes
    -----
    Places closer than about 1e-13 of the spread of all points may be taken as one, and the
    second then has no say.

    Source: unit-area (four-corner, borrow-pit) method, lecture notes on earthwork from spot
    levels; Delaunay by :class:`scipy.spatial.Delaunay`.

    Examples
    --------
    >>> cell = triangulate(np.array([[0.0, 0.0], [2.0, 0.0], [0.0, 2.0], [2.0, 2.0]]))
    >>> len(cell.corners)
    4
    >>> print(cell.nodes_m[-1])
    [1. 1.]
    """
    # Sorted first: which triangles come out never depends on the order the points came in.
    order = np.lexsort((points_m[:, 1], points_m[:, 0]))
    centred = points_m - points_m.mean(axis=0)
    delaunay = _delaunay(centred[order])
    if delaunay is None:
        return _in_line(points_m, centred)
    simplices = order[delaunay.simplices]
    sides, left_out = boundary_sides(centred, simplices, delaunay.neighbors.astype(np.intp))
    cell_of = _cells(centred, simplices, delaunay.neighbors.astype(np.intp), left_out)
    return _cut_cells(points_m, simplices, cell_of, left_out, sides, delaunay)


def _delaunay(points: FloatArray) -> Delaunay | None:
    """Delaunay triangles, or None when the points are in line."""
    if len(points) < 3:
        return None
    spread = np.linalg.svd(points, compute_uv=False)
    if spread[1] <= _IN_LINE * spread[0]:
        return None
    # Imported late: it takes longer than everything else at start, and many commands need none.
    from scipy.spatial import Delaunay, QhullError

    try:
        return Delaunay(points)
    except QhullError:
        return None


def _in_line(points_m: FloatArray, centred: FloatArray) -> Triangles:
    sides: tuple[IntArray, ...] = ()
    if len(centred) > 1:
        direction = np.linalg.svd(centred, full_matrices=False)[2][0]
        # The sign of a singular vector is arbitrary; start from the end further left.
        direction = direction * (1 if tuple(direction) > (0, 0) else -1)
        along = np.argsort(centred @ direction, kind="stable")
        sides = (along, along[::-1])
    nothing = np.zeros(0, dtype=np.intp)
    return Triangles(
        nodes_m=points_m,
        corners=nothing.reshape(0, 3),
        middles=Middles(nothing, nothing, np.zeros(0), 0),
        sides=sides,
        delaunay=None,
        first=nothing,
        count=nothing,
    )


def _cells(
    points: FloatArray, simplices: IntArray, neighbours: IntArray, left_out: BoolArray
) -> IntArray:
    """For each triangle a number shared by all triangles of its cell."""
    one, opposite = np.nonzero(neighbours > np.arange(len(simplices))[:, None])
    other = neighbours[one, opposite]
    a = simplices[one, (opposite + 1) % 3]
    c = simplices[one, (opposite + 2) % 3]
    b = simplices[one, opposite]
    d = simplices[other].sum(axis=1) - a - c
    angles = _angle(points, a, b, c) + _angle(points, a, d, c)
    together = (np.abs(angles - np.pi) < ON_ONE_CIRCLE_RAD) & ~left_out[one] & ~left_out[other]
    cell_of = np.arange(len(simplices))
    one, other = one[together], other[together]
    # The least number spreads through each cell; in a grid one pass does.
    while True:
        least = np.minimum(cell_of[one], cell_of[other])
        before = cell_of.copy()
        np.minimum.at(cell_of, one, least)
        np.minimum.at(cell_of, other, least)
        cell_of = cell_of[cell_of]
        if np.array_equal(before, cell_of):
            return _sound_cells(cell_of, simplices)


def _sound_cells(cell_of: IntArray, simplices: IntArray) -> IntArray:
    """Cells as they are, but those that rounding between near-equal points put together undone."""
    count = int(simplices.max()) + 1
    pairs = np.unique(cell_of[:, None] * count + simplices)
    corners = np.bincount(pairs // count, minlength=len(simplices))
    triangles = np.bincount(cell_of, minlength=len(simplices))
    # Triangles that make one polygon without a point inside have two corners more than pieces.
    return np.where((corners == triangles + 2)[cell_of], cell_of, np.arange(len(simplices)))


def _angle(points: FloatArray, a: IntArray, b: IntArray, c: IntArray) -> FloatArray:
    """The angle at b between a and c."""
    to_a, to_c = points[a] - points[b], points[c] - points[b]
    angle: FloatArray = np.arctan2(np.abs(cross(to_a, to_c)), (to_a * to_c).sum(axis=1))
    return angle


def _cut_cells(
    points_m: FloatArray,
    simplices: IntArray,
    cell_of: IntArray,
    left_out: BoolArray,
    sides: tuple[IntArray, ...],
    delaunay: Delaunay,
) -> Triangles:
    """Cut cells from their middles and put everything together."""
    cell, size = np.unique(cell_of, return_counts=True)
    size_of = np.zeros(len(simplices), dtype=np.intp)
    size_of[cell] = size
    plain = np.flatnonzero((size_of[cell_of] == 1) & ~left_out)
    first = np.full(len(simplices), -1, dtype=np.intp)
    count = np.zeros(len(simplices), dtype=np.intp)
    first[plain], count[plain] = np.arange(len(plain)), 1
    corners, nodes = [simplices[plain]], [points_m]
    middle_of, point_of, weight_of = [], [], []
    triangles, middles = len(plain), 0
    by_cell = np.argsort(cell_of, kind="stable")
    for triangles_each in np.unique(size[size > 1]).tolist():
        members = by_cell[size_of[cell_of[by_cell]] == triangles_each].reshape(-1, triangles_each)
        rings = _rings(points_m, simplices, members)
        around = rings.shape[1]
        weights = _middle_weights(points_m[rings])
        numbers = middles + np.arange(len(rings))
        nodes.append((weights[:, :, None] * points_m[rings]).sum(axis=1))
        middle_of.append(np.repeat(numbers, around))
        point_of.append(rings.ravel())
        weight_of.append(weights.ravel())
        fans = np.stack(
            [
                rings,
                np.roll(rings, -1, axis=1),
                np.broadcast_to(numbers[:, None] + len(points_m), rings.shape),
            ],
            axis=2,
        )
        corners.append(fans.reshape(-1, 3))
        first[members] = (triangles + around * np.arange(len(rings)))[:, None]
        count[members] = around
        triangles += around * len(rings)
        middles += len(rings)
    nothing = np.zeros(0, dtype=np.intp)
    return Triangles(
        nodes_m=np.vstack(nodes),
        corners=np.vstack(corners),
        middles=Middles(
            np.concatenate([nothing, *middle_of]),
            np.concatenate([nothing, *point_of]),
            np.concatenate([np.zeros(0), *weight_of]),
            middles,
        ),
        sides=sides,
        delaunay=delaunay,
        first=first,
        count=count,
    )


def _rings(points: FloatArray, simplices: IntArray, members: IntArray) -> IntArray:
    """Corners of cells of equally many triangles, counter-clockwise."""
    corners = np.sort(simplices[members].reshape(len(members), -1), axis=1)
    new = np.ones(corners.shape, dtype=np.bool_)
    new[:, 1:] = corners[:, 1:] != corners[:, :-1]
    rings = corners[new].reshape(len(members), members.shape[1] + 2)
    away = points[rings] - points[rings].mean(axis=1, keepdims=True)
    turn = np.argsort(np.arctan2(away[..., 1], away[..., 0]), axis=1)
    return np.take_along_axis(rings, turn, axis=1)


def _middle_weights(rings_m: FloatArray) -> FloatArray:
    """Weights of the corners of each cell, (cells, corners, 2), in its middle."""
    around = rings_m.shape[1]
    if around != 4:
        return np.full(rings_m.shape[:2], 1 / around)
    one, other = rings_m[:, 2] - rings_m[:, 0], rings_m[:, 3] - rings_m[:, 1]
    between = rings_m[:, 1] - rings_m[:, 0]
    turn = cross(one, other)
    along_one = np.clip(cross(between, other) / turn, 0, 1)
    along_other = np.clip(cross(between, one) / turn, 0, 1)
    weights = np.stack([1 - along_one, 1 - along_other, along_one, along_other], axis=1) / 2
    return weights
