"""The bags of a pour, product by product: used, planned, at hand, and expected at the end."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.floor.interval import volume_of
from assistant.floor.late_numpy import np
from assistant.floor.pour.parts import Part
from assistant.floor.pour.plan import PourPlan, while_unchanged
from assistant.floor.tally import tally_of
from assistant.job import Job
from assistant.job.pour import Counted
from assistant.pours.material import safe_ceil
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.pours.forecast import Expected, Forecast

YIELD_SD = 0.05
"""How much bags differ from the yield on their card. Common practice, no source."""
UNKNOWN_SD = 0.10
"""Of the volume, where too few points are read for an interval. Our own choice, no source."""
LEAST_RATIO = 0.2
"""Where so little of the plan was used, batches went unreported. Our own choice, no source."""


@frozen_identity
class Stock:
    """The bags of one product. Bags of one are no help where another runs short."""

    product: str
    used: int
    planned: float
    """For all that it is poured in, waste included, not rounded."""
    parts: tuple[Part, ...]
    """What lies between the fronts reported in it."""
    forecast: Forecast
    at_hand: int | None
    """All there are, used ones among them; None where nobody knows."""
    counted: bool
    """Whether somebody counted them; else they are as many as were planned."""

    @property
    def left(self) -> int | None:
        """Bags that are there, as far as known."""
        return None if self.at_hand is None else max(self.at_hand - self.used, 0)

    @property
    def since(self) -> int:
        """Bags used since the last front that was reported."""
        return self.used - sum(part.used_bags for part in self.parts)

    @property
    def past(self) -> tuple[float, ...]:
        """Bags that lie beyond the end of each of its parts, as expected."""
        found = np.asarray(self.forecast.past).tolist()
        return tuple(found[: len(self.parts)])

    @property
    def ratio(self) -> float:
        """Bags that one planned bag is expected to come to, of what is still to be poured."""
        left = self.planned - sum(part.planned_bags for part in self.parts)
        return ratio_of_rest(self.forecast, self.parts, left)

    @property
    def short(self) -> bool:
        """Whether the bags at hand are expected not to do."""
        return self.at_hand is not None and bool(self.forecast.short(self.at_hand))

    @property
    def short_probability(self) -> float | None:
        """Chance that the bags at hand do not do."""
        return None if self.at_hand is None else float(self.forecast.chance_short(self.at_hand))

    @property
    def front_tells(self) -> bool:
        """Whether where the front stands would tell if the bags at hand do, or of a hole."""
        if self.since or not self.parts:
            return False
        return bool(self.forecast.front_tells(np.inf if self.at_hand is None else self.at_hand))


def ratio_of_rest(seen: Forecast | None, parts: tuple[Part, ...], left: float) -> float:
    """Bags that one planned bag is expected to come to, of so many that are left."""
    if seen is None or left <= 0 or not parts:
        return 1.0
    return max(float(seen.ratio), LEAST_RATIO)


def stocks_of(job: Job, plan: PourPlan, parts: tuple[Part, ...]) -> tuple[Stock, ...]:
    """Those of all products, in the order in which they are poured first."""
    now = product_at(plan, sum(part.planned_bags for part in parts))
    since = job.pour.bags_used - sum(part.used_bags for part in parts)
    found = []
    for product in plan.products:
        own = tuple(part for part in parts if part.product == product)
        used = sum(part.used_bags for part in own) + (since if product == now else 0)
        planned = sum(bay.bags for bay in plan.floor if bay.alike.card.name == product)
        seen = _forecast(job, plan, own, planned, used)
        bags, counted = _at_hand(job, plan, parts, product)
        found.append(Stock(product, used, planned, own, seen, bags, counted))
    return tuple(found)


def product_at(plan: PourPlan, planned: float) -> str:
    """The product that is poured once so many planned bags are."""
    return plan.bay_with(planned).alike.card.name


def _at_hand(
    job: Job, plan: PourPlan, parts: tuple[Part, ...], product: str
) -> tuple[int | None, bool]:
    """
    All bags of one product, and whether they were counted; else as many as are planned for it.

    A count is of the product that was poured then; before the first bag, of the first one.
    """
    counted = job.pour.counted
    if len(plan.products) == 1:
        return at_hand(job), counted is not None
    if counted is not None:
        then = _till(parts, counted)
        if product == product_at(plan, sum(part.planned_bags for part in then)):
            others = sum(part.used_bags for part in then if part.product != product)
            return counted.left + counted.used - others, True
    planned = sum(bay.bags for bay in plan.floor if bay.alike.card.name == product)
    return safe_ceil(planned), False


def _till(parts: tuple[Part, ...], counted: Counted) -> tuple[Part, ...]:
    """The parts that were poured when bags were counted."""
    used, found = 0, []
    for part in parts:
        used += part.used_bags
        if used <= counted.used:
            found.append(part)
    return tuple(found)


def at_hand(job: Job) -> int | None:
    """All bags there are, of one product: counted, else as many as the tally orders."""
    counted = job.pour.counted
    if counted is not None:
        return counted.left + counted.used

    def ordered() -> int | None:
        material = tally_of(job).material
        return None if material is None else material.bags

    return while_unchanged(job, "ordered", ordered)


def _forecast(
    job: Job, plan: PourPlan, parts: tuple[Part, ...], of_product: float, used: int
) -> Forecast:
    """
    The bags of a product at the end, by the parts between fronts.

    Bags since the last front tell nothing until they are more than all the rest was expected to
    take: then the pour takes at least those.
    """
    from assistant.pours.forecast import forecast

    left = max(of_product - sum(part.planned_bags for part in parts), 0.0)
    said = {True: 1.0, False: -1.0, None: 0.0}
    planned = [part.planned_bags for part in parts]
    taken = [float(part.used_bags) for part in parts]
    lost = [said[part.lost] for part in parts]
    beyond = [float(part.beyond) for part in parts]
    strip = plan.bags / max(len(plan.strips), 4)
    expected = expected_of(job, plan)
    found = forecast(planned, taken, left, expected, lost=lost, part=strip, beyond=beyond)
    if left > 1e-6 and used > float(found.mean):
        planned, taken, lost = [*planned, left], [*taken, used - sum(taken)], [*lost, -1.0]
        beyond = [*beyond, 0.0]
        found = forecast(planned, taken, 0.0, expected, lost=lost, part=strip, beyond=beyond)
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
