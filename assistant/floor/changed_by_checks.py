"""Readings that the zero's checks have changed, in words."""

from __future__ import annotations

from assistant.floor.heights import survey_of
from assistant.job import Job
from assistant.reply import wording


def read_from(job: Job, set_up: int) -> tuple[str, ...]:
    """Points read from a set-up, in the order they were read."""
    found = [point for point, reading in job.readings.items() if reading.set_up == set_up]
    return tuple(sorted(found, key=lambda point: job.readings[point].order))


def drift_told(job: Job, before: Job | None = None) -> list[str]:
    """The corrections of readings by zero checks, and those of `before` that no longer count."""
    now = _changed_by_checks(job)
    unit = job.reading_unit
    told = []
    for changed in now:
        least, most = sorted((min(changed.values()), max(changed.values())), key=abs)
        sizes = dict.fromkeys(_by(mm, unit) for mm in (least, most))
        told.append(
            f"{wording.join_names(tuple(changed), 6)} changed by {' to '.join(sizes)}, as the "
            "checks have it: a small drift in proportion to time, a move as a whole."
        )
    still = {point for changed in now for point in changed}
    earlier = [] if before is None else _changed_by_checks(before)
    if back := [point for changed in earlier for point in changed if point not in still]:
        told.append(
            f"{wording.join_names(back, 6)} no longer changed: by all the checks so far, the zero "
            "is off its setting by no more than they are off each other."
        )
    return told


def _changed_by_checks(job: Job) -> list[dict[str, float]]:
    """By set-up, the points whose readings its checks have changed, and how much."""
    found = []
    for number, seen in enumerate(survey_of(job).watches):
        changed = {
            point: seen.correction_mm[job.readings[point].order]
            for point in read_from(job, number)
            if job.readings[point].order in seen.correction_mm
        }
        if changed:
            found.append(changed)
    return found


def _by(mm: float, unit: str) -> str:
    size = wording.length(round(mm, 1) if unit == "mm" else mm, unit)
    return size if mm < 0 else f"+{size}"
