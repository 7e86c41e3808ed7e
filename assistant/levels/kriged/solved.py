"""
One pair of range and sill, solved for a floor's readings.

Keeps the inverse of the readings' covariance: one reading more or less then costs a few
passes over it instead of a new factorisation, and leaving each reading out in turn costs
nothing.
"""

from __future__ import annotations

from functools import cached_property

import numpy as np

from assistant.levels.arrays import FloatArray, IntArray
from assistant.levels.kriged.covariance import matern, pairwise_distances
from assistant.levels.kriged.likelihood import LikelihoodData, restricted_likelihood
from grammar.frozen import frozen_identity

_NOTHING_LEFT = 1e-9
"""Of a reading's weight, what rounding leaves where the others say nothing of it. What they say is
then wider than any floor."""


@frozen_identity
class Inverse:
    """Inverse and logarithm of the determinant of the readings' covariance."""

    matrix: FloatArray
    """(n, n)"""
    log_det: float

    def with_reading(self, covariances: FloatArray, variance: float) -> Inverse:
        """With one more row: its covariances with the others, (n,), and its own variance."""
        count = len(self.matrix)
        solved = self.matrix @ covariances
        left = max(variance - float(covariances @ solved), np.finfo(np.float64).tiny)
        larger = np.empty((count + 1, count + 1))
        np.multiply.outer(solved / left, solved, out=larger[:count, :count])
        larger[:count, :count] += self.matrix
        larger[:count, count] = larger[count, :count] = -solved / left
        larger[count, count] = 1 / left
        return Inverse(larger, self.log_det + float(np.log(left)))

    def without(self, row: int) -> Inverse:
        """The inverse without one of the readings."""
        kept = np.delete(np.arange(len(self.matrix)), row)
        column, own = self.matrix[kept, row], float(self.matrix[row, row])
        smaller = self.matrix[np.ix_(kept, kept)]
        smaller -= np.multiply.outer(column / own, column)
        return Inverse(smaller, self.log_det + float(np.log(own)))


def invert(correlations: FloatArray, sill_m: float, variances: FloatArray) -> Inverse:
    """
    Inverse of the readings' covariance, worked out anew.

    Parameters
    ----------
    correlations : (n, n) array of float
        Of the floor between the points.
    sill_m : float
    variances : (n,) array of float
        Of each reading, apart from the floor's wandering.

    Returns
    -------
    inverse : Inverse
    """
    from scipy.linalg import cho_factor
    from scipy.linalg.lapack import dpotri

    covariance = sill_m**2 * correlations
    covariance.flat[:: len(covariance) + 1] += variances
    factor, _ = cho_factor(covariance, lower=True, overwrite_a=True, check_finite=False)
    log_det = 2 * float(np.log(np.diagonal(factor)).sum())
    half, _ = dpotri(factor, lower=1)
    matrix = np.tril(half)
    matrix += np.tril(half, -1).T
    return Inverse(matrix, log_det)


