"""
Which ranges and sizes of unevenness suit a floor's readings, and how well each does.

How far unevenness reaches (``range_m``) and how high it is (``sill_m``, a standard
deviation) are never known, so no single pair is settled on: a few pairs are kept, each with
the weight it deserves. One best pair would make the intervals too narrow, most of all with
few readings.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import exp

import numpy as np

from assistant.levels.arrays import FloatArray, IntArray
from assistant.levels.kriged.covariance import Drift, drift_of, matern, pairwise_distances

RANGE_PART = 0.2
"""Likeliest range before any reading, as part of the floor's size."""
RANGE_SPREAD = 1.0
"""Spread of the logarithm of the range: 1 means a factor of 2.7 either way is ordinary.

Raising either range number lets smooth floors be smoother; raising the spreads leaves more to
few readings and widens their intervals. These and the texture were settled on simulated
floors other than those reported (tests/benchmarks/volume_coverage.py); no source.
"""
SILL_A_METRE = 0.0007
"""Likeliest size of unevenness before any reading, metres for each metre of the floor's size."""
SILL_SPREAD = 1.0
"""Spread of the logarithm of the size of unevenness."""
TEXTURE_PART = 0.1
"""Standard deviation of texture, finer than any two points show, as part of the sill.

Trowel marks and the like: no reading speaks for the floor beside it quite. Raising it widens
all intervals; without it those of rough floors hold the true volume in 9 of 10 cases only.
"""
_UNIT_M = 0.001
"""Shared errors are reckoned in this, so that their columns are about as large as the drift's."""
_JITTER = 1e-10
"""Part of the sill's square added to each reading's variance, to keep matrices invertible."""
_DROP = 3.5
"""Pairs are kept down to exp(-3.5), a thirtieth, of the best one's weight; more if raised."""
_MOST_PAIRS = 32
_FINE_BELOW = 60
"""Readings up to which pairs stand one standard deviation apart, beyond 1.4 of them."""


@dataclass(frozen=True, eq=False)
class Pairs:
    """Pairs of range and sill; those with one range follow each other."""

    ranges_m: FloatArray
    """(J,) metres."""
    sills_m: FloatArray
    """(J,) standard deviation of unevenness, metres."""
    log_priors: FloatArray
    """(J,) logarithm of what each counts before any reading, up to a constant."""


@dataclass(frozen=True, eq=False)
class LikelihoodData:
    """What the likelihood needs of the readings."""

    points_m: FloatArray
    """(n, 2)"""
    heights_m: FloatArray
    """(n,)"""
    noise_m: FloatArray
    """(n,) standard deviation of each reading."""
    drift: Drift
    size_m: float
    """How large the floor is, corner to corner."""
    texture_part: float
    """Standard deviation of texture, as part of the sill."""
    shared_m: FloatArray | None = None
    """(n, k) what one standard deviation of each error that readings share does to each: a
    set-up's zero, of all read from it. The errors are independent; None for none."""

    def __post_init__(self) -> None:
        if self.shared_m is not None and not self.shared_m.any():
            object.__setattr__(self, "shared_m", None)

    @cached_property
    def columns(self) -> FloatArray:
        """(n, p) the drift at the points, and how each reading follows the shared errors."""
        drift = self.drift.columns(self.points_m)
        return drift if self.shared_m is None else np.hstack([drift, self.shared_m / _UNIT_M])

    @cached_property
    def precisions(self) -> FloatArray:
        """(p,) how firmly the weight of each column is held at zero beforehand."""
        if self.shared_m is None:
            return self.drift.precisions
        return np.append(self.drift.precisions, np.full(self.shared_m.shape[1], _UNIT_M**-2))

    def columns_at(self, places_m: FloatArray, shared_m: FloatArray | None = None) -> FloatArray:
        """
        The columns, (m, p), for (m, 2) places.

        The floor knows nothing of the instrument's errors. A reading to come does: of it
        ``shared_m``, (k,) or (m, k), says how it follows them.
        """
        drift = self.drift.columns(places_m)
        if self.shared_m is None:
            return drift
        follows = np.zeros((len(places_m), self.shared_m.shape[1]))
        if shared_m is not None:
            follows += shared_m / _UNIT_M
        return np.hstack([drift, follows])

    def part(self, rows: IntArray) -> LikelihoodData:
        """The data of some of the readings."""
        points = self.points_m[rows]
        return LikelihoodData(
            points,
            self.heights_m[rows],
            self.noise_m[rows],
            drift_of(points, self.drift.steps_m),
            self.size_m,
            self.texture_part,
            None if self.shared_m is None else self.shared_m[rows],
        )

    def variances(self, sill_m: float) -> FloatArray:
        """(n,) of each reading, apart from the floor's wandering; never quite zero."""
        variances: FloatArray = self.noise_m**2 + (self.texture_part**2 + _JITTER) * sill_m**2
        return variances


