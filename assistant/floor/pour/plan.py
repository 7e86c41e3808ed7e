"""The strips of a pour: the floor, the product and the crew put together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import TYPE_CHECKING, TypeVar

from assistant.errors import Refusal
from assistant.events.pour import DamPlaced, StripWidthSet
from assistant.floor.geometry import outline_of
from assistant.floor.late_numpy import np
from assistant.floor.pour.bays import (
    Bay,
    PouredAlike,
    Side,
    bays_of,
    dams_of,
    even_lines_m,
    fills_together,
    poured_alike,
)
from assistant.floor.pour.placing import Placing, placing_of
from assistant.floor.pour.way import PourDirection, way_of
from assistant.floor.surfaces import surface_of
from assistant.job import Job
from assistant.job.once import cached
from assistant.pours.material import safe_ceil
from assistant.reply.examples import ROOM
from assistant.units.lengths import metres
from grammar.frozen import frozen, frozen_identity

if TYPE_CHECKING:
    from assistant.pours.fill_along import FillAlong
    from assistant.pours.strips import Strip

Value = TypeVar("Value")

CLEAN_STEP_M = {"mm": 0.05, "in": 2 * 0.0254}
"""Cuts lie at whole multiples of five centimetres or two inches, to be measured and marked."""


@frozen
class PlannedStrip:
    """One strip, with what is mixed for it."""

    number: int
    from_m: float
    """Its near edge, metres from the start of the pour."""
    to_m: float
    bay: int
    """Counted from 1, in the order they are poured."""
    strip: Strip
    start_min: float
    """Minutes from the first bag of the pour to the first of this strip."""
    planned_bags: float
    """Waste included, not rounded."""
    bags: int
    """Whole ones, so that those of all strips add up to those of the pour."""
    batches: int
    zones: tuple[str, ...] = ()
    """Those it lies in, where zones are poured each by itself."""
    product: str = ""

    @property
    def edge_lost(self) -> bool:
        """Whether its far edge is dry before the next strip meets all of it."""
        return self.strip.edge_lost


@frozen_identity
class PourPlan:
    """A pour, strip by strip."""

    way: PourDirection
    strips: tuple[PlannedStrip, ...]
    """None of them while no placing rate is known."""
    floor: tuple[Bay, ...]
    """All bays, in the order they are poured."""
    placing: Placing | None
    whole: FillAlong
    front_m: float
    """The longest front: the floor's breadth across the way."""

    @property
    def bays(self) -> int:
        """How many bays there are."""
        return len(self.floor)

    @property
    def bags(self) -> float:
        """Bags of the whole pour, waste included, not rounded."""
        return sum(bay.bags for bay in self.floor)

    @property
    def bag_m3(self) -> float:
        """Of the floor, for one bag, waste taken off; of several products their mean."""
        kinds = {bay.alike.bag_m3 for bay in self.floor}
        return kinds.pop() if len(kinds) == 1 else self.whole.volume_m3 / self.bags

    @property
    def edge_limit_min(self) -> float:
        """The longest that an edge may wait; of several products the least."""
        return min(bay.edge_limit_min for bay in self.floor)

    @property
    def products(self) -> tuple[str, ...]:
        """All that are poured, each once, in the order of the pour."""
        return tuple(dict.fromkeys(bay.alike.card.name for bay in self.floor))

    @property
    def minutes(self) -> float:
        """How long the whole pour takes, from the first bag to the last."""
        return sum(each.strip.minutes for each in self.strips)

    @property
    def lost(self) -> tuple[PlannedStrip, ...]:
        """Strips that lose an edge."""
        return tuple(each for each in self.strips if each.edge_lost)

    def bay_with(self, bags: float) -> Bay:
        """The bay that is poured once so many planned bags are."""
        before = 0.0
        for bay in self.floor:
            before += bay.bags
            if bags < before - 1e-6:
                return bay
        return self.floor[-1]

    def bags_before(self, bay: Bay) -> float:
        """Bags planned for all the bays before one."""
        return sum(each.bags for each in self.floor[: bay.number - 1])

    def bags_to(self, bay: Bay, at_m: float) -> float:
        """Bags planned for all that is poured once the front of a bay stands there."""
        return self.bags_before(bay) + min(max(bay.bags_behind(at_m), 0.0), bay.bags)

    def area_to_m2(self, bay: Bay, at_m: float) -> float:
        """Area of all that is poured once the front of a bay stands there."""
        before = sum(each.fill.area_m2 for each in self.floor[: bay.number - 1])
        return before + bay.area_behind_m2(at_m)

    def front_by_bags_m(self, bags: float) -> float:
        """Where the front stands once so many planned bags are poured, metres from the start."""
        bay = self.bay_with(bags)
        return bay.front_m(bags - self.bags_before(bay))


