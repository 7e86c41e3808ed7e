"""
The parts of an earlier fit that can be used again for the next one.
"""

from __future__ import annotations

from dataclasses import replace
from itertools import groupby

import numpy as np

from assistant.levels.arrays import FloatArray
from assistant.levels.kriged.covariance import matern, pairwise_distances
from assistant.levels.kriged.likelihood import LikelihoodData, Pairs
from assistant.levels.kriged.solved import Inverse, invert

GROWS_BY = 1.15
"""Pairs of range and sill are looked for again when there are this many times the readings.

Raising it looks less often; in between only their weights follow the readings.
"""
EACH_TIME_TO = 24
"""Readings up to which the pairs are looked for at every reading."""
LOOKED_AT = 150
"""Readings that the pairs are looked for with; their weights always follow from all.

Raising it makes the search slower, by the third power.
"""
ONE_BY_ONE = 12
"""Readings more or less that are worked in one by one; for more the work starts anew."""


def looked_at(readings: LikelihoodData, size_m: float) -> LikelihoodData:
    """The readings that range and sill are looked for with."""
    count = how_many_settle(len(readings.points_m))
    rows = np.arange(count)
    if count > LOOKED_AT:
        # A fixed shuffle keeps near and far neighbours; every k-th point would keep only far.
        rows = np.sort(np.random.default_rng(0).permutation(count)[:LOOKED_AT])
    some = readings.part(rows)
    return replace(some, size_m=size_m)


def how_many_settle(count: int) -> int:
    """
    How many of so many readings range and sill are looked for with.

    Examples
    --------
    >>> [how_many_settle(count) for count in (10, 24, 27, 28, 32, 33)]
    [10, 24, 24, 28, 28, 33]
    """
    if count <= EACH_TIME_TO:
        return count
    reached = EACH_TIME_TO
    while int(np.ceil(reached * GROWS_BY)) <= count:
        reached = int(np.ceil(reached * GROWS_BY))
    return reached


def same_ranges_and_sills(one: LikelihoodData, other: LikelihoodData) -> bool:
    """Whether two sets of readings lead to the same pairs of range and sill."""
    return (
        one.size_m == other.size_m
        and one.texture_part == other.texture_part
        and np.array_equal(one.points_m, other.points_m)
        and np.array_equal(one.heights_m, other.heights_m)
        and np.array_equal(one.noise_m, other.noise_m)
        and np.array_equal(one.drift.steps_m, other.drift.steps_m)
        and _same_shared(one.shared_m, other.shared_m)
    )


def _same_shared(one: FloatArray | None, other: FloatArray | None) -> bool:
    if one is None or other is None:
        return one is other
    # A set-up begun since, of which none of these readings is, changes nothing.
    return np.array_equal(one[:, one.any(axis=0)], other[:, other.any(axis=0)])


def inverses_anew(readings: LikelihoodData, pairs: Pairs) -> tuple[Inverse, ...]:
    """Inverses for each pair."""
    away = pairwise_distances(readings.points_m, readings.points_m)
    inverses: list[Inverse] = []
    rows = range(len(pairs.ranges_m))
    for reach, group in groupby(rows, lambda row: float(pairs.ranges_m[row])):
        correlations = matern(away, reach)
        for row in group:
            sill = float(pairs.sills_m[row])
            inverses.append(invert(correlations, sill, readings.variances(sill)))
    return tuple(inverses)


def inverses_from(
    earlier: tuple[Inverse, ...], then: LikelihoodData, now: LikelihoodData, pairs: Pairs
) -> tuple[Inverse, ...]:
    """
    Inverses for each pair, from those for other readings where little has changed.

    Parameters
    ----------
    earlier : tuple of Inverse
        For ``then``, of the same pairs.
    then, now : Readings
    pairs : Pairs

    Returns
    -------
    inverses : tuple of Inverse
        As worked out anew, but for rounding.
    """
    gone, fresh = _changes(then, now)
    if len(gone) + len(fresh) > ONE_BY_ONE:
        return inverses_anew(now, pairs)
    return tuple(
        _changed(one, gone, fresh, now, (float(reach), float(sill)))
        for one, reach, sill in zip(earlier, pairs.ranges_m, pairs.sills_m, strict=True)
    )


def _changed(
    inverse: Inverse,
    gone: list[int],
    fresh: list[int],
    now: LikelihoodData,
    pair: tuple[float, float],
) -> Inverse:
    reach, sill = pair
    for row in reversed(gone):
        inverse = inverse.without(row)
    variances = now.variances(sill) + sill**2
    for row in fresh:
        covariances = sill**2 * matern(_away(now.points_m, row), reach)
        inverse = inverse.with_reading(covariances, float(variances[row]))
    return inverse


def _away(points: FloatArray, row: int) -> FloatArray:
    """Distances of a point from all before it."""
    away: FloatArray = pairwise_distances(points[[row]], points[:row])[0]
    return away


def _changes(then: LikelihoodData, now: LikelihoodData) -> tuple[list[int], list[int]]:
    """Rows of the earlier readings that are gone, and rows now that follow what is left."""
    before = list(zip(*then.points_m.T.tolist(), then.noise_m.tolist(), strict=True))
    after = list(zip(*now.points_m.T.tolist(), now.noise_m.tolist(), strict=True))
    gone: list[int] = []
    at = 0
    for row, reading in enumerate(before):
        if at < len(after) and after[at] == reading:
            at += 1
        else:
            gone.append(row)
    return gone, list(range(at, len(after)))
