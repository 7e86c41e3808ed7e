"""Pieces of a floor cut to its area, and into triangles."""

from __future__ import annotations

import numpy as np

from assistant.levels.area import FloorArea
from assistant.levels.arrays import BoolArray, FloatArray, IntArray, cross
from grammar.frozen import frozen_identity

_NOTHING = 1e-14
"""Part of the floor below which a piece is left out as rounding."""


@frozen_identity
class Clipped:
    """What is left of pieces inside an area."""

    whole: BoolArray
    """(p,) pieces that lie inside altogether; the rest of this is about the others."""
    corners_m: FloatArray
    """(q, 2) corners of what is left of the others."""
    piece: IntArray
    """(q,) the number of the piece that each corner belongs to."""
    triangles: IntArray
    """(t, 3) rows of the corners."""
    areas_m2: FloatArray
    """(t,) with a sign, see :func:`cut_to_area`."""


def cut_to_area(
    triangles_m: FloatArray, inwards: FloatArray, origins_m: FloatArray, area: FloorArea
) -> Clipped:
    """
    Cut pieces to an area.

    Parameters
    ----------
    triangles_m : (i, 3, 2) array of float
        Corners of triangles, metres, counter-clockwise.
    inwards, origins_m : (j, 3, 2) array of float
        Further pieces, each of all places that none of three unit vectors, looking from
        their origins, sees behind.
    area : FloorArea

    Returns
    -------
    cut : Clipped
        Triangles first, then the others.

    Notes
    -----
    Each ring of the area is cut along each border of a piece in turn (Sutherland and Hodgman 1974,
    from memory). Each cut only decides on which side corners are, so rounding moves a border by
    rounding and no more. Intersecting polygons in general, by finding how their edges run
    into each other, was tried: where borders of pieces meet a corner or lie along a wall but
    for rounding, it now and then lost a piece, or took one twice.

    What is left is cut into a fan of triangles from its first corner. Where a piece reaches
    round an inside corner of the outline (in an L-shaped room) what is left is not convex;
    triangles of the fan that lie outside it then have a negative area and take away exactly
    what others had too much. Any integral of a function that is defined on the whole plane
    comes out right, and the linear function of a piece is. In the same way what the ring of a
    hole leaves of a piece counts as negative, and takes away what the outline left there.

    Examples
    --------
    >>> from assistant.levels.area import as_area
    >>> room = np.array([[0.0, 0.0], [2.0, 0.0], [2.0, 2.0], [0.0, 2.0]])
    >>> triangles = np.array([[[0.0, 0.0], [1.0, 0.0], [0.0, 1.0]], [[1, 1], [4, 1], [1, 4]]])
    >>> cut = cut_to_area(triangles, np.zeros((0, 3, 2)), np.zeros((0, 3, 2)), as_area(room))
    >>> print(cut.whole, cut.areas_m2.sum())
    [ True False] 1.0
    """
    whole = np.zeros(len(triangles_m) + len(inwards), dtype=np.bool_)
    whole[: len(triangles_m)], meets = _whole_and_met(triangles_m, area)
    pieces = np.concatenate([meets, np.arange(len(triangles_m), len(whole))])
    edges = np.roll(triangles_m[meets], -1, axis=1) - triangles_m[meets]
    lefts = np.stack([-edges[..., 1], edges[..., 0]], axis=2)
    all_inwards = np.concatenate([lefts, inwards])
    all_origins = np.concatenate([triangles_m[meets], origins_m])
    piece, which = _pairs(area.rings_m, all_inwards, all_origins)
    rings, ring = _clip(area.rings_m, which, all_inwards[piece], all_origins[piece])
    triangles, areas = _fans(rings, ring)
    ring_of = ring[triangles[:, 0]]
    left_over = np.abs(np.bincount(ring_of, areas, minlength=len(piece))) > _NOTHING * area.area_m2
    kept = left_over[ring_of]
    return Clipped(whole, rings, pieces[piece[ring]], triangles[kept], areas[kept])


