"""
Met, not met, or cannot be told: a value from readings that are uncertain against a limit.

Either of the first two is to be wrong in no more than one case of twenty, as
``tests/benchmarks/verdicts.py`` tries on floors of known shape. A worst place is the one where the
readings' errors happened to add up, so what seems over a limit at one of many places has to be
over it by more than what seems over it at the only one.
"""

from __future__ import annotations

from math import ceil, cos, inf, isfinite, pi, sqrt

import numpy as np
from scipy import stats

from assistant.errors import SurveyError
from assistant.flatness.f_numbers import Spread, f_number, pooled_spread
from assistant.flatness.straightedge import Gaps
from assistant.levels.arrays import FloatArray
from grammar.frozen import frozen

__all__ = [
    "WRONG",
    "LimitVerdict",
    "f_verdict",
    "hidden_share",
    "levelled_out",
    "places_in_reach",
    "settled_by",
    "verdict",
]

WRONG = 0.05
"""How often a verdict may be wrong. Our own choice."""
_REACH = 2.0
"""Places whose gap is under a limit by less than so many deviations may be at it in truth."""
MOST_READINGS = 25
"""More readings of one place than this nobody takes: a finer instrument is asked for instead."""


@frozen
class LimitVerdict:
    """Whether readings show that a limit is met."""

    met: bool | None
    """None where they are too few or too uncertain to show it."""
    readings_each: int | None = None
    """How often in all each of the readings concerned would have to be taken, until their mean
    tells; None where that is no way to tell."""


def _beyond(choices: int) -> float:
    """Deviations past a limit that chance does not reach at any of so many places."""
    return float(stats.norm.ppf((1 - WRONG) ** (1 / max(choices, 1))))


def verdict(
    value_mm: float,
    limit_mm: float,
    sd_mm: float,
    *,
    hidden_mm: float = 0.0,
    choices: int = 1,
    whole: bool = True,
) -> LimitVerdict:
    """
    Whether a value is within its limit.

    Parameters
    ----------
    value_mm, limit_mm : float
        Exactly at the limit is within it.
    sd_mm : float
        Standard deviation of the value.
    hidden_mm : float
        What the readings may not have seen: infinite where they lie too far apart.
    choices : int
        Of how many places it is the worst.
    whole : bool
        Whether the test was made as it is meant; a shorter edge only shows what is not met.

    Examples
    --------
    >>> verdict(3.2, 3.0, 1.0).met, verdict(3.2, 3.0, 0.05).met, verdict(1.0, 3.0, 0.5).met
    (None, False, True)
    """
    if not (isfinite(value_mm) and isfinite(limit_mm) and sd_mm >= 0):
        raise SurveyError(f"{value_mm} mm cannot be held against {limit_mm} mm.")
    past = value_mm - limit_mm
    if past > _beyond(choices) * sd_mm:
        return LimitVerdict(False)
    if whole and past + _beyond(1) * sd_mm + hidden_mm <= 0:
        return LimitVerdict(True)
    return LimitVerdict(None, _readings_each(past, sd_mm, hidden_mm, choices, whole))


def _readings_each(past: float, sd: float, hidden: float, choices: int, whole: bool) -> int | None:
    if past > 0:
        return ceil((_beyond(choices) * sd / past) ** 2)
    room = -past - hidden
    if not whole or room <= 0:
        return None
    return ceil((_beyond(1) * sd / room) ** 2)


def settled_by(found: LimitVerdict) -> bool:
    """Whether reading the same places again, as often as anybody would, is a way to tell."""
    return found.readings_each is not None and found.readings_each <= MOST_READINGS


def hidden_share(spacing_m: float, length_m: float, averaged_m: float = 0.0) -> float:
    """
    The share of an undulation as long as an edge that points so far apart can miss.

    Its trough may lie halfway between two of them, where cos(pi s / L) of its depth is seen; of
    heights that are each of a stretch, as a scan's cells are, sin(pi a / L) / (pi a / L) of that.
    Infinite from half an edge on: three points under it are too few to show anything.

    >>> round(hidden_share(0.3, 2.0), 3), hidden_share(1.0, 2.0)
    (0.109, inf)
    >>> round(hidden_share(0.3, 2.0, 0.3), 3)
    0.142
    """
    if not (spacing_m > 0 and length_m > 0):
        raise SurveyError("Spacing and length are more than nothing.")
    if 2 * spacing_m >= length_m:
        return inf
    return 1 - cos(pi * spacing_m / length_m) * levelled_out(averaged_m, length_m)


