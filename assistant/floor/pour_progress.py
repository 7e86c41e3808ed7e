"""How far a pour has come: bags, front, strip, its wet edge, and the bags at its end."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from itertools import accumulate
from typing import TYPE_CHECKING, Any

from assistant.events.pour import StripPoured
from assistant.floor.interval import volume_of
from assistant.floor.late_numpy import np
from assistant.floor.placing import placing_of
from assistant.floor.pour_bays import edge_limit_min
from assistant.floor.pour_parts import Part, known_front_m, parts_of, plan_known
from assistant.floor.pour_plan import PlannedStrip, PourPlan, while_unchanged
from assistant.floor.tally import tally_of
from assistant.job import Job, is_poured
from assistant.job.once import cached
from assistant.pours.material import safe_ceil
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.pours.forecast import Expected, Forecast
    from assistant.products.cards import Card

YIELD_SD = 0.05
"""How much bags differ from the yield on their card. Common practice, no source."""
UNKNOWN_SD = 0.10
"""Of the volume, where too few points are read for an interval. Our own choice, no source."""
LEAST_RATIO = 0.2
"""Less is no pour: batches were not told. Our own choice, no source."""
EDGE_WARNED = timedelta(minutes=2)
"""So long before an edge is lost it is told."""


@frozen_identity
class Progress:
    """How far a pour has come."""

    used: int
    planned: float | None
    """Bags of the whole pour; None where it is not known."""
    parts: tuple[Part, ...]
    front_m: float | None
    """Where the front should be by the bags used, metres from the start; None without a plan."""
    strip: int | None
    """The strip that is poured now."""
    edge_due: datetime | None
    """When the edge that waits longest is lost; None before the first batch, or at the end."""
    forecast: Forecast | None
    ratio: float
    """Bags that one planned bag is expected to come to, of what is still to be poured."""
    at_hand: int | None
    """All bags there are, used ones among them; None where nobody knows."""

    @property
    def over_plan(self) -> bool:
        """Whether more bags are used than were planned, and nobody told that the end is reached."""
        if self.planned is None:
            return False
        seen = sum(part.planned_bags for part in self.parts)
        return self.used > safe_ceil(self.planned) and seen < self.planned - 1e-6

    @property
    def asks(self) -> bool:
        """Whether to ask if the part poured last went down a hole."""
        return self.forecast is not None and bool(self.forecast.asks)

    @property
    def batch_missing(self) -> bool:
        """Whether the part poured last took so much less that a batch may not have been told."""
        if self.forecast is None or not self.parts:
            return False
        last = self.parts[-1]
        less = last.planned_bags * self.ratio - last.used_bags
        return bool(self.forecast.far_less) and less >= max(last.batch, 1)

    @property
    def short(self) -> bool:
        """Whether the bags at hand are expected not to do."""
        if self.forecast is None or self.at_hand is None:
            return False
        return bool(self.forecast.short(self.at_hand))

    @property
    def short_probability(self) -> float | None:
        """Chance that the bags at hand do not do."""
        if self.forecast is None or self.at_hand is None:
            return None
        return float(self.forecast.chance_short(self.at_hand))

    def as_data(self, now: datetime) -> dict[str, Any]:
        """The progress for programs."""
        found, due = self.forecast, self.edge_due
        mean = None
        if found is not None:
            low, high = (float(bags) for bags in found.interval)
            mean = [low, float(found.mean), high]
        return {
            "bags_used": self.used,
            "bags_planned": self.planned,
            "front_m": self.front_m,
            "strip": self.strip,
            "wet_edge_min": None if due is None else (due - now).total_seconds() / 60,
            "forecast_bags": mean,
            "short_probability": self.short_probability,
            "asks": "hole" if self.asks else None,
        }


@cached
def progress_of(job: Job) -> Progress:
    """How far the pour has come, by its last batch and front."""
    pour, plan = job.pour, plan_known(job)
    used = pour.bags_used
    if plan is None:
        due = edge_due(job, None, None)
        return Progress(used, None, (), None, None, due, None, 1.0, at_hand(job))
    parts = parts_of(job, plan)
    seen = _forecast(job, plan, parts)
    ratio = _ratio(seen, parts, plan)
    since = used - sum(part.used_bags for part in parts) + (parts[-1].beyond / 2 if parts else 0)
    planned = sum(part.planned_bags for part in parts) + since / ratio
    strip = _strip_at(plan, planned, parts)
    return Progress(
        used,
        plan.bags,
        parts,
        plan.front_by_bags_m(planned),
        strip.number if strip else None,
        edge_due(job, plan, strip),
        seen,
        ratio,
        at_hand(job),
    )


def card_poured(job: Job) -> Card | None:
    """The card of the product that is poured next; the room's without a plan."""
    progress, plan = progress_of(job), plan_known(job)
    if plan is None or progress.strip is None:
        return job.card
    return plan.floor[plan.strips[progress.strip - 1].bay - 1].alike.card


def at_hand(job: Job) -> int | None:
    """All bags there are: counted, else as many as the tally orders."""
    counted = job.pour.counted
    if counted is not None:
        return counted.left + counted.used

    def ordered() -> int | None:
        material = tally_of(job).material
        return None if material is None else material.bags

    return while_unchanged(job, "ordered", ordered)


def _strip_at(plan: PourPlan, planned: float, parts: Sequence[Part]) -> PlannedStrip | None:
    """The strip that is poured when so many planned bags are, behind the last front none."""
    done = sum(part.planned_bags for part in parts)
    before = 0.0
    for each in plan.strips:
        before += each.planned_bags
        if planned < before - 1e-6 and before > done + 1e-6:
            return each
    return plan.strips[-1] if plan.strips else None


