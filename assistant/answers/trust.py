"""Answers about the instrument, its set-ups, ties and checks, and the whole survey."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from assistant import checks, wording
from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.answers.readings import read_back
from assistant.answers.ties import against_datum, measure
from assistant.errors import Refusal
from assistant.events import (
    BenchmarkChecked,
    BenchmarkPlaced,
    BenchmarkTied,
    Event,
    InstrumentOffsetSet,
    InstrumentRepeatabilitySet,
    InstrumentResolutionSet,
    PointTied,
    ReadingAccepted,
    ReadingCorrected,
    ReadingsTaken,
    ReadingTaken,
    ReferenceMoved,
    SetUpStarted,
    StepMarked,
    ZeroChecked,
)
from assistant.floor import depths_of
from assistant.job import Job, in_force
from assistant.replies import Reply, Table
from assistant.trust import survey_warnings
from assistant.trust.survey import survey_of
from assistant.trust.survey_state import SurveyState, median
from assistant.trust.verdict import (
    AGAIN,
    TRUST,
    UNCHECKED,
    Finding,
    Verdict,
    drift_told,
    jumping,
    read_from,
    verdict_of,
    zero_off_mm,
)
from assistant.trust.watches import good_mm
from grammar.commands import (
    AskSurveyCheck,
    CheckBenchmark,
    CheckZero,
    Command,
    Hold,
    MarkStep,
    Measure,
    SetInstrumentOffset,
    SetInstrumentRepeatability,
    SetInstrumentResolution,
    TakeReadings,
)

# --- readings --------------------------------------------------------------------------


def readings_taken(moment: Moment, command: TakeReadings) -> Reply:
    """The median read back, and how far the display jumped."""
    reply = read_back(moment, command.point)
    values = [wording.said_height(Measure(r.number, r.unit)) for r in command.readings]
    restless = [found for found in jumping(moment.job) if command.point in found.points]
    details = (f"Median of {wording.listed(values)}; all are kept.",)
    data = {**reply.data, "restless": bool(restless)}
    if not restless:
        return replace(reply, details=(*details, *reply.details), data=data)
    return replace(
        reply,
        details=(restless[0].message, *details, *reply.details),
        spoken=f"{reply.say} It jumps. Wait, and read again.",
        data=data,
    )


def held(moment: Moment, _command: Hold) -> Reply:
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
    raise Refusal("Nothing has been read yet. A reading is said like this: B3 minus 18.")


def _height_in(event: Event) -> tuple[str, Measure] | None:
    match event:
        case ReadingTaken() | ReadingCorrected():
            return event.point, event.reading
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


# --- checks ---------------------------------------------------------------------------------


def checked(moment: Moment, command: CheckZero | CheckBenchmark) -> Reply:
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
    details = [f"In doubt: {wording.listed(doubtful)}."] if doubtful else []
    details += drift_told(job)
    reply = Reply(
        f"{what} {wording.said_height(measure(command))}: {told}.",
        f"{spoken_what}, {wording.spoken_height(measure(command))}. Zero {spoken}.",
        tuple(details),
        data={"check": {"off_mm": off, "good": good, "doubtful": doubtful}},
    )
    own = checks.about(checks.all_warnings(job), "zero-moved")
    return with_matters(moment, reply, own)


# --- the instrument --------------------------------------------------------------------------


def instrument_set(moment: Moment, _command: Command) -> Reply:
    state, unit = moment.job.survey, moment.unit
    lines = {
        "resolution": f"shows steps of {wording.length(state.resolution_mm, unit)}",
        "repeatability": f"repeats within {wording.length(state.repeatability_mm, unit)}",
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


def step_marked(moment: Moment, command: MarkStep) -> Reply:
    reply = Reply(
        f"Step between {command.first} and {command.second}.",
        f"Step between {wording.spoken_name(command.first)} and "
        f"{wording.spoken_name(command.second)}.",
        ("Readings on either side of it are not asked about.",),
        data={"step": [command.first, command.second]},
    )
    return with_matters(moment, reply)


# --- the whole survey --------------------------------------------------------------------------


def survey_checked(moment: Moment, _command: AskSurveyCheck) -> Reply:
    job = moment.job
    if not job.readings:
        raise Refusal("There is no survey to check yet: B3 minus 18.")
    found = verdict_of(job)
    findings = found.findings
    data: dict[str, Any] = {
        "survey": {
            "verdict": found.verdict,
            "unchecked": list(found.unchecked),
            "sigma0": survey_of(job).sigma0,
            "suspects": [entry for finding in findings for entry in _suspects(finding)],
            "points": _heights(job),
            "why": [finding.message for finding in findings],
        }
    }
    headline = f"{found.verdict.capitalize()}: {_in_short(job, found)}"
    return Reply(
        headline,
        _spoken_verdict(job, found),
        (*(finding.message for finding in findings), *found.notes),
        _set_up_table(job),
        warnings=checks.about(checks.all_warnings(job), *survey_warnings.KINDS),
        data=data,
    )


def _in_short(job: Job, found: Verdict) -> str:
    findings = found.findings
    points = _points(findings)
    if found.verdict == UNCHECKED:
        return f"{wording.listed(found.unchecked)}."
    if not findings:
        return f"{wording.counted(len(job.readings), 'reading')}, nothing speaks against them."
    if points:
        return f"{wording.listed(points)}."
    return wording.sentence(wording.listed([f.what or f.why for f in findings]))


def _points(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(point for finding in findings for point in finding.points))


def _spoken_verdict(job: Job, found: Verdict) -> str:
    verdict, findings = found.verdict, found.findings
    if verdict == UNCHECKED:
        # Short: what it is in full stands on the screen.
        short = ["the zero" if "zero" in what else "the readings" for what in found.unchecked]
        return f"No objection, but {wording.listed(short)} unchecked."
    if verdict == TRUST:
        return f"Trust it. {wording.spoken_count(len(job.readings), 'reading')}, all agree."
    points = [wording.spoken_name(point) for point in _points(findings)]
    if not points:
        return f"{verdict}. {findings[0].message.partition(':')[0].partition('.')[0]}."
    if verdict == AGAIN and len(points) > 3:
        return f"Do it again. {wording.spoken_count(len(points), 'reading')} in doubt."
    return f"{verdict}. {wording.listed(points, most=3)}."


def _suspects(finding: Finding) -> list[dict[str, Any]]:
    named: tuple[str | None, ...] = finding.points or (None,)
    return [
        {"point": point, "what": finding.what, "why": finding.why, "off_mm": finding.off_mm}
        for point in named
        if point is not None or finding.what is not None
    ]


def _heights(job: Job) -> list[dict[str, Any]]:
    found = survey_of(job)
    return [
        {
            "point": point,
            "height_mm": float(found.heights_mm[point]),
            "sd_mm": found.sd_mm[point],
        }
        for point in depths_of(job)
    ]


def _set_up_table(job: Job) -> tuple[Table, ...]:
    """Only where there is more than one."""
    found, unit = survey_of(job), job.reading_unit
    if len(job.survey.set_ups) == 1:
        return ()
    rows = []
    for number, zero in enumerate(found.zeros_mm):
        height = "not tied" if zero is None else against_datum(zero, unit)
        if number == 0:
            height = "the datum"
        points = str(len(read_from(job, number)))
        rows.append((str(number + 1), height, points, str(found.watches[number].checks)))
    return (Table("Set-ups", ("Set-up", "Zero", "Points", "Checks"), tuple(rows)),)


ANSWERS: dict[type[Command], Answerer] = {
    TakeReadings: readings_taken,
    Hold: held,
    CheckZero: checked,
    CheckBenchmark: checked,
    SetInstrumentResolution: instrument_set,
    SetInstrumentRepeatability: instrument_set,
    SetInstrumentOffset: instrument_set,
    MarkStep: step_marked,
    AskSurveyCheck: survey_checked,
}

IN_WORDS: dict[type[Event], Callable[[Any], str]] = {
    ReadingsTaken: lambda e: (
        f"{wording.spoken_name(e.point)}, {wording.spoken_height(median(e.readings))}"
    ),
    ReadingAccepted: lambda e: f"keeping {wording.spoken_name(e.point)}",
    SetUpStarted: lambda _event: "the new set-up",
    ReferenceMoved: lambda _event: "the move of the reference",
    BenchmarkPlaced: lambda e: f"benchmark {wording.spoken_number(e.benchmark)}",
    BenchmarkTied: lambda e: f"the tie on benchmark {wording.spoken_number(e.benchmark)}",
    PointTied: lambda e: f"the tie on {wording.spoken_name(e.point)}",
    ZeroChecked: lambda _event: "the check of the zero",
    BenchmarkChecked: lambda e: f"the check of benchmark {wording.spoken_number(e.benchmark)}",
    InstrumentResolutionSet: lambda _event: "the instrument's resolution",
    InstrumentRepeatabilitySet: lambda _event: "the instrument's repeatability",
    InstrumentOffsetSet: lambda _event: "the instrument's offset",
    StepMarked: lambda e: f"the step between {e.first} and {e.second}",
}
"""What an undo of each scratches, to say."""