@cached
def plan_of(job: Job) -> PourPlan:
    """
    The plan of the pour; without strips while no placing rate is known.

    Raises
    ------
    Refusal
        If room, readings or product are missing, or nothing is to be poured.
    """
    return while_unchanged(job, "plan", lambda: planned(job, placing_of(job), job.pour.dams))


def while_unchanged(job: Job, name: str, work_out: Callable[[], Value]) -> Value:
    """Worked out anew only where what it comes from changed: a batch changes none of it."""
    of = (job.readings, job.survey, job.finish_mm, job.card, job.zones, job.settings, job.doors,
          job.pour.dams)  # fmt: skip
    kept = job.layout.kept.get(f"{__name__}.{name}")
    if kept is None or kept[0] != of:
        kept = (of, work_out())
        job.layout.kept[f"{__name__}.{name}"] = kept
    value: Value = kept[1]
    return value


def planned(
    job: Job,
    placing: Placing | None,
    dams: Sequence[DamPlaced],
    *,
    bays: int = 1,
    as_wide_as_said: bool = True,
) -> PourPlan:
    """The plan with another crew, other dams or more bays side by side."""
    alike = parts_or_refusal(job)
    way = way_of(job)
    fills = [fill for part in alike if (fill := part.fill(way.direction)) is not None]
    whole = fills_together(fills) if fills else None
    if whole is None or whole.volume_m3 <= 0:
        raise Refusal("Nothing is to be poured: no point lies below the finish.")
    stops, sides = dams_of(job, way, dams, whole.from_m)
    if bays > 1:
        sides = [*sides, *_even_sides(alike, way, bays)]
    floor = bays_of(job, alike, way, whole.from_m, sides)
    strips: list[PlannedStrip] = []
    if placing is not None:
        width = job.setting(StripWidthSet) if as_wide_as_said else None
        most = metres(width.width) if width else None
        step = CLEAN_STEP_M[job.reading_unit]
        for bay in floor:
            pace = (placing.bags_per_min * bay.alike.bag_m3, bay.edge_limit_min, placing.batch_min)
            near = tuple(stop - bay.offset_m for stop in stops)
            strips += _numbered(strips, _cut(bay.fill, pace, near, most, step), bay, placing)
    return PourPlan(way, tuple(strips), floor, placing, whole, _front_m(job, way))


def parts_or_refusal(job: Job) -> tuple[PouredAlike, ...]:
    """What is poured alike, or a refusal that names what is missing."""
    if job.card is None and not job.zones.pours:
        raise Refusal("The product first; its card has the working time.",
                      spoken="The product first.")  # fmt: skip
    if outline_of(job.layout) is None:
        raise Refusal("A plan needs the room: ", ROOM, ".", spoken="The room first.")
    if surface_of(job) is None:
        raise Refusal("A plan needs readings of the floor.")
    return poured_alike(job)


def _even_sides(alike: Sequence[PouredAlike], way: PourDirection, bays: int) -> list[Side]:
    """Dams along the way that part the floor into bays of one volume."""
    across = (-way.direction[1], way.direction[0])
    fills = [fill for part in alike if (fill := part.fill(across)) is not None]
    return [(across, at) for at in even_lines_m(fills_together(fills), bays)]


@lru_cache(maxsize=64)
def _cut(
    fill: FillAlong,
    pace: tuple[float, float, float],
    stops: tuple[float, ...],
    most_m: float | None,
    step_m: float,
) -> tuple[Strip, ...]:
    from assistant.pours.strips import LEAST_WIDTH_M, Pace, plan_strips

    most = float("inf") if most_m is None else most_m
    return plan_strips(
        fill,
        Pace(*pace),
        dams_m=stops,
        least_width_m=min(LEAST_WIDTH_M, most),
        most_width_m=most,
        step_m=step_m,
    )


def _numbered(
    before: Sequence[PlannedStrip], cut: Sequence[Strip], bay: Bay, placing: Placing
) -> list[PlannedStrip]:
    """
    Strips of one bay after those of others.

    Whole bags and batches add up for each product, of which strips share a bag that is not full.
    """
    product, bag_m3 = bay.alike.card.name, bay.alike.bag_m3
    bags = sum(each.planned_bags for each in before if each.product == product)
    start = sum(each.strip.minutes for each in before)
    found = []
    for number, strip in enumerate(cut, start=len(before) + 1):
        takes = strip.volume_m3 / bag_m3
        whole, batches = (
            safe_ceil((bags + takes) / each) - safe_ceil(bags / each)
            for each in (1, placing.batch_bags)
        )
        found.append(
            PlannedStrip(
                number,
                strip.from_m + bay.offset_m,
                strip.to_m + bay.offset_m,
                bay.number,
                strip,
                start + strip.start_min,
                takes,
                whole,
                batches,
                bay.alike.zones,
                product,
            )
        )
        bags += takes
    return found


def _front_m(job: Job, way: PourDirection) -> float:
    outline = outline_of(job.layout)
    assert outline is not None
    return float(np.ptp(outline @ np.array([-way.direction[1], way.direction[0]])))
