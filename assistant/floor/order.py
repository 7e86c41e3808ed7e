"""The volume's interval in bags, and bags for a chosen risk of running short."""

from __future__ import annotations

from decimal import Decimal
from math import ceil

from assistant.floor.geometry import area_of
from assistant.floor.interval import volume_of
from assistant.floor.tally import aggregate_of
from assistant.floor.zones import one_card, poured_parts
from assistant.job import Job
from assistant.job.once import cached
from assistant.pours.material import bags_needed
from grammar.frozen import frozen

USUAL_RISK_PERCENT = Decimal(5)
"""One pour in twenty runs short. Our own choice, no source; said with the order, so that another
can be chosen."""
MOST_ROWS = 8
"""Rows in the table of further bags."""
_SURE_PERCENT = 0.5
"""Risk below which no further bag is listed."""


@frozen
class Interval:
    """The volume's interval; 95 % of such intervals contain the true volume."""

    volume_m3: tuple[float, float]
    mean_m3: float
    """The likeliest volume, by the kriged surface."""
    mean_sd_mm: float
    """Standard deviation of the mean depth."""
    bags: tuple[int, int] | None
    """Waste included; None without a product."""


@frozen
class Order:
    """Bags, and the risk they leave."""

    bags: int
    risk_percent: float
    """Chance that the floor takes more than they make."""


@cached
def interval_of(job: Job) -> Interval | None:
    """
    The interval of the tally; None while :func:`~assistant.floor.interval.volume_of` is.

    The number and its interval come from two surfaces, and this is where they meet. The tally's
    volume is that of triangles through the readings: a check by hand from the same readings gives
    the same, and it exists from the first reading on. The interval is that of the kriged surface,
    which allows for the errors of readings and for the floor between them; triangles do neither.
    So its middle, `mean_m3`, is the likelier volume, and the tally's need not be in the middle.
    Bags for a risk come from the kriged surface alone (:func:`order_at`). A floor with several
    products has an interval in volume, but none in bags.
    """
    volume, area = volume_of(job), area_of(job.layout)
    if volume is None or not area:
        return None
    bags = None
    if one_card(job) is not None:
        bags = (bags_for(job, volume.low_m3), bags_for(job, volume.high_m3))
    return Interval(
        (volume.low_m3, volume.high_m3), volume.mean_m3, volume.sd_m3 / area * 1000, bags
    )


def bags_for(job: Job, volume_m3: float) -> int:
    """Bags of the chosen product for a volume, waste included."""
    return bags_needed(volume_m3, float(job.waste_percent), _yield_m3(job))


def _yield_m3(job: Job) -> float:
    card = one_card(job)
    assert card is not None
    return card.mix(float(aggregate_of(poured_parts(job)[0]))).yield_m3


def order_at(job: Job, risk_percent: Decimal) -> Order:
    """Fewest bags with at most the given risk of running short."""
    volume = volume_of(job)
    assert volume is not None
    return _order(job, bags_for(job, volume.quantile(1 - float(risk_percent) / 100)))


def _order(job: Job, bags: int) -> Order:
    volume = volume_of(job)
    assert volume is not None
    return Order(bags, 100 * (1 - volume.chance_enough(makes_m3(job, bags))))


def makes_m3(job: Job, bags: int) -> float:
    """Volume that so many bags of the product in hand make on the floor, waste taken off."""
    return bags * _yield_m3(job) / (1 + float(job.waste_percent) / 100)


def chance_short_percent(job: Job, bags: int) -> float | None:
    """Chance that so many bags run short; None where too little is read to tell."""
    return (
        None if volume_of(job) is None or one_card(job) is None else _order(job, bags).risk_percent
    )


def further_bags(job: Job, around: int) -> list[Order]:
    """The risk with each further bag, from even odds on; the order itself is among them."""
    volume = volume_of(job)
    assert volume is not None
    first = min(bags_for(job, volume.quantile(0.5)), around)
    last = max(bags_for(job, volume.quantile(1 - _SURE_PERCENT / 100)), around)
    every = max(ceil((last - first) / (MOST_ROWS - 1)), 1)
    counts = sorted({around, *range(around, first - 1, -every), *range(around, last + 1, every)})
    return [_order(job, count) for count in counts]
