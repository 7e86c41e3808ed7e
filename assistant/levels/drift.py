"""
Whether a set-up's zero is at rest, drifts or has moved, from repeated checks of it.

Something of known height (the zero itself, a benchmark) is read now and then; these are the
checks. What they show decides about the readings between them: nothing to do, a small and
smooth drift to take out in proportion to time, or a reference that was moved, after which
only a new tie helps.
"""

from __future__ import annotations

from math import sqrt
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray, IntArray, as_levels
from assistant.levels.drift_pieces import DriftSegment, pieces_of
from assistant.levels.reduction import reading_sd
from grammar.frozen import frozen, frozen_identity

GapKind = Literal["quiet", "drift", "step"]


@frozen
class DriftRules:
    """What counts as small; settings, with their reasons."""

    most_resolutions: float = 3.0
    """Drift between two neighbouring checks that may be spread, in steps of the display.
    Three steps hold the noise of two checks and about as much of real drift; with more, even
    half of it left in the readings would show in the pour. Raising it spreads what may have
    been a knock. Common practice, no source."""
    surprise: float = 4.0
    """By how much a line (or one more step) must bring down the sum of squared misfits over
    their variance to be believed: 4 is two standard deviations. Raising it needs clearer
    drift before any is taken out. Our own choice, no source."""
    surprise_of_two: float = 6.635
    """The same for two looks that differ and no third one: the upper hundredth of chi-squared
    with one degree of freedom, so that good looks differ so much one time in a hundred. Raising
    it leaves more drift in. Our own choice, no source."""


USUAL_RULES = DriftRules()


@frozen
class BetweenChecks:
    """What happened between one check and the next."""

    kind: GapKind
    first: int
    """Check before it, from 0; the other one is the next."""
    change_m: float
    """How far the zero's reading went from one check to the other, noise smoothed out."""
    told_apart: bool
    """The checks further on, on both sides, show which it is. Otherwise two checks alone
    decide by size, and drift cannot really be distinguished from a small knock."""
    may_spread: bool
    """Readings between the two checks can be used, corrected where it is drift."""


@frozen_identity
class Corrected:
    """Readings with the drift taken out; see :func:`correct_readings`."""

    readings_m: FloatArray
    """(n,) as they would have been at the time of the first check."""
    corrections_m: FloatArray
    """(n,) what was added."""
    doubtful: BoolArray
    """(n,) taken between checks of which the later one shows a moved reference, or drift too
    large to spread: take them again."""
    after_step: BoolArray
    """(n,) taken after the reference moved, and brought back by the checks since. They hold
    if the reference has been at rest since; better to tie again."""
    unchecked: BoolArray
    """(n,) no check before, or none after."""
    alone: BoolArray
    """(checks,) far off the check before, and borne out by none: misread, or the reference
    moved. Nothing is taken out for it, and readings on either side of it are doubtful."""
    gaps: tuple[BetweenChecks, ...]
    """Between the checks, in order."""


def classify_checks(
    times_min: ArrayLike,
    readings_m: ArrayLike,
    resolution_m: float,
    repeatability_m: float,
    rules: DriftRules = USUAL_RULES,
) -> tuple[BetweenChecks, ...]:
    """
    What happened to a zero between its checks.

    Parameters
    ----------
    times_min : (n,) array_like
        When each check was made, minutes, never going back.
    readings_m : (n,) array_like
        What it read, less what it should have read, metres. Setting the zero counts as the
        first check, with 0.
    resolution_m, repeatability_m : float
        As in :func:`~assistant.levels.reduction.reading_sd`.
    rules : DriftRules

    Returns
    -------
    gaps : tuple of Gap
        One less than checks.

    Raises
    ------
    SurveyError
        If a number is missing or not finite, or the times go back.

    Notes
    -----
    The checks are cut into pieces, in each of which the zero stands still or drifts evenly,
    where that explains them better than its extra freedom costs; between pieces is a step.
    Two checks alone fit a line as well as a step: they are quiet while their difference is within
    their own noise (``rules.surprise_of_two``); beyond it a small one is taken for drift, which
    halves the harm if it was a knock, and one of more than ``rules.most_resolutions`` for a step.

    Examples
    --------
    A knock of 6 mm between the third and fourth check.

    >>> gaps = classify_checks([0, 10, 20, 30, 40], [0, 0, 0.001, 0.006, 0.006], 0.001, 0.0005)
    >>> [gap.kind for gap in gaps]
    ['quiet', 'quiet', 'step', 'quiet']
    """
    times, checks = _checks(times_min, readings_m)
    pieces = _pieces(times, checks, resolution_m, repeatability_m, rules)
    return _gaps(times, pieces, resolution_m, repeatability_m, rules)


