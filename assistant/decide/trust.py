"""The instrument, its set-ups, ties and checks."""

from __future__ import annotations

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.readings import check_point, grid_in_words
from assistant.decide.suspect import unless_far_off, unless_off, unless_suspect
from assistant.errors import Refusal
from assistant.events import (
    BenchmarkChecked,
    BenchmarkPlaced,
    BenchmarkTied,
    InstrumentOffsetSet,
    InstrumentRepeatabilitySet,
    InstrumentResolutionSet,
    PointTied,
    ReadingsTaken,
    SetUpStarted,
    StepMarked,
    ZeroChecked,
)
from assistant.events import ReferenceMoved as Moved
from assistant.floor import grid_of
from assistant.job import Job
from assistant.trust.steps import cell_of, column_number, line_members
from assistant.trust.survey_state import median
from grammar.commands import (
    Change,
    CheckBenchmark,
    CheckZero,
    MarkStep,
    NewSetUp,
    PlaceBenchmark,
    Reading,
    ReferenceMoved,
    SetInstrumentOffset,
    SetInstrumentRepeatability,
    SetInstrumentResolution,
    TakeReading,
    TakeReadings,
    TieOnBenchmark,
    TieOnPoint,
)


def take_readings(job: Job, command: TakeReadings, _world: World) -> Decision:
    check_point(job, command.point)
    values = tuple(height_said(reading) for reading in command.readings)
    middle = median(values)
    counting = TakeReading(command.point, Reading(middle.number, middle.unit))
    return unless_suspect(job, command, counting, ReadingsTaken(command.point, values))


def new_set_up(_job: Job, _command: NewSetUp, _world: World) -> Decision:
    return Decision((SetUpStarted(),))


def reference_moved(_job: Job, _command: ReferenceMoved, _world: World) -> Decision:
    return Decision((Moved(),))


# --- ties and checks ------------------------------------------------------------------


def place_benchmark(_job: Job, command: PlaceBenchmark, _world: World) -> Decision:
    if lacks_side(command.height):
        return side_question(command, f"Benchmark {command.benchmark}", command.height)
    return Decision((BenchmarkPlaced(command.benchmark, height_said(command.height)),))


def tie_on_benchmark(job: Job, command: TieOnBenchmark, _world: World) -> Decision:
    _check_benchmark(job, command.benchmark, from_here=False)
    if lacks_side(command.reading):
        return side_question(command, f"Tie on benchmark {command.benchmark}", command.reading)
    event = BenchmarkTied(command.benchmark, height_said(command.reading))
    return unless_off(job, command, event, command.benchmark, command.reading)


def _check_benchmark(job: Job, number: int, *, from_here: bool) -> None:
    """Refuse a benchmark that nothing is known of; the first set-up gives one its height."""
    state = job.survey
    read = [mark.height.set_up for mark in state.marks if mark.on == number]
    known = [set_up for set_up in read if from_here or set_up != state.set_up]
    if number in state.benchmarks or known or (state.set_up == 0 and not from_here):
        return
    raise Refusal(
        f"Benchmark {number} has no height yet. Say what it is: benchmark {number} at "
        "40 millimetres above zero; or read it from the first set-up."
    )


def tie_on_point(job: Job, command: TieOnPoint, _world: World) -> Decision:
    point = command.point
    check_point(job, point)
    reading, here = job.readings.get(point), job.survey.set_up
    if here == 0:
        raise Refusal(
            "There is one set-up, and nothing to tie it to. When the instrument stands anew: "
            f"new set up, then tie on {point}."
        )
    if reading is None:
        raise Refusal(f"{point} has no reading; tie on a point that was read from before.")
    if reading.set_up == here:
        raise Refusal(
            f"{point} was read from this set-up, so it ties it to nothing. Tie on a point "
            "read from another one, or on a benchmark."
        )
    if lacks_side(command.reading):
        return side_question(command, f"Tie on {point}", command.reading)
    event = PointTied(point, height_said(command.reading))
    asked = unless_far_off(job, command, event, (f"Tie on {point}", command.reading))
    return asked if asked.ask else unless_off(job, command, event, point, command.reading)


