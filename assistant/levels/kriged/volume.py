"""
Volume between a floor and its finish, with how sure it is.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, IntArray
from assistant.levels.kriged.cells import CutCells, cells_for
from assistant.levels.kriged.finish import finish_over
from assistant.levels.kriged.mixture import Mixture
from assistant.levels.kriged.solved import SolvedCovariance
from assistant.levels.kriged.surface import KrigedSurface
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.area import AreaLike
    from assistant.levels.kriged.finish import FinishLike

DEEP_ENOUGH = 4.5
"""A depth this many standard deviations above zero is taken as surely above it."""
ENOUGH_WEIGHT = 0.02
"""Surfaces with less of the weight than this share of the best one's are left out of sums."""
_MOST_NEAR_ZERO = 300
"""Cells near zero whose pairs are all looked at; with more, a part stands for the rest."""


@frozen_identity
class Volume:
    """A volume of material and its distribution."""

    mean_m3: float
    sd_m3: float
    low_m3: float
    """2.5 % of the distribution lies below."""
    high_m3: float
    """2.5 % of the distribution lies above."""
    area_m2: float
    common_sd_m3: float
    """Part of ``sd_m3`` that comes from the zero, common to all readings."""
    _mixture: Mixture

    def quantile(self, chance: float) -> float:
        """
        Volume that is enough with a chance.

        Parameters
        ----------
        chance : float
            Between 0 and 1; 0.95 for a risk of 1 in 20 of running short.

        Returns
        -------
        volume_m3 : float

        Raises
        ------
        SurveyError
            If the chance is not between 0 and 1.
        """
        if not 0 < chance < 1:
            raise SurveyError(f"A chance is between 0 and 1, not {chance}.")
        return max(float(self._mixture.quantile(chance)[0]), 0.0)

    def chance_enough(self, volume_m3: float) -> float:
        """Chance that a volume is enough: the other way round of :meth:`quantile`."""
        if volume_m3 < 0:
            return 0.0
        return float(self._mixture.chance_below(np.array([volume_m3]))[0])


@frozen_identity
class Share:
    """The volume's mean and variance by one of the weighed surfaces."""

    surface: SolvedCovariance
    weight: float
    mean_m3: float
    variance: float
    """Of the volume, m⁶, for this surface; nothing common in it."""
    centres_m: FloatArray
    """(q, 2) of the cells."""
    sums: FloatArray
    """(q,) by how much the volume grows when a cell's floor sinks, square metres."""
    columns: FloatArray
    """(p,) the drift's columns added up so."""
    alike: FloatArray
    """(n,) covariances with the points added up so."""


def volume_with_interval(
    floor: KrigedSurface,
    area_m: AreaLike,
    finish_m: FinishLike,
    *,
    common_sd_m: float = 0.0,
) -> Volume:
    """
    Volume of material under the finish on the floor, with its 95 % interval.

    Parameters
    ----------
    floor : KrigedSurface
    area_m : (k, 2) array_like, or shapely polygon or multipolygon
        The floor, as :func:`~assistant.levels.area.as_area` takes it.
    finish_m : float, (3,) array_like or FinishInParts
        Height of the finish, metres; its height at (0, 0) and its slopes along x and y; or
        levels of parts.
    common_sd_m : float
        Standard deviation of an error common to all readings and not to the finish, metres:
        nothing when the finish is read with the same zero.

    Returns
    -------
    volume : Volume
        Of ``max(depth, 0)`` over the floor.

    Raises
    ------
    SurveyError
        For the area as :func:`~assistant.levels.area.as_area`.

    Notes
    -----
    For each surface the depths are normally distributed together. Where the depth is surely
    above zero the volume is a sum of normal depths, mean and variance exact but for the
    size of the cells. Where it may be below, each cell's mean is that of a clipped normal,
    ``m Φ(m/s) + s φ(m/s)``, and the covariance of two clipped normals is taken to the second
    term of its expansion in Hermite polynomials, ``Φ Φ' c + φ φ' c² / (2 s s')``: at worst
    (floor and finish alike all over) 2 % short in the standard deviation. Source: exact
    arithmetic; checked against simulation in the tests.

    Examples
    --------
    >>> from assistant.levels.kriging import fit_surface
    >>> corners = [[0, 0], [6, 0], [6, 4], [0, 4]]
    >>> points = [[x, y] for x in (1, 3, 5) for y in (1, 3)]
    >>> floor = fit_surface(points, [5e-3 + 2e-3 * x + 3e-3 * y for x, y in points])
    >>> round(volume_with_interval(floor, corners, 0.037).mean_m3, 5)
    0.48
    """
    shares = shares_of(floor, area_m, finish_m)
    area = float(cells_for(area_m, len(floor.points_m)).areas_m2.sum())
    weights = np.array([share.weight for share in shares])
    means = np.array([[share.mean_m3] for share in shares])
    # Only where material goes does a common error change the volume.
    wet = np.array([[share.sums.sum()] for share in shares])
    own = np.array([[share.variance] for share in shares])
    mixture = Mixture(weights, means, np.sqrt(own + (wet * common_sd_m) ** 2))
    low, high = (max(float(mixture.quantile(chance)[0]), 0.0) for chance in (0.025, 0.975))
    common = float(weights @ wet[:, 0]) * common_sd_m
    mean, sd = float(mixture.mean[0]), float(mixture.sd[0])
    return Volume(mean, sd, low, high, area, common, mixture)


