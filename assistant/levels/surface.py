"""
A floor's height everywhere, from its height at points.

Between the points the surface is made of triangles, beyond the outermost ones it is carried
to the walls. Geometry is worked out once in :func:`mesh_over`; heights, depths or whatever
else is read at the points come in later and only cost a few multiplications.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.area import FloorArea, as_area
from assistant.levels.arrays import BoolArray, FloatArray, IntArray, as_levels, as_places, cross
from assistant.levels.clipping import Clipped, cut_to_area
from assistant.levels.extrapolation import Extrapolation, extrapolate
from assistant.levels.triangles import Triangles, triangulate
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.area import AreaLike

SLOPE_TRUSTED = 10.0
"""How much an error of one reading may have grown, at the furthest wall, by being carried.

The floor's slope across a direction in which the points hardly spread is not carried: two
rows a hand apart say nothing about the far wall. Raising it trusts such slopes further out.
Our own choice, no source.
"""
FEWEST_FOR_SLOPE = 3
"""Points from which on a slope is carried to the walls. Two give one whatever the floor is like,
and nothing that would show it wrong: 6 mm between neighbours are 36 mm at the far wall."""
_AT_ONCE = 2_000_000
"""Comparisons of places with pieces done in one go; raising it takes more memory."""


@frozen_identity
class _Weights:
    """Heights at places: weighted sums of three nodes' heights, plus what the slope adds."""

    nodes: IntArray
    """(m, 3)"""
    weights: FloatArray
    """(m, 3), adding up to 1."""
    carried_m: FloatArray
    """(m, 2) from the nearest place between the points to the place; zero between them."""

    def heights(self, node_heights_m: FloatArray, slope: FloatArray) -> FloatArray:
        between = (self.weights * node_heights_m[self.nodes]).sum(axis=1)
        heights: FloatArray = between + self.carried_m @ slope
        return heights


