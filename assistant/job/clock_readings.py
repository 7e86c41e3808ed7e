"""When things happened, from what the clock read when each was recorded.

A clock may have been wrong for a while: set to another year, put back after a flat battery, a
slip in a typed time. The record keeps what it read, in the order in which things were said, and
that order is certain. So a reading that does not fit those before and after it is moved between
them; the readings since the clock was last put right count as they are.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime


def in_order(readings: Sequence[datetime]) -> list[datetime]:
    """
    The time of each reading of a clock that was put forward or back; no time is before another's.

    Where a reading is earlier than the one before, those that it goes behind were ahead, if an
    earlier one still fits: they happened at this time at the latest. If none fits, either all
    before were ahead or the clock is behind now. Till it has caught up with them they count
    as of when it was put back, the latest they can be; once it has, it was behind in between.
    Unchanged where the clock only ever went on.

    Parameters
    ----------
    readings : sequence of datetime
        In the order in which they were recorded.

    Returns
    -------
    times : list of datetime
        In the same order; the last is the last reading.

    Examples
    --------
    Ten o'clock, a slip of a year, and five past ten:

    >>> from datetime import UTC
    >>> ten = datetime(2026, 5, 4, 10, 0, tzinfo=UTC)
    >>> times = in_order([ten, ten.replace(year=2027), ten.replace(minute=5)])
    >>> [f"{time:%Y %H:%M}" for time in times]
    ['2026 10:00', '2026 10:05', '2026 10:05']
    """
    times = list(readings)
    fitting: list[int] = []
    left_behind: list[int] = []
    for row, read in enumerate(readings):
        if left_behind and read >= times[left_behind[-1]]:
            fitting, left_behind = _caught_up(times, left_behind, fitting, read), []
        ahead = []
        while fitting and times[fitting[-1]] > read:
            ahead.append(fitting.pop())
        if ahead and not fitting and not left_behind:
            left_behind = ahead[::-1]
        elif ahead:
            for other in ahead:
                times[other] = read
            fitting += ahead[::-1]
        fitting.append(row)
    if left_behind:
        for other in left_behind:
            times[other] = times[fitting[0]]
    return times


def _caught_up(
    times: list[datetime], left_behind: list[int], behind: list[int], now: datetime
) -> list[int]:
    """All rows that fit, once the clock is right again; times while it was behind are moved."""
    start, first = times[left_behind[-1]], times[behind[0]]
    for row in behind:
        times[row] = min(start + (times[row] - first), now)
    return [*left_behind, *behind]
