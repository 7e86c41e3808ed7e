"""Warnings about the survey itself."""

from __future__ import annotations

from assistant.floor.changed_by_checks import read_from
from assistant.floor.heights import survey_of
from assistant.floor.survey_check import jumping_points, zero_moved_words, zero_off_mm
from assistant.floor.ties import how_to_tie
from assistant.floor.zero_checks import good_mm
from assistant.job import Job
from assistant.limits.limits import PRACTICE
from assistant.reply import wording
from assistant.reply.replies import LimitWarning

KINDS = ("untied", "zero-moved", "doubtful", "restless")


def survey_warnings(job: Job) -> tuple[LimitWarning, ...]:
    """Set-ups without a tie, a zero that moved, readings in doubt, a display that jumped."""
    state = job.survey
    if len(state.set_ups) == 1 and not state.marks and not state.shown:
        return ()
    return (*_untied(job), *_zero_moved(job), *_doubtful(job), *_restless(job))


def _untied(job: Job) -> list[LimitWarning]:
    found = []
    for number in survey_of(job).untied:
        points = read_from(job, number)
        has = "has" if len(points) == 1 else "have"
        without = f"; {wording.join_names(points)} {has} no height till then" if points else ""
        message = f"Nothing ties set-up {number + 1} to the others{without}. "
        message += how_to_tie(job, number)
        source = "a height needs a known one to start from"
        found.append(_warning(f"untied:{number + 1}", "caution", message, source))
    return found


def _zero_moved(job: Job) -> list[LimitWarning]:
    off, most = zero_off_mm(job), good_mm(job.survey)
    if abs(off) <= most:
        return []
    message = zero_moved_words(job, off)
    return [LimitWarning("zero-moved", "stop", message, abs(off), round(most, 6), "mm", PRACTICE)]


def _doubtful(job: Job) -> list[LimitWarning]:
    doubtful, messages = survey_of(job).doubtful, []
    if moved := [point for point, why in doubtful.items() if why != "hangs"]:
        told = "read while the zero may have moved. Read them again from a zero that is sound."
        messages.append(f"{wording.join_names(moved)}: {told}")
    for number in survey_of(job).hanging:
        hang = [point for point in read_from(job, number) if doubtful.get(point) == "hangs"]
        told = f"set-up {number + 1} is tied on what is in doubt itself"
        messages.append(f"{wording.join_names(hang)}: {told}. {how_to_tie(job, number)}")
    return [_warning("doubtful", "caution", " ".join(messages), PRACTICE)] if messages else []


def _restless(job: Job) -> list[LimitWarning]:
    source = "the instrument's resolution and repeatability as set"
    return [
        _warning(f"restless:{point}", "caution", finding.message, source)
        for finding in jumping_points(job)
        for point in finding.points
    ]


def _warning(id: str, severity: str, message: str, source: str) -> LimitWarning:
    return LimitWarning(id, severity, message, source=source)
