"""
The covariance of the heights at two places, and the drift: a plane, and steps.

A floor's height is taken as a drift (a plane, and a jump along each step that was named)
plus a part that wanders round it, more alike the nearer two places are.
"""

from __future__ import annotations

import numpy as np

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, cross
from grammar.frozen import frozen_identity

SLOPE_SD = 0.010
"""Slope of a floor, metres a metre, where the points can't tell: in line, or three at most.

Our own choice, no source. Raising it widens what is said of floors read along one line.
"""
STEP_SD_M = 0.030
"""Standard deviation of the height of a step that is not yet read on both sides.

Our own choice, no source.
"""
SEEN_PART = 0.05
"""Points spread across by this part of their spread along show the slope across.

With less, the slope across is held by :data:`SLOPE_SD`. Our own choice, no source.
"""
_SLOPES_FROM = 4
"""Points from which slopes are left to the readings alone; three fit any plane."""
_ROOT_3 = float(np.sqrt(3.0))


def matern(distances_m: FloatArray, range_m: float) -> FloatArray:
    """
    Correlation of two places by their distance: Matérn with smoothness 3/2.

    Parameters
    ----------
    distances_m : array of float
        Metres.
    range_m : float
        Metres, above zero. At this distance the correlation is 0.48, at twice it 0.14.

    Returns
    -------
    correlation : array of float
        Of the same shape, 1 at no distance.

    Notes
    -----
    ``(1 + a) exp(-a)`` with ``a = sqrt(3) d / range``: Rasmussen and Williams, Gaussian
    Processes for Machine Learning, 2006, equation 4.17 (from memory). The surfaces have a
    slope everywhere and no curvature: trowelled, not polished.

    Examples
    --------
    >>> print(matern(np.array([0.0, 1.0, 2.0]), 1.0).round(3))
    [1.    0.483 0.14 ]
    """
    scaled = distances_m * (_ROOT_3 / range_m)
    correlation = np.exp(-scaled)
    scaled += 1.0
    correlation *= scaled
    return correlation


def pairwise_distances(some_m: FloatArray, others_m: FloatArray) -> FloatArray:
    """
    Distance of each of some places from each of the others.

    Parameters
    ----------
    some_m : (a, 2) array of float
    others_m : (b, 2) array of float
        Metres.

    Returns
    -------
    distances_m : (a, b) array of float
    """
    squares: FloatArray = np.subtract.outer(some_m[:, 0], others_m[:, 0]) ** 2
    squares += np.subtract.outer(some_m[:, 1], others_m[:, 1]) ** 2
    return np.sqrt(squares, out=squares)


ON_THE_LINE_M = 1e-6
"""A place no farther than this to the right of a step's line lies on it. Far more than rounding
and the lattice on which cells are cut; far less than a place is ever known to."""


@frozen_identity
class Drift:
    """The plane and the steps, as columns whose weights are to be found."""

    centre_m: FloatArray
    """(2,)"""
    directions: FloatArray
    """(2, 2) the way the points spread most, and across."""
    steps_m: FloatArray
    """(k, 2, 2) each step's line, by two places on it."""
    precisions: FloatArray
    """(3 + k,) how firmly each weight is held at zero beforehand; 0 leaves it free."""

    @property
    def count(self) -> int:
        """3 + k columns."""
        return len(self.precisions)

    def columns(self, places_m: FloatArray) -> FloatArray:
        """(m, 3 + k) for (m, 2) places: one, metres along and across, each step's side."""
        away = (places_m - self.centre_m) @ self.directions
        columns = [np.ones((len(places_m), 1)), away]
        for start, end in self.steps_m:
            # Rounding does not decide on which side a place on the line itself lies.
            along = end - start
            left = cross(along, places_m - start) >= -ON_THE_LINE_M * np.hypot(*along)
            columns.append(np.where(left, 0.5, -0.5)[:, None])
        return np.hstack(columns)


def drift_of(points_m: FloatArray, steps_m: FloatArray) -> Drift:
    """
    The drift that readings at these points can tell.

    The level is always left to the readings, and so are the slopes in directions the points
    spread in. Where they don't, the slope is somewhere round zero, see :data:`SLOPE_SD`.

    Parameters
    ----------
    points_m : (n, 2) array of float
        Metres; at least one.
    steps_m : (k, 2, 2) array of float
        Lines of steps, each by two places on it; they go on beyond both.

    Returns
    -------
    drift : Drift

    Raises
    ------
    SurveyError
        If a step's two places are one.
    """
    if len(steps_m) and not (np.hypot(*(steps_m[:, 1] - steps_m[:, 0]).T) > 0).all():
        raise SurveyError("A step's line needs two places on it that differ.")
    centre = points_m.mean(axis=0)
    centred = points_m - centre
    _, turned = np.linalg.eigh(centred.T @ centred)
    along = centred @ turned[:, ::-1]
    extents = along.max(axis=0) - along.min(axis=0)
    shown = extents > SEEN_PART * max(float(extents.max()), 1e-9)
    shown &= len(points_m) >= _SLOPES_FROM
    held = np.full(len(steps_m), STEP_SD_M**-2)
    slopes = np.where(shown, 0.0, SLOPE_SD**-2)
    precisions = np.concatenate([[0.0], slopes, held])
    return Drift(centre, turned[:, ::-1], steps_m, precisions)


def spread_of(points_m: FloatArray) -> float:
    """Diagonal of the rectangle over which points, (n, 2), would spread as these do."""
    squares = ((points_m - points_m.mean(axis=0)) ** 2).sum(axis=1)
    return float(np.sqrt(12 * squares.mean()))
