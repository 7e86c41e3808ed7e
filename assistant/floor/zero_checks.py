"""Judges each set-up's zero by its checks: still, drifting a little, or moved.

It connects the job with :mod:`assistant.levels.drift`: readings are given with their order and
time, and come back with the drift removed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field
from typing import TYPE_CHECKING

from assistant.job import Job
from assistant.job.set_ups import Height, KnownMark, SurveyState
from assistant.reply.times import UNTIMED
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.drift import BetweenChecks, Corrected

GOOD_STEPS = 3
"""Steps of the display that a good check may be off by, which may be distributed as drift between
two checks. Raising it trusts a zero that has been knocked a little. Common practice, no source."""
GOOD_SDS = 1.96
"""A check is also good if it is off by no more than 95 of 100 pairs of checks differ by, for an
instrument that repeats less well than it shows."""

_TIE_BREAK_MIN = 1e-6
"""Minutes between readings of one utterance, which were still read one after the other."""


@frozen
class ZeroLook:
    """One check of a zero."""

    order: int
    """Among all heights read; the setting of the zero is half a step before the set-up's first."""
    minutes: float
    off_mm: float
    """Its reading minus what it should read."""
    on: int | None = None
    """The benchmark that was read; None for the zero itself."""


@frozen
class Watch:
    """The result of one set-up's zero checks."""

    seen: tuple[ZeroLook, ...]
    """The first is the setting of the zero."""
    gaps: tuple[BetweenChecks, ...] = ()
    correction_mm: dict[int, float] = field(default_factory=dict)
    """Correction of the height with that order; missing where there is none."""
    doubtful: frozenset[int] = frozenset()
    """Orders of heights between two checks in which the zero moved at an unknown time."""
    after_step: frozenset[int] = frozenset()
    """Orders of heights read after the zero moved, and corrected by the checks since."""
    alone: ZeroLook | None = None
    """The last check, where it is far off and no second one has confirmed it yet."""

    @property
    def checks(self) -> int:
        """Number of checks after the zero was set."""
        return max(len(self.seen) - 1, 0)

    def last_good(self, most_off_mm: float) -> int:
        """Order of the last good check."""
        return next(one.order for one in reversed(self.seen) if abs(one.off_mm) <= most_off_mm)


def good_mm(state: SurveyState) -> float:
    """How far off a check may be and still be good."""
    steps = float(GOOD_STEPS * state.resolution_mm)
    return max(steps, GOOD_SDS * 2**0.5 * look_sd_mm(state)) + 1e-9


def look_sd_mm(state: SurveyState) -> float:
    """Standard deviation of one reading, from the instrument's settings."""
    from assistant.levels.reduction import reading_sd

    return 1000 * reading_sd(
        float(state.resolution_mm) / 1000, float(state.repeatability_mm) / 1000
    )


def minutes_of(height: Height) -> float:
    """Time of a height in minutes; heights of one utterance keep their order."""
    return (height.time - UNTIMED).total_seconds() / 60 + height.order * _TIE_BREAK_MIN


def watch_zero(job: Job, set_up: int, heights: Sequence[Height]) -> Watch:
    """
    Judges a set-up's zero, and the heights read from it, by its checks.

    Parameters
    ----------
    job : Job
    set_up : int
        Counted from 0.
    heights : sequence of Height
        All that was read from it, ties among them.
    """
    seen = _seen(job, set_up, heights)
    if len(seen) < 2:
        return Watch(seen)
    state, believed = job.survey, seen
    corrected = _corrected(state, heights, believed)
    while (misread := _contradicted(state, believed, corrected)) is not None:
        believed = believed[:misread] + believed[misread + 1 :]
        corrected = _corrected(state, heights, believed)
    alone = believed[-1] if corrected.alone[-1] else None
    orders = [height.order for height in heights]
    doubtful = _chosen(orders, corrected.doubtful)
    # Within the interval of a move the correction is unknown: kept as read, and marked.
    corrections = {
        order: metres * 1000
        for order, metres in zip(orders, corrected.corrections_m.tolist(), strict=True)
        if abs(metres) > 1e-9 and order not in doubtful
    }
    # After the zero was set again there is little to correct, and so nothing doubtful.
    step_mm = float(state.resolution_mm) * (1 + 1e-9)
    after = frozenset(
        order
        for order in _chosen(orders, corrected.after_step)
        if abs(corrections.get(order, 0.0)) > step_mm
    )
    return Watch(seen, corrected.gaps, corrections, doubtful, after, alone)


