"""The parts of a pour: what lies between the fronts that were reported."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from assistant.errors import Refusal
from assistant.events.pour import FrontReached, StripPoured
from assistant.floor.late_numpy import np
from assistant.floor.pour.bays import Bay
from assistant.floor.pour.plan import PourPlan, plan_of
from assistant.floor.pour.way import line_at_m
from assistant.job import Job, is_poured
from assistant.job.pour import Front
from assistant.reply.examples import FRONT
from assistant.units.lengths import metres
from grammar.frozen import frozen


@frozen
class Part:
    """A part of the pour between two fronts."""

    planned_bags: float
    used_bags: int
    lost: bool | None
    """Whether something was lost there once; None where nobody said."""
    from_m: float
    to_m: float
    bay: int
    area_m2: float
    beyond: int = 0
    """Bags of the batch of which some lie beyond its end, or are left over there; none where its
    front was read."""
    batch: int = 0
    """Bags of the batch that was poured last in it."""
    product: str = ""


def plan_known(job: Job) -> PourPlan | None:
    """The plan; None where room, readings or product are missing, and work goes on without."""
    try:
        return plan_of(job)
    except Refusal:
        return None


def front_m(job: Job, at: FrontReached | StripPoured) -> float:
    """
    How far a front lies from the start, metres.

    Raises
    ------
    Refusal
        If its column or row is not there, or no way is known.
    """
    if isinstance(at, StripPoured):
        return at.to_m
    if at.distance is not None:
        return metres(at.distance)
    plan = plan_of(job)
    line = at.column or str(at.row)
    normal = (1.0, 0.0) if at.column is not None else (0.0, 1.0)
    across = float(np.dot(normal, plan.way.direction))
    if abs(across) < 1 - 1e-9:
        what = "rows" if at.column is not None else "columns"
        raise Refusal(
            f"The front runs along the {'columns' if at.row is None else 'rows'}' own way here: "
            f"say it by {what}, or ",
            FRONT,
            ".",
            spoken=f"Say it by {what}, or in metres.",
        )
    return line_at_m(job, line) * across - plan.whole.from_m


def parts_of(job: Job, plan: PourPlan) -> tuple[Part, ...]:
    """What lies between the fronts that were reported, each farther than the one before."""
    parts: list[Part] = []
    planned = area = at = 0.0
    used = 0
    for front in job.pour.fronts:
        to_m = known_front_m(job, front)
        if to_m is None:
            continue
        bay = bay_of_front(plan, front.at, to_m, planned)
        if bay is None or (behind := plan.bags_to(bay, to_m)) <= planned + 1e-9:
            continue
        square = plan.area_to_m2(bay, to_m)
        taken = front.bags_used - used
        near = at if parts and parts[-1].bay == bay.number else _next_bay_m(plan, parts)
        batch = _last_batch(job, front)
        # A strip is called done after the batch that passes its edge: some of it lies beyond, or,
        # at a wall or where another product begins, is left over. A front that was read is exact.
        beyond = batch if isinstance(front.at, StripPoured) else 0
        part = Part(behind - planned, taken, front.lost, near, to_m, bay.number, square - area,
                    beyond, batch, bay.alike.card.name)  # fmt: skip
        if not taken and parts and parts[-1].bay == bay.number:
            part = _read_on(parts.pop(), part)
        parts += _by_product(plan, planned, part)
        planned, used, at, area = behind, front.bags_used, to_m, square
    if parts and plan.bags - planned <= 1e-6:
        return (*parts[:-1], _with_more(parts[-1], job, job.pour.bags_used - used))
    return (*parts, *_last_part(job, plan, planned, used, parts))


def _with_more(part: Part, job: Job, bags: int) -> Part:
    """The last part of all, with bags that were poured after it had been called done."""
    if not bags:
        return part
    batch = job.pour.batches[-1].bags
    return replace(part, used_bags=part.used_bags + bags, batch=batch,
                   beyond=batch if part.beyond else 0)  # fmt: skip


def _next_bay_m(plan: PourPlan, parts: Sequence[Part]) -> float:
    """Where the bay after that of the last part begins, metres from the start; else the first."""
    return plan.floor[parts[-1].bay if parts else 0].offset_m


def _read_on(strip: Part, front: Part) -> Part:
    """Two fronts with no bag between them: one part, whose bags reach to the farther front."""
    return replace(
        strip,
        planned_bags=strip.planned_bags + front.planned_bags,
        lost=strip.lost if front.lost is None else front.lost,
        to_m=front.to_m,
        area_m2=strip.area_m2 + front.area_m2,
        beyond=min(strip.beyond, front.beyond),
    )


def _by_product(plan: PourPlan, before: float, part: Part) -> list[Part]:
    """A part cut where its product changes, its bags shared out as planned: nobody counted each."""
    if len(plan.products) == 1:
        return [part]
    end, pieces = before + part.planned_bags, list[tuple[Bay, float]]()
    for bay in plan.floor:
        begins = plan.bags_before(bay)
        planned = min(begins + bay.bags, end) - max(begins, before)
        if planned > 1e-9:
            pieces.append((bay, planned))
    if len({bay.alike.card.name for bay, _ in pieces}) < 2:
        return [part]
    found: list[Part] = []
    used, poured = 0, 0.0
    for bay, planned in pieces:
        first, last = not found, bay is pieces[-1][0]
        from_m = part.from_m if first else bay.offset_m
        to_m = part.to_m if last else bay.to_m
        poured += planned
        till = round(part.used_bags * poured / part.planned_bags)
        found.append(
            Part(
                planned,
                till - used,
                part.lost if last else None,
                from_m,
                to_m,
                bay.number,
                plan.area_to_m2(bay, to_m) - plan.area_to_m2(bay, from_m),
                part.beyond if last else part.batch,
                part.batch,
                bay.alike.card.name,
            )
        )
        used = till
    return found


def _last_batch(job: Job, front: Front) -> int:
    """Bags of the last batch before a front was reported."""
    before = [batch.bags for batch in job.pour.batches if batch.time <= front.time]
    return before[-1] if before else 0


def _last_part(
    job: Job, plan: PourPlan, planned: float, used: int, parts: Sequence[Part]
) -> tuple[Part, ...]:
    """From the last front to the end, once the pour is finished and does not stand still."""
    left, taken = plan.bags - planned, job.pour.bags_used - used
    if not is_poured(job) or job.pour.stopped is not None or left <= 1e-6 or not taken:
        return ()
    area = plan.whole.area_m2 - sum(part.area_m2 for part in parts)
    at, bay = (parts[-1].to_m, parts[-1].bay) if parts else (0.0, 1)
    if plan.floor[bay - 1].to_m - at < 1e-6 and bay < plan.bays:
        at, bay = plan.floor[bay].offset_m, bay + 1
    product = plan.floor[bay - 1].alike.card.name
    part = Part(left, taken, None, at, plan.floor[-1].to_m, bay, area, product=product)
    return tuple(_by_product(plan, planned, part))


def known_front_m(job: Job, front: Front) -> float | None:
    try:
        return front_m(job, front.at)
    except Refusal:
        return None


def bay_of_front(
    plan: PourPlan, at: FrontReached | StripPoured, to_m: float, planned: float
) -> Bay | None:
    """The bay that a front stands in: of its strip, else the first that it lies farther in than
    so many planned bags; None where it lies farther in none."""
    if isinstance(at, StripPoured) and at.strip <= len(plan.strips):
        return plan.floor[plan.strips[at.strip - 1].bay - 1]
    ahead = (bay for bay in plan.floor if plan.bags_to(bay, to_m) > planned + 1e-6)
    return next(ahead, None)
