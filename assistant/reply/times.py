"""Times of day and lengths of time, to read and to say."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta, tzinfo

from assistant.reply.wording import counted, spoken_count, spoken_number

UNTIMED = datetime(1970, 1, 1, tzinfo=UTC)
"""Where no clock was handed in: everything then happens at once, and no time passes."""


def shown_time(time: datetime, now: datetime, zone: tzinfo | None) -> str:
    """
    A time of day to read; with its date where that is not today's.

    Parameters
    ----------
    time, now : datetime
        With their zones.
    zone : tzinfo or None
        What the clock on the wall goes by; None for this machine's own.
    """
    there, today = time.astimezone(zone), now.astimezone(zone).date()
    return f"{_shown_day(there.date(), today)}{there:%H:%M}"


def _shown_day(day: date, today: date) -> str:
    if day == today:
        return ""
    if day == today - timedelta(days=1):
        return "yesterday "
    if day == today + timedelta(days=1):
        return "tomorrow "
    return f"{day.isoformat()} "


def spoken_time(time: datetime, zone: tzinfo | None) -> str:
    """
    A time of day to say.

    >>> spoken_time(datetime(2026, 5, 4, 9, 5, tzinfo=UTC), UTC)
    'nine zero five'
    >>> spoken_time(datetime(2026, 5, 4, 10, 40, tzinfo=UTC), UTC)
    'ten forty'
    >>> spoken_time(datetime(2026, 5, 4, 13, 0, tzinfo=UTC), UTC)
    "thirteen o'clock"
    """
    there = time.astimezone(zone)
    hour, minute = spoken_number(there.hour), there.minute
    if minute == 0:
        return f"{hour} o'clock"
    return f"{hour} {'zero ' if minute < 10 else ''}{spoken_number(minute)}"


def minutes_up(length: timedelta) -> int:
    """
    Whole minutes, rounded up, so that nobody comes back too early.

    >>> minutes_up(timedelta(seconds=61)), minutes_up(timedelta(minutes=2))
    (2, 2)
    """
    return -int(-length // timedelta(minutes=1))


def shown_length(length: timedelta) -> str:
    """
    A length of time to read, rounded up to the minute; in hours from two hours on.

    >>> shown_length(timedelta(minutes=90)), shown_length(timedelta(minutes=150))
    ('90 minutes', '2 hours 30 minutes')
    >>> shown_length(timedelta(days=2, minutes=2))
    '48 hours'
    """
    return " ".join(counted(count, word) for count, word in _parts(length))


def spoken_length(length: timedelta) -> str:
    """
    The same to say.

    >>> spoken_length(timedelta(minutes=150))
    'two hours thirty minutes'
    """
    return " ".join(spoken_count(count, word) for count, word in _parts(length))


def shown_away(length: timedelta) -> str:
    """
    How far a clock is off, roughly; in days from two days on.

    >>> shown_away(timedelta(days=365)), shown_away(timedelta(minutes=50))
    ('365 days', '50 minutes')
    """
    days = length.days
    return counted(days, "day") if days > 1 else shown_length(length)


def spoken_away(length: timedelta) -> str:
    """
    The same to say.

    >>> spoken_away(timedelta(days=3))
    'three days'
    """
    return spoken_count(length.days, "day") if length.days > 1 else spoken_length(length)


def _parts(length: timedelta) -> list[tuple[int, str]]:
    minutes = minutes_up(length)
    if minutes < 120:
        return [(minutes, "minute")]
    hours, rest = divmod(minutes, 60)
    # of a day and more nobody wants the minutes
    return [(hours, "hour")] + ([(rest, "minute")] if rest and hours < 24 else [])
