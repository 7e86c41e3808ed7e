"""What can still be done where the bags of a pour run short."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import takewhile
from math import ceil

from assistant.floor.depths import depths_of
from assistant.floor.late_numpy import np
from assistant.floor.places import places_of
from assistant.floor.pour.bays import Bay
from assistant.floor.pour.parts import Part
from assistant.floor.pour.plan import PourPlan
from assistant.floor.pour.stock import Stock
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
    do: bool = False
    """Whether they go to the end of what is poured of them, as expected."""


def ways_out(job: Job, plan: PourPlan, stock: Stock, parts: tuple[Part, ...]) -> WaysOut:
    """
    What lowering, stopping and more bags come to, from the last front on, or from where the bags
    since have brought it: what is poured is neither lowered nor parted.

    Of the product that is poured now: its bags are no help past what is poured of it.
    """
    assert stock.at_hand is not None
    _low, high = stock.forecast.interval
    bay = plan.floor[parts[-1].bay - 1] if parts else plan.floor[0]
    from_m = parts[-1].to_m if parts else bay.offset_m
    if bay.to_m - from_m < 1e-6 and bay.number < plan.bays:
        bay = plan.floor[bay.number]
        from_m = bay.offset_m
    poured = sum(part.planned_bags for part in parts)
    past = stock.past[-1] if stock.past else 0.0  # of the last batch, beyond the last end
    bays = _alike_from(plan, bay)
    ends = plan.bags_before(bays[-1]) + bays[-1].bags
    left = stock.at_hand - stock.used + past
    if stock.since:
        poured = min(poured + (stock.since + past) / stock.ratio, ends - 1e-3)
        bay, from_m, left = plan.bay_with(poured), plan.front_by_bags_m(poured), left - past
        bays = _alike_from(plan, bay)
    planned_left = max(left, 0) / stock.ratio
    reached = min(poured + planned_left, ends)
    step = Fraction(254, 160) if job.reading_unit == "in" else Fraction(1)
    lower, least = _lowered(plan, bays, from_m, planned_left, step)
    stops_at = bays[-1].to_m if reached > ends - 1e-6 else plan.front_by_bags_m(reached)
    return WaysOut(
        max(ceil(float(high) - stock.at_hand - 1e-9), 0),
        lower,
        least,
        from_m,
        stops_at,
        _edge_before(plan, poured, reached),
        reached > ends - 1e-6,
    )


def _edge_before(plan: PourPlan, poured: float, reached: float) -> float | None:
    """Where the last strip ends that is done by then, and was not before."""
    before, found = 0.0, None
    for each in plan.strips:
        before += each.planned_bags
        if poured + 1e-6 < before <= reached + 1e-6:
            found = each.to_m
    return found


def _lowered(
    plan: PourPlan, bays: Sequence[Bay], from_m: float, bags: float, step: Fraction
) -> tuple[Fraction | None, float | None]:
    """How much lower the rest has to be for so many planned bags, rounded up; the depth left."""
    deep = [surface.depths_m for bay in bays for surface in bay.alike.surfaces]
    most = max(float(depths.max()) for depths in deep) * 1000
    low, high = 0, int(most / float(step)) + 1
    if _rest_bags(plan, bays, from_m, high * step) > bags:
        return None, None
    while low < high:
        middle = (low + high) // 2
        if _rest_bags(plan, bays, from_m, middle * step) <= bags:
            high = middle
        else:
            low = middle + 1
    least = _least_mm(plan, bays, from_m)
    return low * step, None if least is None else float(least - low * step)


def _least_mm(plan: PourPlan, bays: Sequence[Bay], from_m: float) -> Fraction | None:
    """The least depth at a point that is not poured yet; None where no point lies there."""
    found = []
    for each in bays:
        near = plan.whole.from_m + (from_m if each is bays[0] else each.offset_m)
        for part in each.alike.parts:
            places, depths = places_of(part.layout), depths_of(part)
            found += [
                depth
                for name, depth in depths.items()
                if name in places.row and np.dot(places.xy(name), plan.way.direction) > near - 1e-9
            ]
    return min(found, default=None)


def _alike_from(plan: PourPlan, bay: Bay) -> tuple[Bay, ...]:
    """A bay and those after it that are poured of its product, up to the first that is not."""
    product = bay.alike.card.name
    return tuple(
        takewhile(lambda one: one.alike.card.name == product, plan.floor[bay.number - 1 :])
    )


def _rest_bags(plan: PourPlan, bays: Sequence[Bay], from_m: float, lower_mm: Fraction) -> float:
    """Bags from a front to the end of those bays, with the finish so much lower."""
    return sum(
        each.lowered_bags(
            plan.way.direction, from_m if each is bays[0] else each.offset_m, lower_mm
        )
        for each in bays
    )
