"""A reading that its neighbours do not bear out is asked about before it is recorded."""

from __future__ import annotations

from assistant import wording
from assistant.decide.parts import Decision, Question
from assistant.events import Event, ReadingAccepted
from assistant.job import Job
from assistant.trust.suspicion import Suspicion, is_accepted, suspicion_about
from assistant.units import exact_mm
from grammar import short_form
from grammar.commands import Command, CorrectReading, Measure, TakeReading

GIVE_OR_TAKE_SDS = 2
"""As wide as readings there lie in 95 of 100 cases."""


def unless_suspect(
    job: Job, command: Command, reading: TakeReading | CorrectReading, event: Event
) -> Decision:
    """
    The event; with a question before it where the floor around says otherwise.

    Parameters
    ----------
    job : Job
    command : Command
        As it was said; it waits while the question is open.
    reading : TakeReading or CorrectReading
        The one value that would count.
    event : Event
    """
    point = reading.point or ""
    found = suspicion_about(job, reading, point)
    if found is None:
        # Read again within what readings differ by, a surprise that was kept stays kept.
        kept = is_accepted(job, point, exact_mm(reading.reading))
        return Decision((event, ReadingAccepted(point)) if kept else (event,))
    question = Question(
        _text(job, reading, found),
        _spoken(job, reading, found),
        command,
        "suspect",
        {"suspect": suspect_data(found)},
    )
    return Decision((event, ReadingAccepted(point)), question)


def suspect_data(found: Suspicion) -> dict[str, object]:
    """For programs; millimetres as read."""
    return {
        "point": found.point,
        "value_mm": found.value_mm,
        "expected_mm": found.expected_mm,
        "sd_mm": found.sd_mm,
        "likely": [short_form(command) for command in found.likely],
    }


def _text(job: Job, reading: TakeReading | CorrectReading, found: Suspicion) -> str:
    unit = job.reading_unit
    value = Measure(reading.reading.number, reading.reading.unit)
    about = wording.length(_whole(GIVE_OR_TAKE_SDS * found.sd_mm, unit), unit)
    meant = ""
    if found.likely:
        forms = [f"“{short_form(command)}”" for command in found.likely]
        meant = f" Was it {wording.listed(forms, last='or')}?"
    return (
        f"{found.point} {wording.said_height(value)}? The floor around says "
        f"{_height(found.expected_mm, unit)}, give or take {about}.{meant} "
        "Say the value again, confirm, or read it again."
    )


def _spoken(job: Job, reading: TakeReading | CorrectReading, found: Suspicion) -> str:
    unit = job.reading_unit
    value = Measure(reading.reading.number, reading.reading.unit)
    expected = _whole(found.expected_mm, unit)
    around = wording.spoken_length(abs(expected), unit) if expected else "level"
    side = "" if not expected else " below" if expected < 0 else " above"
    about = wording.spoken_length(_whole(GIVE_OR_TAKE_SDS * found.sd_mm, unit), unit)
    return wording.capitals(
        f"{wording.spoken_name(found.point)}, {wording.spoken_height(value)}? "
        f"the floor around says {around}{side}, give or take {about}. "
        "say it again, confirm, or read it again."
    )


def _height(mm: float, unit: str) -> str:
    shown = _whole(mm, unit)
    if not shown:
        return "level"
    return f"{wording.length(abs(shown), unit)} {'below' if shown < 0 else 'above'}"


def _whole(mm: float, unit: str) -> float:
    """No finer than anybody reads: to the millimetre; sixteenths are rounded when shown."""
    return round(mm) if unit == "mm" else mm