def check_zero(job: Job, command: CheckZero, _world: World) -> Decision:
    if lacks_side(command.reading):
        return side_question(command, "Zero", command.reading)
    event = ZeroChecked(height_said(command.reading))
    return unless_off(job, command, event, None, command.reading)


def check_benchmark(job: Job, command: CheckBenchmark, _world: World) -> Decision:
    _check_benchmark(job, command.benchmark, from_here=True)
    if lacks_side(command.reading):
        return side_question(command, f"Benchmark {command.benchmark}", command.reading)
    event = BenchmarkChecked(command.benchmark, height_said(command.reading))
    return unless_off(job, command, event, command.benchmark, command.reading)


# --- the instrument -----------------------------------------------------------------------


def set_resolution(_job: Job, command: SetInstrumentResolution, _world: World) -> Decision:
    step = length_of(command.step, "The instrument's resolution")
    return Decision((InstrumentResolutionSet(step),))


def set_repeatability(_job: Job, command: SetInstrumentRepeatability, _world: World) -> Decision:
    spread = length_of(command.spread, "The instrument's repeatability")
    return Decision((InstrumentRepeatabilitySet(spread),))


def set_offset(_job: Job, command: SetInstrumentOffset, _world: World) -> Decision:
    if lacks_side(command.offset):
        return side_question(command, "Instrument offset", command.offset)
    return Decision((InstrumentOffsetSet(height_said(command.offset)),))


# --- steps in the floor ---------------------------------------------------------------------


def mark_step(job: Job, command: MarkStep, _world: World) -> Decision:
    first, second = cell_of(command.first), cell_of(command.second)
    if [bool(part) for part in first] != [bool(part) for part in second]:
        raise Refusal(
            "A step lies between two columns, two rows or two points: step between B and C, "
            "step between 2 and 3, or step between B3 and B4."
        )
    if command.first == command.second:
        raise Refusal(f"A step lies between two things, not between {command.first} and itself.")
    for name in (command.first, command.second):
        _check_line(job, name)
    if not all(first) and _apart(first, second) != 1:
        raise Refusal(
            f"{command.first} and {command.second} are not next to each other; "
            "name the two that the step lies between."
        )
    return Decision((StepMarked(command.first, command.second),))


def _check_line(job: Job, name: str) -> None:
    """Refuse a column, row or point that is not there, with what is."""
    if line_members(job.layout, name):
        return
    if all(cell_of(name)):
        check_point(job, name)
        raise Refusal(
            f"{name} has no place yet. Say where it is: point {name} at 3.2 by 4.5 metres."
        )
    grid = grid_of(job.layout)
    if grid is None:
        raise Refusal("There are no columns and rows yet. Set a grid: grid 2 metres.")
    what = "column" if cell_of(name)[0] else "row"
    raise Refusal(f"There is no {what} {name}. {grid_in_words(grid)}.")


def _apart(first: tuple[str, str], second: tuple[str, str]) -> int:
    if first[0]:
        return abs(column_number(first[0]) - column_number(second[0]))
    return abs(int(first[1]) - int(second[1]))


DECIDERS: dict[type[Change], Decider] = {
    TakeReadings: take_readings,
    NewSetUp: new_set_up,
    ReferenceMoved: reference_moved,
    PlaceBenchmark: place_benchmark,
    TieOnBenchmark: tie_on_benchmark,
    TieOnPoint: tie_on_point,
    CheckZero: check_zero,
    CheckBenchmark: check_benchmark,
    SetInstrumentResolution: set_resolution,
    SetInstrumentRepeatability: set_repeatability,
    SetInstrumentOffset: set_offset,
    MarkStep: mark_step,
}
