"""
How much material lies behind a line that is carried across the floor.

A pour goes from one wall towards the way out. What it has taken when its front stands at some
place is the volume behind a line across the room; here that is worked out exactly for a surface
of flat triangles, with columns, pits and fixed furniture cut out.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray, cross
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

_AT_ONCE = 2_000_000
"""Triangles times lines looked at in one go; raising it takes more memory."""
_NOTHING_M2 = 1e-12
"""Area of a piece that is left out: what rounding leaves along a cut."""


@frozen_identity
class FillAlong:
    """A floor seen along the way of the pour; made by :func:`fill_along`."""

    from_m: float
    """Where the floor begins, metres along the direction from the origin of places."""
    to_m: float
    """Where it ends, metres from the same origin."""
    _at_m: FloatArray
    """(t, 3) where the corners of each piece lie along the direction, ascending."""
    _depth_m: FloatArray
    """(t, 3) depth at the same corners, none below zero."""
    _area_m2: FloatArray
    """(t,) area of each piece; negative where it is taken off again."""

    @property
    def volume_m3(self) -> float:
        """The whole volume to be poured."""
        return float(self._area_m2 @ self._depth_m.mean(axis=1))

    @property
    def area_m2(self) -> float:
        """The whole area of the floor, with its high spots."""
        return float(self._area_m2.sum())

    def volume_behind(self, lines_m: ArrayLike) -> FloatArray:
        """
        Volume between the start and lines across the floor.

        Parameters
        ----------
        lines_m : (n,) array_like
            Where the lines lie along the direction, metres.

        Returns
        -------
        volume_m3 : (n,) array of float
            Exact for the surface of flat triangles: its sections across are straight, so the
            volume is a cubic between the corners of each triangle.
        """
        return self._behind(lines_m, self._depth_m)

    def area_behind(self, lines_m: ArrayLike) -> FloatArray:
        """Area between the start and lines across the floor, (n,) square metres."""
        return self._behind(lines_m, np.ones_like(self._depth_m))

    def _behind(self, lines_m: ArrayLike, depth_m: FloatArray) -> FloatArray:
        lines = np.asarray(lines_m, dtype=np.float64)
        some = max(1, _AT_ONCE // len(self._area_m2))
        parts = [
            _behind_lines(lines[at : at + some], self._at_m, depth_m, self._area_m2)
            for at in range(0, len(lines), some)
        ]
        return np.concatenate(parts) if parts else np.zeros(0)


def fill_along(
    triangles_m: ArrayLike,
    depths_m: ArrayLike,
    direction: ArrayLike,
    *,
    areas_m2: ArrayLike | None = None,
    only: Polygon | MultiPolygon | None = None,
) -> FillAlong:
    """
    Look at a floor along the way of its pour.

    Parameters
    ----------
    triangles_m : (t, 3, 2) array_like
        Corners of flat triangles, metres.
    depths_m : (t, 3) array_like
        Depth at each corner, metres, positive where material goes. Where it is negative the
        floor stands above the finish: nothing is poured and nothing is taken off.
    direction : (2,) array_like
        The way the front goes; any length but none.
    areas_m2 : (t,) array_like, optional
        Signed areas, where some triangles are taken off again (see
        :func:`~assistant.levels.clipping.cut_to_area`); without them all count.
    only : shapely.Polygon or MultiPolygon, optional
        The part of the floor that is poured: the room less what stands in it.

    Returns
    -------
    FillAlong

    Raises
    ------
    SurveyError
        If nothing is left to be poured on, or the direction has no length.

    Examples
    --------
    A floor of 4 by 1 m, 10 mm deep throughout.

    >>> fill = fill_along([[[0, 0], [4, 0], [4, 1]], [[0, 0], [4, 1], [0, 1]]],
    ...                   np.full((2, 3), 0.010), (1, 0))
    >>> print(fill.volume_behind([1.0, 4.0]).round(6))
    [0.01 0.04]
    """
    triangles = np.asarray(triangles_m, dtype=np.float64)
    depths = np.asarray(depths_m, dtype=np.float64)
    way = np.asarray(direction, dtype=np.float64)
    length = float(np.hypot(*way))
    if not length > 0:
        raise SurveyError("The way of a pour needs a direction.")
    found = _areas(triangles)
    signed = found if areas_m2 is None else np.asarray(areas_m2, dtype=np.float64)
    sign = np.sign(signed)
    if only is not None:
        triangles, depths, sign = _cut_to(triangles, depths, sign, only)
    triangles, depths, sign = _split_at_finish(triangles, depths, sign)
    areas = _areas(triangles) * sign
    kept = np.abs(areas) > _NOTHING_M2
    if not kept.any():
        raise SurveyError("There is no floor to pour on there.")
    along = triangles[kept] @ (way / length)
    order = np.argsort(along, axis=1)
    at_m = np.take_along_axis(along, order, axis=1)
    depth = np.take_along_axis(np.maximum(depths[kept], 0.0), order, axis=1)
    return FillAlong(float(at_m.min()), float(at_m.max()), at_m, depth, areas[kept])


def joined(fills: Sequence[FillAlong]) -> FillAlong:
    """Several parts of a floor, seen along the same way, as one; at least one."""
    return FillAlong(
        min(fill.from_m for fill in fills),
        max(fill.to_m for fill in fills),
        np.concatenate([fill._at_m for fill in fills]),
        np.concatenate([fill._depth_m for fill in fills]),
        np.concatenate([fill._area_m2 for fill in fills]),
    )


def _behind_lines(
    lines: FloatArray, at_m: FloatArray, depth_m: FloatArray, area_m2: FloatArray
) -> FloatArray:
    """Volume of all triangles behind each line; by the sections across, exactly."""
    first, middle, last = at_m.T
    # Where the middle corner lies beside an end there is no wedge, and its share counts nothing.
    span, rise, fall = np.maximum((last - first, middle - first, last - middle), 1e-300)
    # Where the middle corner's section meets the long side, and the mean depth along it.
    across = depth_m[:, 0] + rise / span * (depth_m[:, 2] - depth_m[:, 0])
    mean = (depth_m[:, 1] + across) / 2
    # The section is widest there: 2 · area / span.
    widest = 2 * area_m2 / span
    near = np.clip((lines[:, None] - first) / rise, 0, 1)
    far = np.clip((last - lines[:, None]) / fall, 0, 1)
    up_to = rise * _wedge(near, depth_m[:, 0], mean)
    rest = fall * (_wedge(1.0, depth_m[:, 2], mean) - _wedge(far, depth_m[:, 2], mean))
    volume: FloatArray = ((up_to + rest) * widest).sum(axis=1)
    return volume


def _wedge(share: FloatArray | float, at_tip: FloatArray, at_base: FloatArray) -> Any:
    """Integral over a wedge from its tip, per its full width and length."""
    square = np.square(share)
    return at_tip * square / 2 + (at_base - at_tip) * square * share / 3


def _areas(triangles: FloatArray) -> FloatArray:
    a, b, c = triangles[:, 0], triangles[:, 1], triangles[:, 2]
    areas: FloatArray = np.abs(cross(b - a, c - a)) / 2
    return areas


def _split_at_finish(
    triangles: FloatArray, depths: FloatArray, sign: FloatArray
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """The same, with those that the finish crosses cut along it, so that none has both sides."""
    crossed: BoolArray = (depths.min(axis=1) < 0) & (depths.max(axis=1) > 0)
    if not crossed.any():
        return triangles, depths, sign
    corners, depth = triangles[crossed], depths[crossed]
    above = depth > 0
    one_alone = above.sum(axis=1) == 1
    alone = np.where(one_alone, np.argmax(above, axis=1), np.argmin(above, axis=1))
    turned = (alone[:, None] + np.arange(3)) % 3
    corners = np.take_along_axis(corners, turned[:, :, None], axis=1)
    depth = np.take_along_axis(depth, turned, axis=1)
    shares = depth[:, :1] / (depth[:, :1] - depth[:, 1:])
    cuts = corners[:, :1] + shares[:, :, None] * (corners[:, 1:] - corners[:, :1])
    tip, second, third = corners[:, 0], corners[:, 1], corners[:, 2]
    zero = np.zeros(len(corners))
    new = (
        ([tip, cuts[:, 0], cuts[:, 1]], [depth[:, 0], zero, zero]),
        ([cuts[:, 0], second, third], [zero, depth[:, 1], depth[:, 2]]),
        ([cuts[:, 0], third, cuts[:, 1]], [zero, depth[:, 2], zero]),
    )
    return (
        np.concatenate([triangles[~crossed], *(np.stack(place, axis=1) for place, _ in new)]),
        np.concatenate([depths[~crossed], *(np.stack(deep, axis=1) for _, deep in new)]),
        np.concatenate([sign[~crossed], *(3 * [sign[crossed]])]),
    )


def _cut_to(
    triangles: FloatArray, depths: FloatArray, sign: FloatArray, only: Polygon | MultiPolygon
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """The parts of triangles that lie in a polygon, as triangles with the same depths."""
    import shapely

    shapes = shapely.polygons(triangles)
    shapely.prepare(only)
    whole = shapely.covers(only, shapes)
    partly = np.flatnonzero(~whole & shapely.intersects(only, shapes))
    pieces = shapely.constrained_delaunay_triangles(shapely.intersection(shapes[partly], only))
    parts, owner = shapely.get_parts(pieces, return_index=True)
    if not len(parts):
        return triangles[whole], depths[whole], sign[whole]
    owner = partly[owner]
    corners = shapely.get_coordinates(parts).reshape(len(parts), 4, 2)[:, :3]
    cut_depths = _depths_in(corners, triangles[owner], depths[owner])
    return (
        np.concatenate([triangles[whole], corners]),
        np.concatenate([depths[whole], cut_depths]),
        np.concatenate([sign[whole], sign[owner]]),
    )


def _depths_in(places: FloatArray, triangles: FloatArray, depths: FloatArray) -> FloatArray:
    """Depth at three places in each triangle, (n, 3), on its plane."""
    a, b, c = (triangles[:, corner, None] for corner in range(3))
    twice = cross(b - a, c - a)
    twice = np.where(twice == 0, 1.0, twice)
    second = cross(places - a, c - a) / twice
    third = cross(b - a, places - a) / twice
    deep = depths[:, :, None]
    found: FloatArray = (1 - second - third) * deep[:, 0] + second * deep[:, 1] + third * deep[:, 2]
    return found
