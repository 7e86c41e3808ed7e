"""Answers about set-ups, their ties, and a reference that moved."""

from __future__ import annotations

from fractions import Fraction

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.floor.heights import survey_of
from assistant.floor.survey_check import of_neighbours
from assistant.floor.ties import how_to_tie, how_to_tie_spoken
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command, Measure
from grammar.commands.set_ups import (
    CheckBenchmark,
    CheckZero,
    MoveReference,
    NewSetUp,
    PlaceBenchmark,
    TieOnBenchmark,
    TieOnPoint,
)


def set_up_started(moment: Moment, _command: NewSetUp) -> Reply:
    number = moment.job.survey.set_up + 1
    reply = Reply(
        f"Set-up {number}, with a zero of its own.",
        f"Set-up {wording.spoken_number(number)}. {how_to_tie_spoken(moment.job)}",
        (how_to_tie(moment.job),),
        data={"set_up": {"set_up": number, "zero_mm": None}},
    )
    return with_matters(moment, reply)


def reference_moved(moment: Moment, _command: MoveReference) -> Reply:
    job = moment.job
    number = job.survey.set_up + 1
    doubts, readings = survey_of(job).doubtful, job.readings
    doubtful = [point for point, why in doubts.items() if why == "moved"]
    doubtful.sort(key=lambda point: readings[point].order)
    what = wording.counted(len(doubtful), "reading")
    details = [f"In doubt: {wording.join_names(doubtful)}."] if doubtful else []
    reply = Reply(
        f"Reference moved: set-up {number} from here. "
        f"{what} since the last good check {'is' if len(doubtful) == 1 else 'are'} in doubt.",
        (
            "reference moved",
            f"{wording.spoken_count(len(doubtful), 'reading')} in doubt",
            how_to_tie_spoken(job),
        ),
        (*details, how_to_tie(job), *_what_would_tell(doubtful)),
        data={"moved": {"set_up": number, "doubtful": doubtful}},
    )
    return with_matters(moment, reply)


def _what_would_tell(doubtful: list[str]) -> list[str]:
    """Which doubtful reading to take again first; if it agrees, the others count too."""
    if not doubtful:
        return []
    return [f"Then read the last of them again, {doubtful[-1]}: as before, say they hold."]


def benchmark_placed(moment: Moment, command: PlaceBenchmark) -> Reply:
    number, unit = command.benchmark, moment.unit
    height = moment.job.survey.benchmarks[number]
    reply = Reply(
        f"Benchmark {number} {wording.height(height.mm, unit)} of the first set-up.",
        f"Benchmark {wording.spoken_number(number)}, {wording.spoken_height(height.said)}.",
        data={"benchmark": {"benchmark": number, "height_mm": float(height.mm)}},
    )
    return with_matters(moment, reply)


def tell_tie(moment: Moment, command: TieOnBenchmark | TieOnPoint) -> Reply:
    job = moment.job
    on = f"benchmark {command.benchmark}" if isinstance(command, TieOnBenchmark) else command.point
    number, zero = job.survey.set_up, survey_of(job).zeros_mm[job.survey.set_up]
    said = wording.said_height(Measure(command.reading.number, command.reading.unit))
    if zero is None:
        headline = f"Tie on {on} {said}; set-up {number + 1} is still not joined to the first."
    elif number == 0:
        headline = f"{wording.sentence(on)[:-1]} {said}, read from the first set-up."
    else:
        headline = (
            f"Set-up {number + 1} tied on {on} {said}: "
            f"its zero is {against_datum(zero, moment.unit)}."
        )
    spoken = [f"tied on {wording.spoken_name(on)}, {wording.spoken_height(measure(command))}"]
    details = _fit_lines(job)
    wrong = _off_the_floor(moment)
    details += wrong.values()
    if wrong:
        names = [wording.spoken_name(point) for point in wrong]
        spoken.append(f"look again at {wording.join_names(names, most=3)}")
    sound = zero is None or number in survey_of(job).sound.set_ups
    if not sound:
        what = wording.sentence(on)[:-1]
        details.insert(0, f"{what} is in doubt itself, and so is all that hangs on this tie.")
        details.insert(1, how_to_tie(job))
        hangs = f"set-up {wording.spoken_number(number + 1)}"
        spoken.append(f"{wording.spoken_name(on)} is in doubt, and so is {hangs}")
    tie = {
        "set_up": number + 1,
        "zero_mm": None if zero is None else float(zero),
        "sound": sound,
        "look_at": list(wrong),
    }
    return with_matters(moment, Reply(headline, tuple(spoken), tuple(details), data={"tie": tie}))


def _off_the_floor(moment: Moment) -> dict[str, str]:
    """
    Points that got a height from the tie and don't agree with the floor around.

    Without a height nothing could be asked when they were read.
    """
    before, after = (survey_of(job).heights_mm for job in (moment.before, moment.after))
    new = set(after) - set(before)
    if not new:
        return {}
    found = {finding.points[0]: finding.message for finding in of_neighbours(moment.after, new)}
    if len(found) > 1 and len(found) > len(new) / 2:
        first = next(iter(found))
        found[first] = f"So many together may be the tie itself: tie once more. {found[first]}"
    return found


def measure(command: TieOnBenchmark | TieOnPoint | CheckZero | CheckBenchmark) -> Measure:
    return Measure(command.reading.number, command.reading.unit)


def against_datum(zero_mm: Fraction, unit: str) -> str:
    return wording.height(zero_mm, unit, "the first zero")


def _fit_lines(job: Job) -> list[str]:
    """Lines on what does not agree, once there is a check."""
    return [
        f"{wording.sentence(misfit.what)[:-1]} is "
        f"{wording.length(abs(misfit.off_mm), job.reading_unit)} off what the others say."
        for misfit in survey_of(job).misfits
    ]


ANSWERS: dict[type[Command], Answerer] = {
    NewSetUp: set_up_started,
    MoveReference: reference_moved,
    PlaceBenchmark: benchmark_placed,
    TieOnBenchmark: tell_tie,
    TieOnPoint: tell_tie,
}
