"""
How far one reading may be off, and one value for a display that showed several.

A reading is the height of what was read against the set-up's zero, plus above it. A staff
that is read from above counts the other way: hand in minus what it shows.
"""

from __future__ import annotations

from collections.abc import Sequence
from math import hypot, isfinite, sqrt

from assistant.errors import SurveyError
from grammar.frozen import frozen

SETTLED_CHANCE = 0.95
"""How often a display that only shows its usual noise is taken as settled. Raising it waits
less often, and lets more of a still moving hose through. Our own choice, no source."""


@frozen
class SettledDisplay:
    """The one value that a display which jumped between several is taken for."""

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
    from statistics import NormalDist  # slow to load, and most displays stand still

    reading_sd(resolution_m, repeatability_m)
    pairs = max(count * (count - 1) // 2, 1)
    furthest = NormalDist().inv_cdf(1 - (1 - SETTLED_CHANCE) / (2 * pairs))
    return resolution_m + furthest * sqrt(2) * repeatability_m


def settle_display(
    readings_m: Sequence[float], resolution_m: float, repeatability_m: float
) -> SettledDisplay:
    """
    One value for a display that showed several.

    Parameters
    ----------
    readings_m : sequence of float
        In any order, at least one, metres.
    resolution_m, repeatability_m : float
        As in :func:`reading_sd`.

    Raises
    ------
    SurveyError
        If there are none, or one is not finite. Names the row.

    Examples
    --------
    >>> shown = settle_display([-0.017, -0.018, -0.019], 0.001, 0.0005)
    >>> shown.value_m, round(shown.spread_m, 6), shown.wait
    (-0.018, 0.002, False)
    """
    from statistics import median

    if not readings_m:
        raise SurveyError("Nothing was read.")
    for row, reading in enumerate(readings_m, start=1):
        if not isfinite(reading):
            raise SurveyError(f"The reading in row {row} is not a usable number ({reading}).")
    return SettledDisplay(
        value_m=median(readings_m),
        spread_m=max(readings_m) - min(readings_m),
        allowed_m=noise_range(len(readings_m), resolution_m, repeatability_m),
    )