def correct_readings(
    times_min: ArrayLike,
    readings_m: ArrayLike,
    check_times_min: ArrayLike,
    check_readings_m: ArrayLike,
    resolution_m: float,
    repeatability_m: float,
    rules: DriftRules = USUAL_RULES,
) -> Corrected:
    """
    Readings with the drift between checks taken out, and those not to be trusted marked.

    Parameters
    ----------
    times_min, readings_m : (n,) array_like
        The readings to correct, minutes and metres, in any order.
    check_times_min, check_readings_m, resolution_m, repeatability_m, rules
        As in :func:`classify_checks`.

    Returns
    -------
    corrected : Corrected
        Relative to the first check. Before it nothing is corrected, after the last one as at
        that one; both are marked.

    Raises
    ------
    SurveyError
        As :func:`classify_checks`.

    Notes
    -----
    In proportion to time, as for base-station loops: m(t) - (t - t0)(m_end - m_start) /
    (t_end - t0). From memory. With more than two checks the line is the one that fits them all.

    Examples
    --------
    The zero read 1.5 mm after 50 minutes on an instrument that shows half millimetres.

    >>> when, read = [10, 20, 30, 40], [0.0040, -0.0035, 0.0072, 0.0011]
    >>> result = correct_readings(when, read, [0, 50], [0, 0.0015], 0.0005, 0.0002)
    >>> print((result.readings_m * 1000).round(4))
    [ 3.7 -4.1  6.3 -0.1]
    """
    times = np.asarray(times_min, dtype=np.float64).reshape(-1)
    readings = as_levels(readings_m, times.size, "reading")
    as_levels(times, times.size, "time")
    check_times, checks = _checks(check_times_min, check_readings_m)
    if not checks.size:
        none = np.zeros(times.size, dtype=bool)
        return Corrected(readings, np.zeros(times.size), none, none, ~none, none[:0], ())
    pieces = _pieces(check_times, checks, resolution_m, repeatability_m, rules)
    gaps = _gaps(check_times, pieces, resolution_m, repeatability_m, rules)
    noise = sqrt(2 * rules.surprise_of_two) * reading_sd(resolution_m, repeatability_m)
    near = max(noise, rules.most_resolutions * resolution_m) * (1 + 1e-9)
    sd = reading_sd(resolution_m, repeatability_m)
    alone = _alone(check_times, checks, gaps, near, sd)
    # An odd look must not bend the line through the others.
    borne_times, borne_checks = check_times[~alone], checks[~alone]
    rest = _pieces(borne_times, borne_checks, resolution_m, repeatability_m, rules)
    fitted = _fitted(borne_times, rest if alone.any() else pieces)
    corrections = -(np.interp(times, borne_times, fitted) - fitted[0])
    gap = _gap_of(times, check_times)
    bad = np.array([not one.may_spread for one in gaps] + [False])
    stepped = np.cumsum([0] + [one.kind == "step" for one in gaps])
    last_check = np.clip(np.searchsorted(check_times, times, side="right") - 1, 0, None)
    doubtful = bad[gap] | (alone[-1] & (times >= check_times[-1]))
    return Corrected(
        readings_m=readings + corrections,
        corrections_m=corrections,
        doubtful=doubtful,
        after_step=(stepped[last_check] > 0) & ~doubtful,
        unchecked=(times < check_times[0]) | (times > check_times[-1]),
        alone=alone,
        gaps=gaps,
    )


def _checks(times_min: ArrayLike, readings_m: ArrayLike) -> tuple[FloatArray, FloatArray]:
    times = np.asarray(times_min, dtype=np.float64).reshape(-1)
    as_levels(times, times.size, "time")
    checks = as_levels(readings_m, times.size, "check")
    back = np.flatnonzero(np.diff(times) < 0)
    if back.size:
        raise SurveyError(f"Check {back[0] + 2} is earlier than the one before it.")
    return times, checks


def _pieces(
    times: FloatArray,
    checks: FloatArray,
    resolution: float,
    repeatability: float,
    rules: DriftRules,
) -> tuple[DriftSegment, ...]:
    sd = reading_sd(resolution, repeatability)
    return pieces_of(times, checks, sd, rules.surprise, rules.surprise_of_two)