def _whole_and_met(triangles_m: FloatArray, area: FloorArea) -> tuple[BoolArray, IntArray]:
    """Which triangles lie inside the area, and the rows of those that do so in part."""
    # Imported late: many commands need no outline.
    import shapely

    floor = area.polygon
    shapely.prepare(floor)
    triangles = shapely.polygons(triangles_m)
    # Not "covers", which now and then says so of what lies outside, where an edge of the floor
    # runs through its corner but for rounding.
    whole: BoolArray = shapely.contains(floor, triangles)
    rest = np.flatnonzero(~whole)
    return whole, rest[shapely.intersects(floor, triangles[rest])]


def _pairs(
    rings: tuple[FloatArray, ...], inwards: FloatArray, origins: FloatArray
) -> tuple[IntArray, IntArray]:
    """Pieces and rings that may meet: rows of the pieces, and of the rings, pair by pair."""
    met = np.ones((len(inwards), len(rings)), dtype=np.bool_)
    if len(rings) > 1:
        corners = np.vstack(rings)
        starts = np.cumsum([0, *(len(ring) for ring in rings[:-1])])
        for border in range(3):
            behind = (inwards[:, border] * origins[:, border]).sum(axis=1)
            away = inwards[:, border] @ corners.T - behind[:, None]
            met &= np.maximum.reduceat(away, starts, axis=1) >= 0
    piece, which = np.nonzero(met)
    return piece, which


def _clip(
    rings: tuple[FloatArray, ...], which: IntArray, inwards: FloatArray, origins: FloatArray
) -> tuple[FloatArray, IntArray]:
    """
    Rings cut along all borders of a piece.

    Parameters
    ----------
    rings : tuple of (k, 2) arrays of float
    which : (p,) array of int
        The ring that each piece cuts.
    inwards, origins : (p, 3, 2) array of float
        Of the pieces.

    Returns
    -------
    corners : (q, 2) array of float
        Of what is left, one ring after the other.
    ring : (q,) array of int
        Which of the p each belongs to.
    """
    sizes = np.array([len(each) for each in rings])[which]
    ring = np.repeat(np.arange(len(which)), sizes)
    corners = np.vstack([np.zeros((0, 2)), *(rings[row] for row in which.tolist())])
    for border in range(3):
        away = ((corners - origins[ring, border]) * inwards[ring, border]).sum(axis=1)
        following = _following(ring)
        inside = away >= 0
        crosses = inside != inside[following]
        difference = np.where(crosses, away - away[following], 1.0)
        share = (away / difference)[:, None]
        crossing = corners + share * (corners[following] - corners)
        # For each corner itself, then the crossing after it; whichever there is.
        both = np.stack([corners, crossing], axis=1)
        there = np.stack([inside, crosses], axis=1)
        corners, ring = both[there], np.repeat(ring, there.sum(axis=1))
    return corners, ring


def _following(ring: IntArray) -> IntArray:
    """The row of the corner after each, round its own ring."""
    following = np.arange(1, len(ring) + 1)
    starts = np.flatnonzero(np.diff(ring, prepend=-1))
    following[np.append(starts[1:], len(ring))[: len(starts)] - 1] = starts
    return following


def _fans(corners: FloatArray, ring: IntArray) -> tuple[IntArray, FloatArray]:
    """Triangles of every ring from its first corner."""
    sizes = np.bincount(ring)
    starts = np.cumsum(sizes) - sizes
    place = np.arange(len(corners)) - starts[ring]
    second = np.flatnonzero((place >= 1) & (place <= sizes[ring] - 2))
    triangles = np.column_stack([starts[ring[second]], second, second + 1])
    a, b, c = (corners[triangles[:, side]] for side in range(3))
    return triangles, cross(b - a, c - a) / 2
