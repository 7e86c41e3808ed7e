"""
Readings of one set-up made into heights, and the small checks beside them.

A reading is the height of what was read against the set-up's zero, plus above it. A staff
that is read from above counts the other way: hand in minus what it shows.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import hypot, isfinite, sqrt
from statistics import NormalDist

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, as_levels
from assistant.levels.least_squares import mean_and_sd

SETTLED_CHANCE = 0.95
"""How often a display that only shows its usual noise is taken as settled. Raising it waits
less often, and lets more of a still moving hose through. Our own choice, no source."""


@dataclass(frozen=True, slots=True)
class SettledDisplay:
    """What a display that jumped between values is taken to say."""

    value_m: float
    """Median of what it showed."""
    spread_m: float
    """Largest minus smallest."""
    allowed_m: float
    """What the instrument's own noise may spread so many values."""

    @property
    def wait(self) -> bool:
        """The spread is more than the instrument's own: let it come to rest, read again."""
        return self.spread_m > self.allowed_m * (1 + 1e-9)


@dataclass(frozen=True, slots=True)
class Zero:
    """Height of a set-up's zero from its ties."""

    height_m: float
    """Mean over the ties, above datum."""
    spread_m: float
    """Largest minus smallest; 0 for a single tie, which nothing checks."""
    sd_m: float
    """Of one tie, as they show it; nan for a single tie."""


@dataclass(frozen=True, slots=True)
class TwoPeg:
    """What a two-peg test says of a level's line of sight."""

    rise_per_metre: float
    """Metres the line rises for each metre of sight; minus where it falls."""

    def corrected(self, reading_m: float, distance_m: float) -> float:
        """
        A staff reading without the tilt.

        >>> round(TwoPeg(-0.0006).corrected(1.612, 55), 3)
        1.645
        """
        return reading_m - self.rise_per_metre * distance_m


def reading_sd(resolution_m: float, repeatability_m: float) -> float:
    """
    Standard deviation of one reading.

    Parameters
    ----------
    resolution_m : float
        Smallest step of the display. Rounding to it is off evenly by up to half a step either
        way, which has the standard deviation of a step over the square root of 12.
    repeatability_m : float
        Standard deviation of readings of one thing before they are rounded.

    Examples
    --------
    >>> round(reading_sd(0.001, 0.0005), 6)
    0.000577
    """
    for what, value in (("resolution", resolution_m), ("repeatability", repeatability_m)):
        if not (isfinite(value) and value >= 0):
            raise SurveyError(f"The {what} must be zero or more, not {value}.")
    sd = hypot(repeatability_m, resolution_m / sqrt(12))
    if sd == 0:
        raise SurveyError("An instrument has a resolution or a repeatability; both are zero.")
    return sd


