"""Depths at the points: from the finish of a place down to the floor as it was read."""

from __future__ import annotations

from fractions import Fraction

from assistant.floor.heights import heights_of
from assistant.floor.places import places_of, zone_of_points
from assistant.job import Job
from assistant.job.once import cached
from assistant.job.zones import REST


def untied_points(job: Job) -> tuple[str, ...]:
    """Points that were read from a set-up without a tie to the others."""
    depths, places = depths_of(job), places_of(job.layout)
    return tuple(
        name
        for name in job.readings
        if name not in depths
        and name not in places.covered
        and (job.whole is None or name in places.at_m)
    )


@cached
def depths_of(job: Job) -> dict[str, Fraction]:
    """
    Exact depth in mm at every point of known height: in walking order, then those without a place.

    A point read from a set-up without a tie has no height yet, and so no depth; nor has one that
    has come under an obstacle since.
    """
    places = places_of(job.layout)
    names = places.row
    if job.whole is not None:
        everywhere = depths_of(job.whole)
        return {name: everywhere[name] for name in names if name in everywhere}
    heights = heights_of(job)
    read = [name for name in names if name in heights]
    # Sorted, so that the order of reading makes no difference.
    read += sorted(heights.keys() - names.keys() - places.covered.keys())
    if not job.zones.pours:  # the usual case, kept quick
        return {name: job.finish_mm - heights[name] for name in read}
    return {name: finish_mm_of(job, zone_of_point(job, name)) - heights[name] for name in read}


def zone_of_point(job: Job, point: str | None) -> str:
    """The zone of a point; the rest for one that is in none, or has no place."""
    return zone_of_points(job.layout).get(point or "", REST) if job.layout.zones else REST


def finish_mm_of(job: Job, zone: str) -> Fraction:
    """Height of the finish above the zero in a zone, which is the room's where it has no own."""
    own = job.zones.pour_in(zone).finish_mm
    return job.finish_mm if own is None else own
