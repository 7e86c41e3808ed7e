"""Air, slab and dew point, compared with the product card and the dew-point margin."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from assistant.floor.zones import cards_of
from assistant.job import Job
from assistant.job.site import AIR, CLIMATE, HUMIDITY, SLAB, SiteReading, SiteState
from assistant.limits.limits import PRACTICE, card_source
from assistant.limits.site_limits import DEW_MARGIN, STALE_AFTER
from assistant.products.cards import Card
from assistant.reply.side_by_side import figures
from assistant.reply.times import shown_length
from assistant.reply.wording import figure, join_names
from assistant.site.dew_point import dew_point_c
from assistant.site.reason import Reason, once_each
from grammar.frozen import frozen

_NAMES = {AIR: "the air", SLAB: "the slab", HUMIDITY: "the humidity"}
_TO_SAY = {AIR: "air 21 degrees", SLAB: "slab 17 degrees", HUMIDITY: "humidity 55 percent"}

FLOAT_PLACES = 6
"""Precision of a dew point; nearer than this to the margin counts as at it."""


@frozen
class DewPoint:
    """The dew point of the room, °C, and how far the coldest slab is above it."""

    dew_point_c: float
    slab_c: float | None
    """The coldest place; None where the slab was not read."""

    @property
    def margin_c(self) -> float | None:
        """Slab temperature minus dew point; negative where moisture condenses."""
        if self.slab_c is None:
            return None
        return round(self.slab_c - self.dew_point_c, FLOAT_PLACES)

    @property
    def least_slab_c(self) -> float:
        """Least temperature of the slab."""
        return self.dew_point_c + float(DEW_MARGIN.value)

    @property
    def enough(self) -> bool:
        """Whether the margin is kept, its exact value included."""
        return self.margin_c is not None and self.margin_c >= float(DEW_MARGIN.value)


def dew_point_of(site: SiteState) -> DewPoint | None:
    """From the newest air and humidity; None until both were read."""
    air, humidity = site.last(AIR), site.last(HUMIDITY)
    if air is None or humidity is None:
        return None
    slabs = [float(reading.value) for reading in site.readings_of(SLAB)]
    dew_point = dew_point_c(float(air.value), float(humidity.value))
    return DewPoint(dew_point, min(slabs, default=None))


def stale_readings(site: SiteState, now: datetime) -> tuple[str, ...]:
    """Kinds of reading whose newest is too old."""
    found = ((name, site.last(name)) for name in CLIMATE)
    return tuple(name for name, last in found if last and now - last.time > STALE_AFTER)


def unread_climate(site: SiteState) -> tuple[str, ...]:
    """Kinds of reading that were not taken at all."""
    return tuple(name for name in CLIMATE if site.last(name) is None)


def climate_reasons(job: Job, now: datetime) -> Iterable[Reason]:
    """Not read, read too long ago, outside the card's range, too near the dew point."""
    site = job.site
    if missing := unread_climate(site):
        yield Reason(
            "climate-missing",
            f"Not read: {join_names([_NAMES[name] for name in missing])}.",
            PRACTICE,
            "; ".join(_TO_SAY[name] for name in missing),
        )
    if old := stale_readings(site, now):
        yield Reason(
            "climate-stale",
            f"Older than {shown_length(STALE_AFTER)}: "
            f"{join_names([_NAMES[name] for name in old])}.",
            PRACTICE,
            f"read again: {'; '.join(_TO_SAY[name] for name in old)}",
        )
    yield from once_each(_range_reasons(site, card) for card in cards_of(job))
    dew_point = dew_point_of(site)
    if dew_point is not None and dew_point.slab_c is not None and not dew_point.enough:
        away, wanted = _margins(dew_point)
        yield Reason(
            "dew-point",
            f"The slab at {figure(dew_point.slab_c, 1)} °C is {away} the dew point "
            f"of {figure(dew_point.dew_point_c, 1)} °C, and {wanted} °C above it are wanted.",
            f"{DEW_MARGIN.source}; dew point by WMO Guide No. 8",
            f"slab at {figure(dew_point.least_slab_c, 1)} °C or warmer, or drier air: "
            "heat and air the room, wait, and read again",
        )


def _margins(dew_point: DewPoint) -> tuple[str, str]:
    """The slab's distance from the dew point, and the margin it must keep, in words."""
    margin = dew_point.margin_c
    assert margin is not None  # asked only where the slab was read
    away, wanted = figures(1, abs(margin), DEW_MARGIN.value)
    return f"{away} °C {'above' if margin >= 0 else 'below'}", wanted


def _range_reasons(site: SiteState, card: Card) -> Iterable[Reason]:
    low, high = card.temperature_c
    for name in (SLAB, AIR):
        readings = site.readings_of(name)
        cold = [reading for reading in readings if reading.value < low]
        warm = [reading for reading in readings if reading.value > high]
        if cold:
            coldest = min(cold, key=lambda reading: reading.value)
            yield _range_reason(f"{name}-cold", coldest, "under", low,
                                "warm the room and the slab, and read again", card)  # fmt: skip
        if warm:
            warmest = max(warm, key=lambda reading: reading.value)
            yield _range_reason(f"{name}-warm", warmest, "over", high,
                                "shade and cool it, or wait, and read again", card)  # fmt: skip


def _range_reason(
    id: str, reading: SiteReading, side: str, limit: float, clears: str, card: Card
) -> Reason:
    shown, bound = figures(1, reading.value, limit)
    where = f" at {reading.point}" if reading.point else ""
    name = _NAMES[reading.kind]
    message = f"{name.capitalize()}{where} is {shown} °C, {side} the card's {bound} °C."
    return Reason(id, message, card_source(card), clears)