def noise_range(count: int, resolution_m: float, repeatability_m: float) -> float:
    """
    How far a number of readings of one thing may lie apart by noise alone.

    One step of the display, for two equal heights either side of where it jumps, and what
    the repeatability adds: every pair of readings differs by a normal amount of the square
    root of two times it, and none of the pairs may exceed its share of the chance
    (:data:`SETTLED_CHANCE`, shared out by Bonferroni).

    Examples
    --------
    Three readings of a 1 mm class instrument.

    >>> round(noise_range(3, 0.001, 0.0005), 5)
    0.00269
    """
    reading_sd(resolution_m, repeatability_m)
    pairs = max(count * (count - 1) // 2, 1)
    furthest = NormalDist().inv_cdf(1 - (1 - SETTLED_CHANCE) / (2 * pairs))
    return resolution_m + furthest * sqrt(2) * repeatability_m


def settle(readings_m: ArrayLike, resolution_m: float, repeatability_m: float) -> SettledDisplay:
    """
    One value for a display that showed several.

    Parameters
    ----------
    readings_m : (n,) array_like
        In any order, at least one, metres.
    resolution_m, repeatability_m : float
        As in :func:`reading_sd`.

    Raises
    ------
    SurveyError
        If there are none, or one is not finite. Names the row.

    Examples
    --------
    >>> shown = settle([-0.017, -0.018, -0.019], 0.001, 0.0005)
    >>> shown.value_m, round(shown.spread_m, 6), shown.wait
    (-0.018, 0.002, False)
    """
    values = _readings(readings_m)
    if not values.size:
        raise SurveyError("Nothing was read.")
    return SettledDisplay(
        value_m=float(np.median(values)),
        spread_m=float(np.ptp(values)),
        allowed_m=noise_range(values.size, resolution_m, repeatability_m),
    )


def heights_from_readings(
    zero_m: float, readings_m: ArrayLike, offset_m: float = 0.0
) -> FloatArray:
    """
    Heights of points read from one set-up.

    Does not look at drift; see :func:`~assistant.levels.drift.correct_readings`.

    Parameters
    ----------
    zero_m : float
        Height of the set-up's zero above datum, metres.
    readings_m : (n,) array_like
        Signed readings, metres, plus above the zero.
    offset_m : float
        What the instrument is known to show too much.

    Returns
    -------
    heights_m : (n,) array of float
        Heights above datum, metres, same order; good to the reading, no better.

    Raises
    ------
    SurveyError
        If a reading is not finite. Names the row.

    Examples
    --------
    >>> print(heights_from_readings(0.004, [-0.018, 0.003]).round(3))
    [-0.014  0.007]
    """
    heights: FloatArray = zero_m + _readings(readings_m) - offset_m
    return heights


def zero_from_ties(known_m: ArrayLike, readings_m: ArrayLike, offset_m: float = 0.0) -> Zero:
    """
    Height of a set-up's zero, from readings of things whose height is known.

    Parameters
    ----------
    known_m, readings_m : (n,) array_like
        Heights above datum, and what was read on them, metres.
    offset_m : float
        What the instrument is known to show too much.

    Raises
    ------
    SurveyError
        If there is no tie, or a number is missing or not finite.

    Examples
    --------
    >>> zero = zero_from_ties([0.040, -0.022], [0.003, -0.060])
    >>> round(zero.height_m, 6), round(zero.spread_m, 6)
    (0.0375, 0.001)
    """
    readings = _readings(readings_m)
    if not readings.size:
        raise SurveyError("A set-up needs a tie: a reading of a benchmark or a known point.")
    zeros = as_levels(known_m, readings.size, "known height") - readings + offset_m
    mean, sd = mean_and_sd(zeros)
    return Zero(mean, float(np.ptp(zeros)), sd)


def spread_line_misclosure(
    heights_m: ArrayLike, so_far: ArrayLike, misclosure_m: float, whole: float
) -> FloatArray:
    """
    Heights along a line of set-ups, its misclosure shared out as the line goes.

    Does not judge whether the misclosure is small enough; a large one is a mistake to find,
    not an error to share out. Several lines at once are for
    :func:`~assistant.levels.adjustment.adjust`.

    Parameters
    ----------
    heights_m : (n,) array_like
        As carried along the line, metres.
    so_far : (n,) array_like
        Set-ups (or metres) from the start of the line up to each height.
    misclosure_m : float
        Height found at the end minus its known height.
    whole : float
        Set-ups (or metres) of the whole line, above zero.

    Returns
    -------
    heights_m : (n,) array of float

    Raises
    ------
    SurveyError
        If a number is missing or not finite, or the line has no length.

    Notes
    -----
    Correction -w d / D or -w n / N; any surveying textbook has it.

    Examples
    --------
    >>> print(spread_line_misclosure([29.515, 29.670], [1, 5], 0.010, 5))
    [29.513 29.66 ]
    """
    heights = _readings(heights_m)
    share = as_levels(so_far, heights.size, "share")
    if not (isfinite(whole) and whole > 0 and isfinite(misclosure_m)):
        raise SurveyError(f"A misclosure of {misclosure_m} cannot be shared over {whole}.")
    spread: FloatArray = heights - misclosure_m * share / whole
    return spread


def two_peg(
    true_difference_m: float, apparent_difference_m: float, nearer_m: float, farther_m: float
) -> TwoPeg:
    """
    How a level's line of sight rises or falls, from its two-peg test.

    Parameters
    ----------
    true_difference_m : float
        Staff reading on the one peg minus that on the other, from half-way between, where
        the tilt cancels.
    apparent_difference_m : float
        The same with the level far from the one and near the other.
    nearer_m, farther_m : float
        Those two sights. The farther one is to the peg that comes first in the differences.

    Raises
    ------
    SurveyError
        If the sights are equally long: then the tilt cancels again.

    Examples
    --------
    The line of sight falls 60 mm in 100 m.

    >>> round(two_peg(0.630, 0.615, 25, 50).rise_per_metre * 100, 6)
    -0.06
    """
    longer = farther_m - nearer_m
    if not (isfinite(longer) and longer > 0):
        raise SurveyError(f"The farther sight ({farther_m} m) must be longer than {nearer_m} m.")
    return TwoPeg((apparent_difference_m - true_difference_m) / longer)


def _readings(readings_m: ArrayLike) -> FloatArray:
    readings = np.asarray(readings_m, dtype=np.float64).reshape(-1)
    return as_levels(readings, readings.size, "reading")
