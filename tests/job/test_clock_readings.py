"""When things happened, by a clock that was put to and fro."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from assistant.job.clock_readings import in_order

TEN = datetime(2026, 5, 4, 10, 0, tzinfo=UTC)


def _minutes(*readings: float) -> list[float]:
    """Minutes after ten in, minutes after ten out."""
    times = in_order([TEN + timedelta(minutes=each) for each in readings])
    return [(time - TEN).total_seconds() / 60 for time in times]


YEAR = 365 * 24 * 60


def test_a_clock_that_only_goes_on_is_believed() -> None:
    assert _minutes(0, 5, 5, YEAR) == [0, 5, 5, YEAR]


def test_a_slip_ahead_happened_before_what_was_recorded_after_it() -> None:
    assert _minutes(0, YEAR, 5, 10) == [0, 5, 5, 10]
    assert _minutes(0, YEAR, YEAR + 1, 5, YEAR, 7) == [0, 5, 5, 5, 7, 7]


def test_a_clock_that_was_ahead_from_the_start() -> None:
    assert _minutes(YEAR, YEAR + 3, 0, 8) == [0, 0, 0, 8]


def test_a_flat_battery() -> None:
    # Not set right yet: what was before is as of then at the latest, and time goes on.
    assert _minutes(0, 20, -9 * YEAR, -9 * YEAR + 6) == [-9 * YEAR] * 3 + [-9 * YEAR + 6]
    # Set right: what was recorded in between lies in between, with its own distances.
    assert _minutes(0, 20, -9 * YEAR, -9 * YEAR + 6, 50) == [0, 20, 20, 26, 50]
    assert _minutes(0, 20, -9 * YEAR, -9 * YEAR + 6, 22) == [0, 20, 20, 22, 22]


def test_twice() -> None:
    assert _minutes(0, -9 * YEAR, -99 * YEAR, 30) == [0, 0, 0, 30]
    assert _minutes(0, YEAR, 5, -9 * YEAR, 20) == [0, 5, 5, 5, 20]


@given(st.lists(st.integers(-50, 50), max_size=30))
def test_never_back_and_the_last_reading_stands(readings: list[int]) -> None:
    times = _minutes(*readings)
    assert times == sorted(times)
    assert len(times) == len(readings)
    assert not readings or times[-1] == readings[-1]
    if readings == sorted(readings):
        assert times == readings
    assert _minutes(*times) == times
