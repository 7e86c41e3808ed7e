"""Answers to the question about a reading that does not fit its neighbours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from assistant.events.readings import median
from assistant.job import Job
from grammar.commands import IN_PARTS, Command, Measure, Reading
from grammar.commands.readings import CorrectReading, TakeReading, TakeReadings
from grammar.frozen import frozen

ReadingAsked = TakeReading | CorrectReading | TakeReadings
"""Commands that give the reading of a point."""


@frozen
class Settlement:
    """The command to carry out once a question is answered."""

    command: Command
    confirmed: bool
    """Whether it was confirmed, as by saying the same value again."""


def said_again(asked: ReadingAsked, meanings: Sequence[Command], job: Job) -> Settlement | None:
    """
    The waiting reading with the value given now; None where this is no answer.

    It must name the point: a value alone may be the next point's, said before the question was
    seen.
    """
    for meaning in meanings:
        if isinstance(meaning, TakeReadings) and meaning.point == asked.point:
            return Settlement(meaning, confirmed=False)
        if isinstance(meaning, TakeReading | CorrectReading) and meaning.point == asked.point:
            return _with_value(asked, meaning.reading, job)
    return None


def reading_on_side(asked: ReadingAsked, side: str) -> Settlement:
    """The waiting reading on the given side."""
    reading = _reading(asked)
    sign = -1 if side == "below" else 1
    given = Reading(sign * abs(reading.number), reading.unit)
    return _with_value(asked, given, None)


def _reading(asked: ReadingAsked) -> Reading:
    if not isinstance(asked, TakeReadings):
        return asked.reading
    middle = median([Measure(one.number, one.unit) for one in asked.readings])
    return Reading(middle.number, middle.unit)


def _with_value(asked: ReadingAsked, given: Reading, job: Job | None) -> Settlement:
    was = _reading(asked)
    if given.unit == IN_PARTS and was.unit == "in" and abs(given.number) == abs(was.number):
        given = replace(given, unit="in")
    if given.unit is None and job is not None:
        # The unit asked about may have been the slip, so nothing of it is kept.
        given = replace(given, unit=job.reading_unit)
    size_again = abs(given.number) == abs(was.number) and given.unit == was.unit
    if size_again and (given.number == was.number or not given.side_said):
        return Settlement(asked, confirmed=True)
    if isinstance(asked, TakeReadings):
        return Settlement(TakeReading(asked.point, given), confirmed=False)
    return Settlement(replace(asked, reading=given), confirmed=False)
