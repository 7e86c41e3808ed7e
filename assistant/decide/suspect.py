"""Asks, before recording it, about a reading that does not fit its neighbours, or that is
further from the zero than a floor can be."""

from __future__ import annotations

from collections.abc import Sequence

from assistant.decide.parts import Decision
from assistant.decide.questions import Question, ReallySo, YesOrNo
from assistant.events.kinds import Event
from assistant.events.readings import ReadingAccepted
from assistant.floor.expected import expected_mm, surprise_mm
from assistant.floor.plausible_range import FARTHEST_MM, farthest_mm, is_far_off
from assistant.floor.suspicion import (
    Suspicion,
    bears_itself_out,
    height_meant,
    is_accepted,
    suspicion_about,
)
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.side_by_side import lengths
from assistant.reply.speaking_time import QUESTION_S, first_that_fits
from assistant.units.lengths import as_read_off, exact_mm
from grammar import short_form
from grammar.commands import Command, Measure, Reading
from grammar.commands.readings import CorrectReading, TakeReading

DATUM = 0
"""The first set-up, whose zero the finish refers to wherever the instrument is now."""
GIVE_OR_TAKE_SDS = 2
"""Half width of the range given, in standard deviations: 95 of 100 readings lie in it."""


def unless_suspect(
    job: Job, command: Command, reading: TakeReading | CorrectReading, event: Event
) -> Decision:
    """
    The event, with a question first where the floor around does not fit it, or where it is
    too far from the zero for a floor to be poured.

    Parameters
    ----------
    job : Job
    command : Command
        The command as said, which waits while the question is open.
    reading : TakeReading or CorrectReading
        The one value that would count.
    event : Event
    """
    point = reading.point or ""
    question = _against_neighbours(job, command, reading) or _against_zero(job, command, reading)
    if question is not None:
        return Decision((event, ReadingAccepted(point)), question)
    # A value accepted before stays accepted, within what two readings differ by.
    kept = is_accepted(job, point, exact_mm(reading.reading)) or bears_itself_out(
        job, reading, point
    )
    return Decision((event, ReadingAccepted(point)) if kept else (event,))


def unless_far_off(
    job: Job,
    command: Command,
    event: Event,
    *heights: tuple[str, Reading | None],
    set_up: int | None = None,
) -> Decision:
    """
    The event, with a question first where one of its heights is too far from the zero.

    Parameters
    ----------
    job : Job
    command : Command
    event : Event
    *heights : (str, Reading or None)
        What was read, in words, and its reading; None where it was not read.
    set_up : int, optional
        The set-up whose zero they refer to; the present one where left out.
    """
    against = job.survey.set_up if set_up is None else set_up
    for what, height in heights:
        if height is None or not is_far_off(job, exact_mm(height), against):
            continue
        question = YesOrNo(
            f"{_far_off(job, what, height)} Confirm, or cancel that.",
            _far_off_aloud(job, what, height, "Confirm, or cancel that."),
            command,
        )
        return Decision((event,), question)
    return Decision((event,))


def unless_off(
    job: Job, command: Command, event: Event, on: str | int | None, reading: Reading
) -> Decision:
    """
    The event, with a question first where a tie or check is not what it should read.

    Parameters
    ----------
    job : Job
    command : Command
    event : Event
    on : str, int or None
        A point, a benchmark's number, or None for the zero itself.
    reading : Reading
    """
    off = surprise_mm(job, on, float(exact_mm(reading)))
    if off is None:
        return Decision((event,))
    unit, value = job.reading_unit, Measure(reading.number, reading.unit)
    what = on if isinstance(on, str) else "Zero" if on is None else f"Benchmark {on}"
    expected = _height(expected_mm(job, on)[0], unit)
    by = wording.length(as_read_off(abs(off), unit), unit)
    spoken_by = wording.spoken_length(as_read_off(abs(off), unit), unit)
    return Decision(
        (event,),
        YesOrNo(
            f"{what} {wording.said_height(value)}? By what is known it should read {expected}: "
            f"{by} off. Look again and say what it shows, or confirm.",
            _asked_aloud(
                _read_back(what, value, unit),
                (f"That is {spoken_by} off.",),
                ("Look again, or confirm.", "Confirm?"),
            ),
            command,
            {"off": {"on": on or "zero", "off_mm": off}},
        ),
    )


# --- against the floor around ------------------------------------------------------------


def _against_neighbours(
    job: Job, command: Command, reading: TakeReading | CorrectReading
) -> Question | None:
    found = suspicion_about(job, reading, reading.point or "")
    if found is None:
        return None
    return ReallySo(
        _text(job, reading, found),
        _spoken(job, reading, found),
        command,
        {"suspect": suspect_data(found)},
    )


