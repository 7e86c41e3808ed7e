"""Compares values of a line with the points read around it, before they are recorded."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import hypot

from assistant.floor.depths import finish_mm_of
from assistant.floor.geometry import is_inside, zone_at
from assistant.floor.heights import above_datum_mm, heights_of, reading_sd_mm
from assistant.floor.interval import fitted_surface, shared_of_reading, spots_of
from assistant.floor.late_numpy import np
from assistant.floor.suspicion import FEWEST_READINGS, NEAREST, OFF_PLAN_SDS, POURED_SD_MM
from assistant.job import Job
from assistant.job.proof import ProofLine
from assistant.job.set_ups import Height
from grammar.frozen import frozen


@frozen
class LineDoubt:
    """A value of a line that does not agree with the floor around."""

    number: int
    """Which of the line's values, counted from 1."""
    value_mm: float
    """The value as it was read."""
    expected_mm: float
    """What would be expected there, read from the same zero."""
    sd_mm: float
    by_plan: bool = False
    """Whether the planned finish says so, as too few points are read around."""


def doubts_about(
    job: Job, line: ProofLine, heights: Sequence[Height], first: int
) -> tuple[LineDoubt, ...]:
    """
    The values, from one of the line's on, that the floor around does not bear out.

    Empty for a line that has no place, and where its set-up is not tied. Only where the line
    departs from what is expected is it doubted: a value after one that departed already is of a
    floor that is so, or of a zero that was asked about.
    """
    found: list[LineDoubt | None] = []
    before = line.values[first - 1 : first] if first else ()
    for at, height in enumerate((*before, *heights), first - len(before)):
        place, above = line.place_m(at), above_datum_mm(job, height)
        if place is None or above is None or not is_inside(job.layout, *place):
            found.append(None)
            continue
        found.append(_doubt(job, place, height, above, at + 1))
    departs = [
        each
        for each, last in zip(found[len(before) :], [None, *found][len(before) :], strict=False)
        if each is not None and last is None
    ]
    return tuple(departs)


def _doubt(
    job: Job, place: tuple[float, float], height: Height, above: Fraction, number: int
) -> LineDoubt | None:
    from assistant.levels.outliers import look_at

    spots = spots_of(job, ground=False)
    zero_mm = float(height.mm - above)
    if len(spots.names) < FEWEST_READINGS:
        return _off_plan(job, place, height, above, number)
    if len(spots.names) > NEAREST:
        away = np.hypot(*(spots.xy_m - np.array(place)).T)
        spots = spots.part(np.sort(np.argsort(away, kind="stable")[:NEAREST]))
    seen = look_at(
        fitted_surface(job, spots, "line"),
        place,
        float(above) / 1000,
        resolution_m=float(job.survey.resolution_mm) / 1000,
        noise_sd_m=reading_sd_mm(job) / 1000,
        shared_m=shared_of_reading(job),
    )
    if not seen.suspect:
        return None
    expected = seen.expected_m * 1000 + zero_mm
    return LineDoubt(number, float(height.mm), expected, seen.sd_m * 1000)


def _off_plan(
    job: Job, place: tuple[float, float], height: Height, above: Fraction, number: int
) -> LineDoubt | None:
    """As for a point: a poured floor lies about where it was planned, until it was seen not to."""
    if job.slab is None:
        return None
    finish = finish_mm_of(job, zone_at(job.layout, *place))
    sd = hypot(POURED_SD_MM, reading_sd_mm(job))
    most = OFF_PLAN_SDS * sd
    if abs(above - finish) <= most:
        return None
    if any(abs(kept - above) <= most for kept in heights_of(job).values()):
        return None
    return LineDoubt(number, float(height.mm), float(finish + height.mm - above), sd, by_plan=True)
