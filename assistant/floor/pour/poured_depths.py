"""What was really poured: the finished floor less the slab, point by point and as a volume.

The depth laid is shown as a job of its own, whose readings are those depths below a finish of
nothing, so that what works out a volume with its interval does so for what was poured. Where the
slab tells what was planned all over the floor, it is shown how far the pour came out off that: a
few points of the finished floor then tell of the whole, as a floor off its plan is so widely.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from math import hypot, sqrt
from statistics import fmean
from typing import TYPE_CHECKING

from assistant.floor.depths import finish_mm_of, zone_of_point
from assistant.floor.geometry import area_of
from assistant.floor.heights import heights_of, reading_sd_mm, survey_of
from assistant.floor.interval import volume_of
from assistant.floor.places import places_of, zone_of_points
from assistant.floor.pour.parts import plan_known
from assistant.floor.pour.plan import PlannedStrip, PourPlan
from assistant.floor.tally import tally_of
from assistant.floor.zones import one_card, part_names
from assistant.job import Job, finished_floor
from assistant.job.once import cached
from assistant.job.set_ups import Height, SurveyState
from assistant.job.walk import Walk
from assistant.job.zones import REST, Zones
from grammar.commands import Measure
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.kriged.volume import Volume

_SURE = 1.96
"""Half widths of a 95 % interval, in standard deviations."""
_HAIR_M = 1e-6
_LIFTED_MM = 1000
"""What departures from the plan are lifted by, so that none counts as above a finish."""


@frozen
class PouredPoint:
    """A point that was read before the pour and after it; millimetres."""

    name: str
    planned_mm: Fraction
    """To be laid; negative where the slab stood above the finish."""
    laid_mm: Fraction
    sd_mm: float
    """Standard deviation of what was laid, from both readings."""
    against_finish_mm: Fraction
    """The finished floor less the finish: plus above."""


@frozen
class PouredPart:
    """A strip or zone with the means of its points."""

    name: str
    points: int
    planned_mm: float
    laid_mm: float


@frozen
class Poured:
    """How deep the pour came out, from the slab before and the finished floor after it."""

    points: tuple[PouredPoint, ...]
    litres: tuple[float, float, float] | None
    """Least, likeliest and most by the two surveys, 95 %; None without a room or with too few
    points."""
    litres_by_triangles: float | None
    """By triangles through the points, where too few are read for an interval."""
    mean_mm: float
    """Over the floor; of the points alone without a room."""
    planned_mean_mm: float
    """The mean depth that was planned, over the floor or the points alike."""
    strips: tuple[PouredPart, ...]
    zones: tuple[PouredPart, ...]
    bag_l: float | None
    """What the card makes of a bag; None without a product, or with several."""


@cached
def poured_of(job: Job) -> Poured | None:
    """What was poured; None while no point is read before and after."""
    points = _points(job)
    after = finished_floor(job)
    if not points or after is None:
        return None
    planned = volume_of(job)
    laid = _laid_as_job(after, points, by_plan=planned is not None)
    area = area_of(laid.layout)
    litres, by_triangles = _litres(job, after, laid, planned), _by_triangles(laid, planned)
    middle = litres[1] if litres else by_triangles
    mean = fmean(float(each.laid_mm) for each in points)
    if middle is not None and area:
        mean = middle / area  # a litre is a millimetre over a square metre
    card = one_card(job)
    return Poured(
        points=points,
        litres=litres,
        litres_by_triangles=by_triangles,
        mean_mm=mean,
        planned_mean_mm=_planned_mean_mm(job, points),
        strips=_strips(job, points),
        zones=_zones(job, points),
        bag_l=None if card is None else card.mix(float(job.aggregate_percent)).yield_m3 * 1000,
    )


def _planned_mean_mm(job: Job, points: Sequence[PouredPoint]) -> float:
    """As the mean of what was laid is worked out, so that the two can be compared."""
    planned, area = volume_of(job), area_of(job.layout)
    if planned is not None and area:
        return 1000 * planned.mean_m3 / area
    return fmean(float(each.planned_mm) for each in points)


def _points(job: Job) -> tuple[PouredPoint, ...]:
    after = finished_floor(job)
    if after is None:
        return ()
    slab, floor = heights_of(job), heights_of(after)
    slab_sd, floor_sd = survey_of(job).sd_mm, survey_of(after).sd_mm
    names = [name for name in places_of(after.layout).names if name in slab and name in floor]
    names += sorted((slab.keys() & floor.keys()) - set(names))
    found = []
    for name in names:
        finish = finish_mm_of(job, zone_of_point(job, name))
        found.append(
            PouredPoint(
                name,
                finish - slab[name],
                floor[name] - slab[name],
                hypot(slab_sd[name], floor_sd[name]),
                floor[name] - finish,
            )
        )
    return tuple(found)


def _laid_as_job(after: Job, points: Sequence[PouredPoint], *, by_plan: bool = False) -> Job:
    """
    A floor as deep below its finish as was laid; each of its readings is one of two.

    By the plan it is how much more than planned was laid, lifted, and of that the readings before
    are no part: they are in what was planned.
    """
    readings = {
        each.name: Height(
            Measure(Decimal(0), "mm"),
            -(each.against_finish_mm + _LIFTED_MM) if by_plan else -each.laid_mm,
            order=order,
        )
        for order, each in enumerate(points)
    }
    twice = Fraction(1) if by_plan else Fraction(sqrt(2))
    survey = SurveyState(
        resolution_mm=after.survey.resolution_mm * twice,
        repeatability_mm=after.survey.repeatability_mm * twice,
    )
    return replace(
        after,
        readings=readings,
        survey=survey,
        finish_mm=Fraction(0),
        zones=Zones(),
        doors={},
        walk=Walk(),
        slab=None,
        layout=replace(after.layout),
    )


def _litres(
    job: Job, after: Job, laid: Job, planned: Volume | None = None
) -> tuple[float, float, float] | None:
    volume, area = volume_of(laid), area_of(laid.layout)
    if volume is None or area is None:
        return None
    low, middle, high = (1000 * each for each in (volume.low_m3, volume.mean_m3, volume.high_m3))
    # Between the two surveys stands one look at a zero at least, which moves all of it alike.
    common = _SURE * area * hypot(reading_sd_mm(after), _zero_sd_mm(job), _zero_sd_mm(after))
    less, more, past = middle - low, high - middle, 0.0
    if planned is not None:
        past = 1000 * planned.mean_m3 - area * _LIFTED_MM
        less = hypot(less, 1000 * (planned.mean_m3 - planned.low_m3))
        more = hypot(more, 1000 * (planned.high_m3 - planned.mean_m3))
    middle = max(middle + past, 0.0)
    return max(middle - hypot(less, common), 0.0), middle, middle + hypot(more, common)


def _zero_sd_mm(job: Job) -> float:
    """Of the zeros that points were read from, the most uncertain one's."""
    survey = survey_of(job)
    used = {reading.set_up for reading in job.readings.values()}
    return max((survey.zero_sd_mm[n] for n in used), default=0.0)


