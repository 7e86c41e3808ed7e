"""The two surveys of a job: of the slab, and of the floor that was poured over it.

What works out heights, maps and what is missing takes a job and looks at its readings. So the
finished floor is shown as a job too: the same floor, with the readings taken after the pour in
the places of the slab's.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.events.readings import FinishedFloorBegun
from assistant.job.clocks import latest_started
from assistant.job.fold import apply
from assistant.job.once import cached
from assistant.job.state import Job

SLAB, FINISHED = "slab", "finished floor"


def is_poured(job: Job) -> bool:
    """Whether the pour was said to be finished."""
    if latest_started(job.site.clocks, "pour") is not None:
        return True
    told = job.slab or job  # somebody said that it is poured, with no pour on record
    return second_survey_is_open(told) and told.pour.stopped is None


def is_poured_over(job: Job) -> bool:
    """Whether what lies open is what was poured: the pour is finished, or stands still."""
    return is_poured(job) or job.pour.stopped is not None


def second_survey_is_open(job: Job) -> bool:
    """Whether the second survey is on record, and takes up what is read now."""
    return job.finished is not None and job.finished.lies_open


@cached
def with_second_survey_begun(job: Job) -> Job:
    """The job with its second survey begun where the slab is poured over.

    A pour that stands still begins it with the first reading, and an older record has the
    pour's clock alone. What is read from now on is of the finished floor there too.
    """
    if job.slab is None and is_poured_over(job) and not second_survey_is_open(job):
        return apply(job, FinishedFloorBegun())
    return job


@cached
def finished_floor(job: Job) -> Job | None:
    """The finished floor, as a job to be looked at; None until it is poured or stands still."""
    after = with_second_survey_begun(job).finished
    if after is None:
        return None
    layout = job.layout
    if after.own_points:
        layout = replace(layout, own_points={**layout.own_points, **after.own_points})
    return replace(
        job,
        layout=layout,
        readings=after.readings,
        last_point=after.last_point,
        doors=after.doors,
        survey=after.survey,
        reach_mm=after.reach_mm,
        walk=after.walk,
        proof=after.proof,
        finished=None,
        slab=job,
    )


def being_read(job: Job) -> Job:
    """The floor that lies open: the slab until it is poured over, then what was poured."""
    if job.slab is not None or not is_poured_over(job):
        return job
    return finished_floor(job) or job


def survey_named(job: Job) -> str | None:
    """The name of the survey that a job shows, once there are two; None while there is one."""
    if job.slab is not None:
        return FINISHED
    return SLAB if is_poured_over(job) or job.finished is not None else None