# --- the forecast --------------------------------------------------------------------------


def _forecast(job: Job, plan: PourPlan, parts: tuple[Part, ...]) -> Forecast | None:
    """
    The bags at the end, by the parts between fronts.

    Bags since the last front tell nothing until they are more than all the rest was expected to
    take: then the pour takes at least those.
    """
    from assistant.pours.forecast import forecast

    left = max(plan.bags - sum(part.planned_bags for part in parts), 0.0)
    said = {True: 1.0, False: -1.0, None: 0.0}
    planned = [part.planned_bags for part in parts]
    used = [float(part.used_bags) for part in parts]
    lost = [said[part.lost] for part in parts]
    beyond = [float(part.beyond) for part in parts]
    strip = plan.bags / max(len(plan.strips), 4)
    expected = expected_of(job, plan)
    found = forecast(planned, used, left, expected, lost=lost, part=strip, beyond=beyond)
    since = job.pour.bags_used - sum(used)
    if left > 1e-6 and job.pour.bags_used > float(found.mean):
        planned, used, lost = [*planned, left], [*used, since], [*lost, -1.0]
        beyond = [*beyond, 0.0]
        found = forecast(planned, used, 0.0, expected, lost=lost, part=strip, beyond=beyond)
    return found


def expected_of(job: Job, plan: PourPlan) -> Expected:
    """What is expected of a pour before its first bag: survey, zero and yield."""
    from assistant.pours.forecast import Expected, ratio_sd

    def worked_out() -> Expected:
        planned = plan.whole.volume_m3
        volume = volume_of(job)
        between = UNKNOWN_SD * planned if volume is None else volume.sd_m3
        return Expected(ratio_sd(planned, between, 0.0, YIELD_SD))

    return while_unchanged(job, "expected", worked_out)


def _ratio(seen: Forecast | None, parts: tuple[Part, ...], plan: PourPlan) -> float:
    """Bags that one planned bag has come to, of what is still to be poured."""
    left = plan.bags - sum(part.planned_bags for part in parts)
    if seen is None or left <= 0 or not parts:
        return 1.0
    return max(float(seen.ratio), LEAST_RATIO)


# --- the wet edge ----------------------------------------------------------------------------


def edge_due(job: Job, plan: PourPlan | None, strip: PlannedStrip | None) -> datetime | None:
    """
    When the edge that waits longest is lost.

    Of the strip that is poured now, from its first batch; of the one before, from the batch that
    lay where the front stands now along the strip.
    """
    pour, card = job.pour, job.card
    if not pour.batches or pour.stopped is not None or is_poured(job):
        return None
    if plan is None or strip is None:
        waits = None if card is None else edge_limit_min(card)
        if plan is not None:
            waits = plan.edge_limit_min
        return None if waits is None else pour.batches[-1].time + timedelta(minutes=waits)
    limit = timedelta(minutes=strip.strip.edge_limit_min)
    now, last = _first_times(job, plan, strip)
    edges = [] if strip.strip.edge_wait_min is None else [now]
    if strip.number > 1 and plan.strips[strip.number - 2].strip.edge_wait_min is not None:
        edges.append(last)
    known = [edge for edge in edges if edge is not None]
    return min(known) + limit if known else None


def _first_times(
    job: Job, plan: PourPlan, strip: PlannedStrip
) -> tuple[datetime | None, datetime | None]:
    """When this strip was begun; and when the last one was poured where the front is now."""
    behind = strip_start_bags(job, plan, strip)
    previous = strip_start_bags(job, plan, plan.strips[max(strip.number - 2, 0)])
    share = min((job.pour.bags_used - behind) / max(strip.planned_bags, 1e-9), 1.0)
    beside = previous + max(share, 0.0) * max(behind - previous, 0.0)
    begun = laid_at(job, behind) if job.pour.bags_used > behind + 1e-9 else None
    return begun, laid_at(job, beside)


def laid_at(job: Job, bags: float) -> datetime:
    """When the floor was poured that lies just past so many bags."""
    batches = job.pour.batches
    seconds = [(batch.time - batches[0].time).total_seconds() for batch in batches]
    before = [0, *accumulate(batch.bags for batch in batches)][:-1]
    return batches[0].time + timedelta(seconds=float(np.interp(bags, before, seconds)))


def strip_start_bags(job: Job, plan: PourPlan, strip: PlannedStrip) -> float:
    """Bags used when a strip was begun: as told by a front there, else by the plan."""
    for front in job.pour.fronts:
        at = known_front_m(job, front)
        told = isinstance(front.at, StripPoured) and front.at.strip == strip.number - 1
        if told or (plan.bays == 1 and at is not None and abs(at - strip.from_m) < 0.02):
            return front.bags_used
    return sum(each.planned_bags for each in plan.strips[: strip.number - 1])


def behind_min(job: Job, progress: Progress, now: datetime) -> float | None:
    """Minutes that the pour is behind its plan; negative where it is ahead, None without one."""
    placing, started = placing_of(job), job.pour.started
    batches = job.pour.batches
    if placing is None or started is None or len(batches) < 2:
        return None
    # From the first batch poured: the one before it was being mixed.
    worked = job.pour.worked(batches[0].time, now)
    planned = (progress.used - batches[0].bags) / placing.bags_per_min
    return worked.total_seconds() / 60 - planned
