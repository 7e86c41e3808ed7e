"""
The floor beyond the outermost points, cut into strips and wedges.

A strip faces the stretch of a side between two points that follow each other; a wedge fills
what is left at a corner between two sides. In each, one linear function of place says which
value the edge has at the nearest place on it.
"""

from __future__ import annotations

import numpy as np

from assistant.levels.arrays import FloatArray, IntArray, cross
from grammar.frozen import frozen_identity

_NO_TURN = 1e-12
"""Sine of a turn that is only rounding."""


@frozen_identity
class Extrapolation:
    """Pieces beyond the outermost points."""

    corners: IntArray
    """(K, 3) points whose heights count: both ends of a strip (the second twice), the corner
    of a wedge (three times)."""
    slopes: FloatArray
    """(K, 2, 2) how the weights of the second and third point grow with x and y."""
    inwards: FloatArray
    """(K, 3, 2) unit vectors; a place is in a piece if none of the three sees it behind."""
    origins_m: FloatArray
    """(K, 3, 2) from where the three look."""


def extrapolate(points_m: FloatArray, sides: tuple[IntArray, ...]) -> Extrapolation:
    """
    Strips and wedges beyond the sides.

    Parameters
    ----------
    points_m : (n, 2) array of float
        Metres.
    sides : tuple of arrays of int
        As in :class:`~assistant.levels.triangles.Triangles`; none for a single point.

    Returns
    -------
    beyond : Beyond
        With the region inside the sides they cover the plane, each place once.

    Examples
    --------
    >>> line = np.array([[0.0, 0.0], [1.0, 0.0]])
    >>> len(extrapolate(line, (np.array([0, 1]), np.array([1, 0]))).corners)
    4
    """
    if not sides:
        return _all_round()
    starts = np.concatenate([side[:-1] for side in sides])
    ends = np.concatenate([side[1:] for side in sides])
    corners = np.array([side[-1] for side in sides], dtype=np.intp)
    along = points_m[corners] - points_m[[side[0] for side in sides]]
    along = along / np.hypot(along[:, 0], along[:, 1])[:, None]
    side_of = np.repeat(np.arange(len(sides)), [len(side) - 1 for side in sides])
    strips = _strips(points_m, starts, ends, along[side_of])
    wedges = _wedges(points_m, corners, along, np.roll(along, -1, axis=0))
    return Extrapolation(
        corners=np.vstack([strips.corners, wedges.corners]),
        slopes=np.vstack([strips.slopes, wedges.slopes]),
        inwards=np.vstack([strips.inwards, wedges.inwards]),
        origins_m=np.vstack([strips.origins_m, wedges.origins_m]),
    )


def _strips(
    points_m: FloatArray, starts: IntArray, ends: IntArray, along: FloatArray
) -> Extrapolation:
    a, b = points_m[starts], points_m[ends]
    width = ((b - a) * along).sum(axis=1)
    # Points that are one above the other seen from outside leave no strip between them.
    slope = np.divide(1, width, out=np.zeros_like(width), where=width > 0)
    edge = (b - a) / np.hypot(b[:, 0] - a[:, 0], b[:, 1] - a[:, 1])[:, None]
    return Extrapolation(
        corners=np.column_stack([starts, ends, ends]),
        slopes=np.stack([along * slope[:, None], np.zeros_like(along)], axis=1),
        inwards=np.stack([along, -along, _right_of(edge)], axis=1),
        origins_m=np.stack([a, b, a], axis=1),
    )


def _wedges(
    points_m: FloatArray, corners: IntArray, before: FloatArray, after: FloatArray
) -> Extrapolation:
    sine, cosine = cross(before, after), (before * after).sum(axis=1)
    # At the end of a line the side turns right round; rounding must not turn it the other way.
    real = (sine > _NO_TURN) | ((cosine < 0) & (np.abs(sine) <= _NO_TURN))
    corners, before, after = corners[real], before[real], after[real]
    place = points_m[corners]
    return Extrapolation(
        corners=np.repeat(corners[:, None], 3, axis=1),
        slopes=np.zeros((len(corners), 2, 2)),
        inwards=np.stack([before, -after, -after], axis=1),
        origins_m=np.repeat(place[:, None], 3, axis=1),
    )


def _all_round() -> Extrapolation:
    """One piece, the whole plane: a single point is the nearest to everywhere."""
    return Extrapolation(
        corners=np.zeros((1, 3), dtype=np.intp),
        slopes=np.zeros((1, 2, 2)),
        inwards=np.zeros((1, 3, 2)),
        origins_m=np.zeros((1, 3, 2)),
    )


def _right_of(directions: FloatArray) -> FloatArray:
    """Directions turned to the right: outwards, on a walk round counter-clockwise."""
    return np.stack([directions[:, 1], -directions[:, 0]], axis=1)
