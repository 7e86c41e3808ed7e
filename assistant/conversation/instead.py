"""Another value in the place of one that was said: which reading it is for."""

from __future__ import annotations

from dataclasses import replace

from assistant.decide import Question
from assistant.decide.reading_repeated import ReadingAsked, Settlement, said_again
from assistant.decide.unsaid import with_unit
from assistant.events.proof import LineRead, LineValueCorrected
from assistant.events.readings import ReadingCorrected, ReadingsTaken, ReadingTaken, median
from assistant.job import Job, being_read, in_force
from grammar.commands import Command, Measure, Reading
from grammar.commands.proof import CorrectLineValue
from grammar.commands.readings import CorrectReading, TakeReading, TakeReadings
from grammar.commands.talk import SayInstead
from grammar.frozen import frozen


@frozen
class LastReading:
    """The reading that was recorded last, of those that count."""

    point: str
    reading: Measure
    is_latest: bool
    """Whether nothing else was recorded since."""
    line: int | None = None
    """The line that it is a value of; None of a point's."""
    number: int = 0
    """Which of the line's values it is, counted from 1."""


def last_reading(job: Job) -> LastReading | None:
    """The reading that was recorded last; None where there is none."""
    latest = True
    for utterance in reversed(in_force(job.history)):
        for event in reversed(utterance.events):
            if isinstance(event, ReadingTaken | ReadingCorrected):
                return LastReading(event.point, event.reading, latest)
            if isinstance(event, ReadingsTaken):
                return LastReading(event.point, median(event.readings), latest)
            if isinstance(event, LineRead | LineValueCorrected):
                return _last_on_line(job, event, latest)
        latest = False
    return None


def _last_on_line(
    job: Job, event: LineRead | LineValueCorrected, latest: bool
) -> LastReading | None:
    line = being_read(job).proof.lines.get(event.line)
    if line is None:  # dropped since
        return None
    number = event.number if isinstance(event, LineValueCorrected) else len(line.values)
    value = event.value if isinstance(event, LineValueCorrected) else event.values[-1]
    return LastReading(f"Line {event.line} point {number}", value, latest, event.line, number)


def settled_instead(question: Question, given: SayInstead, job: Job) -> Settlement | None:
    """What is asked about with the value given in its place; None where it has none."""
    asked = question.command
    if not isinstance(asked, TakeReading | CorrectReading | TakeReadings):
        return None
    reading = _sided(given, _size_and_side(asked))
    found = said_again(asked, (TakeReading(asked.point, reading),), job)
    return found and replace(found, confirmed=False)


def corrected_instead(job: Job, last: LastReading, given: SayInstead) -> Command | None:
    """The last reading put right; None where it is not what is said to be wrong."""
    if given.was is not None:
        was = with_unit(given.was, job.reading_unit)
        if (abs(was.number), was.unit) != (abs(last.reading.number), last.reading.unit):
            return None
    reading = _sided(given, last.reading)
    if last.line is not None:
        return CorrectLineValue(reading, last.number, last.line)
    return CorrectReading(last.point, reading)


def _sided(given: SayInstead, was: Measure | Reading | None) -> Reading:
    """
    The value given; "not 9, 10" keeps the side of the 9.

    Any other that came without a side is asked about.
    """
    reading = given.reading
    if reading.side_said or given.was is None or was is None or was.number == 0:
        return reading
    return Reading(-reading.number if was.number < 0 else reading.number, reading.unit)


def _size_and_side(asked: ReadingAsked) -> Reading | None:
    reading = asked.readings[0] if isinstance(asked, TakeReadings) else asked.reading
    return reading if reading.side_said else None