@frozen_identity
class Mesh:
    """A floor cut into triangles on each of which the surface is flat; see :func:`mesh_over`."""

    points_m: FloatArray
    """(n, 2) where the heights are read, metres."""
    outline_m: FloatArray
    """(k, 2) corners of the floor along its walls, metres; of what stands on it there are none."""
    area_m2: float
    """Of the floor, less what stands on it."""
    corners_m: FloatArray
    """(c, 2) corners of the triangles. The n points come first; they are here even where
    no triangle uses them."""
    triangles: IntArray
    """(t, 3) rows of the corners. Corners of different pieces are never shared but at points
    and middles of cells."""
    areas_m2: FloatArray
    """(t,) areas; they add up to the floor's. Some are negative in rooms with inside
    corners or with holes, see :func:`~assistant.levels.clipping.cut_to_area`."""
    _triangles: Triangles
    _beyond: Extrapolation
    _cut_corners: _Weights
    _slope_of: FloatArray
    """(2, n) from heights to the slope of the whole floor, in x and y."""

    def heights_at(self, places_m: ArrayLike, heights_m: ArrayLike) -> FloatArray:
        """
        Height of the surface anywhere, also outside the outline.

        Parameters
        ----------
        places_m : (m, 2) array_like
            Metres.
        heights_m : (n,) array_like
            Heights (or depths) at the points, metres, in the points' order.

        Returns
        -------
        heights_m : (m,) array of float
            At a point, what was read there; how good elsewhere is for the floor to say.

        Raises
        ------
        SurveyError
            If a number is missing or not finite. Names the row.

        Examples
        --------
        >>> mesh = mesh_over([[1, 1], [3, 1], [1, 3]], [[0, 0], [4, 0], [4, 4], [0, 4]])
        >>> print(mesh.heights_at([[1, 1], [2, 1], [4, 4]], [0.010, 0.014, 0.010]).round(6))
        [0.01  0.012 0.016]
        """
        places = as_places(places_m)
        heights = as_levels(heights_m, len(self.points_m))
        weights = _weights_at(places, self._triangles, self._beyond)
        return weights.heights(self._node_heights(heights), self._slope(heights))

    def corner_heights(self, heights_m: ArrayLike) -> FloatArray:
        """
        Height of the surface at the corners of every triangle.

        Parameters
        ----------
        heights_m : (n,) array_like
            Heights (or depths) at the points, metres, in the points' order.

        Returns
        -------
        heights_m : (t, 3) array of float
            In the order of ``triangles``.

        Raises
        ------
        SurveyError
            If a number is missing or not finite. Names the row.

        Examples
        --------
        >>> mesh = mesh_over([[1, 1]], [[0, 0], [2, 0], [0, 2]])
        >>> print(mesh.corner_heights([0.007]))
        [[0.007 0.007 0.007]]
        """
        heights = as_levels(heights_m, len(self.points_m))
        nodes = self._node_heights(heights)
        cut = self._cut_corners.heights(nodes, self._slope(heights))
        at_corners: FloatArray = np.concatenate([nodes, cut])[self.triangles]
        return at_corners

    @cached_property
    def area_weights(self) -> FloatArray:
        """
        What each point's height counts for in the volume under the surface, (n,), square metres.

        ``area_weights @ depths`` is the volume of fill less that of cut. The weights add up to
        the area; one can be negative where a slope is carried to the walls.
        """
        thirds = np.repeat(self.areas_m2 / 3, 3)
        at_corners = np.bincount(self.triangles.ravel(), thirds, minlength=len(self.corners_m))
        count = len(self._triangles.nodes_m)
        cut = self._cut_corners
        at_nodes, at_cut = np.split(at_corners.astype(np.float64), [count])
        at_nodes = at_nodes + np.bincount(
            cut.nodes.ravel(), (cut.weights * at_cut[:, None]).ravel(), minlength=count
        )
        points = len(self.points_m)
        from_middles = self._triangles.middles.shared_out(at_nodes[points:], points)
        weights: FloatArray = at_nodes[:points] + from_middles
        weights += (at_cut @ cut.carried_m) @ self._slope_of
        return weights

    def over(self, area_m: AreaLike) -> Mesh:
        """
        The same surface over a part of the floor.

        Parameters
        ----------
        area_m : (k, 2) array_like, or shapely polygon or multipolygon
            The part, as :func:`~assistant.levels.area.as_area` takes it.

        Returns
        -------
        mesh : Mesh
            Its heights are those of this one wherever both are, also beyond the points: the
            slope that is carried to the walls stays that of the whole floor. So volumes of parts
            that together are the floor add up to the floor's.

        Raises
        ------
        SurveyError
            As :func:`~assistant.levels.area.as_area`.

        Examples
        --------
        >>> mesh = mesh_over([[1, 1], [5, 1], [3, 3]], [[0, 0], [6, 0], [6, 4], [0, 4]])
        >>> part = mesh.over([[0, 0], [2, 0], [2, 4], [0, 4]])
        >>> part.area_m2, part.heights_at([[1, 1]], [0.01, 0.02, 0.03])
        (8.0, array([0.01]))
        """
        part = _cut(self.points_m, as_area(area_m), self._triangles, self._beyond)
        return replace(part, _slope_of=self._slope_of)

    def _node_heights(self, heights_m: FloatArray) -> FloatArray:
        return np.concatenate([heights_m, self._triangles.middles.heights(heights_m)])

    def _slope(self, heights_m: FloatArray) -> FloatArray:
        # Less the mean, which makes no difference but to rounding: level floors stay level.
        slope: FloatArray = self._slope_of @ (heights_m - heights_m.mean())
        return slope


