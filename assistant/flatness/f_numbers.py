"""
F-numbers by the E1155 formula: FF for flatness, FL for levelness.

A line is read every 300 mm, or every 12 inches. Its curvatures are q = h(i) - 2 h(i-1) + h(i-2),
plus in a trough; its differences over ten spacings are z = h(i) - h(i-10). Readings and variances
of all lines of a section are pooled first, and one F is made of them: F's are not averaged. The
constants are handed in, as they are not ours to state.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf, sqrt

import numpy as np
from numpy.typing import ArrayLike
from scipy import stats

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, as_levels
from grammar.frozen import frozen, frozen_identity

__all__ = [
    "FEWEST_POINTS",
    "SPACINGS_M",
    "Constants",
    "LineF",
    "Spread",
    "f_number",
    "line_f",
    "noise_of",
    "own_interval",
    "pooled_spread",
    "spacing_counts",
]

SPACINGS_M = (0.3, 0.3048)
"""Source: E1155/E1155M, front pages."""
FEWEST_POINTS = 12
"""Readings on a line. Source: E1155/E1155M, symbol list."""
_APART = 10
"""Spacings between the two readings of a z."""
_DUST_MM = 1e-9
_SPACING_OFF = 0.02
"""Share by which a spacing may miss: a pace of the tape, our own choice."""


@frozen
class Constants:
    """Numerators of the two F-numbers, millimetres."""

    flatness_mm: float
    levelness_mm: float


@frozen_identity
class Spread:
    """Mean and standard deviation of some values; the deviation with one less than their count."""

    values_mm: FloatArray

    @property
    def mean_mm(self) -> float:
        """Their mean, millimetres; zero where there are none."""
        return float(self.values_mm.mean()) if self.values_mm.size else 0.0

    @property
    def sd_mm(self) -> float:
        """Their standard deviation, millimetres; zero of fewer than two."""
        return float(self.values_mm.std(ddof=1)) if self.values_mm.size > 1 else 0.0

    @property
    def bottom_mm(self) -> float:
        """Three standard deviations and the mean's size: what an F-number is over."""
        return 3 * self.sd_mm + abs(self.mean_mm)


@frozen_identity
class LineF:
    """One line's curvatures and differences, and the F-numbers it would have by itself."""

    q: Spread
    z: Spread
    ff: float
    """Infinite where every curvature is zero."""
    fl: float
    count: int


def spacing_counts(spacing_m: float) -> bool:
    """Whether readings so far apart can carry an F-number."""
    return any(abs(spacing_m - each) <= each * _SPACING_OFF for each in SPACINGS_M)


def f_number(constant_mm: float, bottom_mm: float) -> float:
    """
    An F-number; infinite over nothing, as on a perfect plane.

    >>> f_number(4.57 * 25.4, 0.0)
    inf
    """
    return inf if bottom_mm <= _DUST_MM else constant_mm / bottom_mm


def line_f(heights_mm: ArrayLike, constants: Constants) -> LineF:
    """
    Curvatures and differences of one line.

    Parameters
    ----------
    heights_mm : (n,) array_like
        In the order of the line, evenly spaced as :func:`spacing_counts` asks, n at least 12.
    constants : Constants

    Raises
    ------
    SurveyError
        If there are fewer than 12, or one is not finite (names it).

    Notes
    -----
    F = c / (3 s + |mean|). Source: E1155/E1155M for what q and z are; a description of the
    standard in words for the formula; its constants from memory, the licensed text governs.

    Examples
    --------
    >>> line_f([0.0] * 8, Constants(116.078, 317.5))
    Traceback (most recent call last):
        ...
    assistant.errors.SurveyError: A line needs 12 readings for an F-number; this one has 8.
    """
    count = np.size(heights_mm)
    if count < FEWEST_POINTS:
        raise SurveyError(
            f"A line needs {FEWEST_POINTS} readings for an F-number; this one has {count}."
        )
    heights = as_levels(heights_mm, count, "height")
    q = Spread(heights[2:] - 2 * heights[1:-1] + heights[:-2])
    z = Spread(heights[_APART:] - heights[:-_APART])
    return LineF(
        q,
        z,
        f_number(constants.flatness_mm, q.bottom_mm),
        f_number(constants.levelness_mm, z.bottom_mm),
        count,
    )


