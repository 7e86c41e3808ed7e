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
    return job.finished is not None or latest_started(job.site.clocks, "pour") is not None


@cached
def with_second_survey_begun(job: Job) -> Job:
    """The job with its second survey begun where the slab is poured over.

    An older record has the pour's clock alone. What is read from now on is of the finished
    floor there too.
    """
    if job.finished is None and job.slab is None and is_poured(job):
        return apply(job, FinishedFloorBegun())
    return job


@cached
def finished_floor(job: Job) -> Job | None:
    """The finished floor, as a job to be looked at; None until the pour is finished."""
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
        finished=None,
        slab=job,
    )


def being_read(job: Job) -> Job:
    """The floor that lies open: the slab until the pour is finished, then what was poured."""
    if job.slab is not None:
        return job
    return finished_floor(job) or job


def survey_named(job: Job) -> str | None:
    """The name of the survey that a job shows, once there are two; None while there is one."""
    if job.slab is not None:
        return FINISHED
    return SLAB if is_poured(job) else None
