"""
The floor's height everywhere, and how sure it is: universal kriging.

:func:`fit_surface` takes the readings, and the other functions change them afterwards; the
:class:`~assistant.levels.kriged.surface.KrigedSurface` that they make gives heights with their
standard deviations, and :mod:`assistant.levels.kriged.volume` the volume with its interval. The
triangles of :mod:`assistant.levels.surface` pass through every reading and are for the map; this
surface knows that a reading is only so good and passes near it.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, IntArray, as_levels, as_places
from assistant.levels.kriged.covariance import drift_of, spread_of
from assistant.levels.kriged.likelihood import TEXTURE_PART, LikelihoodData, choose_pairs
from assistant.levels.kriged.reuse import (
    how_many_settle,
    inverses_anew,
    inverses_from,
    looked_at,
    same_ranges_and_sills,
)
from assistant.levels.kriged.surface import NOISE_SD_M, KrigedSurface

MOST_READINGS = 1000
"""Readings that are used; of more, a thousand drawn once and for all.

Raising it takes memory by the square and time by the third power: at 1000 a fit is 80 MB.
The intervals stay honest, only wider than the readings left out would have made them.
"""
_SMALLEST_M = 1.0
"""A floor's size is taken to be at least this."""


def fit_surface(
    points_m: ArrayLike,
    heights_m: ArrayLike,
    noise_sd_m: float | ArrayLike = NOISE_SD_M,
    *,
    size_m: float | None = None,
    steps_m: Sequence[ArrayLike] = (),
    texture_part: float = TEXTURE_PART,
    shared_m: ArrayLike | None = None,
    like: KrigedSurface | None = None,
) -> KrigedSurface:
    """
    Fit the floor to its readings.

    Does not ask whether a reading is a blunder; see :mod:`assistant.levels.outliers`.

    Parameters
    ----------
    points_m : (n, 2) array_like
        Metres, at least one, in any arrangement, in the order they were read. Several may
        be at one place.
    heights_m : (n,) array_like
        Metres, up positive.
    noise_sd_m : float or (n,) array_like
        Standard deviation of a reading, metres, of errors that it shares with no other. One
        error common to all readings (the datum) belongs to the volume, not here.
    size_m : float or None
        The floor from corner to corner, metres; with None as large as the points spread.
    steps_m : sequence of (2, 2) array_like
        Lines along which the floor has a step, each by two places on it.
    texture_part : float
        Unevenness too fine to be predicted from other points, as part of the rest. With no
        texture and no noise the surface passes through every reading.
    shared_m : (n, k) array_like, optional
        Of k independent errors that several readings share, such as those of the set-ups'
        zeros: what one standard deviation of each does to each reading, metres. The readings'
        covariance is that of ``noise_sd_m`` and of these together,
        ``diag(noise_sd_m²) + shared_m shared_mᵀ``.
    like : KrigedSurface or None
        An earlier fit of the same floor, of which what can be is used again. It makes the
        answer come sooner, not otherwise.

    Returns
    -------
    fit : KrigedSurface

    Raises
    ------
    SurveyError
        If there is no point, numbers are missing or not finite (names the row), a noise is
        below zero, ``shared_m`` has not a row for each point, or a step's two places are one.

    Notes
    -----
    Universal kriging with a linear drift and a Matérn 3/2 covariance, averaged over range
    and sill by the restricted likelihood times a weak prior. Matheron (1969) for kriging
    with a drift, Patterson and Thompson (1971) for the restricted likelihood, Handcock and
    Stein (1993) for the averaging (from memory).

    Which ranges and sills are averaged over follows from the first readings, in steps of
    15 %, and on a large floor from 150 of them; their weights follow from all. So the same
    readings give the same answer, and one more seldom costs much. Of more than a thousand
    readings a thousand are used (:data:`MOST_READINGS`).
    """
    points = as_places(points_m, "point")
    if len(points) == 0:
        raise SurveyError("A surface needs at least one point.")
    heights = as_levels(heights_m, len(points))
    noise = _as_noise(noise_sd_m, len(points))
    shared = _as_shared(shared_m, len(points))
    if len(points) > MOST_READINGS:
        rows = drawn_rows(len(points))
        points, heights, noise = points[rows], heights[rows], noise[rows]
        shared = None if shared is None else shared[rows]
    steps = np.array(steps_m, dtype=np.float64).reshape(-1, 2, 2)
    if size_m is None:
        # Of those readings only that range and sill are looked for with, or none would last.
        size_m = spread_of(points[: how_many_settle(len(points))])
    size = max(size_m, _SMALLEST_M)
    drift = drift_of(points, steps)
    readings = LikelihoodData(points, heights, noise, drift, size, texture_part, shared)
    some = looked_at(readings, size)
    if like is None or not same_ranges_and_sills(like.looked_at, some):
        pairs = choose_pairs(some)
        return KrigedSurface(readings, pairs, some, inverses_anew(readings, pairs))
    return _changed(like, readings)


