"""
The floor's height everywhere, with how sure it is, from readings that are only so good.

:func:`~assistant.levels.kriging.fit_surface` makes a :class:`KrigedSurface` of readings; here
is what can be asked of one: the height at places, a reading to come, and what all the other
points say of one.
"""

from __future__ import annotations

from dataclasses import field
from functools import cached_property
from itertools import groupby

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, IntArray, as_places
from assistant.levels.kriged.covariance import matern, pairwise_distances
from assistant.levels.kriged.likelihood import LikelihoodData, Pairs
from assistant.levels.kriged.mixture import Mixture
from assistant.levels.kriged.solved import Inverse, SolvedCovariance
from grammar.frozen import frozen_identity

ROUNDING_SD_M = float(0.001 / np.sqrt(12))
"""Error of a height read to whole millimetres: exact arithmetic, uniform over one millimetre."""
NOISE_SD_M = float(np.hypot(0.001, ROUNDING_SD_M))
"""A reading good to 1 mm, shown in whole millimetres (common practice, no source)."""


@frozen_identity
class KrigedSurface:
    """Readings, and the few surfaces that suit them, each with its weight."""

    readings: LikelihoodData
    """Points, heights and noise as they were given."""
    pairs: Pairs = field(repr=False)
    """The J ranges and sills that are averaged over."""
    looked_at: LikelihoodData = field(repr=False)
    """The first readings, by which those ranges and sills were chosen."""
    inverses: tuple[Inverse, ...] = field(repr=False)
    """For each range and sill, the inverse of the readings' covariance."""

    @property
    def points_m(self) -> FloatArray:
        """(n, 2) where was read, metres."""
        return self.readings.points_m

    @property
    def heights_m(self) -> FloatArray:
        """(n,) as read, metres."""
        return self.readings.heights_m

    @property
    def ranges_m(self) -> FloatArray:
        """(J,) how far unevenness reaches in each surface, metres."""
        return self.pairs.ranges_m

    @property
    def sills_m(self) -> FloatArray:
        """(J,) standard deviation of the unevenness in each surface, metres."""
        return self.pairs.sills_m

    @cached_property
    def solved(self) -> tuple[SolvedCovariance, ...]:
        """The J surfaces, those of one range next to each other."""
        pairs = zip(self.pairs.ranges_m, self.pairs.sills_m, self.inverses, strict=True)
        return tuple(
            SolvedCovariance(self.readings, float(reach), float(sill), one)
            for reach, sill, one in pairs
        )

    @cached_property
    def weights(self) -> FloatArray:
        """(J,) of the surfaces, adding up to 1."""
        logs = self.pairs.log_priors + [one.log_likelihood for one in self.solved]
        weights: FloatArray = np.exp(logs - logs.max())
        weights /= weights.sum()
        return weights

    def predict(self, places_m: ArrayLike) -> Mixture:
        """
        Height of the floor at places, not of a reading there.

        Parameters
        ----------
        places_m : (m, 2) array_like
            Metres.

        Returns
        -------
        heights_m : Mixture
            Of m heights, metres: ``mean``, ``sd``, ``quantile``, ``chance_below``.

        Raises
        ------
        SurveyError
            If a place is not finite. Names the row.

        Examples
        --------
        >>> from assistant.levels.kriging import fit_surface
        >>> points = [[1, 1], [3, 1], [5, 1], [1, 3], [3, 3], [5, 3]]
        >>> floor = fit_surface(points, [0.010, 0.012, 0.014, 0.011, 0.013, 0.015])
        >>> found = floor.predict([[4, 2]])
        >>> print(found.mean.round(4), found.sd.round(4))
        [0.0135] [0.0011]
        """
        return self._predicted(as_places(places_m), None)

    def _predicted(self, places: FloatArray, shared_m: FloatArray | None) -> Mixture:
        columns = self.readings.columns_at(places, shared_m)
        means, variances = [], []
        for group, correlations in self.by_range(places):
            for one in group:
                alike = one.sill_m**2 * correlations
                means.append(one.means(columns, alike))
                own = np.full(len(places), one.sill_m**2)
                variances.append(one.variances(columns, alike, own))
        return Mixture(self.weights, np.array(means), np.sqrt(np.array(variances)))

    def predict_reading(
        self,
        places_m: ArrayLike,
        noise_sd_m: float = NOISE_SD_M,
        shared_m: FloatArray | None = None,
    ) -> Mixture:
        """
        What a reading at places would say: the height, and the reading's own error.

        Parameters
        ----------
        places_m : (m, 2) array_like
            Metres.
        noise_sd_m : float
            Standard deviation of the reading to come, metres.
        shared_m : (k,) array of float, optional
            How it follows the errors that readings share, as in
            :func:`~assistant.levels.kriging.fit_surface`; None for not at all.

        Returns
        -------
        readings_m : Mixture

        Raises
        ------
        SurveyError
            If a place is not finite. Names the row.
        """
        texture = np.array([[one.texture_m] for one in self.solved])
        expected = self._predicted(as_places(places_m), shared_m)
        return expected.with_noise(np.hypot(texture, noise_sd_m))

    def predict_without(self, row: int) -> Mixture:
        """
        What would be read at a point, from all the other points.

        Parameters
        ----------
        row : int
            Of the point, from 0.

        Returns
        -------
        reading_m : Mixture
            Of one reading, its own noise included. The ranges and sills are those that all
            readings chose; they are weighed without this one.

        Raises
        ------
        SurveyError
            If there is no other point.
        """
        if len(self.points_m) < 2:
            raise SurveyError("There is no other point to judge this one by.")
        means, variances, logs = [], [], []
        for one in self.solved:
            mean, variance = one.left_out(np.array([row], dtype=np.intp))
            means.append(mean)
            variances.append(variance)
            away = self.heights_m[row] - mean
            own = -0.5 * (np.log(variance) + away**2 / variance)
            logs.append(one.log_likelihood - float(own[0]))
        without = np.array(logs) + self.pairs.log_priors
        weights = np.exp(without - without.max())
        return Mixture(weights / weights.sum(), np.array(means), np.sqrt(np.array(variances)))

    def by_range(
        self, places_m: FloatArray, rows: IntArray | None = None
    ) -> list[tuple[list[SolvedCovariance], FloatArray]]:
        """Surfaces by their range, with the correlations of places and points, (m, n)."""
        away = pairwise_distances(places_m, self.points_m)
        chosen = self.solved if rows is None else tuple(self.solved[row] for row in rows)
        groups = groupby(chosen, key=lambda one: one.range_m)
        return [(list(group), matern(away, reach)) for reach, group in groups]
