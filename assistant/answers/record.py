"""Answers about what is on record: a point's readings, the last ones, changes, the record."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, time, timedelta
from typing import Any

from assistant.answers.notes import note_data, note_line
from assistant.answers.parts import Answerer, Moment
from assistant.decide.readings import check_point
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.events.readings import ReadingCorrected, ReadingsTaken, ReadingTaken, median
from assistant.floor.heights import survey_of
from assistant.job import Job, Utterance, in_force
from assistant.job.history import about_the_record
from assistant.job.notes import notes_by_point
from assistant.job.reading_history import PUT_RIGHT, STRUCK, ReadingOnRecord, readings_on_record
from assistant.job.set_ups import Height
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from assistant.reply.times import shown_time, spoken_time
from assistant.reply.wording import clipped
from grammar.commands import Command
from grammar.commands.record import AskChanges, AskLastReadings, AskReading, AskRecord

MOST_SHOWN = 10
"""Changes listed where nobody says how many; a screen on the floor has not many more lines."""
MOST_LISTED = 200
"""And where they are asked for since a time."""
MOST_OF_A_LINE = 60
_AFTERNOON = range(1, 7)
"""Hours that are meant in the afternoon where it is past them and no morning is said."""


def _at(moment: Moment, when: datetime) -> str:
    return shown_time(when, moment.world.now, moment.world.zone)


def _said_at(moment: Moment, when: datetime) -> str:
    return spoken_time(when, moment.world.zone)


# --- readings as they were taken ------------------------------------------------------------


def reading_told(moment: Moment, command: AskReading) -> Reply:
    job, point = moment.job, command.point
    found = [each for each in readings_on_record(job) if each.point == point]
    if not found:
        raise _never_read(moment, point)
    height = job.readings.get(point)
    details = [*_before(moment, found), *_beside(moment, point)]
    data = {
        "reading": {"point": point, "time": found[-1].time.isoformat(),
                    "set_up": found[-1].set_up + 1, "doubt": survey_of(job).doubtful.get(point)},
        "earlier": [_on_record_data(each) for each in found[:-1]],
        "notes": [note_data(note) for note in notes_by_point(job.notes).get(point, ())],
    }  # fmt: skip
    if height is None:
        last = next(each for each in reversed(found) if each.said is not None)
        told = f"{point} has no reading now; {_was(last)} till {_at(moment, found[-1].time)}."
        spoken = f"{wording.spoken_name(point)} has no reading now."
        return Reply(told, spoken, tuple(details), data={**data, "answer": _answer(None)})
    return Reply(
        f"{_read_words(moment, point, height, found[-1])}.",
        (
            f"{wording.spoken_name(point)}, {wording.spoken_height(height.said)}",
            f"at {_said_at(moment, found[-1].time)}",
        ),
        tuple(details),
        data={**data, "answer": _answer(height)},
    )


def _answer(height: Height | None) -> dict[str, Any]:
    return {"id": "reading", "value": None if height is None else float(height.mm), "unit": "mm"}


def _on_record_data(each: ReadingOnRecord) -> dict[str, Any]:
    return {
        "what": each.what,
        "said": None if each.said is None else wording.said_height(each.said),
        "time": each.time.isoformat(),
        "set_up": each.set_up + 1,
    }


def _was(each: ReadingOnRecord) -> str:
    return f"it was {wording.said_height(each.said)}" if each.said is not None else ""


def _read_words(moment: Moment, point: str, height: Height, last: ReadingOnRecord) -> str:
    """The reading that counts, and when it came to be so."""
    how = "put right" if last.what == PUT_RIGHT else "read"
    several = len(moment.job.survey.set_ups) > 1
    where = f" from set-up {height.set_up + 1}" if several else ""
    return f"{point} {wording.said_height(height.said)}, {how} at {_at(moment, last.time)}{where}"


def _before(moment: Moment, found: Sequence[ReadingOnRecord]) -> list[str]:
    """What was read there before, newest first."""
    several = len(moment.job.survey.set_ups) > 1
    lines = []
    for each in reversed(found[:-1]):
        what = "struck" if each.said is None else wording.said_height(each.said)
        how = " put right to" if each.what == PUT_RIGHT else ""
        where = f", set-up {each.set_up + 1}" if several and each.what != STRUCK else ""
        lines.append(f"Before that, {_at(moment, each.time)}:{how} {what}{where}.")
    slab = moment.job.slab
    if slab is not None and (before := slab.readings.get(found[0].point)) is not None:
        lines.append(f"Before the pour: {wording.said_height(before.said)}.")
    return lines


def _beside(moment: Moment, point: str) -> list[str]:
    """Doubt about it, and remarks."""
    notes = notes_by_point(moment.job.notes).get(point, ())
    lines = ["In doubt: survey check tells why."] if point in survey_of(moment.job).doubtful else []
    return [*lines, *(f"Noted {note_line(moment, note)}" for note in notes)]


def _never_read(moment: Moment, point: str) -> Refusal:
    """Why there is nothing to tell of a point; a refusal about the point itself comes first."""
    job = moment.job
    check_point(job, point)
    name = wording.spoken_name(point)
    slab = job.slab
    if slab is not None and (before := slab.readings.get(point)) is not None:
        was = wording.said_height(before.said)
        return Refusal(
            f"{point} was not read since the pour; before it: {was}.",
            spoken=f"{name} was not read since the pour.",
        )
    if point in job.walk.skipped:
        why = job.walk.skipped[point]
        return Refusal(
            f"{point} was skipped{f', as said: “{why}”' if why else ''}.",
            spoken=f"{name} was skipped.",
        )
    return Refusal(
        f"{point} was not read yet. What it may be, from its neighbours: how deep at {point}.",
        spoken=f"{name} was not read yet.",
    )


def last_readings(moment: Moment, command: AskLastReadings) -> Reply:
    job, count = moment.job, command.count or 1
    since = {each.point: each for each in readings_on_record(job)}
    newest = sorted(job.readings.items(), key=lambda item: item[1].order, reverse=True)[:count]
    if not newest:
        raise Refusal("Nothing has been read yet.")
    data = {
        "readings": [
            {"point": point, "reading_mm": float(height.mm), "time": height.time.isoformat(),
             "set_up": height.set_up + 1}
            for point, height in newest
        ]
    }  # fmt: skip
    point, height = newest[0]
    spoken = [
        f"{wording.spoken_name(name)}, {wording.spoken_height(each.said)}." for name, each in newest
    ]
    if count == 1:
        told = f"{_read_words(moment, point, height, since[point])}."
        return Reply(told, tuple(spoken), data={**data, "answer": _answer(height)})
    several = len(job.survey.set_ups) > 1
    rows = tuple(
        (name, wording.said_height(each.said), _at(moment, since[name].time),
         *((str(each.set_up + 1),) if several else ()))
        for name, each in newest
    )  # fmt: skip
    columns = ("Point", "Reading", "At", *(("Set-up",) if several else ()))
    number = wording.counted(len(newest), "reading")
    of_all = f"The last {number}" if len(newest) == count else f"{number}, no more"
    return Reply(
        f"{of_all.capitalize()}, the newest first.",
        tables=(Table("", columns, rows),),
        at_length=tuple(wording.sentence(each) for each in spoken),
        data=data,
    )


# --- what changed ---------------------------------------------------------------------------


def changes_told(moment: Moment, command: AskChanges) -> Reply:
    counting = {each.number for each in in_force(moment.job.history)}
    every = [each for each in moment.job.history if not _is_of_the_clock(each)]
    since = None if command.since is None else _since(moment, command.since)
    found = [each for each in every if since is None or each.time >= since]
    if not found:
        after = "" if since is None else f" since {_at(moment, since)}"
        return Reply(
            f"Nothing was recorded{after}.",
            data={"changes": [], "answer": {"id": "changes", "value": 0, "unit": "changes"}},
        )
    most = command.count or (MOST_SHOWN if since is None else MOST_LISTED)
    newest = found[::-1][:most]
    rows: tuple[tuple[str, ...], ...] = tuple(
        (_at(moment, each.time), _shown_change(each), "" if each.number in counting else "undone")
        for each in newest
    )
    columns: tuple[str, ...] = ("At", "What", "")
    if not any(row[-1] for row in rows):
        columns, rows = columns[:-1], tuple(row[:-1] for row in rows)
    after = "" if since is None else f" since {_at(moment, since)}"
    left = len(found) - len(newest)
    more = (f"{wording.counted(left, 'change')} before these: last {len(found)} changes."
            if left and len(found) < 100 else
            f"{wording.counted(left, 'change')} before these." if left else "")  # fmt: skip
    return Reply(
        f"{wording.counted(len(found), 'change')}{after}, the newest first.",
        (
            f"{wording.spoken_count(len(found), 'change')}",
            f"the last: {newest[0].events[0].in_words()}",
        ),
        (more,) if more else (),
        tables=(Table("", columns, rows),),
        data={
            "changes": [_change_data(each, each.number in counting) for each in newest],
            "answer": {"id": "changes", "value": len(found), "unit": "changes"},
        },
    )


def _is_of_the_clock(utterance: Utterance) -> bool:
    """Whether nobody said it: it tells of a wrong clock."""
    return not utterance.said and all(about_the_record(event) for event in utterance.events)


def _since(moment: Moment, clock: time) -> datetime:
    """The last time that the clock showed this; in the afternoon where nobody works before dawn."""
    now = moment.world.now.astimezone(moment.world.zone)
    since = now.replace(hour=clock.hour, minute=clock.minute, second=0, microsecond=0)
    if clock.hour in _AFTERNOON and since + timedelta(hours=12) <= now:
        return since + timedelta(hours=12)
    return since if since <= now else since - timedelta(days=1)


def _shown_change(utterance: Utterance) -> str:
    """A reading with its point, which may not have been said; anything else in its own words."""
    shown = [told for event in utterance.events if (told := _shown_reading(event))]
    said = " / ".join(utterance.said.splitlines()) or utterance.events[0].in_words()
    return clipped(wording.join_names(shown, most=4) if shown else said, MOST_OF_A_LINE)


def _shown_reading(event: Event) -> str:
    match event:
        case ReadingTaken():
            return f"{event.point} {wording.said_height(event.reading)}"
        case ReadingsTaken():
            return f"{event.point} {wording.said_height(median(event.readings))}"
        case ReadingCorrected():
            return f"{event.point} put right to {wording.said_height(event.reading)}"
        case _:
            return ""


def _change_data(utterance: Utterance, counts: bool) -> dict[str, Any]:
    return {
        "number": utterance.number,
        "time": utterance.time.isoformat(),
        "said": utterance.said,
        "events": [event.NAME for event in utterance.events],
        "undone": not counts,
    }


# --- the record itself ----------------------------------------------------------------------


def record_told(moment: Moment, _command: AskRecord) -> Reply:
    job, world = moment.job, moment.world
    history = job.history
    undone = len(history) - len(in_force(history))
    data = {
        "record": {
            "entries": len(history),
            "undone": undone,
            "since": history[0].time.isoformat() if history else None,
            "last": history[-1].time.isoformat() if history else None,
            "notes": len(job.notes),
            "file": world.job_file or None,
            "waits": world.waiting or None,
        },
        "answer": {"id": "entries", "value": len(history), "unit": "entries"},
    }
    details = [f"In {world.job_file}" if world.job_file else "Kept in memory, in no file."]
    if world.waiting:
        details.append(f"Waits for an answer: {world.waiting}")
    if not history:
        return Reply("Nothing is on record yet.", details=tuple(details), data=data)
    on_disk = ", all on disk" if world.job_file else ""
    details[1:1] = [_last_said(moment, job)]
    if undone:
        details.append(f"{undone} of them undone.")
    return Reply(
        f"{_entries(len(history))} since {_at(moment, history[0].time)}{on_disk}.",
        (
            f"{wording.spoken_count(len(history), 'entry', 'entries')}{on_disk}",
            "a question waits" if world.waiting else "nothing waits",
        ),
        tuple(details),
        data=data,
    )


def _entries(count: int) -> str:
    return wording.counted(count, "entry", "entries")


def _last_said(moment: Moment, job: Job) -> str:
    last = job.history[-1]
    return f"The last, {_at(moment, last.time)}: {_shown_change(last)}."


ANSWERS: dict[type[Command], Answerer] = {
    AskReading: reading_told,
    AskLastReadings: last_readings,
    AskChanges: changes_told,
    AskRecord: record_told,
}
