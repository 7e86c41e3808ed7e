"""Answers about heights along a line: read back by count and last value, and listed."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment, line_goes_on
from assistant.decide.proof.lines import line_meant
from assistant.events.proof import LineEnded, LineStarted, LineTakenUp, LineValueCorrected
from assistant.floor.proof_lines import doubtful_values, profile_of
from assistant.job import Job
from assistant.job.proof import ProofLine
from assistant.reply import wording
from assistant.reply.examples import LINE
from assistant.reply.replies import Reply, Table
from grammar.commands import Command
from grammar.commands.proof import (
    AskLine,
    AskLines,
    CorrectLineValue,
    EndLine,
    GoOnWithLine,
    StartLine,
    TakeLineValues,
)

A_ROW = 10
"""Values in a row of a table."""


def line_data(job: Job, line: ProofLine) -> dict[str, Any]:
    """One line for programs; metres and millimetres."""
    profile = profile_of(job, line)
    return {
        "id": line.number,
        "from": line.start,
        "to": line.end,
        "places_m": None if line.ends_m is None else [list(end) for end in line.ends_m],
        "spacing_m": line.spacing_m,
        "n": len(line.values),
        "holds": line.holds,
        "ended": line.ended,
        "values_mm": [float(height.mm) for height in line.values],
        "comparable": profile is not None,
    }


def run_words(line: ProofLine, unit: str) -> str:
    """From where to where it runs: ``A1 to A6``."""
    if line.start is not None and line.end is not None:
        return f"{line.start} to {line.end}"
    if line.ends_m is None:
        return "no place"
    ends = (f"{wording.distance(x, unit)} by {wording.distance(y, unit)}" for x, y in line.ends_m)
    return " to ".join(ends)


def _how_far(line: ProofLine) -> str:
    """``12 of 34 values``."""
    if line.holds is None:
        return wording.counted(len(line.values), "value")
    return f"{len(line.values)} of {line.holds} values"


def line_started(moment: Moment, command: StartLine) -> Reply:
    job, unit = moment.job, moment.unit
    started = next(event for event in moment.events if isinstance(event, LineStarted))
    line = job.proof.lines[started.line]
    every = wording.as_said(line.spacing)
    number = wording.spoken_number(line.number)
    details = []
    if line.length_m is not None and line.holds is not None:
        over = line.length_m - (line.holds - 1) * line.spacing_m
        short = (
            f", the last one {wording.distance(over, unit)} before its end" if over > 0.001 else ""
        )
        details.append(f"{wording.distance(line.length_m, unit)} long: {line.holds} values{short}.")
    if command.spacing is None:
        details.append(f"Every {every}, as nothing else was said.")
    details.append(
        "Values in order from its start, each with its side; they are for this line, and those "
        "with a point for the point, until end line."
    )
    before = moment.before.proof.line
    if before is not None and before.number != line.number:
        details.append(
            f"Line {before.number} rests at {_how_far(before)}; go on with line {before.number}."
        )
    run = "" if line.ends_m is None else f" from {run_words(line, unit)}"
    return Reply(
        f"Line {line.number}{run} every {every}.",
        f"Line {number}. Its values, please.",
        tuple(details),
        data={"line": line_data(job, line)},
    )


def values_taken(moment: Moment, command: TakeLineValues) -> Reply:
    """Read back by how many there are now and the last one."""
    job = moment.job
    line = line_meant(job, command.line)
    last, count = line.values[-1].said, len(line.values)
    given = len(command.readings)
    took = "" if given == 1 else f"{given} values, "
    name, number = f"Line {line.number}", wording.spoken_number(line.number)
    details = []
    left = None if line.holds is None else line.holds - count
    if left is not None and left > 0:
        details.append(f"{wording.counted(left, 'value')} to go.")
    elif left is not None:
        details.append("All of its run is read. If that was all: end line.")
    if profile_of(job, line) is None:
        details.append(
            "Its values are of set-ups that nothing ties together, so they cannot be compared yet."
        )
    spoken_last = wording.spoken_height(last)
    return Reply(
        f"{name}: {took}point {count} {wording.said_height(last)}.",
        f"Line {number}, point {wording.spoken_number(count)}, {spoken_last}.",
        tuple(details),
        data={"line": line_data(job, line)},
        in_a_glance=True,
    )


def value_corrected(moment: Moment, _command: CorrectLineValue) -> Reply:
    event = next(event for event in moment.events if isinstance(event, LineValueCorrected))
    was = moment.before.proof.lines[event.line].values[event.number - 1].said
    line = moment.job.proof.lines[event.line]
    number, point = wording.spoken_number(event.line), wording.spoken_number(event.number)
    return Reply(
        f"Line {event.line} point {event.number} {wording.said_height(event.value)}.",
        f"Line {number}, point {point}, {wording.spoken_height(event.value)}.",
        (f"Replaces {wording.said_height(was)}; both stay in the record.",),
        data={"line": line_data(moment.job, line)},
    )


def line_ended(moment: Moment, _command: EndLine) -> Reply:
    event = next(event for event in moment.events if isinstance(event, LineEnded))
    line = moment.job.proof.lines[event.line]
    last = line.values[-1].said
    number = wording.spoken_number(line.number)
    return Reply(
        f"Line {line.number} ended: {_how_far(line)}, the last {wording.said_height(last)}.",
        f"Line {number} ended, {wording.spoken_count(len(line.values), 'value')}.",
        (
            "Values without a point are for points again. "
            f"More of it: go on with line {line.number}.",
        ),
        data={"line": line_data(moment.job, line)},
    )


def gone_on(moment: Moment, _command: GoOnWithLine) -> Reply:
    event = next(event for event in moment.events if isinstance(event, LineTakenUp))
    line = moment.job.proof.lines[event.line]
    number = wording.spoken_number(line.number)
    last = f", the last {wording.said_height(line.values[-1].said)}" if line.values else ""
    return Reply(
        f"On with line {line.number}: {_how_far(line)}{last}.",
        f"On with line {number}, point {wording.spoken_number(len(line.values) + 1)}.",
        (line_goes_on(line),),
        data={"line": line_data(moment.job, line)},
    )


def one_line(moment: Moment, command: AskLine) -> Reply:
    job, unit = moment.job, moment.unit
    line = line_meant(job, command.line)
    values = [wording.said_height(height.said) for height in line.values]
    rows = tuple(
        (str(first + 1), ", ".join(values[first : first + A_ROW]))
        for first in range(0, len(values), A_ROW)
    )
    state = "ended" if line.ended else "being read" if job.proof.line == line else "resting"
    details = [f"From {run_words(line, unit)}, every {wording.as_said(line.spacing)}, {state}."]
    if values and profile_of(job, line) is None:
        details.append("Its values are of set-ups that nothing ties together.")
    if doubtful := doubtful_values(job, line):
        told = wording.join_names([str(number) for number in doubtful], most=8)
        details.append(
            f"The zero moved or may have moved while it was read: {told} may be off by that."
        )
    tables = (Table(f"Line {line.number}", ("From", "Values"), rows),) if rows else ()
    return Reply(
        f"Line {line.number}: {_how_far(line)}.",
        f"Line {wording.spoken_number(line.number)}, "
        f"{wording.spoken_count(len(line.values), 'value')}.",
        tuple(details),
        tables,
        data={"line": line_data(job, line)},
    )


def lines_listed(moment: Moment, _command: AskLines) -> Reply:
    job, unit = moment.job, moment.unit
    lines = [job.proof.lines[number] for number in sorted(job.proof.lines)]
    data = {"lines": [line_data(job, line) for line in lines]}
    if not lines:
        return Reply(
            "No line has been read.",
            details=(f"One is begun so: {LINE.in_unit(unit)}.",),
            data=data,
        )
    rows = tuple(
        (
            str(line.number),
            run_words(line, unit),
            wording.as_said(line.spacing),
            _how_far(line),
            "ended" if line.ended else "being read" if job.proof.line == line else "resting",
        )
        for line in lines
    )
    return Reply(
        f"{wording.counted(len(lines), 'line')}.",
        f"{wording.spoken_count(len(lines), 'line')}.",
        tables=(Table("Lines", ("Line", "From", "Every", "Read", ""), rows),),
        data=data,
    )


ANSWERS: dict[type[Command], Answerer] = {
    StartLine: line_started,
    TakeLineValues: values_taken,
    CorrectLineValue: value_corrected,
    EndLine: line_ended,
    GoOnWithLine: gone_on,
    AskLine: one_line,
    AskLines: lines_listed,
}