def log_prior(log_range: float, log_sill: float, size_m: float) -> float:
    """Logarithm of what a pair counts before any reading, up to a constant."""
    range_away = (log_range - np.log(RANGE_PART * size_m)) / RANGE_SPREAD
    sill_away = (log_sill - np.log(SILL_A_METRE * size_m)) / SILL_SPREAD
    return float(-0.5 * (range_away**2 + sill_away**2))


def restricted_likelihood(
    log_det: float,
    columns: FloatArray,
    solved: FloatArray,
    heights: FloatArray,
    precisions: FloatArray,
) -> float:
    """
    Logarithm of the restricted likelihood, up to a constant.

    Parameters
    ----------
    log_det : float
        Logarithm of the determinant of the readings' covariance K.
    columns : (n, p) array of float
        The drift's columns F at the points, and those of shared errors.
    solved : (n, p + 1) array of float
        K⁻¹ times F, and times the heights.
    heights : (n,) array of float
    precisions : (p,) array of float
        How firmly each column's weight is held at zero.

    Returns
    -------
    log_likelihood : float

    Notes
    -----
    The drift's weights are integrated out, flat or with their prior: Rasmussen and Williams
    (2006), equation 2.45 (from memory). For a flat drift it is the restricted likelihood of
    Patterson and Thompson (1971) (from memory).
    """
    from scipy.linalg.lapack import dpotrf, dpotrs

    count = columns.shape[1]
    held = columns.T @ solved[:, :count]
    held.flat[:: count + 1] += precisions
    on_drift = columns.T @ solved[:, count]
    # LAPACK itself: the checks round it take longer than the work on so few columns.
    factor, failed = dpotrf(held, lower=1)
    if failed:
        raise np.linalg.LinAlgError("The readings cannot tell the drift.")
    weights, _ = dpotrs(factor, on_drift, lower=1)
    log_det_drift = 2 * float(np.log(factor.diagonal()).sum())
    left = float(heights @ solved[:, count] - on_drift @ weights)
    return -0.5 * (log_det + log_det_drift + left)


class _Posterior:
    """Logarithm of the weight of a pair of logarithms; remembers what was asked."""

    def __init__(self, readings: LikelihoodData) -> None:
        self._readings = readings
        self._distances = pairwise_distances(readings.points_m, readings.points_m)
        self._columns = readings.columns
        self._heights = readings.heights_m - readings.heights_m.mean()
        self._right = np.column_stack([self._columns, self._heights])
        self._range_m, self._alike = 0.0, self._distances

    def __call__(self, log_range: float, log_sill: float) -> float:
        from scipy.linalg.lapack import dpotrf, dpotrs

        sill = exp(log_sill)
        covariance = sill**2 * self._correlations(exp(log_range))
        # Every (n + 1)-th number is on the diagonal.
        covariance.flat[:: len(covariance) + 1] += self._readings.variances(sill)
        # A matrix that is its own transpose is laid out as LAPACK wants it either way.
        factor, failed = dpotrf(covariance.T, lower=1, clean=0, overwrite_a=1)
        if failed:
            raise np.linalg.LinAlgError("The readings' covariance cannot be inverted.")
        solved, _ = dpotrs(factor, self._right, lower=1)
        log_det = 2 * float(np.log(factor.diagonal()).sum())
        fits = restricted_likelihood(
            log_det, self._columns, solved, self._heights, self._readings.precisions
        )
        return fits + log_prior(log_range, log_sill, self._readings.size_m)

    def _correlations(self, range_m: float) -> FloatArray:
        """Between the points; kept for the last range, as steps along the sill share it."""
        if range_m != self._range_m:
            self._range_m, self._alike = range_m, matern(self._distances, range_m)
        return self._alike


