"""How far a pour has come: bags, front, strip, its wet edge, and the bags at its end."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime, timedelta
from itertools import accumulate, pairwise
from typing import TYPE_CHECKING, Any

from assistant.events.pour import StripPoured
from assistant.floor.late_numpy import np
from assistant.floor.pour.bays import edge_limit_min
from assistant.floor.pour.parts import Part, known_front_m, parts_of, plan_known
from assistant.floor.pour.placing import placing_by, placing_of
from assistant.floor.pour.plan import PlannedStrip, PourPlan
from assistant.floor.pour.stock import Stock, at_hand, product_at, stocks_of
from assistant.job import Job, is_poured
from assistant.job.once import cached
from assistant.pours.material import safe_ceil
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.pours.forecast import Forecast
    from assistant.products.cards import Card

EDGE_WARNED = timedelta(minutes=2)
"""How long before an edge is lost it is warned of."""


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
    stocks: tuple[Stock, ...] = ()
    """The bags of each product that is poured; none without a plan."""
    now: int = 0
    """Which of these products is poured now, counted from 0."""
    counted: int | None = None
    """All bags there are, where no plan tells of which product."""
    bay: int | None = None
    """The bay that the front stands in."""

    @property
    def stock(self) -> Stock | None:
        """The bags of the product that is poured now; None without a plan."""
        return self.stocks[self.now] if self.stocks else None

    @property
    def several(self) -> bool:
        """Whether more than one product is poured."""
        return len(self.stocks) > 1

    @property
    def forecast(self) -> Forecast | None:
        """The bags at the end, of the product that is poured now."""
        return None if self.stock is None else self.stock.forecast

    @property
    def ratio(self) -> float:
        """Bags that one planned bag is expected to come to, of what is still to be poured."""
        return 1.0 if self.stock is None else self.stock.ratio

    @property
    def at_hand(self) -> int | None:
        """All bags there are of it, used ones among them; None where nobody knows."""
        return self.counted if self.stock is None else self.stock.at_hand

    @property
    def over_plan(self) -> bool:
        """Whether more bags are used than planned, though nobody said that the end is reached."""
        stock = self.stock
        if stock is None:
            return False
        seen = sum(part.planned_bags for part in stock.parts)
        return stock.used > safe_ceil(stock.planned) and seen < stock.planned - 1e-6

    @property
    def poured_last(self) -> Stock | None:
        """The bags of the product of the part that was poured last; None before any was."""
        if not self.parts:
            return None
        last = self.parts[-1].product
        return next((each for each in self.stocks if each.product == last), None)

    @property
    def asks(self) -> bool:
        """Whether to ask if the part poured last went down a hole."""
        last = self.poured_last
        return last is not None and bool(last.forecast.asks)

    @property
    def asks_front(self) -> bool:
        """Whether to ask how far the last batch came past its strip."""
        return self.stock is not None and self.stock.front_tells and not self.asks

    @property
    def batch_missing(self) -> bool:
        """Whether the part poured last took so few bags that a batch may be missing on record."""
        stock = self.poured_last
        if stock is None:
            return False
        last = stock.parts[-1]
        less = last.planned_bags * stock.ratio - last.used_bags
        return bool(stock.forecast.far_less) and less >= max(last.batch, 1)

    @property
    def short(self) -> bool:
        """Whether the bags at hand are expected not to do."""
        return self.stock is not None and self.stock.short

    @property
    def short_probability(self) -> float | None:
        """Chance that the bags at hand do not do."""
        return None if self.stock is None else self.stock.short_probability

    def as_data(self, now: datetime) -> dict[str, Any]:
        """The progress for programs."""
        due, stock = self.edge_due, self.stock
        return {
            "bags_used": self.used,
            "bags_planned": self.planned,
            "front_m": self.front_m,
            "strip": self.strip,
            "wet_edge_min": None if due is None else (due - now).total_seconds() / 60,
            "forecast_bags": None if stock is None else _least_mean_most(stock),
            "short_probability": self.short_probability,
            "asks": "hole" if self.asks else None,
            "front_asked": self.asks_front,
            **({"products": [_stock_data(each) for each in self.stocks],
                "product": stock.product} if self.several and stock else {}),
        }  # fmt: skip


def _least_mean_most(stock: Stock) -> list[float]:
    low, high = (float(bags) for bags in stock.forecast.interval)
    return [low, float(stock.forecast.mean), high]


def _stock_data(stock: Stock) -> dict[str, Any]:
    return {
        "product": stock.product,
        "bags_used": stock.used,
        "bags_planned": stock.planned,
        "bags_at_hand": stock.at_hand,
        "forecast_bags": _least_mean_most(stock),
        "short_probability": stock.short_probability,
    }


@cached
def progress_of(job: Job) -> Progress:
    """How far the pour has come, by its last batch and front."""
    pour, plan = job.pour, plan_known(job)
    used = pour.bags_used
    if plan is None:
        return Progress(used, None, (), None, None, edge_due(job, None, None),
                        counted=at_hand(job))  # fmt: skip
    parts = parts_of(job, plan)
    done = sum(part.planned_bags for part in parts)
    stocks = stocks_of(job, plan, parts)
    now = plan.products.index(product_at(plan, done))
    past = stocks[now].past
    planned = done + (stocks[now].since + (past[-1] if past else 0.0)) / stocks[now].ratio
    strip = _strip_at(plan, planned, parts)
    return Progress(
        used,
        plan.bags,
        parts,
        plan.front_by_bags_m(planned),
        strip.number if strip else None,
        edge_due(job, plan, strip),
        stocks,
        now,
        bay=plan.bay_with(planned).number,
    )


def strips_done(job: Job, plan: PourPlan) -> frozenset[int]:
    """Numbers of the strips whose far edge lies behind the last front that was reported."""
    poured = sum(part.planned_bags for part in parts_of(job, plan))
    ends = accumulate(each.planned_bags for each in plan.strips)
    return frozenset(
        each.number for each, end in zip(plan.strips, ends, strict=True) if end <= poured + 1e-6
    )


def card_poured(job: Job) -> Card | None:
    """The card of the product that is poured next; the room's without a plan."""
    progress, plan = progress_of(job), plan_known(job)
    if plan is None or progress.strip is None:
        return job.card
    return plan.floor[plan.strips[progress.strip - 1].bay - 1].alike.card