def shares_of(floor: KrigedSurface, area_m: AreaLike, finish_m: FinishLike) -> list[Share]:
    """
    What each surface that counts says of the volume.

    Parameters
    ----------
    floor, area_m, finish_m
        As in :func:`volume_with_interval`.

    Returns
    -------
    shares : list of Share
        Weights add up to 1.
    """
    cells = cells_for(area_m, len(floor.points_m))
    finish = finish_over(finish_m, cells)
    columns = floor.readings.columns_at(cells.centroids_m)
    counting = np.flatnonzero(floor.weights >= ENOUGH_WEIGHT * floor.weights.max())
    weights = floor.weights[counting] / floor.weights[counting].sum()
    shares: list[Share] = []
    for group, correlations in floor.by_range(cells.centres_m, counting):
        for one in group:
            weight = float(weights[len(shares)])
            shares.append(_share(one, weight, cells, columns, correlations, finish))
    return shares


def _share(
    one: SolvedCovariance,
    weight: float,
    cells: CutCells,
    columns: FloatArray,
    correlations: FloatArray,
    finish: FloatArray,
) -> Share:
    from scipy.special import ndtr

    alike = one.sill_m**2 * correlations
    depths = finish - one.means(columns, alike)
    near = np.flatnonzero(depths < DEEP_ENOUGH * _widest_sd(one, columns, alike))
    own = np.full(len(near), one.sill_m**2)
    sds = np.maximum(np.sqrt(one.variances(columns[near], alike[near], own)), 1e-12)
    scaled = depths[near] / sds
    bell = np.exp(-0.5 * scaled**2) / np.sqrt(2 * np.pi)
    expected, growing = depths.copy(), np.ones(len(depths))
    expected[near] = np.maximum(depths[near] * ndtr(scaled) + sds * bell, 0.0)
    growing[near] = ndtr(scaled)
    sums = cells.areas_m2 * growing
    on_columns, on_points = sums @ columns, sums @ alike
    before = one.sill_m**2 * cells.spread(sums, one.range_m)
    variance = one.variances(on_columns[None], on_points[None], np.array([before]))[0]
    bent = cells.areas_m2[near] * bell / sds
    variance += _second_term(one, cells, columns, alike, near, bent, sds)
    mean = float(cells.areas_m2 @ expected)
    return Share(one, weight, mean, float(variance), cells.centres_m, sums, on_columns, on_points)


def _widest_sd(one: SolvedCovariance, columns: FloatArray, alike: FloatArray) -> FloatArray:
    """
    Bound on each cell's standard deviation, from the reading most like it alone.

    The drift's own uncertainty, with nothing of it explained, comes on top, and at most the
    whole of what one reading is unsure by together with others.
    """
    noisy = one.sill_m**2 + one.readings.variances(one.sill_m)
    left = one.sill_m**2 - (alike**2 / noisy).max(axis=1)
    drift = np.einsum("mp,mp->m", columns @ one.drift_covariance, columns)
    shared = one.columns[:, one.readings.drift.count :]
    weights = one.drift_covariance[one.readings.drift.count :, one.readings.drift.count :]
    together = np.einsum("np,np->n", shared @ weights, shared).max(initial=0.0)
    widest: FloatArray = np.sqrt(np.maximum(left, 0.0) + drift + together)
    return widest


def _second_term(
    one: SolvedCovariance,
    cells: CutCells,
    columns: FloatArray,
    alike: FloatArray,
    near: IntArray,
    bent: FloatArray,
    sds: FloatArray,
) -> float:
    """What the bend of ``max(depth, 0)`` at zero adds to the volume's variance."""
    felt = np.flatnonzero(bent * sds**2 > 1e-3 * (cells.areas_m2[near] * sds).max(initial=0))
    if not felt.size:
        return 0.0
    every = -(-len(felt) // _MOST_NEAR_ZERO)
    # A regular sample of them, weighted up to the whole; the others correlate just as much.
    chosen = felt[::every]
    heavier = len(felt) / len(chosen)
    rows = near[chosen]
    places = cells.centres_m[rows]
    own = one.alike_between(places)
    there = (columns[rows], alike[rows])
    covariance = one.covariance(there, there, own)
    return float(0.5 * heavier**2 * bent[chosen] @ covariance**2 @ bent[chosen])