def choose_pairs(readings: LikelihoodData) -> Pairs:
    """
    Pairs of range and sill that between them hold nearly all the weight.

    Parameters
    ----------
    readings : Readings

    Returns
    -------
    pairs : Pairs
        Evenly spread over where the weight is, so a pair's share of it is its weight
        divided by the sum of all weights.

    Notes
    -----
    As in the nested approximation of Rue, Martino and Chopin (2009), section 3.1 (from
    memory): the best pair, the curvature there, and steps away from it on a lattice made
    round by that curvature for as long as the weight has not dropped to a thirtieth.
    """
    posterior = _Posterior(readings)
    best = _best(posterior, readings.size_m)
    step = 1.0 if len(readings.points_m) <= _FINE_BELOW else 1.4
    lattice = _steps_round(posterior, best) * step
    found = _fill(posterior, best, lattice)
    steps = np.array(sorted(found), dtype=np.float64)
    logs = best + steps @ lattice.T
    priors = [log_prior(one, other, readings.size_m) for one, other in logs.tolist()]
    return Pairs(np.exp(logs[:, 0]), np.exp(logs[:, 1]), np.array(priors))


def _best(posterior: _Posterior, size_m: float) -> FloatArray:
    """Logarithms of the pair with most weight."""
    from scipy.optimize import minimize

    middle = np.log([RANGE_PART * size_m, SILL_A_METRE * size_m])
    away = np.array([[0, 0], [-1, -1], [-1, 0.5], [1, -1], [1, 0.5]])
    starts = middle + away * [RANGE_SPREAD, SILL_SPREAD]
    start: FloatArray = max(starts, key=lambda logs: posterior(*logs.tolist()))

    def lacking(logs: FloatArray) -> float:
        return -posterior(*logs.tolist())

    first = start + np.array([[0, 0], [0.4, 0], [0, 0.4]])
    result = minimize(
        lacking,
        start,
        method="Nelder-Mead",
        options={"initial_simplex": first, "xatol": 0.03, "fatol": 0.01, "maxfev": 80},
    )
    return np.array(result.x, dtype=np.float64)


def _steps_round(posterior: _Posterior, best: FloatArray) -> FloatArray:
    """
    Steps of one standard deviation, (2, 2) lower triangular.

    Triangular so that steps in the second direction leave the range as it is: pairs then
    share ranges, and most of the work goes by range.
    """
    h = 0.15
    at = {
        (i, j): posterior(float(best[0] + i * h), float(best[1] + j * h))
        for i, j in [(0, 0), (1, 0), (-1, 0), (0, 1), (0, -1), (1, 1), (-1, -1)]
    }
    twice = 2 * at[0, 0]
    one = (twice - at[1, 0] - at[-1, 0]) / h**2
    other = (twice - at[0, 1] - at[0, -1]) / h**2
    both = (twice - at[1, 1] - at[-1, -1]) / h**2
    mixed = (both - one - other) / 2
    # No flatter than the prior: where the likelihood bends the wrong way it is left out.
    one, other = max(one, RANGE_SPREAD**-2), max(other, SILL_SPREAD**-2)
    mixed = float(np.clip(mixed, -0.9 * np.sqrt(one * other), 0.9 * np.sqrt(one * other)))
    covariance = np.linalg.inv(np.array([[one, mixed], [mixed, other]]))
    return np.linalg.cholesky(covariance)


def _fill(
    posterior: _Posterior, best: FloatArray, lattice: FloatArray
) -> dict[tuple[int, int], float]:
    """Lattice steps whose weight has not dropped, from the best outwards."""
    found = {(0, 0): posterior(*best.tolist())}
    seen = {(0, 0)}
    waiting = [(0, 0)]
    while waiting and len(found) < _MOST_PAIRS:
        i, j = waiting.pop(0)
        for step in ((i, j + 1), (i, j - 1), (i + 1, j), (i - 1, j)):
            if step in seen:
                continue
            seen.add(step)
            weight = posterior(*(best + lattice @ step).tolist())
            if weight > found[0, 0] - _DROP:
                found[step] = weight
                waiting.append(step)
    return found
