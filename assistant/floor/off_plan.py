"""Whether a poured floor is off its plan as a whole, and whether its zero was looked at since.

A zero that moved between the two surveys lifts all of a floor alike, and looks like a floor that
was poured too high.
"""

from __future__ import annotations

from statistics import median

from assistant.floor.depths import depths_of
from assistant.floor.heights import survey_of
from assistant.floor.suspicion import FEWEST_READINGS
from assistant.job import Job

__all__ = ["checks_in_survey", "is_of_slab", "off_as_a_whole_mm", "unlooked_zeros"]


def is_of_slab(job: Job, set_up: int) -> bool:
    """Whether a set-up of the finished floor was made for the slab already, counted from 0."""
    return job.slab is not None and set_up < len(job.slab.survey.set_ups)


def checks_in_survey(job: Job, set_up: int) -> int:
    """How often a zero was looked at in the survey that a job shows; before the pour is not."""
    watch = survey_of(job).watches[set_up]
    if job.slab is None:
        return watch.checks
    before = {mark.height.order for mark in job.slab.survey.marks}
    return sum(1 for look in watch.seen[1:] if look.order not in before)


def unlooked_zeros(job: Job) -> tuple[int, ...]:
    """Set-ups that readings were taken from and whose zero was not looked at in this survey."""
    read = {reading.set_up for reading in job.readings.values()}
    return tuple(number for number in sorted(read) if not checks_in_survey(job, number))


def off_as_a_whole_mm(job: Job) -> float | None:
    """
    How far above the planned finish the middle one of a poured floor's points lies.

    None for a slab, and of fewer points than a floor is judged by.
    """
    depths = depths_of(job)
    if job.slab is None or len(depths) < FEWEST_READINGS:
        return None
    return -float(median(depths.values()))
