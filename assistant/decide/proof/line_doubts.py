"""Values of a line that are asked about before they are recorded."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from assistant.decide.parts import Decision, height_said
from assistant.decide.questions import YesOrNo
from assistant.events.kinds import Event
from assistant.floor.line_doubt import doubts_about
from assistant.floor.plausible_range import is_far_off
from assistant.job import Job
from assistant.job.proof import ProofLine
from assistant.job.set_ups import Height
from assistant.reply import wording
from assistant.units.lengths import as_read_off, exact_mm
from grammar.commands import Command, Measure, Reading

JUMP_MM = Fraction(10)
"""From one value to the next, what a poured floor hardly does within the spacing of a line: more
is asked about. Our own choice, no source; lowering it asks about joints and real steps."""


def value_name(line: ProofLine, at: int) -> str:
    return f"Line {line.number} point {at}"


def unless_odd(
    job: Job,
    command: Command,
    event: Event,
    line: ProofLine,
    readings: Sequence[Reading],
    first: int,
) -> Decision:
    """The event, asked about first where values jump, are far from the zero or are too many."""
    doubts = [
        *(_far_off(job, line, readings, first) or _off_floor(job, line, readings, first)),
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
                    f"{value_name(line, at)} {wording.said_height(said)}: that is far from the "
                    "zero.",
                    f"Point {wording.spoken_number(at)}, {wording.spoken_height(said)}?",
                )
            ]
    return []


def _off_floor(
    job: Job, line: ProofLine, readings: Sequence[Reading], first: int
) -> list[tuple[str, str]]:
    """Where the line departs from what the points around say; the first such value."""
    if first < len(line.values):
        was = line.values[first]
        heights = [job.survey.put_right(was, height_said(readings[0]))]
    else:
        heights = [
            Height(height_said(each), exact_mm(each), job.survey.set_up) for each in readings
        ]
    doubts = doubts_about(job, line, heights, first)
    if not doubts:
        return []
    doubt, unit = doubts[0], job.reading_unit
    said = height_said(readings[doubt.number - 1 - first])
    says = "The planned finish says" if doubt.by_plan else "The floor around says"
    expected = wording.height(as_read_off(doubt.expected_mm, unit), unit, "the zero")
    about = wording.length(as_read_off(2 * doubt.sd_mm, unit), unit)
    more = f" So are {len(doubts) - 1} more." if len(doubts) > 1 else ""
    return [
        (
            f"{value_name(line, doubt.number)} {wording.said_height(said)}? {says} {expected}, "
            f"give or take {about}.{more}",
            f"Point {wording.spoken_number(doubt.number)}, {wording.spoken_height(said)}?",
        )
    ]


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
    shown = [wording.said_height(height.said) for height in line.values]
    shown[first : first + len(readings)] = map(_read_back, readings)
    # From the value before the first jump on, as something may have been heard as another value.
    through = shown[over[0][0] - 1 : over[-1][0] + 1][:_MOST_READ_BACK]
    at, step = over[0]
    spoken = wording.spoken_length(abs(step), job.reading_unit)
    return [
        (
            f"Line {line.number} jumps from point {wording.join_names(told)}: "
            f"{', then '.join(through)}.",
            f"Point {wording.spoken_number(at + 1)} jumps {_way(step)} {spoken}.",
        )
    ]


_MOST_READ_BACK = 4


def _read_back(reading: Reading) -> str:
    return wording.said_height(height_said(reading))


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
