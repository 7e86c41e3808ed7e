"""
Whether a reading fits its neighbours, and which of several it would be.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, IntArray, as_levels, as_places
from assistant.levels.kriged.mixture import Mixture
from assistant.levels.kriged.surface import NOISE_SD_M, KrigedSurface
from assistant.levels.kriging import without_points
from grammar.frozen import frozen_identity

CHANCE_OUTSIDE = 0.001
"""True readings outside their interval, half of them on each side."""
RESOLUTIONS_OUTSIDE = 3.0
"""A reading this many resolutions or less from what is expected is never asked about."""
SAME_PLACE_M = 0.02
"""Readings this near count as taken at the place itself, and are left out of its prediction."""
MISHEARD_PART = 0.2
"""Readings taken to be misheard or mistyped, before any is looked at, where it may be so.

More than there are, as a question costs less than a wrong pour: on simulated floors, not
those reported, it asks about 1 in 300 true readings. Raising it asks more often.
"""
SURPRISE_PART = 0.02
"""Part of readings that say something no neighbour knew: a step, a patch, a pipe trench.

Raising it makes :func:`weigh_alternatives` trust the ear more and the floor less.
Our own choice, no source.
"""
SURPRISE_M = 0.015
"""How far such a surprise goes, as half of them do. Our own choice, no source."""


@frozen_identity
class Weighing:
    """Alternatives, as likely as their hearing and the floor around make them."""

    probabilities: FloatArray
    """(k,) in the order they came, adding up to 1."""
    order: IntArray
    """(k,) rows, likeliest first."""
    expected_m: float
    sd_m: float
    """Standard deviation of a reading there."""


@frozen_identity
class NeighbourPrediction:
    """A reading beside the one that its neighbours predict."""

    suspect: bool
    """Outside the interval, or likelier misheard; by more than a few resolutions."""
    expected_m: float
    sd_m: float
    """Of a reading there, its own noise included."""
    low_m: float
    high_m: float
    """Ends of the 99.9 % interval."""
    chance: float
    """That a true reading is as far out or farther."""
    others: int
    """How many other readings the prediction rests on."""
    misheard: Weighing | None
    """This reading, in row 0, against its likely mishearings; None where none were given."""


def expected_reading(
    floor: KrigedSurface,
    place_m: ArrayLike,
    noise_sd_m: float = NOISE_SD_M,
    shared_m: FloatArray | None = None,
) -> tuple[Mixture, int]:
    """
    What would be read at a place, from the readings at all other places.

    Parameters
    ----------
    floor : KrigedSurface
    place_m : (2,) array_like
    noise_sd_m : float
        Metres.
    shared_m : (k,) array of float, optional
        How the reading follows the errors that readings share, as in
        :func:`~assistant.levels.kriging.fit_surface`; None for not at all.

    Returns
    -------
    reading_m : Mixture
        Of one reading.
    others : int
        How many readings it rests on.

    Raises
    ------
    SurveyError
        If the place is not finite, or there is no reading elsewhere.
    """
    place = as_places(np.atleast_2d(place_m))
    away = np.hypot(*(floor.points_m - place).T)
    here = np.flatnonzero(away <= SAME_PLACE_M)
    noise_m = floor.readings.noise_m[here]
    at_it = here.size == 1 and away[here[0]] == 0 and noise_m[0] == noise_sd_m
    if at_it and len(away) > 1 and _follows_alike(floor, int(here[0]), shared_m):
        # The same to the last digits, and needs no matrix changed.
        return floor.predict_without(int(here[0])), len(away) - 1
    elsewhere = without_points(floor, here) if here.size else floor
    return elsewhere.predict_reading(place, noise_sd_m, shared_m), len(elsewhere.points_m)


def _follows_alike(floor: KrigedSurface, row: int, shared_m: FloatArray | None) -> bool:
    """Whether a reading follows the shared errors as one of the floor's does."""
    shared = floor.readings.shared_m
    if shared is None:
        return True
    own = np.zeros(shared.shape[1]) if shared_m is None else shared_m
    return bool(np.array_equal(shared[row], own))