@frozen_identity
class SolvedCovariance:
    """A pair of range and sill with what it makes of the readings."""

    readings: LikelihoodData
    range_m: float
    sill_m: float
    inverse: Inverse

    def alike(self, places_m: FloatArray) -> FloatArray:
        """Covariance of the floor at places, (m, 2), with that at the points, (m, n)."""
        away = pairwise_distances(places_m, self.readings.points_m)
        return self.sill_m**2 * matern(away, self.range_m)

    @property
    def texture_m(self) -> float:
        """Standard deviation of unevenness too fine to be predicted from other points."""
        return self.readings.texture_part * self.sill_m

    def alike_between(self, some_m: FloatArray, others_m: FloatArray | None = None) -> FloatArray:
        """Covariance, (a, b), of the floor at places with that at others or themselves."""
        away = pairwise_distances(some_m, some_m if others_m is None else others_m)
        return self.sill_m**2 * matern(away, self.range_m)

    @cached_property
    def columns(self) -> FloatArray:
        """(n, p) the drift at the points, and how readings follow errors they share."""
        return self.readings.columns

    @cached_property
    def solved_columns(self) -> FloatArray:
        """(n, p)"""
        return self.inverse.matrix @ self.columns

    @cached_property
    def drift_covariance(self) -> FloatArray:
        """(p, p) of the columns' weights."""
        held: FloatArray = self.columns.T @ self.solved_columns
        held = held + np.diag(self.readings.precisions)
        covariance: FloatArray = np.linalg.inv(held).astype(np.float64, copy=False)
        return covariance

    @cached_property
    def _base_m(self) -> float:
        # Taken off the heights, so that a datum far away costs no digits.
        return float(self.readings.heights_m.mean())

    @cached_property
    def _solved_heights(self) -> FloatArray:
        solved: FloatArray = self.inverse.matrix @ (self.readings.heights_m - self._base_m)
        return solved

    @cached_property
    def drift_weights(self) -> FloatArray:
        """(p,) less the mean height, which :meth:`means` puts back."""
        weights: FloatArray = self.drift_covariance @ (self.columns.T @ self._solved_heights)
        return weights

    @cached_property
    def point_weights(self) -> FloatArray:
        """(n,) what the covariance with each point counts for in a height."""
        weights: FloatArray = self._solved_heights - self.solved_columns @ self.drift_weights
        return weights

    @cached_property
    def log_likelihood(self) -> float:
        """Logarithm of the restricted likelihood, up to a constant."""
        solved = np.column_stack([self.solved_columns, self._solved_heights])
        heights = self.readings.heights_m - self._base_m
        return restricted_likelihood(
            self.inverse.log_det, self.columns, solved, heights, self.readings.precisions
        )

    def means(self, columns: FloatArray, alike: FloatArray) -> FloatArray:
        """(m,) heights, from the drift there, (m, p), and the covariances, (m, n)."""
        heights: FloatArray = columns @ self.drift_weights + alike @ self.point_weights
        return heights + self._base_m

    def variances(self, columns: FloatArray, alike: FloatArray, own: FloatArray) -> FloatArray:
        """(m,) of heights, or of sums of heights, whose variance beforehand is ``own``."""
        unexplained = columns - alike @ self.solved_columns
        explained = np.einsum("mn,mn->m", alike @ self.inverse.matrix, alike)
        drift = np.einsum("mp,mp->m", unexplained @ self.drift_covariance, unexplained)
        variances: FloatArray = np.maximum(own - explained + drift, 0.0)
        return variances

    def covariance(
        self,
        some: tuple[FloatArray, FloatArray],
        others: tuple[FloatArray, FloatArray],
        own: FloatArray,
    ) -> FloatArray:
        """
        Covariance, once the readings are known, of some heights with others.

        Parameters
        ----------
        some, others : tuple of (a, p) and (a, n) arrays, of (b, p) and (b, n) arrays
            The drift's columns there and the covariances with the points.
        own : (a, b) array of float
            Covariance before any reading.

        Returns
        -------
        covariance : (a, b) array of float
        """
        columns, alike = some
        other_columns, other_alike = others
        unexplained = columns - alike @ self.solved_columns
        other_unexplained = other_columns - other_alike @ self.solved_columns
        covariance: FloatArray = own - (alike @ self.inverse.matrix) @ other_alike.T
        covariance += (unexplained @ self.drift_covariance) @ other_unexplained.T
        return covariance

    def left_out(self, rows: IntArray) -> tuple[FloatArray, FloatArray]:
        """
        Mean and variance of what is read at points, each from all other points.

        Notes
        -----
        With P the inverse less its part along the drift, what is left of a reading is
        ``(P y)_i / P_ii`` and its variance ``1 / P_ii``: Dubrule (1983), Cross validation of
        kriging in a unique neighborhood (from memory).
        """
        some = self.solved_columns[rows]
        own = self.inverse.matrix[rows, rows]
        own = own - np.einsum("mp,mp->m", some @ self.drift_covariance, some)
        # Where a reading alone fixes the floor's slope, all others in one line, nothing is left.
        own = np.maximum(own, _NOTHING_LEFT * self.inverse.matrix[rows, rows])
        means = self.readings.heights_m[rows] - self.point_weights[rows] / own
        return means, 1 / own