def mesh_over(points_m: ArrayLike, area_m: AreaLike) -> Mesh:
    """
    Cut a floor into triangles on which its surface is flat.

    The surface is continuous, passes through what is read at every point, and does not
    depend on the order of the points.

    * Between the points: Delaunay triangles, and for cells of a grid the four-corner
      method; see :func:`~assistant.levels.triangles.triangulate`.
    * Beyond the outermost points: ``trend(x) + residual(b)``, where the trend is the plane
      nearest to all points (least squares), b is the place nearest to x on the line round
      the points, and the residual is what the surface has there over the trend. So the
      surface at the edge goes on outwards with the slope of the whole floor. With the slope
      of the triangle at the edge, one reading 2 mm out in a narrow triangle can be 20 mm
      out at the wall; with no slope at all, a floor laid to falls would come out flat along
      its walls. A plane comes out as that plane, wherever the points are.

    Triangles may span the notch of an L-shaped room, or a column. They are kept, cut to the
    floor: on both sides of the notch, and round the column, it is usually one slab.

    Parameters
    ----------
    points_m : (n, 2) array_like
        Where heights are read, metres; at least one, in any arrangement, also outside the
        outline (those help to shape the surface inside).
    area_m : (k, 2) array_like, or shapely polygon or multipolygon
        The floor: corners of its outline, metres, either way round; or as
        :func:`~assistant.levels.area.as_area` takes it, with holes.

    Returns
    -------
    mesh : Mesh

    Raises
    ------
    SurveyError
        If there is no point, two points are at the same place, or a number is not finite
        (names the rows); and for the area as in :func:`~assistant.levels.area.as_area`.

    Notes
    -----
    A single point gives a level floor, and two one that is level beyond them. More in line, or
    nearly so, give a surface that follows them and is level across, as seen along the slope of
    the line. In general the slope in a direction is carried outwards only if an error of one
    reading, carried with it to the furthest wall, grows to no more than ten errors
    (:data:`SLOPE_TRUSTED`), and from three points on.

    Examples
    --------
    >>> mesh = mesh_over([[1, 1], [5, 1], [3, 3]], [[0, 0], [6, 0], [6, 4], [0, 4]])
    >>> mesh.area_m2, round(float(mesh.areas_m2.sum()), 9)
    (24.0, 24.0)
    """
    points = as_places(points_m, "point")
    area = as_area(area_m)
    _check_points(points)
    triangles = triangulate(points)
    whole = _cut(points, area, triangles, extrapolate(points, triangles.sides))
    carried_m = float(np.hypot(*whole._cut_corners.carried_m.T).max(initial=0))
    return replace(whole, _slope_of=_slope_of(points, carried_m))


def _cut(points: FloatArray, area: FloorArea, triangles: Triangles, beyond: Extrapolation) -> Mesh:
    """The pieces of a surface cut to an area, with no slope of the whole floor yet."""
    inner = triangles.nodes_m[triangles.corners]
    cut = cut_to_area(inner, beyond.inwards, beyond.origins_m, area)
    whole = triangles.corners[cut.whole[: len(inner)]]
    return Mesh(
        points_m=points,
        outline_m=area.corners_m,
        area_m2=area.area_m2,
        corners_m=np.vstack([triangles.nodes_m, cut.corners_m]),
        triangles=np.vstack([whole, cut.triangles + len(triangles.nodes_m)]),
        areas_m2=np.concatenate([_whole_areas(inner, cut), cut.areas_m2]),
        _triangles=triangles,
        _beyond=beyond,
        _cut_corners=_weights_in_pieces(cut.corners_m, cut.piece, triangles, beyond),
        _slope_of=np.zeros((2, len(points))),
    )


def _check_points(points: FloatArray) -> None:
    if len(points) == 0:
        raise SurveyError("A surface needs at least one point.")
    order = np.lexsort((points[:, 1], points[:, 0]))
    same = np.flatnonzero((points[order[1:]] == points[order[:-1]]).all(axis=1))
    if same.size:
        one, other = sorted((int(order[same[0]]) + 1, int(order[same[0] + 1]) + 1))
        raise SurveyError(f"The points in rows {one} and {other} are at the same place.")


def _whole_areas(inner: FloatArray, cut: Clipped) -> FloatArray:
    a, b, c = (inner[cut.whole[: len(inner)], corner] for corner in range(3))
    return np.abs(cross(b - a, c - a)) / 2