def look_at(
    floor: KrigedSurface,
    place_m: ArrayLike,
    reading_m: float,
    *,
    mishearings_m: ArrayLike = (),
    resolution_m: float = 0.001,
    noise_sd_m: float = NOISE_SD_M,
    shared_m: FloatArray | None = None,
) -> NeighbourPrediction:
    """
    Look at a reading against its neighbours.

    Readings at the place itself are left out, so that a point read again is judged by the
    floor around and not by what it corrects. The lines of a floor's steps ought to be given
    (``steps_m`` of :func:`~assistant.levels.kriging.fit_surface`), or each first reading beyond
    one is suspect.

    Parameters
    ----------
    floor : KrigedSurface
        Of the readings so far, with or without this one.
    place_m : (2,) array_like
    reading_m : float
        As a height, metres, up positive.
    mishearings_m : (k,) array_like
        What may have been said instead, as heights, metres. With these a reading is suspect
        also when one of them is likelier, though the reading itself is just possible.
    resolution_m : float
        Of the instrument's display, metres.
    noise_sd_m : float
        Standard deviation of the reading, metres.
    shared_m : (k,) array of float, optional
        How the reading follows the errors that readings share, as in
        :func:`~assistant.levels.kriging.fit_surface`; None for not at all.

    Returns
    -------
    look : Look

    Raises
    ------
    SurveyError
        If a number is not finite, or there is no reading elsewhere.

    Examples
    --------
    >>> from assistant.levels.kriging import fit_surface
    >>> points = [[x, y] for x in (1, 3, 5) for y in (1, 3)]
    >>> floor = fit_surface(points, [-0.015, -0.014, -0.016, -0.015, -0.013, -0.016])
    >>> look_at(floor, [5, 5], -0.050).suspect, look_at(floor, [5, 5], -0.015).suspect
    (True, False)
    """
    reading = as_levels([reading_m], 1, "reading")
    expected, others = expected_reading(floor, place_m, noise_sd_m, shared_m)
    mean, sd = float(expected.mean[0]), float(expected.sd[0])
    low = float(expected.quantile(CHANCE_OUTSIDE / 2)[0])
    high = float(expected.quantile(1 - CHANCE_OUTSIDE / 2)[0])
    below = float(expected.chance_below(reading)[0])
    outside = not low <= reading_m <= high
    far = abs(reading_m - mean) > RESOLUTIONS_OUTSIDE * resolution_m
    instead = as_levels(mishearings_m, int(np.size(mishearings_m)), "mishearing")
    misheard = None
    if instead.size:
        each = MISHEARD_PART / instead.size
        priors = np.concatenate([[1 - MISHEARD_PART], np.full(instead.size, each)])
        misheard = _weigh(expected, np.concatenate([reading, instead]), priors)
    likelier = misheard is not None and float(misheard.probabilities[0]) < 0.5
    suspect = (outside or likelier) and far
    chance = 2 * min(below, 1 - below)
    return NeighbourPrediction(suspect, mean, sd, low, high, chance, others, misheard)


def weigh_alternatives(
    floor: KrigedSurface,
    place_m: ArrayLike,
    candidates_m: ArrayLike,
    prior_probabilities: ArrayLike,
    *,
    noise_sd_m: float = NOISE_SD_M,
    shared_m: FloatArray | None = None,
) -> Weighing:
    """
    How likely each of several readings is, as heard and as the floor around would have it.

    Parameters
    ----------
    floor : KrigedSurface
    place_m : (2,) array_like
        Where the reading is taken; readings there already are left out.
    candidates_m : (k,) array_like
        What may have been said, as heights, metres; at least one.
    prior_probabilities : (k,) array_like
        How likely each is by the ear alone; any sum, none below zero, not all zero.
    noise_sd_m : float
        Standard deviation of a reading, metres.
    shared_m : (k,) array of float, optional
        How the reading follows the errors that readings share, as in
        :func:`~assistant.levels.kriging.fit_surface`; None for not at all.

    Returns
    -------
    weighing : Weighing

    Raises
    ------
    SurveyError
        If numbers are missing or not finite, a prior is below zero or all are zero, or
        there is no reading elsewhere.

    Notes
    -----
    Bayes' rule. A reading comes from the mixture of surfaces in 98 of 100 cases, and in two
    from a Cauchy distribution round the same mean, half of it within 15 mm. Its tails are so
    heavy that something clearly heard wins however odd it is: the floor decides only between
    what the ear cannot.

    Examples
    --------
    Fifteen or fifty, which sound alike, on a floor that is 15 mm low.

    >>> from assistant.levels.kriging import fit_surface
    >>> points = [[x, y] for x in (1, 3, 5) for y in (1, 3)]
    >>> floor = fit_surface(points, [-0.015, -0.014, -0.016, -0.015, -0.013, -0.016])
    >>> weigh_alternatives(floor, [5, 5], [-0.050, -0.015], [0.6, 0.4]).order.tolist()
    [1, 0]
    """
    candidates = np.asarray(candidates_m, dtype=np.float64)
    candidates = as_levels(candidates, max(candidates.size, 1), "candidate")
    priors = as_levels(prior_probabilities, len(candidates), "probability")
    if (priors < 0).any() or not priors.sum() > 0:
        raise SurveyError("Prior probabilities are not below zero, and not all zero.")
    expected, _ = expected_reading(floor, place_m, noise_sd_m, shared_m)
    return _weigh(expected, candidates, priors)


def _weigh(expected: Mixture, candidates: FloatArray, priors: FloatArray) -> Weighing:
    mean = float(expected.mean[0])
    surprise = 1 / (np.pi * SURPRISE_M * (1 + ((candidates - mean) / SURPRISE_M) ** 2))
    likelihood = (1 - SURPRISE_PART) * expected.density(candidates) + SURPRISE_PART * surprise
    posterior = priors * likelihood
    probabilities: FloatArray = posterior / posterior.sum()
    order = np.argsort(-probabilities, kind="stable")
    return Weighing(probabilities, order, mean, float(expected.sd[0]))