def suspect_data(found: Suspicion) -> dict[str, object]:
    """The doubt as data for programs; millimetres as read."""
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
    about = wording.length(as_read_off(GIVE_OR_TAKE_SDS * found.sd_mm, unit), unit)
    meant = ""
    if found.likely:
        forms = [f"“{short_form(command)}”" for command in found.likely]
        meant = f" Was it {wording.join_names(forms, last='or')}?"
    return (
        f"{found.point} {wording.said_height(value)}? {_says(found)} "
        f"{_height(found.expected_mm, unit)}, give or take {about}.{meant} "
        f"Confirm, or read it again and say {found.point} with the value."
    )


def _says(found: Suspicion) -> str:
    if found.by_plan:
        return "The planned finish says"
    return "What was read so far says" if found.few else "The floor around says"


def _spoken(job: Job, reading: TakeReading | CorrectReading, found: Suspicion) -> str:
    """What was read, what the floor around says, and what answers it: at most five seconds."""
    unit = job.reading_unit
    value = Measure(reading.reading.number, reading.reading.unit)
    expected = as_read_off(found.expected_mm, unit)
    side = "" if not expected else " below" if expected < 0 else " above"
    around = "Planned" if found.by_plan else "So far" if found.few else "Around it"
    ways = ["level"]
    if expected:
        ways = [wording.spoken_length(abs(expected), unit)]
        ways += [wording.spoken_millimetres(abs(expected))] if unit == "mm" else []
    return _asked_aloud(
        _read_back(found.point, value, unit),
        tuple(f"{around}, {way}{side}." for way in ways),
        (READ_AGAIN, "Confirm?"),
    )


READ_AGAIN = "Confirm, or read again."


def _read_back(what: str, value: Measure, unit: str) -> tuple[str, ...]:
    """What is asked about, the longest way to say it first; the unit stays where it is not the
    job's own, as it may have been the slip."""
    name = wording.sentence(wording.spoken_name(what)).removesuffix(".")
    ways = [f"{name}, {wording.spoken_height(value)}?"]
    if (value.unit or "mm") == unit == "mm" and value.number:
        side = "below" if value.number < 0 else "above"
        size = wording.spoken_millimetres(exact_mm(Reading(abs(value.number), unit)))
        ways.append(f"{name}, {size} {side}?")
    return tuple(ways)


def _asked_aloud(what: Sequence[str], why: Sequence[str], how: Sequence[str]) -> str:
    """The longest way to put a question that is short enough; the unit gives way first."""
    ways = [
        " ".join(filter(None, parts))
        for parts in (
            (what[0], why[0], how[0]),
            (what[0], why[-1], how[0]),
            (what[-1], why[-1], how[0]),
            (what[0], why[-1], how[-1]),
            (what[-1], why[-1], how[-1]),
            (what[-1], "", how[-1]),
        )
    ]
    return first_that_fits(QUESTION_S, *ways)


def _height(mm: float, unit: str) -> str:
    shown = as_read_off(mm, unit)
    if not shown:
        return "level"
    return f"{wording.length(abs(shown), unit)} {'below' if shown < 0 else 'above'}"


# --- against the zero ----------------------------------------------------------------------


def _against_zero(
    job: Job, command: Command, reading: TakeReading | CorrectReading
) -> Question | None:
    point = reading.point or ""
    meant = height_meant(job, reading, point)
    if not is_far_off(job, meant.mm, meant.set_up):
        return None
    text = _far_off(job, point, reading.reading)
    data = {
        "point": point,
        "value_mm": float(meant.mm),
        "farthest_mm": float(farthest_mm(job)),
        "likely": [],
    }
    return ReallySo(
        f"{text} Confirm, or read it again and say the whole line.",
        _far_off_aloud(job, point, reading.reading, "Confirm, or say the whole line again."),
        command,
        {"suspect": data},
    )


def _far_off(job: Job, what: str, height: Reading) -> str:
    """The doubt and its reason, to read."""
    value, most, unit = Measure(height.number, height.unit), farthest_mm(job), job.reading_unit
    size = abs(exact_mm(height))
    shown, within = lengths(unit, size, most)
    # Read back as said, and in the limit's unit as well where that is another.
    a_floor = "A floor" if (height.unit or "mm") == unit else f"That is {shown}, and a floor"
    source = "common practice, no source" if most == FARTHEST_MM else "the range as set"
    return (
        f"{what} {wording.said_height(value)}? {a_floor} to be poured lies within "
        f"{within} of the zero ({source})."
    )


def _far_off_aloud(job: Job, what: str, height: Reading, how: str) -> str:
    """The same to say, and what answers it; the limit itself takes longer than a question may."""
    value = Measure(height.number, height.unit)
    why = ("Far from the zero.",)
    return _asked_aloud(_read_back(what, value, job.reading_unit), why, (how, "Confirm?"))