def levelled_out(averaged_m: float, wave_m: float) -> float:
    """
    The share of a wave's depth that is left in means over a stretch of it.

    >>> levelled_out(0.0, 2.0), round(levelled_out(1.0, 2.0), 3)
    (1.0, 0.637)
    """
    return float(np.sinc(averaged_m / wave_m))


def places_in_reach(gaps: Gaps, limit_mm: float, sd_mm: float) -> int:
    """How many places may be at the limit in truth: one at least."""
    with np.errstate(invalid="ignore"):
        return max(1, int(np.count_nonzero(gaps.mm > limit_mm - _REACH * sd_mm)))


# --- F-numbers ------------------------------------------------------------------------

_OF_Q = np.array([1.0, -2.0, 1.0])
_OF_Z = np.array([1.0, *[0.0] * 9, -1.0])


def f_verdict(
    spreads: list[Spread], constant_mm: float, limit: float, noise_sd_mm: float, *, flatness: bool
) -> tuple[LimitVerdict, tuple[float, float]]:
    """
    Whether an F-number is reached on the lines that were read, and where it may lie.

    Errors of readings make a floor look rougher: a reading's deviation s gives a q of s√6 by
    itself, and a z of s√2 (exact). What they add is taken off, with how surely it is known.
    Of a limit flatter than errors alone would look most that could be told is chance, but that a
    floor is rougher by far.

    Parameters
    ----------
    spreads : of each line, its q for FF, its z for FL
    constant_mm, limit : float
    noise_sd_mm : float
        Standard deviation of one reading.
    flatness : bool
        FF; otherwise FL.

    Returns
    -------
    verdict : Verdict
    least, most : float
        F-numbers that the same lines may have for readings without errors.
    """
    kernel = _OF_Q if flatness else _OF_Z
    least, most = _bottoms(spreads, noise_sd_mm, kernel)
    low, high = f_number(constant_mm, most), f_number(constant_mm, least)
    of_errors = noise_sd_mm * float(np.sqrt(kernel @ kernel))
    shows = limit <= f_number(constant_mm, 3 * of_errors)
    rougher = of_errors <= _BY_FAR * pooled_spread(spreads).sd_mm
    met = None
    if low >= limit and shows:
        met = True
    elif high < limit and (shows or rougher):
        met = False
    return LimitVerdict(met), (low, high)


_BY_FAR = 0.5
"""Share of a floor's spread that errors of its readings may be where it is rougher by far. Our own
choice; raising it tells more, and more of it by chance."""


def _bottoms(spreads: list[Spread], noise: float, kernel: FloatArray) -> tuple[float, float]:
    """Least and greatest of what the F-number is over."""
    whole = pooled_spread(spreads)
    count = whole.values_mm.size
    # Covariance of the errors of two values, by how far they are apart.
    together = np.correlate(kernel, kernel, mode="full") * noise**2
    centred = [each.values_mm - whole.mean_mm for each in spreads]
    crossed = sum(float(each @ _times(together, each)) for each in centred)
    of_ones = sum(float(_times(together, np.ones(each.size)).sum()) for each in centred)
    of_variance = sqrt(2 * float(together @ together) / count + 4 * max(crossed, 0.0) / count**2)
    of_mean = sqrt(max(of_ones, 0.0)) / count
    beyond = _beyond(1)
    variance = whole.sd_mm**2 - together[len(kernel) - 1]
    smallest = max(variance - beyond * of_variance, 0.0)
    greatest = max(variance + beyond * of_variance, 0.0)
    off = beyond * of_mean
    return (
        3 * sqrt(smallest) + max(abs(whole.mean_mm) - off, 0.0),
        3 * sqrt(greatest) + abs(whole.mean_mm) + off,
    )


def _times(together: FloatArray, values: FloatArray) -> FloatArray:
    """The covariance matrix of a line's errors, times its values."""
    half = len(together) // 2
    product: FloatArray = np.convolve(values, together)[half : half + values.size]
    return product
