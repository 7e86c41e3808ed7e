"""Heights along a line: where it runs, its values, and when it is through."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.proof.line_doubts import unless_odd, value_name
from assistant.decide.questions import YesOrNo
from assistant.decide.things.obstacles import place_measured
from assistant.errors import Refusal
from assistant.events.proof import (
    LineEnded,
    LineRead,
    LineStarted,
    LineTakenUp,
    LineValueCorrected,
)
from assistant.floor.geometry import area_to_pour, has_outline
from assistant.floor.obstacles import shape_of
from assistant.job import Job
from assistant.job.proof import ProofLine
from assistant.reply import wording
from assistant.reply.examples import LINE
from assistant.units.lengths import metres
from grammar.commands import Change, Measure, Reading
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
    if command.start is not None:
        assert command.end is not None  # a line by points has both
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
            return side_question(command, value_name(line, at), reading)
    said = tuple(height_said(reading) for reading in command.readings)
    event = LineRead(line.number, said)
    return unless_odd(job, command, event, line, command.readings, len(line.values))


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


def correct_value(job: Job, command: CorrectLineValue, _world: World) -> Decision:
    line = line_meant(job, command.line)
    number = len(line.values) if command.number is None else command.number
    if not 1 <= number <= len(line.values):
        raise Refusal(
            f"Line {line.number} has {wording.counted(len(line.values), 'value')}, "
            f"and no number {number} to put right.",
            spoken=f"Line {wording.spoken_number(line.number)} has "
            f"{wording.spoken_count(len(line.values), 'value')}.",
        )
    if lacks_side(command.reading):
        return side_question(command, value_name(line, number), command.reading)
    value = height_said(command.reading)
    event = LineValueCorrected(line.number, number, value)
    return unless_odd(job, command, event, line, (command.reading,), number - 1)


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
