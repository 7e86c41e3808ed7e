"""A row of checks cut into pieces, each cost added up by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from assistant.levels.drift import _between
from assistant.levels.drift_pieces import DriftSegment, pieces_of


def cut(
    checks: list[float], surprise: float, of_two: float | None = None, sd: float = 1.0
) -> list[tuple[int, int, float]]:
    times = np.arange(len(checks), dtype=float)
    found = pieces_of(times, np.array(checks), sd, surprise, of_two)
    return [(piece.first, piece.last, round(piece.slope, 9)) for piece in found]


def test_the_cheapest_of_standing_drifting_and_moving() -> None:
    """
    With checks 0 and d, standing costs d² / 2 and a level; drifting a level and a slope; a move two
    levels and a place.
    """
    for checks, surprise, of_two, pieces in (
        ([0, 4], 10.0, None, [(0, 1, 0)]),  # 8 and 10, or 20, or 30
        ([0, 5], 10.0, None, [(0, 1, 5)]),  # 12.5 and 10, or 20
        ([0, 5], 10.0, 15.0, [(0, 1, 0)]),  # 22.5, or 25, or 30
        ([0, 9], 10.0, 15.0, [(0, 1, 9)]),  # 50.5, or 25, or 30
        ([0, 9], 10.0, 25.0, [(0, 0, 0), (1, 1, 0)]),  # 50.5, or 35, or 30
        ([0, 0, 0, 9, 9, 9], 10.0, None, [(0, 2, 0), (3, 5, 0)]),
        ([0, 3, 6, 9, 12, 15], 10.0, 99.0, [(0, 5, 3)]),  # three bear the slope out
        ([0, 0, 0, 0], 10.0, None, [(0, 3, 0)]),
        ([7], 10.0, None, [(0, 0, 0)]),
        # two that come after a move are two all the same: 10, 20 and 20, not 10 and 30 and 99
        ([0, 0, 0, 0, 50, 59], 10.0, 99.0, [(0, 3, 0), (4, 4, 0), (5, 5, 0)]),
    ):
        assert cut([float(each) for each in checks], surprise, of_two) == pieces, checks


@pytest.mark.parametrize("sd", [0.5, 3.0])
def test_misfits_count_in_standard_deviations(sd: float) -> None:
    """As above, with all checks so many times as far apart and so much less sure."""
    for checks, of_two, pieces in (
        ([0, 4], None, [(0, 1, 0)]), ([0, 5], None, [(0, 1, 5 * sd)]), ([0, 5], 15.0, [(0, 1, 0)]),
        ([0, 9], 15.0, [(0, 1, 9 * sd)]), ([0, 9], 25.0, [(0, 0, 0), (1, 1, 0)]),
        # 38, where standing costs 42 and drifting 44; 23.4 where standing costs 28.5
        ([0, 8, 4], None, [(0, 0, 0), (1, 2, 0)]), ([0, 5, 5.5], None, [(0, 2, 2.75 * sd)]),
    ):  # fmt: skip
        assert cut([sd * each for each in checks], 10.0, of_two, sd) == pieces, checks


def test_where_a_piece_lies_and_how_sure_that_is() -> None:
    """Mean 4 at time 3, 2 a minute; of four checks a variance of a quarter, and the lever's."""
    sloping = DriftSegment(0, 3, 3.0, 4.0, 2.0, 5.0)
    assert [sloping.at(time) for time in (3, 4, 0)] == [4, 6, -2]
    assert sloping.variance(3.0, 2.0) == pytest.approx(4 / 4)
    assert sloping.variance(5.0, 2.0) == pytest.approx(4 * (1 / 4 + 4 / 5))
    level = DriftSegment(2, 3, 3.0, 4.0, 0.0, 5.0)
    assert level.at(99) == 4
    assert level.variance(99, 2.0) == pytest.approx(4 / 2)


def test_what_costs_the_same_stands() -> None:
    """Checks 0 and 2 stand for 2 and 10; they drift for 10 and 2 (exact arithmetic)."""
    for last_digit in (0.0, 1e-12, -1e-12):
        assert cut([0.0, 2.0], 10.0, 2.0 + last_digit) == [(0, 1, 0)], last_digit
    assert cut([0.0, 2.0], 10.0, 1.99) == [(0, 1, 2)]


@pytest.mark.parametrize(
    ("jump", "slope", "kind"),
    [
        # Means of two and of four checks of a millimetre: 1/2 and 1/4 mm², nine times as much 6.75.
        (2.59, 0.0, "drift"), (2.60, 0.0, "step"), (-2.59, 0.0, "drift"), (-2.60, 0.0, "step"),
        # Ten minutes at a tenth of a millimetre are a millimetre that the drift explains.
        (3.5, 0.1, "drift"), (3.7, 0.1, "step"), (-1.5, 0.1, "drift"), (-1.7, 0.1, "step"),
    ],
)  # fmt: skip
def test_between_two_pieces_it_jumps_where_neither_drift_nor_noise_explains_it(
    jump: float, slope: float, kind: str
) -> None:
    times = np.array([0.0, 10, 20, 30, 40, 50])
    # Their spread about the middle is so wide that the slope adds nothing to what they are sure by.
    before = DriftSegment(0, 1, 10.0, 5.0, slope, 1e12)
    after = DriftSegment(2, 5, 20.0, 5.0 + jump, slope, 1e12)
    found = _between(times, before, after, 1.0, 9.0, 1.0)
    assert (found.kind, found.told_apart, found.first) == (kind, True, 1)
    # A single check is told apart from nothing.
    for first, last in ((replace(before, first=1), after), (before, replace(after, last=2))):
        assert not _between(times, first, last, 1.0, 9.0, 1.0).told_apart


def test_what_does_not_change_at_all_is_no_jump_however_sure_it_is() -> None:
    before, after = (
        DriftSegment(0, 1, 5.0, 0.0, 0.0, 50.0),
        DriftSegment(2, 3, 25.0, 0.0, 0.0, 50.0),
    )
    times = np.array([0.0, 10, 20, 30])
    assert _between(times, before, after, 0.01, 9.0, 1.0).kind == "drift"
