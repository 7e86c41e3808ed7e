"""What can still be done where the bags of a pour run short."""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from assistant.floor.pour_plan import PourPlan, fill_of
from assistant.floor.pour_progress import Progress, front_by_bags_m
from assistant.floor.surfaces import Surface, surface_of
from assistant.job import Job
from grammar.frozen import frozen


@frozen
class WaysOut:
    """What each way out comes to."""

    more_bags: int
    """So many more, with which the upper end of the forecast's interval is met."""
    lower_mm: Fraction | None
    """The finish lower in all that is left; None where no lower finish would do."""
    least_left_mm: float | None
    """The least depth that is then left there."""
    from_m: float
    """Where it would be lower, metres from the start: the step that it makes lies there."""
    stops_at_m: float
    """How far the bags at hand go, as expected."""
    dam_m: float | None
    """The last strip's edge before that; None where there is none."""


def ways_out(job: Job, plan: PourPlan, progress: Progress) -> WaysOut:
    """What lowering, stopping and more bags come to, from the last front on."""
    assert progress.forecast is not None
    assert progress.at_hand is not None
    _low, high = progress.forecast.interval
    from_m = progress.parts[-1].to_m if progress.parts else 0.0
    poured = sum(part.planned_bags for part in progress.parts)
    spent = sum(part.used_bags for part in progress.parts)
    left_plan = max(plan.bags - poured, 1e-9)
    ratio = max((float(progress.forecast.mean) - spent) / left_plan, 0.2)
    planned_left = max(progress.at_hand - spent, 0) / ratio
    stops_at = front_by_bags_m(plan, poured + planned_left)
    edges = [each.to_m for each in plan.strips if from_m < each.to_m <= stops_at + 1e-6]
    lower, least = _lowered(job, plan, from_m, planned_left * plan.bag_m3)
    return WaysOut(
        max(ceil(float(high) - progress.at_hand - 1e-9), 0),
        lower,
        least,
        from_m,
        stops_at,
        edges[-1] if edges and plan.bays == 1 else None,
    )


def _lowered(
    job: Job, plan: PourPlan, from_m: float, volume_m3: float
) -> tuple[Fraction | None, float | None]:
    """How much lower the rest has to be for a volume, rounded up, and the least depth left."""
    surface = surface_of(job)
    assert surface is not None  # there is a plan
    step = Fraction(254, 160) if job.reading_unit == "in" else Fraction(1)
    most = float(surface.depths_m.max()) * 1000
    low, high = 0, int(most / float(step)) + 1
    if _rest_m3(surface, plan, from_m, high * step) > volume_m3:
        return None, None
    while low < high:
        middle = (low + high) // 2
        if _rest_m3(surface, plan, from_m, middle * step) <= volume_m3:
            high = middle
        else:
            low = middle + 1
    least = float(surface.depths_m.min()) * 1000 - float(low * step)
    return low * step, least


def _rest_m3(surface: Surface, plan: PourPlan, from_m: float, lower_mm: Fraction) -> float:
    """Volume from a front to the end, with the finish so much lower."""
    lowered = Surface(surface.mesh, surface.names, surface.depths_m - float(lower_mm) / 1000)
    fill = fill_of(lowered, plan.way.direction, None)
    return fill.volume_m3 - float(fill.volume_behind([plan.whole.from_m + from_m])[0])
