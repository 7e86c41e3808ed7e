"""The instrument, its set-ups, ties and checks."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.decide.parts import (
    Decider,
    Decision,
    World,
    height_said,
    lacks_side,
    length_of,
    side_question,
)
from assistant.decide.readings import check_point
from assistant.decide.suspect import unless_far_off, unless_off
from assistant.errors import Refusal
from assistant.events.readings import ReadingsBorneOut
from assistant.events.set_ups import (
    BenchmarkChecked,
    BenchmarkPlaced,
    BenchmarkTied,
    InstrumentOffsetSet,
    InstrumentRangeSet,
    InstrumentRepeatabilitySet,
    InstrumentResolutionSet,
    PointTied,
    ReferenceMoved,
    SetUpStarted,
    ZeroChecked,
)
from assistant.floor.heights import survey_of
from assistant.floor.holding import Held, holding_of
from assistant.floor.holding_words import comparison_words, why_not
from assistant.floor.ties import how_to_tie
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.examples import height_of_benchmark
from grammar.commands import Change
from grammar.commands.set_ups import (
    CheckBenchmark,
    CheckZero,
    MoveReference,
    NewSetUp,
    PlaceBenchmark,
    SetInstrumentOffset,
    SetInstrumentRange,
    SetInstrumentRepeatability,
    SetInstrumentResolution,
    TheyHold,
    TieOnBenchmark,
    TieOnPoint,
)


def new_set_up(_job: Job, _command: NewSetUp, _world: World) -> Decision:
    return Decision((SetUpStarted(),))


def reference_moved(_job: Job, _command: MoveReference, _world: World) -> Decision:
    return Decision((ReferenceMoved(),))


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
    """Refuse an unknown benchmark; its height is given from the first set-up."""
    state = job.survey
    read = [mark.height.set_up for mark in state.marks if mark.on == number]
    known = [set_up for set_up in read if from_here or set_up != state.set_up]
    if number in state.benchmarks or known or (state.set_up == 0 and not from_here):
        return
    raise Refusal(
        f"Benchmark {number} has no height yet. Say what it is: ",
        height_of_benchmark(number),
        "; or read it from the first set-up.",
        spoken=f"Benchmark {wording.spoken_number(number)} has no height yet.",
    )


def tie_on_point(job: Job, command: TieOnPoint, _world: World) -> Decision:
    point = command.point
    check_point(job, point)
    reading, here = job.readings.get(point), job.survey.set_up
    if here == 0:
        raise Refusal(
            "There is one set-up, and nothing to tie it to. When the instrument stands anew: "
            f"new set up, then tie on {point}.",
            spoken="There is one set-up, and nothing to tie.",
        )
    if reading is None:
        raise Refusal(
            f"{point} has no reading; tie on a point that was read from before.",
            spoken=f"{wording.spoken_name(point)} has no reading.",
        )
    if reading.set_up == here:
        raise Refusal(
            f"{point} was read from this set-up, so it ties it to nothing. Tie on a point "
            "read from another one, or on a benchmark.",
            spoken=f"{wording.spoken_name(point)} was read from this set-up.",
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


def set_instrument_range(_job: Job, command: SetInstrumentRange, _world: World) -> Decision:
    return Decision((InstrumentRangeSet(length_of(command.reach, "The instrument's range")),))


def they_hold(job: Job, _command: TheyHold, _world: World) -> Decision:
    found = [held for held in holding_of(job) if held.in_doubt]
    cleared = tuple(point for held in found for point in held.cleared)
    if cleared:
        return Decision((ReadingsBorneOut(cleared),))
    raise Refusal(
        " ".join(_reasons(job, found)),
        spoken="That is not sure yet. The screen says why."
        if survey_of(job).doubtful
        else "No reading is in doubt.",
    )


def _reasons(job: Job, found: list[Held]) -> Iterator[str]:
    if not survey_of(job).doubtful:
        yield "No reading is in doubt, so there is nothing to clear."
        return
    for held in found:
        yield f"{comparison_words(job, held)} {why_not(held)}".strip()
    if not found:
        yield "No reading is in doubt by itself; what it hangs on is."
    if job.survey.set_up not in survey_of(job).sound.set_ups:
        yield how_to_tie(job)


DECIDERS: dict[type[Change], Decider] = {
    SetInstrumentRange: set_instrument_range,
    NewSetUp: new_set_up,
    MoveReference: reference_moved,
    PlaceBenchmark: place_benchmark,
    TieOnBenchmark: tie_on_benchmark,
    TieOnPoint: tie_on_point,
    CheckZero: check_zero,
    CheckBenchmark: check_benchmark,
    SetInstrumentResolution: set_resolution,
    SetInstrumentRepeatability: set_repeatability,
    SetInstrumentOffset: set_offset,
    TheyHold: they_hold,
}