def with_reading(
    floor: KrigedSurface,
    place_m: ArrayLike,
    height_m: float,
    noise_sd_m: float = NOISE_SD_M,
    shared_m: FloatArray | None = None,
) -> KrigedSurface:
    """
    The fit with one more reading, ranges and sills as they were, only weighed anew.

    Parameters
    ----------
    floor : KrigedSurface
    place_m : (2,) array_like
    height_m : float
    noise_sd_m : float
        Metres.
    shared_m : (k,) array of float, optional
        How it follows the errors that readings share; None for not at all.

    Returns
    -------
    fit : KrigedSurface

    Raises
    ------
    SurveyError
        If a number is not finite.
    """
    old = floor.readings
    points = np.vstack([old.points_m, as_places(np.atleast_2d(place_m))])
    heights = np.concatenate([old.heights_m, as_levels([height_m], 1)])
    noise = np.concatenate([old.noise_m, _as_noise(noise_sd_m, 1)])
    shared = old.shared_m
    if shared is not None:
        own = np.zeros(shared.shape[1]) if shared_m is None else shared_m
        shared = np.vstack([shared, own])
    drift = drift_of(points, old.drift.steps_m)
    now = LikelihoodData(points, heights, noise, drift, old.size_m, old.texture_part, shared)
    return _changed(floor, now)


def without_points(floor: KrigedSurface, rows: ArrayLike) -> KrigedSurface:
    """
    The fit without some of its points, ranges and sills as they were, only weighed anew.

    Parameters
    ----------
    floor : KrigedSurface
    rows : (q,) array_like of int
        Of the points to leave out, from 0.

    Returns
    -------
    fit : KrigedSurface

    Raises
    ------
    SurveyError
        If no point would be left.
    """
    old = floor.readings
    kept = np.delete(np.arange(len(old.points_m)), np.asarray(rows, dtype=np.intp))
    if len(kept) == 0:
        raise SurveyError("There is no other point to judge this one by.")
    return _changed(floor, old.part(kept))


def of_part(
    floor: KrigedSurface,
    points_m: ArrayLike,
    heights_m: ArrayLike,
    noise_sd_m: ArrayLike,
    shared_m: ArrayLike | None = None,
) -> KrigedSurface:
    """
    The surface through other readings of a floor, ranges and sills as they were for the whole.

    Of a floor with more than :data:`MOST_READINGS` the fit uses so many; this takes it to a part
    of the floor with every reading there.

    Parameters
    ----------
    floor : KrigedSurface
        Of the whole floor.
    points_m, heights_m, noise_sd_m, shared_m
        As in :func:`fit_surface`.

    Returns
    -------
    fit : KrigedSurface

    Raises
    ------
    SurveyError
        As :func:`fit_surface`.
    """
    points = as_places(points_m, "point")
    heights = as_levels(heights_m, len(points))
    noise = _as_noise(noise_sd_m, len(points))
    old = floor.readings
    drift = drift_of(points, old.drift.steps_m)
    shared = _as_shared(shared_m, len(points))
    some = LikelihoodData(points, heights, noise, drift, old.size_m, old.texture_part, shared)
    return KrigedSurface(some, floor.pairs, floor.looked_at, inverses_anew(some, floor.pairs))


def _changed(floor: KrigedSurface, readings: LikelihoodData) -> KrigedSurface:
    inverses = inverses_from(floor.inverses, floor.readings, readings, floor.pairs)
    return KrigedSurface(readings, floor.pairs, floor.looked_at, inverses)


def _as_noise(noise_sd_m: float | ArrayLike, count: int) -> FloatArray:
    noise = np.asarray(noise_sd_m, dtype=np.float64)
    noise = as_levels(np.full(count, noise) if noise.ndim == 0 else noise, count, "noise")
    if (noise < 0).any():
        raise SurveyError("A reading's standard deviation is not below zero.")
    return noise


def _as_shared(shared_m: ArrayLike | None, count: int) -> FloatArray | None:
    if shared_m is None:
        return None
    shared = np.asarray(shared_m, dtype=np.float64)
    if shared.ndim != 2 or len(shared) != count:
        raise SurveyError(f"Shared errors need a row for each of {count} points.")
    if not np.isfinite(shared).all():
        raise SurveyError("A shared error is not finite.")
    return shared if shared.shape[1] else None


def drawn_rows(count: int) -> IntArray:
    """Rows that are used of too many readings; one more changes one row at most."""
    lots = np.random.default_rng(0).random(count)
    return np.sort(np.argsort(lots, kind="stable")[:MOST_READINGS])
