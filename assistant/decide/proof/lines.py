"""Heights along a line: where it runs, its values, and when it is through."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.questions import YesOrNo
from assistant.decide.things import place_measured
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.events.proof import (
    LineEnded,
    LineRead,
    LineStarted,
    LineTakenUp,
    LineValueCorrected,
)
from assistant.floor.geometry import area_to_pour, has_outline
from assistant.floor.obstacles import shape_of
from assistant.floor.plausible_range import is_far_off
from assistant.job import Job
from assistant.job.proof import ProofLine
from assistant.reply import wording
from assistant.reply.examples import LINE
from assistant.units.lengths import exact_mm, metres
from grammar.commands import Change, Command, Measure, Reading
from grammar.commands.proof import (
    CorrectLineValue,
    EndLine,
    GoOnWithLine,
    StartLine,
    TakeLineValues,
)

USUAL_SPACING = {"mm": Measure(Decimal(300), "mm"), "in": Measure(Decimal(12), "in")}
"""As the lines of E1155 and E1155M are read."""
MOST_VALUES = 2000
"""Of one line; more would be a slip in its spacing."""
OFF_THE_LINE_M = 0.010
"""As far as a line laid by tape may touch what stands beside it. Common practice, no source."""
JUMP_MM = Fraction(10)
"""From one value to the next, what a poured floor hardly does within the spacing of a line: more
is asked about. Our own choice, no source; lowering it asks about joints and real steps."""


def start_line(job: Job, command: StartLine, _world: World) -> Decision:
    spacing = length_of(command.spacing or USUAL_SPACING[job.reading_unit], "The spacing of a line")
    places = _places(job, command)
    started = LineStarted(command.line, spacing, places, command.start, command.end)
    line = ProofLine(command.line, spacing, places, command.start, command.end)
    _check_holds(line, job.reading_unit)
    doubts = [*_replaced(job, command), *_off_the_floor(job, line)]
    if not doubts:
        return Decision((started,))
    return Decision(
        (started,),
        YesOrNo(
            " ".join([*(text for text, _ in doubts), "Confirm, or cancel that."]),
            " ".join([*(spoken for _, spoken in doubts), "Confirm, or cancel that."]),
            command,
        ),
    )


def _places(job: Job, command: StartLine) -> tuple[Measure, ...]:
    if command.start is not None and command.end is not None:
        if command.start == command.end:
            raise Refusal(
                f"A line runs from one point to another, not from {command.start} to itself: ",
                LINE,
                ".",
                spoken="A line runs from one point to another.",
            )
        return (*place_measured(job, command.start), *place_measured(job, command.end))
    told = (command.along, command.across, command.to_along, command.to_across)
    places = tuple(each for each in told if each is not None)
    if places and places[:2] == places[2:]:
        raise Refusal("A line runs from one place to another.")
    return places


def _check_holds(line: ProofLine, unit: str) -> None:
    """Refuse a spacing that the line is too short for, or far too long."""
    length_m, holds = line.length_m, line.holds
    if length_m is None or holds is None:
        return
    long, every = wording.distance(length_m, unit), wording.as_said(line.spacing)
    if holds < 2:
        raise Refusal(
            f"Line {line.number} is {long} long, shorter than its spacing of {every}.",
            spoken="That line is shorter than its spacing.",
        )
    if holds > MOST_VALUES:
        raise Refusal(
            f"Line {line.number} is {long} long: every {every} that is {holds} values, "
            f"and a line has {MOST_VALUES} at most.",
            spoken="That spacing is too small for this line.",
        )


def _replaced(job: Job, command: StartLine) -> list[tuple[str, str]]:
    known = job.proof.lines.get(command.line)
    if known is None or not known.values:
        return []
    values = wording.counted(len(known.values), "value")
    number = wording.spoken_number(command.line)
    return [
        (
            f"Line {command.line} has {values} already, which would count no more. Another "
            f"number keeps both; go on with line {command.line} adds to it.",
            f"Line {number} has {wording.spoken_count(len(known.values), 'value')} already.",
        )
    ]


def _off_the_floor(job: Job, line: ProofLine) -> list[tuple[str, str]]:
    """Asks about a line that runs out of the room or through what stands on the floor."""
    if line.ends_m is None or not has_outline(job.layout):
        return []
    import shapely

    run = shapely.LineString(line.ends_m)
    for thing in job.layout.things.obstacles:
        if thing.is_off_the_area and run.intersects(shape_of(thing).buffer(-OFF_THE_LINE_M)):
            name = f"{thing.kind} {thing.number}"
            return [
                (
                    f"Line {line.number} runs through {name}; a line whose values are compared "
                    "runs on one piece of floor.",
                    f"That line runs through {thing.kind} {wording.spoken_number(thing.number)}.",
                )
            ]
    area = area_to_pour(job.layout)
    if area is None or area.buffer(OFF_THE_LINE_M).covers(run):
        return []
    if not area.intersects(run):
        raise Refusal(
            f"Line {line.number} is off the floor. Places are taken from the A1 corner, first "
            "along the lettered side.",
            spoken="That line is off the floor.",
        )
    return [(f"Line {line.number} leaves the floor on its way.", "That line leaves the floor.")]


# --- values ---------------------------------------------------------------------------------


def line_meant(job: Job, number: int | None) -> ProofLine:
    """The line of a number, or the one that is being read."""
    if number is None:
        if job.proof.line is None:
            raise Refusal(
                "No line is being read. One is begun so: ",
                LINE,
                ".",
                spoken="No line is being read.",
            )
        return job.proof.line
    line = job.proof.lines.get(number)
    if line is None:
        known = [str(each) for each in sorted(job.proof.lines)]
        there = f" Lines: {wording.join_names(known)}." if known else ""
        raise Refusal(
            f"There is no line {number}.{there} It is begun so: ",
            LINE,
            ".",
            spoken=f"There is no line {wording.spoken_number(number)}.",
        )
    return line


def take_values(job: Job, command: TakeLineValues, _world: World) -> Decision:
    if command.line is None and job.proof.line is None:
        raise _no_line(command.readings)
    line = line_meant(job, command.line)
    for at, reading in enumerate(command.readings, len(line.values) + 1):
        if lacks_side(reading):
            return side_question(command, _value_name(line, at), reading)
    said = tuple(height_said(reading) for reading in command.readings)
    event = LineRead(line.number, said)
    return _unless_odd(job, command, event, line, command.readings, len(line.values))


def _no_line(readings: Sequence[Reading]) -> Refusal:
    if len(readings) == 1 and readings[0].number == 0:
        # One figure must not put a reading in the record.
        return Refusal(
            "A level reading is said with its point, or as level.",
            spoken="Say level, or name the point.",
        )
    return Refusal(
        "No line is being read, so these values are of nothing. One is begun so: ",
        LINE,
        ".",
        spoken="No line is being read.",
    )


def _value_name(line: ProofLine, at: int) -> str:
    return f"Line {line.number} point {at}"


def correct_value(job: Job, command: CorrectLineValue, _world: World) -> Decision:
    line = line_meant(job, command.line)
    if not 1 <= command.number <= len(line.values):
        raise Refusal(
            f"Line {line.number} has {wording.counted(len(line.values), 'value')}, "
            f"and no number {command.number} to put right.",
            spoken=f"Line {wording.spoken_number(line.number)} has "
            f"{wording.spoken_count(len(line.values), 'value')}.",
        )
    if lacks_side(command.reading):
        return side_question(command, _value_name(line, command.number), command.reading)
    value = height_said(command.reading)
    event = LineValueCorrected(line.number, command.number, value)
    return _unless_odd(job, command, event, line, (command.reading,), command.number - 1)


def _unless_odd(
    job: Job,
    command: Command,
    event: Event,
    line: ProofLine,
    readings: Sequence[Reading],
    first: int,
) -> Decision:
    """The event, asked about first where values jump, are far from the zero or are too many."""
    doubts = [
        *_far_off(job, line, readings, first),
        *_jumps(job, line, readings, first),
        *_too_many(job, line, first + len(readings)),
    ]
    if not doubts:
        return Decision((event,))
    return Decision(
        (event,),
        YesOrNo(
            " ".join([*(text for text, _ in doubts),
                      "Confirm to take it as said; nothing is recorded yet."]),
            " ".join([*(spoken for _, spoken in doubts), "Confirm, or cancel that."]),
            command,
        ),
    )  # fmt: skip


def _far_off(
    job: Job, line: ProofLine, readings: Sequence[Reading], first: int
) -> list[tuple[str, str]]:
    for at, reading in enumerate(readings, first + 1):
        if is_far_off(job, exact_mm(reading), job.survey.set_up):
            said = Measure(reading.number, reading.unit)
            return [
                (
                    f"{_value_name(line, at)} {wording.said_height(said)}: that is far from the "
                    "zero.",
                    f"Point {wording.spoken_number(at)}, {wording.spoken_height(said)}?",
                )
            ]
    return []


def _jumps(
    job: Job, line: ProofLine, readings: Sequence[Reading], first: int
) -> list[tuple[str, str]]:
    """Steps from one value to the next that a poured floor hardly has."""
    here = job.survey.set_up
    values = [(height.mm, height.set_up) for height in line.values]
    values[first : first + len(readings)] = [
        (exact_mm(reading), here if first >= len(line.values) else values[first][1])
        for reading in readings
    ]
    last = min(first + len(readings), len(values) - 1)
    steps = [
        (at, values[at][0] - values[at - 1][0])
        for at in range(max(first, 1), last + 1)
        if values[at][1] == values[at - 1][1]
    ]
    over = [(at, step) for at, step in steps if abs(step) > JUMP_MM]
    if not over:
        return []
    told = [
        f"{at} to {at + 1}, {_way(step)} {wording.length(abs(step), job.reading_unit)}"
        for at, step in over
    ]
    at, step = over[0]
    spoken = wording.spoken_length(abs(step), job.reading_unit)
    return [
        (
            f"Line {line.number} jumps from point {wording.join_names(told)}.",
            f"Point {wording.spoken_number(at + 1)} jumps {_way(step)} {spoken}.",
        )
    ]


def _way(step: Fraction) -> str:
    return "up" if step > 0 else "down"


def _too_many(job: Job, line: ProofLine, count: int) -> list[tuple[str, str]]:
    if line.holds is None or count <= max(line.holds, len(line.values)):
        return []
    long = wording.distance(line.length_m or 0, job.reading_unit)
    end = f" to {line.end}" if line.end else ""
    return [
        (
            f"Line {line.number}{end} is {long}, {wording.counted(line.holds, 'value')} at its "
            f"spacing; this would be {count}. If it is through: end line.",
            f"That would be {wording.spoken_count(count, 'value')}; the line takes "
            f"{wording.spoken_number(line.holds)}.",
        )
    ]


# --- its end ----------------------------------------------------------------------------------


def end_line(job: Job, command: EndLine, _world: World) -> Decision:
    line = line_meant(job, command.line)
    number = wording.spoken_number(line.number)
    if not line.values:
        raise Refusal(
            f"Line {line.number} has no value yet. If it is not wanted: drop line {line.number}.",
            spoken=f"Line {number} has no value yet.",
        )
    if line.ended:
        raise Refusal(f"Line {line.number} is ended already.",
                      spoken=f"Line {number} is ended already.")  # fmt: skip
    ended = LineEnded(line.number)
    count = len(line.values)
    if line.holds is None or count >= line.holds:
        return Decision((ended,))
    reach = wording.distance((count - 1) * metres(line.spacing), job.reading_unit)
    return Decision(
        (ended,),
        YesOrNo(
            f"Line {line.number} has {count} of {line.holds} values, {reach} of "
            f"{wording.distance(line.length_m or 0, job.reading_unit)}. End it there? Confirm, "
            "or go on with its values.",
            f"Line {number} has {wording.spoken_number(count)} of "
            f"{wording.spoken_number(line.holds)}. End it there? Confirm, or go on.",
            command,
        ),
    )


def go_on(job: Job, command: GoOnWithLine, _world: World) -> Decision:
    line = line_meant(job, command.line)
    return Decision((LineTakenUp(line.number),))


DECIDERS: dict[type[Change], Decider] = {
    StartLine: start_line,
    TakeLineValues: take_values,
    CorrectLineValue: correct_value,
    EndLine: end_line,
    GoOnWithLine: go_on,
}
