"""What the parts of a pour really took, in litres and in depth: by each batch and its water."""

from __future__ import annotations

from assistant.events.pour import MixWaterSet
from assistant.floor.pour.bays import Bay
from assistant.floor.pour.parts import Part, plan_known
from assistant.floor.pour.plan import PourPlan
from assistant.floor.pour.poured_depths import poured_of
from assistant.floor.pour.progress import Progress, progress_of
from assistant.job import Job, is_poured
from assistant.job.once import cached
from grammar.frozen import frozen


@frozen
class Laid:
    """How many bags and litres went into one part of a pour."""

    litres: float
    """Waste taken off, and what of its last batch lies beyond its end or is left over there, as
    expected."""
    mean_depth_mm: float | None
    """None where something was lost, or where it reached from one bay into another."""


@cached
def laid_of(job: Job) -> tuple[Laid, ...]:
    """
    What each part took, in the order of the parts; empty without a plan.

    By the card's yield with the water that each batch had, until the floor that was read before
    and after tells what a bag came to.
    """
    plan, progress = plan_known(job), progress_of(job)
    if plan is None:
        return ()
    times = measured_yield(job) or 1.0
    found = []
    for part, (begins, ends) in zip(progress.parts, _spans(progress), strict=True):
        bay = plan.floor[part.bay - 1]
        litres = times * _litres(job, bay, begins, ends)
        found.append(Laid(litres, _depth_mm(plan, part, litres)))
    return tuple(found)


@cached
def measured_yield(job: Job) -> float | None:
    """What a bag came to by the surveys before and after, for each litre that it should make; None
    where they do not tell it: nothing read, several products, or something lost."""
    plan, progress = plan_known(job), progress_of(job)
    poured = poured_of(job) if is_poured(job) else None
    if plan is None or poured is None or poured.litres is None or not job.pour.batches:
        return None
    if progress.several or any(part.lost for part in progress.parts):
        return None
    made = _litres(job, plan.floor[0], 0, progress.used)
    return poured.litres[1] / made if made > 0 else None


def _spans(progress: Progress) -> list[tuple[float, float]]:
    """
    Bags counted where each part begins and ends, without what lies beyond its end.

    That is the next part's, where it is of the same product; else it was left over.
    """
    used, spans = 0, list[tuple[float, float]]()
    past = {stock.product: iter(stock.past) for stock in progress.stocks}
    for before, part in zip((None, *progress.parts), progress.parts, strict=False):
        goes_on = before is not None and before.product == part.product
        begins = spans[-1][1] if goes_on else float(used)
        used += part.used_bags
        spans.append((begins, used - next(past[part.product])))
    return spans


def _litres(job: Job, bay: Bay, since: float, until: float) -> float:
    """What the bags between two counts make on the floor of a bay."""
    said, card = job.setting(MixWaterSet), bay.alike.card
    for_whole = card.mean_water_l if said is None else float(said.litres)
    of_mix = bay.alike.bag_m3 / card.mix(float(job.aggregate_percent)).yield_m3
    used, litres = 0, 0.0
    for batch in job.pour.batches:
        bags = min(used + batch.bags, until) - max(used, since)
        used += batch.bags
        if bags > 0:
            water = for_whole if batch.water_l is None else float(batch.water_l)
            more = (water - card.mean_water_l) * of_mix
            litres += bags * (1000 * bay.alike.bag_m3 + more)
    return litres


def _depth_mm(plan: PourPlan, part: Part, litres: float) -> float | None:
    bay = plan.floor[part.bay - 1]
    if part.lost or part.area_m2 <= 0 or part.to_m > bay.to_m + 1e-6:
        return None
    return litres / part.area_m2  # a litre is a millimetre over a square metre