def _strip_at(plan: PourPlan, planned: float, parts: Sequence[Part]) -> PlannedStrip | None:
    """The strip that is poured when so many planned bags are, behind the last front none."""
    done = sum(part.planned_bags for part in parts)
    before = 0.0
    for each in plan.strips:
        before += each.planned_bags
        if planned < before - 1e-6 and before > done + 1e-6:
            return each
    return plan.strips[-1] if plan.strips else None


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
    wet = _wet_since(job, limit)
    now, last = _first_times(job, plan, strip)
    edges = [] if strip.strip.edge_wait_min is None or now is None else [max(now, wet)]
    if strip.number > 1 and plan.strips[strip.number - 2].strip.edge_wait_min is not None:
        # What was poured before so long a wait has set; that was said then, and is no edge now.
        edges += [last] if last >= wet else []
    return min(edges) + limit if edges else None


def _wet_since(job: Job, limit: timedelta) -> datetime:
    """The first batch after the last time that none came for longer than an edge waits."""
    times = [batch.time for batch in job.pour.batches]
    wet = times[0]
    for before, after in pairwise(times):
        if after - before > limit:
            wet = after
    return wet


def waited_too_long(job: Job, until: datetime | None = None) -> tuple[timedelta, timedelta] | None:
    """
    How long the edge waited for the last batch, or till now for the next, and how long it may.

    None where it was met in time, or by the first batch.
    """
    times = [batch.time for batch in job.pour.batches]
    times += [until] if until is not None else []
    plan, progress = plan_known(job), progress_of(job)
    if plan is None or progress.strip is None:
        minutes = None if job.card is None else edge_limit_min(job.card)
    else:
        minutes = plan.strips[progress.strip - 1].strip.edge_limit_min
    if minutes is None or len(times) < 2:
        return None
    waited, limit = times[-1] - times[-2], timedelta(minutes=minutes)
    return (waited, limit) if waited > limit else None


def _first_times(job: Job, plan: PourPlan, strip: PlannedStrip) -> tuple[datetime | None, datetime]:
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
    """Bags used when a strip was begun: counted where a front was reported there, else planned."""
    for front in job.pour.fronts:
        at = known_front_m(job, front)
        told = isinstance(front.at, StripPoured) and front.at.strip == strip.number - 1
        if told or (plan.bays == 1 and at is not None and abs(at - strip.from_m) < 0.02):
            return front.bags_used
    return sum(each.planned_bags for each in plan.strips[: strip.number - 1])


def behind_min(job: Job, now: datetime) -> float | None:
    """Minutes that the pour is behind its plan; negative where it is ahead, None without one."""
    placing, started = placing_of(job), job.pour.started
    batches = job.pour.batches
    if placing is None or started is None or len(batches) < 2:
        return None
    # From the first batch poured: the one before it was being mixed. Each as fast as was planned
    # when it was mixed: a mixer that goes home makes nobody early.
    worked = job.pour.worked(batches[0].time, now)
    planned = sum(
        batch.bags / (placing_by(batch.crew) or placing).bags_per_min for batch in batches[1:]
    )
    return worked.total_seconds() / 60 - planned
