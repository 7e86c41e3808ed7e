"""The clock of played lines: it stands where the last ``@`` time put it.

``@09:30 air 21 degrees`` or ``@2026-05-04 09:30 air 21 degrees``. Times are those of this
machine's wall clock, as they would be typed by somebody here; the record keeps them in UTC.
Until the first of them the machine's own time counts; without a date the day goes on that
was given last, or else the day that was handed in.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, date, datetime, timedelta, tzinfo

from assistant.errors import Refusal
from assistant.reply.times import shown_away

_TIMED = re.compile(r"@(\S*)\s*(.*)", re.DOTALL)
_DAY = re.compile(r"\d{4}-\d{2}-\d{2}")
_HOUR = re.compile(r"(\d{1,2}):(\d{2})(?:\s+|$)")

AHEAD = timedelta(days=1)
"""How far ahead of the machine's clock a time may be: a clock may be past midnight already.
Common practice, no source."""

FIRST_YEAR, LAST_YEAR = 2000, 2199
"""Years outside of these are slips; one that is recorded would make every later time a step
back, and be refused."""

RIGHT = "a time is @09:30, or with its day @2026-05-04 09:30, before the words"


def split_time(line: str) -> tuple[str, str]:
    """
    The time at the start of a line, without its ``@``, and the words after it.

    >>> split_time("@09:30 air 21 degrees"), split_time("@2026-05-04 09:30 tally")
    (('09:30', 'air 21 degrees'), ('2026-05-04 09:30', 'tally'))
    >>> split_time("tally")
    ('', 'tally')
    """
    found = _TIMED.fullmatch(line)
    if found is None:
        return "", line
    time, words = found.groups()
    if _DAY.fullmatch(time):
        hour, _, rest = words.partition(" ")
        return f"{time} {hour}".strip(), rest.strip()
    return time or "@", words.strip()


class PlayedClock:
    """
    A clock that lines set.

    Parameters
    ----------
    today : date
        The day of a time without one, until a line gives its own.
    otherwise : callable
        The time, with its zone, until a line gives one.
    zone : tzinfo or None
        What the times mean; None for this machine's own zone.
    """

    def __init__(
        self,
        today: date,
        otherwise: Callable[[], datetime],
        zone: tzinfo | None = None,
    ) -> None:
        self._day = today
        self._otherwise = otherwise
        self._zone = zone
        self._time: datetime | None = None
        self.not_before: datetime | None = None
        """Time of the last entry in a record that is continued; nothing can be earlier."""
        self.confirmed_to: datetime | None = None
        """The latest time ahead of the machine's that was meant; None where any time is taken."""

    def __call__(self) -> datetime:
        """The time now."""
        return self._otherwise() if self._time is None else self._time

    def set(self, told: str, *, meant: bool = False) -> bool:
        """
        Put the clock to a time, as :func:`split_time` gives it.

        Parameters
        ----------
        told : str
        meant : bool
            Whether it may be ahead of the machine's own time; if so, later ones may be as far.

        Returns
        -------
        is_ahead : bool
            Whether it is, and was taken because it is meant.

        Raises
        ------
        Refusal
            Where it is no time, one that runs backwards, or one ahead of the machine's that
            was not meant; the clock stays as it was.
        """
        day, hour, minute = self._parts(told)
        if not FIRST_YEAR <= day.year <= LAST_YEAR:
            raise Refusal(
                f"“@{told}” is in the year {day.year}: days of a job lie between "
                f"{FIRST_YEAR} and {LAST_YEAR}, as in @2026-05-04 09:30. Nothing recorded.",
                spoken="That day is in no year of this job.",
            )
        wall = datetime(day.year, day.month, day.day, hour, minute)
        # a time without a zone is taken for this machine's own
        time = (wall if self._zone is None else wall.replace(tzinfo=self._zone)).astimezone(UTC)
        last = self._time or self.not_before
        if last is not None and time < last.replace(second=0, microsecond=0):
            raise Refusal(self._backwards(told, last), spoken="Time does not run backwards.")
        is_ahead = self._is_ahead(time)
        if is_ahead and not meant:
            raise Refusal(self._ahead(told, time), spoken="That is ahead of this machine's clock.")
        if is_ahead:
            self.confirmed_to = time
        self._day, self._time = day, time
        return is_ahead

    def _is_ahead(self, time: datetime) -> bool:
        """Whether a time is in the future: such a slip would stop every clock until then."""
        if self.confirmed_to is None:
            return False
        return time > max(self.confirmed_to, self._otherwise()) + AHEAD

    def _ahead(self, told: str, time: datetime) -> str:
        there = time.astimezone(self._zone)
        away = shown_away(time - self._otherwise())
        return (
            f"@{told} is {away} ahead of this machine's clock. If it is meant, say so first, on a "
            f"line of its own: @{there:%Y-%m-%d} {there:%H:%M} confirm. Nothing recorded."
        )

    def _parts(self, told: str) -> tuple[date, int, int]:
        day, _, hour = told.rpartition(" ")
        found = _HOUR.fullmatch(hour)
        try:
            if found is None or int(found[1]) > 23 or int(found[2]) > 59:
                raise ValueError
            return (date.fromisoformat(day) if day else self._day), int(found[1]), int(found[2])
        except ValueError:
            raise Refusal(
                f"“@{told.strip('@')}” is no time: {RIGHT}. Nothing recorded.",
                spoken="That is no time.",
            ) from None

    def _backwards(self, told: str, last: datetime) -> str:
        there = last.astimezone(self._zone)
        return (
            f"Time does not run backwards: it was {there:%Y-%m-%d %H:%M} already, so it cannot "
            f"be {told}. From @{there:%H:%M} on, or with the day: "
            f"@{there:%Y-%m-%d} {there:%H:%M}. Nothing recorded."
        )