def _by_triangles(laid: Job, planned: Volume | None) -> float | None:
    tally, area = tally_of(laid), area_of(laid.layout)
    if tally.volume_m3 is None or area is None:
        return None
    litres = 1000 * (tally.volume_m3 - (tally.high_volume_m3 or 0.0))
    return litres if planned is None else litres + 1000 * planned.mean_m3 - area * _LIFTED_MM


def _part(name: str, points: Sequence[PouredPoint]) -> PouredPart:
    return PouredPart(
        name,
        len(points),
        fmean(float(each.planned_mm) for each in points),
        fmean(float(each.laid_mm) for each in points),
    )


def _zones(job: Job, points: Sequence[PouredPoint]) -> tuple[PouredPart, ...]:
    if not part_names(job):
        return ()
    zone_of = zone_of_points(job.layout)
    found = {name: [p for p in points if zone_of.get(p.name, REST) == name]
             for name in part_names(job)}  # fmt: skip
    return tuple(_part(name, inside) for name, inside in found.items() if inside)


def _strips(job: Job, points: Sequence[PouredPoint]) -> tuple[PouredPart, ...]:
    """The strips of the plan that have points in them; a point on a cut is in the first one."""
    plan = plan_known(job)
    if plan is None:
        return ()
    places, left, found = places_of(job.layout), list(points), []
    for strip in plan.strips:
        inside = [
            each
            for each in left
            if each.name in places.row and _is_in(plan, strip, places.xy(each.name))
        ]
        left = [each for each in left if each not in inside]
        if inside:
            found.append(_part(str(strip.number), inside))
    return tuple(found)


def _is_in(plan: PourPlan, strip: PlannedStrip, at_m: tuple[float, float]) -> bool:
    import shapely

    bay = plan.floor[strip.bay - 1]
    if not bay.shape.buffer(_HAIR_M).covers(shapely.Point(at_m)):
        return False
    x, y = plan.way.direction
    corners = shapely.get_coordinates(bay.shape)
    begins = float((corners[:, 0] * x + corners[:, 1] * y).min())
    along = bay.offset_m + at_m[0] * x + at_m[1] * y - begins
    return strip.from_m - _HAIR_M <= along <= strip.to_m + _HAIR_M
