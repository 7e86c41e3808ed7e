"""
Where one more reading would tell most about the volume, and whether it still pays.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, IntArray, as_levels, as_places
from assistant.levels.kriged.cells import about_so_many
from assistant.levels.kriged.surface import NOISE_SD_M, KrigedSurface
from assistant.levels.kriged.volume import Share, shares_of
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.area import AreaLike
    from assistant.levels.kriged.finish import FinishLike

PAYS_FROM = 0.10
"""More readings pay while they make the interval narrower by this part.

Our own choice, no source. Raising it ends surveys sooner.
"""
_LATTICE = 250
"""Places tried when none are given; raising it finds the best place more nearly."""


@frozen_identity
class NextReadings:
    """Readings to take, in order, and what they do to the volume's interval."""

    rows: IntArray
    """(c,) of the candidates, the first the best on its own."""
    places_m: FloatArray
    """(c, 2)"""
    sd_before_m3: float
    """Standard deviation of the volume as it stands."""
    sds_m3: FloatArray
    """(c,) what can be expected after each."""

    @property
    def shrinks(self) -> FloatArray:
        """(c,) part by which the interval is narrower after each and those before it."""
        if self.sd_before_m3 == 0:
            return np.zeros(len(self.sds_m3))
        return 1 - self.sds_m3 / self.sd_before_m3

    @property
    def pays(self) -> bool:
        """Whether all of them together narrow the interval enough to be worth the walk."""
        return bool(len(self.sds_m3)) and bool(self.shrinks[-1] >= PAYS_FROM)


def where_next(
    floor: KrigedSurface,
    area_m: AreaLike,
    finish_m: FinishLike,
    candidates_m: ArrayLike | None = None,
    *,
    count: int = 1,
    noise_sd_m: float = NOISE_SD_M,
    shared_m: FloatArray | None = None,
    preference: ArrayLike | None = None,
) -> NextReadings:
    """
    The readings that shrink the volume's interval most, chosen one after the other.

    Parameters
    ----------
    floor : KrigedSurface
    area_m : (k, 2) array_like, or shapely polygon or multipolygon
        The floor, as :func:`~assistant.levels.area.as_area` takes it.
    finish_m : float or (3,) array_like
        A level, or a height at (0, 0) and two slopes.
    candidates_m : (m, 2) array_like or None
        Places that could be read, such as the grid's points without a reading; with None a
        lattice over the floor.
    count : int
        How many to choose; fewer come back when there are fewer candidates.
    noise_sd_m : float
        Standard deviation of a reading, metres.
    shared_m : (k,) array of float, optional
        How a reading to come follows the errors that readings share, as in
        :func:`~assistant.levels.kriging.fit_surface`; None for not at all.
    preference : (m,) array_like or None
        What a candidate's gain is multiplied by in the choice, for doors and suspected high
        spots: 2 lets it win over a place that tells up to twice as much.

    Returns
    -------
    readings : NextReadings

    Raises
    ------
    SurveyError
        If a number is missing or not finite, or count is below 1.

    Notes
    -----
    A reading z takes at least ``cov(V, z)² / var(z)`` off the variance of the volume V on
    average, whatever it says: exact arithmetic (the best linear estimate), with the moments
    of the mixture of surfaces. What a reading tells about range and sill beyond that is not
    counted, so with few readings it may pay more than said.

    Examples
    --------
    One end of the floor has not been read.

    >>> from assistant.levels.kriging import fit_surface
    >>> points = [[x, y] for x in (1, 3, 5) for y in (1, 3)]
    >>> floor = fit_surface(points, [0.002, 0.000, 0.004, 0.003, 0.001, 0.002])
    >>> corners = [[0, 0], [10, 0], [10, 4], [0, 4]]
    >>> found = where_next(floor, corners, 0.020, [[2, 2], [4, 2], [8, 2]])
    >>> found.rows.tolist(), found.pays
    ([2], True)
    """
    if count < 1:
        raise SurveyError(f"At least one reading is to be chosen, not {count}.")
    given = candidates_m is not None
    if candidates_m is None:
        candidates_m = about_so_many(area_m, _LATTICE).centroids_m
    places = as_places(candidates_m)
    factor = np.ones(len(places))
    if preference is not None and given:
        factor = as_levels(preference, len(places), "preference")
    shares = shares_of(floor, area_m, finish_m)
    together = _moments(shares, places, noise_sd_m, shared_m)
    before = float(np.sqrt(max(together[0, 0], 0.0)))
    rows, sds = _greedy(together, factor, min(count, len(places)))
    return NextReadings(rows, places[rows], before, sds)


def _moments(
    shares: list[Share], places: FloatArray, noise_sd_m: float, shared_m: FloatArray | None
) -> FloatArray:
    """Covariance of the volume, then of readings at the places, (1 + m, 1 + m)."""
    size = len(places) + 1
    together = np.zeros((size, size))
    means = np.zeros((len(shares), size))
    for row, share in enumerate(shares):
        one = share.surface
        there = (one.readings.columns_at(places, shared_m), one.alike(places))
        covariance = one.covariance(there, there, one.alike_between(places))
        covariance.flat[::size] += noise_sd_m**2 + one.texture_m**2
        with_volume = _with_volume(share, places, there)
        together[1:, 1:] += share.weight * covariance
        together[0, 1:] += share.weight * with_volume
        together[0, 0] += share.weight * share.variance
        means[row] = np.concatenate([[share.mean_m3], one.means(*there)])
    together[1:, 0] = together[0, 1:]
    weights = np.array([share.weight for share in shares])
    apart = means - weights @ means
    together += (apart.T * weights) @ apart
    return together


def _with_volume(
    share: Share, places: FloatArray, there: tuple[FloatArray, FloatArray]
) -> FloatArray:
    """Covariance of the volume with the height at places: minus, as a rise takes volume."""
    one = share.surface
    whole = (share.columns[None], share.alike[None])
    before = share.sums @ one.alike_between(share.centres_m, places)
    covariance: FloatArray = -one.covariance(whole, there, before[None])[0]
    return covariance


def _greedy(together: FloatArray, factor: FloatArray, count: int) -> tuple[IntArray, FloatArray]:
    rows: list[int] = []
    sds: list[float] = []
    left = together.copy()
    for _ in range(count):
        own = np.diagonal(left)[1:]
        known = own > 1e-12 * np.diagonal(together)[1:]
        gains = np.divide(left[0, 1:] ** 2, own, out=np.zeros(len(own)), where=known)
        preferred = gains * factor
        preferred[rows] = -1.0
        best = int(preferred.argmax())
        column = left[:, best + 1].copy()
        left -= np.multiply.outer(column / column[best + 1], column)
        rows.append(best)
        sds.append(float(np.sqrt(max(left[0, 0], 0.0))))
    return np.array(rows, dtype=np.intp), np.array(sds)