def _slope_of(points: FloatArray, carried_m: float) -> FloatArray:
    """Least squares from heights to the slope of the whole floor, where it can be trusted."""
    centred = points - points.mean(axis=0)
    left, spread, directions = np.linalg.svd(centred, full_matrices=False)
    # The standard error of a slope is that of one reading, divided by the spread.
    trusted = (spread * SLOPE_TRUSTED >= carried_m) & (spread > 1e-9 * spread[0])
    trusted &= len(points) >= FEWEST_FOR_SLOPE
    share = np.divide(1, spread, out=np.zeros_like(spread), where=trusted)
    slope_of: FloatArray = (directions.T * share) @ left.T
    return slope_of


def _weights_at(places: FloatArray, triangles: Triangles, beyond: Extrapolation) -> _Weights:
    """Find the piece each place is in, and its weights there."""
    piece = np.full(len(places), -1, dtype=np.intp)
    if triangles.delaunay is not None:
        centred = places - triangles.nodes_m[: triangles.delaunay.npoints].mean(axis=0)
        found = triangles.delaunay.find_simplex(centred).astype(np.intp)
        inside = np.flatnonzero(found >= 0)
        if inside.size:
            piece[inside] = _in_cells(places[inside], found[inside], triangles)
    outside = np.flatnonzero(piece < 0)
    piece[outside] = len(triangles.corners) + _nearest_beyond(places[outside], beyond)
    return _weights_in_pieces(places, piece, triangles, beyond)


def _in_cells(places: FloatArray, simplex: IntArray, triangles: Triangles) -> IntArray:
    """The triangle of its cell each place is in, -1 where the triangle was left to the sides."""
    first, count = triangles.first[simplex], triangles.count[simplex]
    best = first.copy()
    margin = np.full(len(places), -np.inf)
    for turn in range(int(count.max())):
        rows = np.flatnonzero(count > turn)
        tried = first[rows] + turn
        weights = _shares(places[rows], triangles.nodes_m[triangles.corners[tried]])
        least = np.minimum(weights.min(axis=1), 1 - weights.sum(axis=1))
        better = least > margin[rows]
        best[rows[better]] = tried[better]
        margin[rows[better]] = least[better]
    return best


def _nearest_beyond(places: FloatArray, beyond: Extrapolation) -> IntArray:
    """The strip or wedge each place is in."""
    found = np.zeros(len(places), dtype=np.intp)
    step = max(1, _AT_ONCE // (3 * len(beyond.corners)))
    behind = (beyond.inwards * beyond.origins_m).sum(axis=2)
    for start in range(0, len(places), step):
        some = places[start : start + step]
        margins = np.einsum("kjd,md->mkj", beyond.inwards, some) - behind
        found[start : start + step] = margins.min(axis=2).argmax(axis=1)
    return found


def _weights_in_pieces(
    places: FloatArray, piece: IntArray, triangles: Triangles, beyond: Extrapolation
) -> _Weights:
    """Weights of places in given pieces: triangles first, then those beyond."""
    inner: BoolArray = piece < len(triangles.corners)
    nodes = np.vstack([triangles.corners, beyond.corners])[piece]
    second_third = np.zeros((len(places), 2))
    at = triangles.nodes_m[nodes]
    second_third[inner] = _shares(places[inner], at[inner])
    outer = ~inner
    slopes = beyond.slopes[piece[outer] - len(triangles.corners)]
    second_third[outer] = np.einsum("mjd,md->mj", slopes, places[outer] - at[outer, 0])
    # Places are in their pieces but for rounding, which a sliver would blow up.
    second = np.clip(second_third[:, 0], 0, 1)
    third = np.clip(second_third[:, 1], 0, 1 - second)
    weights = np.column_stack([1 - second - third, second, third])
    carried = places - (weights[:, :, None] * at).sum(axis=1)
    carried[inner] = 0
    return _Weights(nodes, weights, carried)


def _shares(places: FloatArray, corners: FloatArray) -> FloatArray:
    """Weights of the second and third corner of a triangle at a place in it, (m, 2)."""
    a = corners[:, 0]
    to_second, to_third, to_place = corners[:, 1] - a, corners[:, 2] - a, places - a
    twice = cross(to_second, to_third)
    shares = np.stack([cross(to_place, to_third), cross(to_second, to_place)], axis=1)
    return np.divide(shares, twice[:, None], out=np.zeros_like(shares), where=twice[:, None] != 0)
