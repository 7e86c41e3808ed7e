"""What a tie or check should read by all earlier readings, to ask where it does not."""

from __future__ import annotations

from collections.abc import Iterator

from assistant.floor.heights import reading_sd_mm, survey_of
from assistant.floor.zero_checks import GOOD_SDS, good_mm
from assistant.job import Job


def expected_mm(job: Job, on: str | int | None) -> tuple[float, ...]:
    """
    Readings on a mark that would be expected from the present set-up.

    Parameters
    ----------
    job : Job
    on : str, int or None
        A point, a benchmark's number, or None for the zero itself.

    Returns
    -------
    readings_mm : tuple of float
        First the known height; then the last reading from here, which a second one may repeat.
        Empty where nothing is known yet.
    """
    return tuple(_known(job, on)) + tuple(_read_last(job, on))


def _known(job: Job, on: str | int | None) -> Iterator[float]:
    state, found = job.survey, survey_of(job)
    offset = float(state.offset_mm)
    if on is None:
        yield offset
        return
    zero = found.zeros_mm[state.set_up]
    if zero is None or (state.set_up not in found.sound.set_ups):
        return  # a doubtful zero cannot show that a sound reading is wrong
    if isinstance(on, str):
        if on in found.heights_mm and on not in found.doubtful:
            yield float(found.heights_mm[on] - zero) + offset
    elif on in state.benchmarks:
        yield float(state.benchmarks[on].mm - zero) + offset
    else:
        for mark in state.marks:
            there = found.zeros_mm[mark.height.set_up]
            if mark.on == on and there is not None and mark.on in found.sound.marks:
                yield float(there + mark.height.mm - zero)
                return


def _read_last(job: Job, on: str | int | None) -> Iterator[float]:
    here = job.survey.set_up
    read = [m.height for m in job.survey.marks if m.on == on and m.height.set_up == here]
    if read:
        yield float(read[-1].mm)


def surprise_mm(job: Job, on: str | int | None, said_mm: float) -> float | None:
    """How far a reading is from the expected one, where that is worth a question."""
    expected = expected_mm(job, on)
    zero_sd = survey_of(job).zero_sd_mm[job.survey.set_up]
    noise = GOOD_SDS * (2 * reading_sd_mm(job) ** 2 + zero_sd**2) ** 0.5
    most = max(good_mm(job.survey), noise)
    if not expected or min(abs(said_mm - one) for one in expected) <= most:
        return None
    return said_mm - expected[0]
