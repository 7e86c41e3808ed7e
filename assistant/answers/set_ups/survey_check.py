"""Answers about the whole survey: whether anything disagrees in it."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.answers.set_ups.ties import against_datum
from assistant.errors import Refusal
from assistant.floor import survey_warnings, warnings
from assistant.floor.changed_by_checks import read_from
from assistant.floor.depths import depths_of
from assistant.floor.heights import survey_of
from assistant.floor.off_plan import checks_in_survey
from assistant.floor.survey_check import (
    AGAIN,
    TRUST,
    UNCHECKED,
    Finding,
    SurveyVerdict,
    verdict_of,
)
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.examples import reading_of
from assistant.reply.replies import Reply, Table, ToSay
from grammar.commands import Command
from grammar.commands.set_ups import AskSurveyCheck


def survey_checked(moment: Moment, _command: AskSurveyCheck) -> Reply:
    job = moment.job
    if not job.readings:
        raise Refusal(
            "There is no survey to check yet: ",
            reading_of("B3"),
            ".",
            spoken="There is no survey to check yet.",
        )
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
        warnings=warnings.warnings_about(warnings.all_warnings(job), *survey_warnings.KINDS),
        data=data,
    )


def _in_short(job: Job, found: SurveyVerdict) -> str:
    findings = found.findings
    points = _points(findings)
    if found.verdict == UNCHECKED:
        return f"{wording.join_names(found.unchecked)}."
    if not findings:
        return f"{wording.counted(len(job.readings), 'reading')}, nothing speaks against them."
    if points:
        return f"{wording.join_names(points)}."
    return wording.sentence(wording.join_names([f.what or f.why for f in findings]))


def _points(findings: tuple[Finding, ...]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(point for finding in findings for point in finding.points))


_AT_NO_POINT = {
    "misfit": "ties and readings disagree",
    "zero": "the zero has moved",
    "plan": "the floor is off the plan as a whole",
    "step": "some were read after the zero moved",
}
"""To say of what speaks against a survey and is at no point."""


def _spoken_verdict(job: Job, found: SurveyVerdict) -> ToSay:
    verdict, findings = found.verdict, found.findings
    if verdict == UNCHECKED:
        # Short, as the screen shows it in full.
        short = ["the zero" if "zero" in what else "the readings" for what in found.unchecked]
        return f"No objection, but {wording.join_names(short)} unchecked."
    if verdict == TRUST:
        return "trust it", f"{wording.spoken_count(len(job.readings), 'reading')}, all agree"
    points = [wording.spoken_name(point) for point in _points(findings)]
    if not points:
        first = findings[0]
        return verdict, _AT_NO_POINT.get(first.why, f"{first.what} does not fit")
    if verdict == AGAIN and len(points) > 3:
        return "do it again", f"{wording.spoken_count(len(points), 'reading')} in doubt"
    return verdict, wording.join_names(points, most=3)


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
    """The table of set-ups, where there is more than one."""
    found, unit = survey_of(job), job.reading_unit
    if len(job.survey.set_ups) == 1:
        return ()
    rows = []
    for number, zero in enumerate(found.zeros_mm):
        height = "not tied" if zero is None else against_datum(zero, unit)
        if number == 0:
            height = "the datum"
        points = str(len(read_from(job, number)))
        rows.append((str(number + 1), height, points, str(checks_in_survey(job, number))))
    return (Table("Set-ups", ("Set-up", "Zero", "Points", "Checks"), tuple(rows)),)


ANSWERS: dict[type[Command], Answerer] = {
    AskSurveyCheck: survey_checked,
}
