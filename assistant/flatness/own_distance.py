"""
Gaps and departures that are held against the limit at their own distance.

Under a straightedge the distance is that between the two high points it rests on, not the edge's
length; with levels on a grid it is that between the two outer ones of three points in a row. Both
are tests of DIN 18202.
"""

from __future__ import annotations

from collections.abc import Callable
from math import inf

import numpy as np
from numpy.typing import ArrayLike

from assistant.flatness.limits_by_distance import LimitsByDistance
from assistant.flatness.profile import as_profiles, checked_length, station_and_share
from assistant.flatness.straightedge import noise_of_gap
from assistant.levels.arrays import FloatArray
from grammar.frozen import frozen

__all__ = ["AtDistance", "worst_facet", "worst_of_three"]

_DUST_M = 1e-9
_UNEVEN = 0.01
"""Share of a spacing by which a point may lie off the middle of its neighbours: a tape's error."""


@frozen
class AtDistance:
    """What comes nearest to its limit, or passes it by most."""

    mm: float
    limit_mm: int
    line: int
    at_m: float
    """How far from the line's beginning it is."""
    between_m: tuple[float, float]
    """The two points on either side."""
    noise: float
    """Standard deviation of the millimetres, for readings whose own is 1."""


def worst_facet(
    along_m: ArrayLike,
    heights_mm: ArrayLike,
    longest_m: float,
    limits: LimitsByDistance,
    unseen: Callable[[float], float] = lambda _apart_m: 0.0,
) -> AtDistance | None:
    """
    The gap between two high points that passes by most the limit at their own distance.

    Parameters
    ----------
    along_m : (n,) array_like
        Places, metres.
    heights_mm : (..., n) array_like
        Of one line or several; NaN where nothing was read.
    longest_m : float
        The longest edge that is laid; shorter ones are too.
    limits : LimitsByDistance
    unseen : function of a distance, metres
        The share of the limit there that the readings may hide: with it the facet that is found is
        the one that leaves least room for what they hide.

    Returns
    -------
    AtDistance or None
        None where no edge rests on two points with a third between them.

    Notes
    -----
    Two points bear an edge where nothing between them is higher than the edge. They are two
    readings, or a reading and the other end of the longest edge.
    """
    along, heights = as_profiles(along_m, heights_mm)
    longest = min(checked_length(longest_m), float(along[-1] - along[0]))
    lines = heights.reshape(-1, len(along))
    best, best_by = None, (-inf, -inf)
    for left, right in _ends(along, longest):
        inner = slice(
            int(np.searchsorted(along, left + _DUST_M)),
            int(np.searchsorted(along, right - _DUST_M)),
        )
        if inner.start < inner.stop:
            limit = limits.at(right - left)
            found = _facet(along, lines, left, right, inner, limit)
            if found is None:
                continue
            # By how far it is over its limit; of those as far the larger one.
            by = (found.mm - limit * (1 - unseen(right - left)), found.mm)
            if best is None or by > best_by:
                best, best_by = found, by
    return best


def _ends(along: FloatArray, longest: float) -> list[tuple[float, float]]:
    places = along.tolist()
    pairs = [
        (left, right)
        for row, left in enumerate(places)
        for right in places[row + 2 :]
        if right - left <= longest + _DUST_M
    ]
    pairs += [(left, left + longest) for left in places if left + longest < places[-1] - _DUST_M]
    pairs += [(right - longest, right) for right in places if right - longest > places[0] + _DUST_M]
    return pairs


def _facet(
    along: FloatArray, lines: FloatArray, left: float, right: float, inner: slice, limit: int
) -> AtDistance | None:
    rows, parts = station_and_share(along, np.array([left, right]))
    one, other = (
        _height(lines, int(row), float(part)) for row, part in zip(rows, parts, strict=True)
    )
    share = (along[inner] - left) / (right - left)
    chord = one[:, None] + (other - one)[:, None] * share
    # A place that was not read may be higher: no edge is laid across it.
    with np.errstate(invalid="ignore"):
        under = chord - lines[:, inner]
        bears = (under >= -1e-9).all(axis=1)
    if not bears.any():
        return None
    deepest = np.where(bears, under.max(axis=1), -np.inf)
    line = int(np.argmax(deepest))
    at = inner.start + int(np.argmax(under[line]))
    noise = noise_of_gap(along, at, (left, right))
    return AtDistance(
        max(float(deepest[line]), 0.0), limit, line, float(along[at]), (left, right), noise
    )


def _height(lines: FloatArray, row: int, part: float) -> FloatArray:
    one, other = lines[:, row], lines[:, row + 1]
    return one if part == 0 else other if part == 1 else one + (other - one) * part


def worst_of_three(
    along_m: ArrayLike, heights_mm: ArrayLike, limits: LimitsByDistance
) -> AtDistance | None:
    """
    The height of a point against the mean of its two neighbours on a grid of levels.

    Parameters and return as for :func:`worst_facet`. A point whose neighbours lie at unequal
    distances, as beside a narrower last column, is held against nothing.

    Examples
    --------
    >>> row_3 = LimitsByDistance((("0.1", 2), ("1", 4), ("4", 10)))
    >>> found = worst_of_three([0, 1, 2, 3], [0, 5, 0, 0], row_3)
    >>> print(found.mm, found.limit_mm, found.between_m)
    5.0 6 (0.0, 2.0)
    >>> worst_of_three([0, 1, 1.5], [0, 5, 0], row_3)
    """
    along, heights = as_profiles(along_m, heights_mm)
    if len(along) < 3:
        return None
    lines = heights.reshape(-1, len(along))
    outer = along[2:] - along[:-2]
    even = np.abs(along[1:-1] - (along[:-2] + along[2:]) / 2) <= _UNEVEN * outer / 2
    off = np.abs(lines[:, 1:-1] - (lines[:, :-2] + lines[:, 2:]) / 2)
    over = np.where(even, off - [limits.at(float(each)) for each in outer], np.nan)
    if not np.isfinite(over).any():
        return None
    # By how far it is over its limit; of those as far the larger one.
    worst = np.isclose(over, np.nanmax(over), rtol=0, atol=1e-9)
    line, at = divmod(int(np.argmax(np.where(worst, off, -np.inf))), off.shape[1])
    ends = float(along[at]), float(along[at + 2])
    return AtDistance(
        float(off[line, at]),
        limits.at(ends[1] - ends[0]),
        line,
        float(along[at + 1]),
        ends,
        float(np.sqrt(1.5)),
    )
