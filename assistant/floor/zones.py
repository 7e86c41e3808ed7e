"""
The floor zone by zone: each part as a job of its own, and the steps between their finishes.

A part of the floor is shown as a job, as the finished floor is (:mod:`assistant.job.surveys`): the
same readings and the same surface, over its own area, under its own finish, with its own product.
So whatever works out a tally, an order or an interval does so for a zone.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from assistant.events.finish import FinishSet
from assistant.floor.depths import finish_mm_of, zone_of_point
from assistant.floor.geometry import area_to_pour, with_part, zone_areas
from assistant.floor.obstacles import NO_FLOOR_M2
from assistant.floor.places import zone_of_points
from assistant.job import Job
from assistant.job.once import cached
from assistant.job.zones import Zones
from assistant.products.cards import Card
from assistant.units.measures import measure_of
from grammar.frozen import frozen

MET_M = 0.005
"""Zones that meet along less than this only touch at a corner."""


@cached
def _shown(_job: Job) -> dict[str, Job]:
    """Parts of jobs that were shown as jobs before, kept so that each is made once."""
    return {}


def in_zone(job: Job, name: str) -> Job:
    """One part of the floor as a job: a zone, or the rest. Made once for each job."""
    shown = _shown(job)
    if name not in shown:
        own = job.zones.pour_in(name).finish_mm is not None
        doors = {n: door for n, door in job.doors.items() if zone_of_point(job, door.point) == name}
        shown[name] = replace(
            job,
            layout=with_part(job.layout, name),
            finish_mm=finish_mm_of(job, name),
            finish_said=job.finish_said or own,
            finish_from=_as_said(job, name) if own else job.finish_from,
            card=card_of(job, name),
            zones=Zones(),
            doors=doors,
            whole=job,
        )
    return shown[name]


def _as_said(job: Job, name: str) -> FinishSet:
    height = finish_mm_of(job, name)  # of a decimal, so it is one exactly
    return FinishSet(measure_of(height, "mm"))


def part_names(job: Job) -> tuple[str, ...]:
    """The zones in the order in which they were named, then the rest where there is one."""
    if not job.layout.zones:
        return ()
    return tuple(zone_areas(job.layout)) or tuple(job.layout.zones)


def parts_of(job: Job) -> dict[str, Job]:
    """All parts of a floor with zones, as jobs; empty without zones."""
    return {name: in_zone(job, name) for name in part_names(job)}


def poured_parts(job: Job) -> list[Job]:
    """The parts that have an area; the job itself without zones."""
    parts = [part for part in parts_of(job).values() if _has_area(part)]
    return parts or [job]


def _has_area(part: Job) -> bool:
    area = area_to_pour(part.layout)
    return area is not None and area.area > NO_FLOOR_M2


def card_of(job: Job, zone: str) -> Card | None:
    """The product of a zone, which is the room's where it has no own."""
    return job.zones.pour_in(zone).card or job.card


def card_at(job: Job, point: str) -> Card | None:
    """The product that is poured at a point."""
    return card_of(job, zone_of_point(job, point))


def cards_of(job: Job) -> list[Card]:
    """All products that are poured, each once, in the order of the parts."""
    if not job.layout.zones:
        return [] if job.card is None else [job.card]
    found: dict[str, Card] = {}
    for part in poured_parts(job):
        if part.card is not None:
            found.setdefault(part.card.name, part.card)
    return list(found.values())


def mix_card(job: Job) -> Card | None:
    """The card that a mix is held to: of several products the one that gives it least time."""
    return min(cards_of(job), key=lambda card: card.working_time_min, default=job.card)


def one_card(job: Job) -> Card | None:
    """The product that is poured all over the floor; None where there are several, or none."""
    cards = [part.card for part in poured_parts(job)]
    names = {card.name if card else None for card in cards}
    return cards[0] if len(names) == 1 else None


def finish_mm_at(job: Job, point: str | None) -> Fraction:
    """Height of the finish at a point, above the zero; the room's where it has no place."""
    return finish_mm_of(job, zone_of_point(job, point))


def points_in(job: Job, zone: str) -> tuple[str, ...]:
    """Points of a zone, in walking order."""
    return tuple(point for point, its in zone_of_points(job.layout).items() if its == zone)


@frozen
class StepBetweenZones:
    """Where the finishes of two parts that meet are not flush."""

    lower: str
    higher: str
    step_mm: Fraction
    """How high the step between the two finishes is; more than zero."""
    edge_m: float
    """How long the edge is that the two zones share."""


@cached
def finish_steps(job: Job) -> tuple[StepBetweenZones, ...]:
    """All steps between parts of the floor, in the order of the parts."""
    if not any(pour.finish_mm is not None for pour in job.zones.pours.values()):
        return ()
    import shapely

    areas = list(zone_areas(job.layout).items())
    found = []
    for at, (one, its_area) in enumerate(areas):
        for other, area in areas[at + 1 :]:
            step = finish_mm_of(job, other) - finish_mm_of(job, one)
            edge_m = shapely.intersection(its_area.boundary, area.boundary).length if step else 0.0
            if edge_m > MET_M:
                low, high = (one, other) if step > 0 else (other, one)
                found.append(StepBetweenZones(low, high, abs(step), float(edge_m)))
    return tuple(found)