def noise_of(reading_sd_mm: float) -> tuple[float, float]:
    """
    Standard deviations of a q and of a z by errors of the readings alone (exact).

    >>> q, z = noise_of(1.0)
    >>> round(q**2), round(z**2)
    (6, 2)
    """
    return reading_sd_mm * sqrt(6), reading_sd_mm * sqrt(2)


def pooled_spread(spreads: Sequence[Spread]) -> Spread:
    """
    All values of a section's lines together, each counting once.

    The deviation is that from the section's own mean. Were it taken within each line, two lines
    down the same slope from opposite ends would cancel to a level floor.

    Notes
    -----
    That readings and variances are pooled before the one F: symbol lists of E1155/E1155M; the
    pooling formula itself from memory.
    """
    if not spreads:
        raise SurveyError("There is no line to make an F-number of.")
    return Spread(np.concatenate([each.values_mm for each in spreads]))


def own_interval(
    spreads: Sequence[Spread],
    constant_mm: float,
    confidence: float = 0.90,
    noise_mm: float = 0.0,
) -> tuple[float, float]:
    """
    Our own interval for the F-number of a floor of which these lines are a sample.

    Not of the standard. Values along a line hang together, so they count for fewer: with
    autocorrelations r their variance is as sure as that of n / (1 + 2 Σ r²) independent ones.
    Errors of readings make a floor look rougher, which the flatter end leaves out; and values that
    spread less than their errors do, as whole millimetres on a flat floor, say no more than those.

    Parameters
    ----------
    spreads : of each line
    constant_mm : float
    confidence : float
    noise_mm : float
        Standard deviation of one value by the readings' errors: :func:`noise_of`.

    Returns
    -------
    least, most : float
        Most is infinite where nothing says how flat the floor may be.
    """
    whole = pooled_spread(spreads)
    count = whole.values_mm.size
    correlations = _autocorrelations(spreads, whole)
    squares = 1 + 2 * float(np.sum(correlations**2))
    counts_as = max(count / squares - 1, 0.5)
    tail = (1 - confidence) / 2
    wide, narrow = (float(stats.chi2.ppf(each, counts_as)) for each in (tail, 1 - tail))
    sd = max(whole.sd_mm, noise_mm)
    mean_sd = sd * sqrt(max(1 + 2 * float(np.sum(correlations)), 1 / count) / count)
    off = float(stats.t.ppf(1 - tail, counts_as)) * mean_sd
    most_bottom = 3 * sd * sqrt(counts_as / wide) + abs(whole.mean_mm) + off
    floors_own = sqrt(max(whole.sd_mm**2 * counts_as / narrow - noise_mm**2, 0.0))
    least_bottom = 3 * floors_own + max(abs(whole.mean_mm) - off, 0.0)
    return f_number(constant_mm, most_bottom), f_number(constant_mm, least_bottom)


def _autocorrelations(spreads: Sequence[Spread], whole: Spread) -> FloatArray:
    """At each distance up to ten values, over all lines; (0,) where the values are all one."""
    variance = float(np.mean((whole.values_mm - whole.mean_mm) ** 2))
    if variance <= _DUST_MM**2:
        return np.zeros(0)
    found = []
    for lag in range(1, _APART + 1):
        products = [
            (each.values_mm[lag:] - whole.mean_mm) * (each.values_mm[:-lag] - whole.mean_mm)
            for each in spreads
            if each.values_mm.size > lag
        ]
        if not products:
            break
        # Over the whole count, as is usual: far lags with few pairs then weigh little.
        found.append(float(np.concatenate(products).sum()) / whole.values_mm.size / variance)
    return np.array(found)
