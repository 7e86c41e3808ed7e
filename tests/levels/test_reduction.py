"""Readings of one set-up: settling, drift and knocks."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.drift import DriftRules, classify_checks, correct_readings
from assistant.levels.reduction import (
    noise_range,
    reading_sd,
    settle_display,
)

MM = 0.001
CLASS_1_MM = (1 * MM, 0.5 * MM)
"""Resolution and repeatability of the usual instrument."""
EVERY_10 = np.arange(0, 200, 10.0)


# --- a display that jumps ----------------------------------------------------


@pytest.mark.parametrize(
    ("shown_mm", "taken_mm", "wait"),
    [
        ([-18], -18, False),
        ([-17, -18, -19], -18, False),
        ([-17, -18, -18, -18, -30], -18, True),
        ([-17, -18], -17.5, False),
        ([-17, -20], -18.5, True),
        ([-17, -18, -21], -18, True),
    ],
)
def test_settle(shown_mm: list[int], taken_mm: float, wait: bool) -> None:
    settled = settle_display([value * MM for value in shown_mm], *CLASS_1_MM)
    assert settled.value_m / MM == pytest.approx(taken_mm)
    assert settled.wait is wait


def test_more_readings_may_spread_more() -> None:
    allowed = [noise_range(count, *CLASS_1_MM) for count in (2, 3, 5, 9)]
    assert allowed == sorted(allowed)
    # Two normal readings differ by less than 1.96 times root 2 in 95 of 100 cases: from memory.
    assert noise_range(2, 0.0, 1.0) == pytest.approx(1.96 * np.sqrt(2), rel=1e-4)


def test_an_exact_display_may_only_jump_by_its_step() -> None:
    assert not settle_display([0.001, 0.002], 0.001, 0.0).wait
    assert settle_display([0.001, 0.003], 0.001, 0.0).wait


def test_reading_sd() -> None:
    # Rounding to a step has the standard deviation of the step over root 12: exact arithmetic.
    assert reading_sd(1 * MM, 0.0) / MM == pytest.approx(0.288675, abs=5e-7)
    assert reading_sd(0.0, 2 * MM) == pytest.approx(2 * MM)
    with pytest.raises(SurveyError, match="both are zero"):
        reading_sd(0, 0)
    with pytest.raises(SurveyError, match="resolution"):
        reading_sd(-1, 0)


def test_nothing_read_cannot_settle() -> None:
    with pytest.raises(SurveyError, match="Nothing was read"):
        settle_display([], *CLASS_1_MM)
    with pytest.raises(SurveyError, match="row 2"):
        settle_display([0.001, float("nan")], *CLASS_1_MM)


# --- drift and knocks --------------------------------------------------------


def kinds(
    checks_mm: ArrayLike,
    resolution: float = 1 * MM,
    repeatability: float = 0.5 * MM,
    rules: DriftRules | None = None,
) -> str:
    checks = np.array(checks_mm) * MM
    found = classify_checks(
        EVERY_10[: checks.size], checks, resolution, repeatability, rules or DriftRules()
    )
    return " ".join(gap.kind for gap in found)


def test_drift_published_form() -> None:
    # Linear in time as for base-station loops (from memory), worked by exact arithmetic: 0.030 mm a
    # minute. The display shows halves of a millimetre.
    times = np.array([0, 10, 20, 30, 40, 50.0])
    shown = np.array([0.0, 4.0, -3.5, 7.2, 1.1, 1.5]) * MM
    result = correct_readings(times, shown, [0, 50], [0, 1.5 * MM], 0.5 * MM, 0.2 * MM)
    assert result.readings_m / MM == pytest.approx([0.0, 3.7, -4.1, 6.3, -0.1, 0.0], abs=1e-9)
    (gap,) = result.gaps
    assert gap.kind == "drift"
    assert gap.change_m / MM == pytest.approx(0.030 * 50)
    assert not gap.told_apart  # two checks cannot tell drift from a bump
    assert not result.doubtful.any()
    assert not result.unchecked.any()


@pytest.mark.parametrize(
    ("checks_mm", "expected"),
    [
        ([0, 0], "quiet"),
        ([0, 1], "quiet"),
        ([0, 3], "drift"),
        ([0, 4], "step"),  # more than three steps of the display, and only two checks
        ([0, 1, 0, 1, 0], "quiet quiet quiet quiet"),
        ([0, 1, 2, 3], "drift drift drift"),
        ([0, 0, 0, 2, 2, 2], "quiet quiet step quiet quiet"),  # small, but a knock all the same
        ([0, 0, 6, 6], "quiet step quiet"),
        ([0, 6, 0], "step step"),
        ([0, 1, 2, 9, 10, 11], "drift drift step drift drift"),
        ([0, 2, 4, 6, 6, 6, 6], "drift drift drift quiet quiet quiet"),
        ([0, 2, 4, 6, 4, 2, 0], "drift drift drift drift drift drift"),
        ([5, 5, 5], "quiet quiet"),
        ([0], ""),
        ([], ""),
    ],
)
def test_step_is_told_from_drift(checks_mm: list[int], expected: str) -> None:
    assert kinds(checks_mm) == expected


def test_a_step_is_told_apart_only_by_two_checks_on_either_side() -> None:
    for checks, row, told in (
        ([0, 0, 6, 6], 1, True), ([0, 6, 6, 6], 0, False), ([0, 0, 0, 6], 2, False),
    ):  # fmt: skip
        gaps = classify_checks(EVERY_10[:4], np.array(checks) * MM, *CLASS_1_MM)
        steps = [(gap.first, gap.told_apart) for gap in gaps if gap.kind == "step"]
        assert steps == [(row, told)], checks


def test_checks_on_both_sides_tell_the_step_and_its_size() -> None:
    gap = classify_checks(EVERY_10[:6], np.array([0, 0, 0, 6, 6, 7]) * MM, *CLASS_1_MM)[2]
    assert gap.kind == "step"
    assert gap.first == 2
    assert gap.told_apart
    assert not gap.may_spread
    assert gap.change_m / MM == pytest.approx(6.333, abs=0.001)


def test_large_drift_is_drift_but_not_spread() -> None:
    found = classify_checks(EVERY_10[:4], np.array([0, 4, 8, 12]) * MM, *CLASS_1_MM)
    assert {gap.kind for gap in found} == {"drift"}
    assert not any(gap.may_spread for gap in found)


def test_tolerance_is_a_setting() -> None:
    assert kinds([0, 4], rules=DriftRules(most_resolutions=4)) == "drift"
    # A finer instrument looks more closely at the same checks.
    assert kinds([0, 1, 1, 1]) == "quiet quiet quiet"
    assert kinds([0, 1, 1, 1], 0.1 * MM, 0.05 * MM) == "step quiet quiet"


def test_quiet_checks_change_nothing() -> None:
    result = correct_readings([5, 15], [-0.018, 0.003], [0, 10, 20], [0, 0.001, 0], *CLASS_1_MM)
    assert result.readings_m.tolist() == [-0.018, 0.003]
    assert not result.doubtful.any()


def test_readings_around_a_knock() -> None:
    # Knocked by 6 mm between the checks at 20 and 30 minutes; one reading in each gap, one at
    # the check itself, one before all checks and one after the last.
    when = [-5, 5, 20, 25, 35, 60]
    result = correct_readings(
        when,
        np.full(6, -18) * MM,
        [0, 10, 20, 30, 40, 50],
        np.array([0, 0, 0, 6, 6, 6]) * MM,
        *CLASS_1_MM,
    )
    assert result.doubtful.tolist() == [False, False, False, True, False, False]
    assert result.after_step.tolist() == [False, False, False, False, True, True]
    assert result.unchecked.tolist() == [True, False, False, False, False, True]
    good = [0, 1, 2, 4, 5]
    assert result.readings_m[good] / MM == pytest.approx([-18, -18, -18, -24, -24])


def test_without_a_check_nothing_is_corrected_and_nothing_checked() -> None:
    result = correct_readings([5, 15], [-0.018, 0.003], [], [], *CLASS_1_MM)
    assert result.readings_m.tolist() == [-0.018, 0.003]
    assert result.unchecked.all()
    assert result.gaps == ()


def test_several_checks_at_one_moment() -> None:
    assert kinds([0]) == ""
    found = classify_checks([0, 0, 10], [0, 0.001, 0], *CLASS_1_MM)
    assert [gap.kind for gap in found] == ["quiet", "quiet"]


def test_bad_checks_are_refused() -> None:
    with pytest.raises(SurveyError, match="Check 3 is earlier"):
        classify_checks([0, 10, 5], [0, 0, 0], *CLASS_1_MM)
    with pytest.raises(SurveyError, match="check in row 2"):
        classify_checks([0, 10], [0, float("nan")], *CLASS_1_MM)


def test_noise_alone_is_seldom_taken_for_a_knock() -> None:
    rng = np.random.default_rng(20)
    noisy = np.round(rng.normal(0, 0.5, (300, 8)))
    found = [kinds(row) for row in noisy]
    assert sum("step" in row for row in found) <= 6
    assert sum(row == "quiet quiet quiet quiet quiet quiet quiet" for row in found) >= 270


def test_a_knock_of_four_steps_is_found() -> None:
    rng = np.random.default_rng(21)
    checks = np.round(rng.normal(0, 0.5, (200, 8)) + 4.0 * (np.arange(8) > 3))
    found = [kinds(row).split() for row in checks]
    assert sum(row[3] == "step" for row in found) >= 190


def test_one_look_far_off_after_two_at_one_moment_is_no_drift() -> None:
    """A line through the first two goes wherever the third one is."""
    times = [0, 1e-6, 20]
    found = correct_readings([10], [0], times, np.array([0, -1, -34]) * MM, *CLASS_1_MM)
    assert found.alone.tolist() == [False, False, True]
    assert found.doubtful.tolist() == [True]


def test_a_steady_drift_of_three_looks_is_borne_out() -> None:
    found = correct_readings([15], [0], [0, 10, 20], np.array([0, 5, 10]) * MM, *CLASS_1_MM)
    assert not found.alone.any()


def test_an_odd_look_does_not_bend_what_the_others_say() -> None:
    times, checks = [0, 10, 20, 30], np.array([0, 0, 0, 30]) * MM
    found = correct_readings([5, 15, 25], [0, 0, 0], times, checks, *CLASS_1_MM)
    assert found.corrections_m == pytest.approx([0, 0, 0])


@settings(max_examples=60, deadline=None)
@given(
    st.lists(st.integers(-12, 12), min_size=1, max_size=9),
    st.integers(-50, 50),
    st.integers(0, 500),
)
def test_where_the_checks_start_does_not_matter(
    checks_mm: list[int], raised_mm: int, later: int
) -> None:
    checks = np.array(checks_mm) * MM
    times = EVERY_10[: checks.size]
    here = correct_readings(times, checks, times, checks, *CLASS_1_MM)
    there = correct_readings(
        times + later, checks, times + later, checks + raised_mm * MM, *CLASS_1_MM
    )
    assert there.corrections_m == pytest.approx(here.corrections_m, abs=1e-9)
    assert [gap.kind for gap in there.gaps] == [gap.kind for gap in here.gaps]
    # Turned upside down, the same is found.
    down = classify_checks(times, -checks, *CLASS_1_MM)
    assert [gap.kind for gap in down] == [gap.kind for gap in here.gaps]
