"""Answers about readings: read back, put right, listed."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from assistant.answers.finished import against_finish, finish_cell, spoken_against_finish
from assistant.answers.parts import (
    Answerer,
    Moment,
    depth_cell,
    depth_sentence,
    line_goes_on,
    next_on_line,
    spoken_depth,
    with_matters,
)
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.events.proof import LineRead, LineValueCorrected
from assistant.events.readings import (
    ReadingAccepted,
    ReadingCorrected,
    ReadingsTaken,
    ReadingTaken,
    median,
)
from assistant.events.set_ups import BenchmarkChecked, BenchmarkTied, PointTied, ZeroChecked
from assistant.floor import warnings
from assistant.floor.depths import depths_of
from assistant.floor.heights import survey_of
from assistant.floor.places import places_of
from assistant.floor.survey_check import jumping_points
from assistant.floor.walk import next_point, points_missing, points_skipped
from assistant.job import Job, in_force
from assistant.job.notes import notes_by_point
from assistant.reply import wording
from assistant.reply.examples import GRID, reading_of
from assistant.reply.replies import Reply, SpokenSentence, Table
from assistant.reply.wording import clipped
from grammar.commands import Command, Measure
from grammar.commands.readings import (
    AskNextPoint,
    AskReadings,
    CorrectReading,
    Hold,
    MarkStep,
    SetReadingUnit,
    StrikePoint,
    TakeReading,
    TakeReadings,
)
from grammar.commands.set_ups import SetInstrumentRange


def reading_taken(moment: Moment, command: TakeReading) -> Reply:
    point = command.point or ""
    return read_back(moment, point)


def reading_corrected(moment: Moment, command: CorrectReading) -> Reply:
    return read_back(moment, command.point, walking=False)


def read_back(moment: Moment, point: str, *, walking: bool = True) -> Reply:
    """The reading as recorded, and what matters about it."""
    job, unit = moment.job, moment.unit
    reading, depth = job.readings[point], depths_of(job).get(point)
    replaced, aside = replaced_words(moment, point)
    if job.slab is not None and depth == -reading.mm:
        # Where the finish is the zero they are one height, said once.
        headline = f"{point} {wording.said_height(reading.said)}{_at_finish(reading.mm)}"
    else:
        headline = f"{point} {wording.said_height(reading.said)}."
    spoken = [
        SpokenSentence(f"{wording.spoken_name(point)}, {wording.spoken_height(reading.said)}")
    ]
    if depth is None:
        headline += f" No depth yet: nothing ties set-up {reading.set_up + 1}."
    elif job.slab is None or depth != -reading.mm:
        headline += f" {_lies(job, depth, unit)}"
    if depth is not None and depth != -reading.mm and job.slab is not None:
        spoken.append(SpokenSentence(spoken_against_finish(depth, unit)))
    elif depth is not None and depth != -reading.mm:
        # With the finish at the zero the depth is the reading, which was just read back.
        spoken.append(_depth_said(depth, unit, reading.said))
    if replaced:
        spoken.append(SpokenSentence("Replaced"))
    matters = _what_matters(moment, point)
    last = walking and _was_the_last(moment)
    details = [*([replaced] if replaced else []), *_accepted(moment, point)]
    if last:
        details += matters
        every = wording.counted(len(places_of(job.layout).names), "point")
        skipped = len(points_skipped(job))
        read = f"all but {skipped} read" if skipped else "all read"
        details.append(f"That was the last one: {every}, {read}.")
        # The tally comes with the last one, and tells it.
        spoken.append(SpokenSentence("All points read", brief=""))
    else:
        following = next_point(job) if walking else None
        on = [next_words(job, following)] if following else []
        if matters or on:
            details.append(" ".join([*matters, *on]))
    data = {
        "reading": {
            "point": point,
            "reading_mm": float(reading.mm),
            "depth_mm": None if depth is None else float(depth),
            "next": next_point(job),
        }
    }
    own = warnings.warnings_about(warnings.warnings_but_weight(job), point)
    asides = (aside,) if aside else ()
    reply = Reply(
        headline, tuple(spoken), tuple(details), data=data, asides=asides, in_a_glance=True
    )
    return with_matters(moment, reply, own)


def next_words(job: Job, following: str) -> str:
    """What a value without a point is for."""
    if job.proof.line is not None:
        return line_goes_on(job.proof.line)
    if following in job.readings:
        return f"A value without a point would read {following} again."
    return f"Next: {following}."


def _lies(job: Job, depth_mm: Fraction, unit: str) -> str:
    """The depth to pour there, or how far a finished floor is from its finish."""
    if job.slab is not None:
        return against_finish(depth_mm, unit)
    return depth_sentence(depth_mm, unit)


def _depth_said(depth_mm: Fraction, unit: str, read: Measure) -> SpokenSentence:
    """The depth; its unit has just been heard where the reading was in the same."""
    words = f"depth {spoken_depth(depth_mm, unit)}"
    if unit != "mm" or depth_mm < 0 or (read.unit or "mm") != "mm" or not read.number:
        return SpokenSentence(words)
    return SpokenSentence(words, brief=f"depth {wording.spoken_millimetres(depth_mm)}")


def _at_finish(mm: Fraction) -> str:
    return " the finish." if mm else ", at the finish."


def replaced_words(moment: Moment, point: str) -> tuple[str, str]:
    """The reading that this one replaces, and what may be meant instead."""
    before = moment.before.readings.get(point)
    if before is None:
        return "", ""
    here = moment.after.readings[point].set_up
    if here != before.set_up:
        told = (
            f"Replaces {wording.said_height(before.said)}, set-up {before.set_up + 1}; both stay "
            "in the record."
        )
        if point in survey_of(moment.before).doubtful:
            return told, "What it replaces was in doubt."
        return told, f"To join the set-ups with it instead: undo, then tie on {point}."
    return f"Replaces {wording.said_height(before.said)}; both stay in the record.", ""


def _accepted(moment: Moment, point: str) -> list[str]:
    """Notes on a reading that was asked about and kept, and on grinding that it ended."""
    lines = []
    asked = point not in moment.before.survey.accepted
    if asked and any(isinstance(event, ReadingAccepted) for event in moment.events):
        lines.append("Kept as read; it will not be asked about again.")
    if point in moment.before.survey.ground and point not in moment.after.survey.ground:
        lines.append("Read anew, so nothing is to be ground off here any more.")
    return lines


def _what_matters(moment: Moment, point: str) -> list[str]:
    """Whether it is the new shallowest or deepest, and counts in the volume."""
    job, found = moment.job, []
    if point not in depths_of(job):
        return []
    others = [depth for name, depth in depths_of(job).items() if name != point]
    depth = depths_of(job)[point]
    least, most = ("Shallowest", "Deepest") if job.slab is None else ("Highest", "Lowest")
    if len(others) > 1 and depth < min(others):
        found.append(f"{least} so far.")
    if len(others) > 1 and depth > max(others):
        found.append(f"{most} so far.")
    places = places_of(job.layout)
    if point not in places.row:
        found.append(f"{point} has no place yet, so it does not count in the volume.")
    elif not places.inside[places.row[point]]:
        found.append(f"{point} is outside the room, so it does not count in the volume.")
    return found


def _was_the_last(moment: Moment) -> bool:
    return bool(points_missing(moment.before)) and not points_missing(moment.after)


def reading_struck(moment: Moment, command: StrikePoint) -> Reply:
    point = command.point
    was = moment.before.readings[point]
    reply = Reply(
        f"{point} struck; it was {wording.said_height(was.said)}.",
        f"{wording.spoken_name(point)} struck.",
        ("It stays in the record, but counts no more.", f"{point} has no reading now."),
        data={"struck": {"point": point, "reading_mm": float(was.mm)}},
    )
    return with_matters(moment, reply)


def unit_set(moment: Moment, command: SetReadingUnit) -> Reply:
    name = {"mm": "millimetres", "in": "inches"}[command.unit]
    note = "Readings taken before keep the unit they were said in."
    details = (note,) if moment.job.readings else ()
    return with_matters(
        moment,
        Reply(f"Readings are in {name} from now on.", f"Readings in {name}.", details),
    )


def range_set(moment: Moment, command: SetInstrumentRange) -> Reply:
    reach = wording.as_said(command.reach)
    reply = Reply(
        f"The instrument reads {reach} up and down from its zero.",
        f"Instrument range {wording.spoken_said(command.reach)}.",
        data={"range_mm": float(moment.job.reach_mm)},
    )
    return with_matters(
        moment, reply, warnings.warnings_about(warnings.all_warnings(moment.job), "out-of-range")
    )


MOST_OF_A_NOTE = 28
"""Characters of the remarks about a point that stand in its row; "notes" has all of them."""
_DOUBTS = {"moved": "zero moved?", "step": "zero moved?", "hangs": "its tie"}
"""What makes a reading doubtful, for a column."""


def readings_listed(moment: Moment, _command: AskReadings) -> Reply:
    job, unit = moment.job, moment.unit
    depths = depths_of(job)
    names = [*depths, *sorted(set(job.readings) - set(depths))]
    count = wording.counted(len(names), "point") + " read"
    doubtful, several = survey_of(job).doubtful, len(job.survey.set_ups) > 1
    noted = notes_by_point(job.notes)
    has_notes = any(name in noted for name in names)
    rows, data = [], []
    for name in names:
        set_up = job.readings[name].set_up + 1
        said = wording.said_height(job.readings[name].said)
        depth = depths.get(name)
        cell = depth_cell if job.slab is None else finish_cell
        row = [name, said, "not tied" if depth is None else cell(depth, unit)]
        row += [str(set_up)] if several else []
        row += [_DOUBTS[doubtful[name]] if name in doubtful else ""] if doubtful else []
        remarks = [note.words for note in noted.get(name, ())]
        row += [clipped("; ".join(remarks), MOST_OF_A_NOTE)] if has_notes else []
        rows.append(tuple(row))
        data.append(
            {
                "point": name,
                "said": said,
                "reading_mm": float(job.readings[name].mm),
                "depth_mm": None if depth is None else float(depth),
                "set_up": set_up,
                "doubt": doubtful.get(name),
                "notes": remarks,
            }
        )
    columns = ["Point", "Reading", "Depth" if job.slab is None else "Against the finish"]
    columns += ["Set-up"] if several else []
    columns += ["In doubt"] if doubtful else []
    columns += ["Notes"] if has_notes else []
    tables = (Table("Readings", tuple(columns), tuple(rows)),) if rows else ()
    told = f" {len(doubtful)} in doubt: survey check tells why." if doubtful else ""
    spoken = [f"{wording.spoken_count(len(names), 'point')} read"]
    if doubtful:
        spoken.append(f"{wording.spoken_number(len(doubtful))} in doubt")
    details = [f"Finish {wording.height(job.finish_mm, unit)}."] if job.finish_mm else []
    if job.slab is not None:
        before = wording.counted(len(job.slab.readings), "reading")
        details.append(f"Before the pour: {before}, readings of the slab.")
    return Reply(
        f"{count.capitalize()}.{told}" if rows else "No readings yet.",
        tuple(spoken) if rows else "No readings yet.",
        tuple(details),
        tables,
        data={"readings": data},
    )


def next_told(moment: Moment, _command: AskNextPoint) -> Reply:
    job = moment.job
    point = next_point(job)
    data = {"next": point}
    if job.proof.line is not None:
        return next_on_line(job.proof.line, data)
    if point is not None:
        left = len(points_missing(job))
        x_m, y_m = places_of(job.layout).xy(point)
        at = f"{wording.distance(x_m, moment.unit)} by {wording.distance(y_m, moment.unit)}"
        details = (f"It lies {at} from the corner.",)
        headline = f"Next: {point}. {wording.counted(left, 'point')} to go."
        return Reply(headline, f"Next, {wording.spoken_name(point)}.", details, data=data)
    if places_of(job.layout).names:
        return Reply("Every point has a reading.", data=data)
    grid = GRID.in_unit(moment.unit)
    return Reply(
        f"There are no points yet. Set a grid: {grid}.", "There are no points yet.", data=data
    )


def readings_taken(moment: Moment, command: TakeReadings) -> Reply:
    """The median read back, and how far the display jumped."""
    reply = read_back(moment, command.point)
    values = [wording.said_height(Measure(r.number, r.unit)) for r in command.readings]
    restless = [found for found in jumping_points(moment.job) if command.point in found.points]
    details = (f"Median of {wording.join_names(values)}; all are kept.",)
    data = {**reply.data, "restless": bool(restless)}
    jumps = (restless[0].message,) if restless else ()
    return replace(reply, details=(*jumps, *details, *reply.details), data=data)


def tell_held_readings(moment: Moment, _command: Hold) -> Reply:
    for utterance in reversed(in_force(moment.job.history)):
        for event in reversed(utterance.events):
            found = _height_in(event)
            if found is not None:
                what, said = found
                mm = float(moment.job.survey.height(said, utterance.time).mm)
                return Reply(
                    f"{what} {wording.said_height(said)}.",
                    f"{wording.spoken_name(what)}, {wording.spoken_height(said)}.",
                    data={"hold": {"what": what, "reading_mm": mm}},
                )
    raise Refusal(
        "Nothing has been read yet. A reading is said like this: ",
        reading_of("B3"),
        ".",
        spoken="Nothing has been read yet.",
    )


def _height_in(event: Event) -> tuple[str, Measure] | None:
    match event:
        case ReadingTaken() | ReadingCorrected():
            return event.point, event.reading
        case LineRead():
            return f"Line {event.line}", event.values[-1]
        case LineValueCorrected():
            return f"Line {event.line} point {event.number}", event.value
        case ReadingsTaken():
            return event.point, median(event.readings)
        case PointTied():
            return f"Tie on {event.point}", event.reading
        case BenchmarkTied() | BenchmarkChecked():
            return f"Benchmark {event.benchmark}", event.reading
        case ZeroChecked():
            return "Zero", event.reading
        case _:
            return None


def step_marked(moment: Moment, command: MarkStep) -> Reply:
    reply = Reply(
        f"Step between {command.first} and {command.second}.",
        f"Step between {wording.spoken_name(command.first)} and "
        f"{wording.spoken_name(command.second)}.",
        ("Readings on either side of it are not asked about.",),
        data={"step": [command.first, command.second]},
    )
    return with_matters(moment, reply)


ANSWERS: dict[type[Command], Answerer] = {
    TakeReading: reading_taken,
    CorrectReading: reading_corrected,
    StrikePoint: reading_struck,
    SetReadingUnit: unit_set,
    SetInstrumentRange: range_set,
    AskReadings: readings_listed,
    AskNextPoint: next_told,
    TakeReadings: readings_taken,
    Hold: tell_held_readings,
    MarkStep: step_marked,
}
