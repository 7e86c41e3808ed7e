"""Where the strips of a pour lie, and its front, for drawings."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.floor.late_numpy import np
from assistant.floor.pour.parts import plan_known
from assistant.floor.pour.plan import PourPlan
from assistant.floor.pour.progress import progress_of
from assistant.floor.zone_shapes import HalfPlane, floor_alone, half_of
from assistant.job import Job

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon


def strip_shapes(job: Job) -> list[tuple[int, Polygon | MultiPolygon]]:
    """The strips of the pour with their numbers, metres; none while it cannot be planned."""
    plan = plan_known(job)
    if plan is None or not plan.strips:
        return []
    found = []
    for strip in plan.strips:
        near, far = behind_line(plan, strip.from_m), behind_line(plan, strip.to_m)
        shape = half_of(plan.floor[strip.bay - 1].shape, near.other_side)
        shape = shape if shape.is_empty else half_of(shape, far)
        if not shape.is_empty:
            found.append((strip.number, shape))
    return found


def behind_line(plan: PourPlan, at_m: float) -> HalfPlane:
    """What lies behind a line across the way of the pour, metres from its start."""
    way = np.array(plan.way.direction)
    return HalfPlane(way * (plan.whole.from_m + at_m), -way)


def poured_area(job: Job, area: Polygon | MultiPolygon) -> Polygon | MultiPolygon | None:
    """The part of an area behind the last front reported; None before any was."""
    plan = plan_known(job)
    if plan is None or not job.pour.fronts:
        return None
    progress = progress_of(job)
    if progress.front_m is None:
        return None
    behind = half_of(area, behind_line(plan, progress.front_m))
    if plan.bays == 1:
        return behind
    import shapely

    number = plan.strips[progress.strip - 1].bay if progress.strip else progress.parts[-1].bay
    bay = plan.floor[number - 1].shape
    done = [each.shape for each in plan.floor[: number - 1]]
    return floor_alone(shapely.union_all([*done, shapely.intersection(bay, behind)]))
