"""
Points of a total station or a laser: so few that each is a reading of its own.

A median over a wide cell would level out just what a straightedge is to find: a wave of 3 m
vanishes in cells of 3 m. So a cell holds one point where the points lie on a lattice, and hardly
more where they do not.
"""

from __future__ import annotations

from math import sqrt

import numpy as np
from numpy.typing import ArrayLike
from scipy import spatial

from assistant.errors import SurveyError
from assistant.flatness.cells import WANTED_IN_CELL, CellGrid, cells_of, sturdy_plane
from assistant.levels.arrays import FloatArray, as_levels, as_places
from grammar.frozen import frozen

__all__ = ["SquareLattice", "are_few", "cells_of_few", "lattice_of"]

WIDEST_AVERAGE_M = 0.5
"""From here on no median is taken for the floor at a place: a quarter of a wave of 2 m lies under
it. Our own choice; raising it levels out more of what a straightedge is to find."""
MOST_FEW = 20_000
"""Of a file whose points stay what they are; each cell is looked at by itself."""
_APART = 1.5
"""Sides of the square that each point has on average, where they lie anyhow: hardly a cell is then
left empty, and none holds more than a few. Raising it makes cells larger."""
_OFF = 0.15
"""Of the spacing, as far as a point may lie off its place on a lattice: a staff set down by eye."""
_FEWEST_LINES = 2
_MOST_LINES = 0.8
"""Of the lines of a lattice, as many have to be there: an edge is not laid across an empty one."""


def are_few(points: int, area_m2: float) -> bool:
    """
    Whether a median of enough points would be one over too wide a cell.

    >>> are_few(63, 48.0), are_few(40_000, 48.0)
    (True, False)
    """
    wide = points < WANTED_IN_CELL * area_m2 / WIDEST_AVERAGE_M**2
    return 0 < points <= MOST_FEW and wide


@frozen
class SquareLattice:
    """Squares whose middles a file's points lie on, nearly."""

    side_m: float
    corner_m: tuple[float, float]
    """Least x and y of the first square."""


def cells_of_few(places_m: ArrayLike, heights_mm: ArrayLike, area_m2: float) -> CellGrid:
    """
    A grid of cells with one point in each, or a few where they lie on no lattice.

    Parameters
    ----------
    places_m : (n, 2) array_like
        Places of the points, metres.
    heights_mm : (n,) array_like
    area_m2 : float
        Of the floor that they lie on.

    Raises
    ------
    SurveyError
        If there is no point, or a number is not finite (names the row).

    Notes
    -----
    A point beside the middle of its cell is carried there along the slope of the whole floor, so
    that a fall makes no gap of it.
    """
    places = as_places(places_m)
    heights = as_levels(heights_mm, len(places))
    if not len(places):
        raise SurveyError("There are no points.")
    lattice = lattice_of(places)
    if lattice is None:
        side = _APART * sqrt(area_m2 / len(places))
        low = np.floor(places.min(axis=0) / side) * side
        lattice = SquareLattice(side, (float(low[0]), float(low[1])))
    side, corner = lattice.side_m, np.array(lattice.corner_m)
    cell = np.floor((places - corner) / side)
    far = corner + (cell.max(axis=0) + 1) * side
    if len(places) > 3:
        there = np.column_stack((np.ones(len(places)), places))
        slope = np.asarray(sturdy_plane(there, heights))[1:]
        aside = corner + (cell + 0.5) * side - places
        heights = np.asarray(heights + aside @ slope, dtype=np.float64)
    far_m = (float(far[0]), float(far[1]))
    return cells_of(places, heights, side, lattice.corner_m, far_m, fewest=1)


def lattice_of(places_m: FloatArray) -> SquareLattice | None:
    """
    The square lattice that points lie on, each on a place of its own; None without one.

    >>> x, y = np.meshgrid([0.5, 2.5, 4.5], [1.0, 3.0])
    >>> lattice_of(np.column_stack((x.ravel(), y.ravel())))
    SquareLattice(side_m=2.0, corner_m=(-0.5, 0.0))
    """
    if len(places_m) < _FEWEST_LINES**2:
        return None
    nearest = np.asarray(spatial.KDTree(places_m).query(places_m, k=2)[0])[:, 1]
    about = float(np.median(nearest))
    if not about > 0:
        return None
    found = [_even(places_m[:, axis], about) for axis in (0, 1)]
    if found[0] is None or found[1] is None:
        return None
    (first_x, side_x), (first_y, side_y) = found[0], found[1]
    side = (side_x + side_y) / 2
    first = np.array([first_x, first_y])
    at = np.round((places_m - first) / side)
    off = np.abs(places_m - first - at * side)
    if off.max() > _OFF * side or len(np.unique(at, axis=0)) < len(at):
        return None
    side, first = round(side, 6), np.round(first, 6)
    return SquareLattice(side, (float(first[0] - side / 2), float(first[1] - side / 2)))


def _even(along: FloatArray, about: float) -> tuple[float, float] | None:
    """The first of evenly spaced lines across an axis and their spacing."""
    order = np.sort(along)
    groups = np.split(order, np.flatnonzero(np.diff(order) > about / 2) + 1)
    middles = np.array([float(group.mean()) for group in groups])
    if len(middles) < _FEWEST_LINES:
        return None
    numbers = np.round((middles - middles[0]) / about)
    if len(np.unique(numbers)) < len(numbers) or len(numbers) < _MOST_LINES * (numbers[-1] + 1):
        return None
    spacing, first = np.polyfit(numbers, middles, 1)
    return float(first), float(spacing)