def _gaps(
    times: FloatArray,
    pieces: tuple[DriftSegment, ...],
    resolution: float,
    repeatability: float,
    rules: DriftRules,
) -> tuple[BetweenChecks, ...]:
    most = rules.most_resolutions * resolution * (1 + 1e-9)
    sd = reading_sd(resolution, repeatability)
    gaps: list[BetweenChecks] = []
    for number, piece in enumerate(pieces):
        if number:
            gaps.append(_between(times, pieces[number - 1], piece, sd, rules.surprise, most))
        gaps.extend(_within(times, piece, most, first) for first in range(piece.first, piece.last))
    return tuple(gaps)


def _within(times: FloatArray, piece: DriftSegment, most_m: float, first: int) -> BetweenChecks:
    minutes = float(times[first + 1] - times[first])
    change = piece.slope * minutes
    told_apart = piece.last - piece.first > 1
    if not piece.slope:
        return BetweenChecks("quiet", first, 0.0, told_apart, True)
    small = abs(change) <= most_m
    if not small and not told_apart:
        return BetweenChecks("step", first, change, False, False)
    return BetweenChecks("drift", first, change, told_apart, small)


def _between(
    times: FloatArray,
    before: DriftSegment,
    after: DriftSegment,
    sd: float,
    surprise: float,
    most_m: float,
) -> BetweenChecks:
    first = before.last
    leaving, coming = float(times[first]), float(times[after.first])
    change = after.at(coming) - before.at(leaving)
    told_apart = before.last > before.first and after.last > after.first
    noise = before.variance(leaving, sd) + after.variance(coming, sd)
    low, high = sorted((before.slope * (coming - leaving), after.slope * (coming - leaving)))
    beyond = max(low - change, change - high, 0.0)
    if beyond**2 <= surprise * noise:
        # As the drift on the one or the other side has it: it bends here, but does not jump.
        return BetweenChecks("drift", first, change, told_apart, abs(change) <= most_m)
    return BetweenChecks("step", first, change, told_apart, False)


def _alone(
    times: FloatArray, checks: FloatArray, gaps: tuple[BetweenChecks, ...], near_m: float, sd: float
) -> BoolArray:
    """Checks that no other one bears out, (n,); the first one is the setting of the zero."""
    alone = np.zeros(checks.size, dtype=bool)
    level = checks[0]
    for row in range(1, checks.size):
        before, after = gaps[row - 1], gaps[row] if row < len(gaps) else None
        drifts = before.kind == "drift" and before.told_apart
        leaves = not before.may_spread and not (
            drifts and _goes_on(times[: row + 1], checks[: row + 1], gaps[:row], near_m, sd)
        )
        stays = after is not None and (after.may_spread or after.kind == "drift")
        alone[row] = leaves and not stays and abs(checks[row] - level) > near_m
        if not alone[row]:
            level = checks[row]
    return alone


def _goes_on(
    times: FloatArray, checks: FloatArray, gaps: tuple[BetweenChecks, ...], near_m: float, sd: float
) -> bool:
    """
    Whether the drift of the earlier checks leads to what the last one reads.

    Only where they tell it as well as a look does: a line through looks at one moment and one
    look later fits whatever that one reads.
    """
    first = next((row for row in reversed(range(len(gaps))) if gaps[row].kind != "drift"), -1) + 1
    earlier, read = times[first:-1], checks[first:-1]
    if earlier.size < 2 or np.ptp(earlier) <= 0:
        return False
    middle = float(earlier.mean())
    spread = float(((earlier - middle) ** 2).sum())
    slope = float((earlier - middle) @ read) / spread
    expected = float(read.mean()) + slope * (float(times[-1]) - middle)
    far = 1 / earlier.size + (float(times[-1]) - middle) ** 2 / spread
    return sd * sqrt(far) <= near_m and abs(float(checks[-1]) - expected) <= near_m


def _fitted(times: FloatArray, pieces: tuple[DriftSegment, ...]) -> FloatArray:
    """What the checks would have read without their noise, (n,)."""
    parts = [
        piece.level + piece.slope * (times[piece.first : piece.last + 1] - piece.middle)
        for piece in pieces
    ]
    return np.concatenate(parts)


def _gap_of(times: FloatArray, check_times: FloatArray) -> IntArray:
    """Gap each time falls in; outside, and at a check itself, the one after the last."""
    none = check_times.size - 1
    before = np.searchsorted(check_times, times, side="right") - 1
    outside = (before < 0) | (before >= none) | np.isin(times, check_times)
    return np.where(outside, none, before).astype(np.intp)
