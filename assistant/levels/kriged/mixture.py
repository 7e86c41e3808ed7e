"""
Weighted mixtures of normal distributions: the predictions of several models taken together.
"""

from __future__ import annotations

import numpy as np

from assistant.levels.arrays import FloatArray
from grammar.frozen import frozen_identity

_HALVINGS = 60
"""Enough to come to the last digits of a float."""


@frozen_identity
class Mixture:
    """For each of m unknowns, a mixture of J weighted normal distributions."""

    weights: FloatArray
    """(J,) adding up to 1."""
    means: FloatArray
    """(J, m)"""
    sds: FloatArray
    """(J, m)"""

    @property
    def mean(self) -> FloatArray:
        """(m,) means of the mixture."""
        mean: FloatArray = self.weights @ self.means
        return mean

    @property
    def sd(self) -> FloatArray:
        """(m,) standard deviation, of which what the models disagree by is a part."""
        apart: FloatArray = self.means - self.mean
        sd: FloatArray = np.sqrt(self.weights @ (self.sds**2 + apart**2))
        return sd

    def chance_below(self, values: FloatArray) -> FloatArray:
        """(m,) chance that each unknown is less than the value, (m,) or one for all."""
        from scipy.special import ndtr

        chance: FloatArray = self.weights @ ndtr(self._scaled(values))
        return chance

    def density(self, values: FloatArray) -> FloatArray:
        """(m,) probability density at each value, per unit."""
        heights = np.exp(-0.5 * self._scaled(values) ** 2) / (self.sds * np.sqrt(2 * np.pi))
        density: FloatArray = self.weights @ heights
        return density

    def quantile(self, chance: float) -> FloatArray:
        """
        Values that each unknown is below with a chance.

        Parameters
        ----------
        chance : float
            Between 0 and 1, neither included.

        Returns
        -------
        values : (m,) array of float

        Examples
        --------
        >>> one = Mixture(np.array([0.5, 0.5]), np.zeros((2, 1)), np.array([[1.0], [1.0]]))
        >>> print(one.quantile(0.975).round(4))
        [1.96]
        """
        from scipy.special import ndtri

        each = self.means + self.sds * ndtri(chance)
        low, high = each.min(axis=0), each.max(axis=0)
        for _ in range(_HALVINGS):
            middle = (low + high) / 2
            below = self.chance_below(middle) < chance
            low, high = np.where(below, middle, low), np.where(below, high, middle)
        values: FloatArray = (low + high) / 2
        return values

    def with_noise(self, noise_sd: float | FloatArray) -> Mixture:
        """The same with an independent normal error added, one for all or (J, 1) or (J, m)."""
        return Mixture(self.weights, self.means, np.hypot(self.sds, noise_sd))

    def _scaled(self, values: FloatArray) -> FloatArray:
        # A sd of zero: certainly below or above, or at the value itself one half.
        sds = np.maximum(self.sds, np.finfo(np.float64).tiny)
        scaled: FloatArray = np.clip((values - self.means) / sds, -1e6, 1e6)
        return scaled
