"""How far a place lies along the pour, and beyond its front."""

from __future__ import annotations

from assistant.floor.late_numpy import np
from assistant.floor.places import place_of_point
from assistant.floor.pour.bays import Bay, bay_at
from assistant.floor.pour.parts import plan_known
from assistant.floor.pour.plan import PourPlan
from assistant.floor.pour.progress import progress_of
from assistant.job import Job


def along_m(plan: PourPlan, bay: Bay, place: tuple[float, float]) -> float:
    """How far a place in a bay lies from the start of the pour, metres."""
    return float(np.dot(place, plan.way.direction)) - bay.fill.from_m + bay.offset_m


def beyond_front_m(job: Job, point: str) -> float:
    """
    How far a point lies beyond the front, as the bags have it; below zero behind it, metres.

    Zero where no plan, or no place of the point, is known.
    """
    plan, place = plan_known(job), place_of_point(job.layout, point)
    if plan is None or place is None or not job.pour.batches:
        return 0.0
    progress = progress_of(job)
    assert progress.front_m is not None  # there is a plan
    bay = bay_at(plan.floor, place)
    now = progress.bay or 1
    if bay.number < now:
        return -1.0
    front = progress.front_m if bay.number == now else bay.offset_m
    return along_m(plan, bay, place) - front
