"""Answers about the instrument, its set-ups, ties and checks."""

from __future__ import annotations

from fractions import Fraction

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.answers.set_ups.ties import measure
from assistant.floor import warnings
from assistant.floor.changed_by_checks import drift_told
from assistant.floor.heights import survey_of
from assistant.floor.survey_check import zero_off_mm
from assistant.floor.zero_checks import good_mm
from assistant.job.set_ups import SurveyState
from assistant.reply import wording
from assistant.reply.replies import Reply
from grammar.commands import Command
from grammar.commands.set_ups import (
    CheckBenchmark,
    CheckZero,
    SetInstrumentOffset,
    SetInstrumentRepeatability,
    SetInstrumentResolution,
)


def tell_check(moment: Moment, command: CheckZero | CheckBenchmark) -> Reply:
    job, unit = moment.job, moment.unit
    benchmark = command.benchmark if isinstance(command, CheckBenchmark) else None
    what = "Zero" if benchmark is None else f"Benchmark {benchmark}"
    spoken_what = what if benchmark is None else f"Benchmark {wording.spoken_number(benchmark)}"
    off = zero_off_mm(job)
    good = abs(off) <= good_mm(job.survey)
    if not off:
        told, spoken = "as it was set", "as set"
    elif good:
        told = f"off by {wording.length(abs(off), unit)}, within what is usual"
        spoken = "good"
    elif survey_of(job).watches[-1].alone is not None:
        told = f"off by {wording.length(abs(off), unit)}: misread, or the zero moved"
        spoken = "may have moved. Look again"
    else:
        told, spoken = f"off by {wording.length(abs(off), unit)}", "has moved. Set it again"
    doubtful = [point for point, why in survey_of(job).doubtful.items() if why == "step"]
    details = [f"In doubt: {wording.join_names(doubtful)}."] if doubtful else []
    details += drift_told(job, moment.before)
    reply = Reply(
        f"{what} {wording.said_height(measure(command))}: {told}.",
        f"{spoken_what}, {wording.spoken_height(measure(command))}. Zero {spoken}.",
        tuple(details),
        data={"check": {"off_mm": off, "good": good, "doubtful": doubtful}},
    )
    own = warnings.warnings_about(warnings.all_warnings(job), "zero-moved")
    return with_matters(moment, reply, own)


def _step_words(mm: Fraction, unit: str) -> str:
    """A length as others are shown, but one too small for the parts of an inch."""
    told = wording.length(mm, unit)
    return wording.error_size(float(mm), unit) if mm and told == wording.length(0, unit) else told


def instrument_set(moment: Moment, _command: Command) -> Reply:
    state, unit = moment.job.survey, moment.unit
    lines = {
        "resolution": f"shows steps of {_step_words(state.resolution_mm, unit)}",
        "repeatability": f"repeats within {_step_words(state.repeatability_mm, unit)}",
        "offset": f"reads {_offset_words(state, unit)} at its zero",
    }
    data = {
        "instrument": {
            "resolution_mm": float(state.resolution_mm),
            "repeatability_mm": float(state.repeatability_mm),
            "offset_mm": float(state.offset_mm),
            "range_mm": float(moment.job.reach_mm),
        }
    }
    note = "Taken off every reading." if state.offset_mm else ""
    reply = Reply(
        f"The instrument {lines['resolution']}, {lines['repeatability']} (standard deviation), "
        f"and {lines['offset']}.",
        "Instrument set.",
        (note,) if note else (),
        data=data,
    )
    return with_matters(moment, reply)


def _offset_words(state: SurveyState, unit: str) -> str:
    if not state.offset_mm:
        return "nothing"
    side = "above" if state.offset_mm > 0 else "below"
    return f"{wording.length(abs(state.offset_mm), unit)} {side}"


ANSWERS: dict[type[Command], Answerer] = {
    CheckZero: tell_check,
    CheckBenchmark: tell_check,
    SetInstrumentResolution: instrument_set,
    SetInstrumentRepeatability: instrument_set,
    SetInstrumentOffset: instrument_set,
}