def _corrected(
    state: SurveyState, heights: Sequence[Height], seen: tuple[ZeroLook, ...]
) -> Corrected:
    from assistant.levels.drift import correct_readings

    return correct_readings(
        [minutes_of(height) for height in heights],
        [float(height.mm) / 1000 for height in heights],
        _never_back([one.minutes for one in seen]),
        [one.off_mm / 1000 for one in seen],
        float(state.resolution_mm) / 1000,
        float(state.repeatability_mm) / 1000,
    )


def _contradicted(
    state: SurveyState, seen: tuple[ZeroLook, ...], corrected: Corrected
) -> int | None:
    """
    A check that was misread: it alone is off, and a benchmark reads as before it since.

    A later check of the zero itself does not count, as the zero reads right once it has been
    set again.
    """
    for row in range(1, len(seen) - 1):
        after, before = seen[row + 1], seen[row - 1]
        as_before = abs(after.off_mm - before.off_mm) <= good_mm(state)
        if corrected.alone[row] and as_before and after.on is not None:
            return row
    return None


def _chosen(orders: list[int], flags: object) -> frozenset[int]:
    return frozenset(order for order, yes in zip(orders, flags, strict=True) if yes)  # type: ignore[call-overload]


def _never_back(minutes: list[float]) -> list[float]:
    """Keep times in order where a clock was put back between two checks."""
    for row in range(1, len(minutes)):
        minutes[row] = max(minutes[row], minutes[row - 1])
    return minutes


def _seen(job: Job, set_up: int, heights: Sequence[Height]) -> tuple[ZeroLook, ...]:
    begun = job.survey.set_ups[set_up]
    first = min((minutes_of(height) for height in heights), default=0.0)
    if begun.time is not None:
        first = min(first, (begun.time - UNTIMED).total_seconds() / 60)
    seen = [ZeroLook(begun.order, first - _TIE_BREAK_MIN, 0.0)]
    marks = [mark for mark in job.survey.marks if mark.height.set_up == set_up]
    for mark in marks:
        off = _off_mm(job.survey, set_up, mark, marks, seen)
        if off is not None:
            on = mark.on if isinstance(mark.on, int) else None
            seen.append(ZeroLook(mark.height.order, minutes_of(mark.height), off, on))
    return tuple(seen)


def _off_mm(
    state: SurveyState, set_up: int, mark: KnownMark, marks: list[KnownMark], seen: list[ZeroLook]
) -> float | None:
    """How far off the zero was at this reading; None where that cannot be known from it."""
    if mark.on is None:
        return float(mark.height.mm - state.offset_mm)
    if not isinstance(mark.on, int):
        return None
    known = state.benchmarks.get(mark.on)
    if set_up == 0 and known is not None:
        return float(mark.height.mm - state.offset_mm - known.mm)
    first = next(one for one in marks if one.on == mark.on)
    if first is mark:
        return None
    # The same mark was read before: the zero is off by as much as then, plus the difference.
    then = [one.off_mm for one in seen if one.order <= first.height.order]
    if len(then) > 1 and abs(then[-1] - then[-2]) > good_mm(state):
        return None  # after an odd check this is unknown, and does not judge that check
    return then[-1] + float(mark.height.mm - first.height.mm)
