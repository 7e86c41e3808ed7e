"""
A large floor in parts that overlap, so that each point can be judged by all that lie near it.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from assistant.levels.arrays import FloatArray, IntArray
from grammar.frozen import frozen_identity

MOST_IN_TILE = 200
"""Points judged together; raising it makes fewer and larger matrices."""
NEAREST = 40
"""Neighbours that each point has in its tile at least. Beyond two or three rows of points the
rest of the floor tells nothing more of one place."""


@frozen_identity
class Tile:
    """Points to judge, and all those they are judged with."""

    judged: IntArray
    """(m,) rows; each point is in one tile."""
    rows: IntArray
    """(n,) rows in rising order, the judged ones and their neighbours."""


def tiles(points_m: FloatArray) -> Iterator[Tile]:
    """
    Parts of a floor, each with the neighbours of its points.

    Parameters
    ----------
    points_m : (n, 2) array of float

    Yields
    ------
    tile : Tile

    Examples
    --------
    >>> points = np.stack(np.meshgrid(np.arange(30.0), np.arange(20.0)), 2).reshape(-1, 2)
    >>> [(len(tile.judged), len(tile.rows) < 250) for tile in tiles(points)]
    [(150, True), (150, True), (150, True), (150, True)]
    """
    from scipy.spatial import KDTree

    tree = KDTree(points_m)
    for judged in _halved(points_m, np.arange(len(points_m))):
        _, near = tree.query(points_m[judged], k=min(NEAREST + 1, len(points_m)))
        yield Tile(judged, np.unique(np.append(near, judged)).astype(np.intp))


def _halved(points_m: FloatArray, rows: IntArray) -> Iterator[IntArray]:
    """Halves across the longer side, till each is small enough."""
    if len(rows) <= MOST_IN_TILE:
        yield rows
        return
    longer = int(np.ptp(points_m[rows], axis=0).argmax())
    order = rows[np.argsort(points_m[rows, longer], kind="stable")]
    for half in np.array_split(order, 2):
        yield from _halved(points_m, np.sort(half))
