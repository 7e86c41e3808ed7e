"""Compares a reading with its neighbours, before it is recorded.

The arithmetic is in :mod:`assistant.levels.outliers`; this chooses the data for it, and finds
what may have been meant instead.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import hypot
from typing import TYPE_CHECKING

from assistant.floor.depths import finish_mm_of, zone_of_point
from assistant.floor.heights import above_datum_mm, heights_of, reading_sd_mm
from assistant.floor.interval import fitted_surface, shared_of_reading, spots_of
from assistant.floor.late_numpy import np
from assistant.floor.mishearings import alternatives, swapped
from assistant.floor.places import places_of
from assistant.floor.steps import cell_of, column_letters, column_number, steps_of
from assistant.job import Job, being_read
from assistant.job.set_ups import Height
from assistant.units.lengths import exact_mm
from grammar.commands import Measure, Reading
from grammar.commands.readings import CorrectReading, TakeReading
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.kriged.surface import KrigedSurface
    from assistant.levels.outliers import NeighbourPrediction

NEAREST = 60
"""Nearest read points with which a reading is compared. The rest of a large floor says nothing
more about one place, and would make the installer wait."""
MOST_LIKELY = 3
"""Most alternatives that are named, as many as can be said in one breath."""
AS_ACCEPTED_SDS = 3.0
"""Standard deviations by which two readings of one height may differ."""
FEWEST_READINGS = 6
"""Readings from which a floor is known well enough to clear or name one of them afterwards.

Our own choice, no source. With fewer, what is expected is mostly what floors are like: enough to
ask about a reading as it is said, while it can be looked at again, and not enough to judge it by.
"""
NEAR_MM = 10
"""A reading this near to what was read so far, or between, needs no weighing while that is little:
so few readings say nothing against it. Our own choice, no source; raising it lets more slips pass
among the first readings, and spares loading what weighs them."""
POURED_SD_MM = 5.0
"""Standard deviation of a poured floor against its plan. Our own choice, no source; raising it
lets a slip of a tenth of a metre through less often than one of a centimetre."""
OFF_PLAN_SDS = 3.0
"""Standard deviations off the plan from which on a first reading of a poured floor is asked
about."""
FITS_SDS = 2.0
"""A reading within this many standard deviations of what is expected at a neighbouring point may
be that point's. Raising it names more points."""


@frozen
class Suspicion:
    """A reading that does not agree with its neighbours."""

    point: str
    value_mm: float
    """The reading as it was taken."""
    expected_mm: float
    """The reading expected from the floor around."""
    sd_mm: float
    """Standard deviation of a reading there."""
    likely: tuple[TakeReading | CorrectReading, ...]
    """Values that may have been meant, likeliest first."""
    by_plan: bool = False
    """Whether the planned finish says so, and not the floor around."""
    few: bool = False
    """Whether only the first few readings say so, of which any may be the wrong one."""


def suspicion_about(
    job: Job, command: TakeReading | CorrectReading, point: str
) -> Suspicion | None:
    """
    The doubt about a reading that is about to be recorded; None where there is none.

    The first points of a poured floor are held against its planned finish. None for the first
    point of a slab, for doors, for points beside a marked step, where the
    set-up is not tied yet, and for what has been accepted before.
    """
    said = height_meant(job, command, point)
    if _is_same_again(job, point, said) or _not_to_be_asked(job, point, said):
        return None
    return _doubt(job, command, point, said)


def bears_itself_out(job: Job, command: TakeReading | CorrectReading, point: str) -> bool:
    """Whether the floor around doubts a reading that a second look at the point found the same."""
    said = height_meant(job, command, point)
    again = isinstance(command, TakeReading) and _is_same_again(job, point, said)
    if not again or _not_to_be_asked(job, point, said):
        return False
    return _doubt(job, command, point, said) is not None


def _doubt(
    job: Job, command: TakeReading | CorrectReading, point: str, said: Height
) -> Suspicion | None:
    reading = command.reading
    height = above_datum_mm(job, said)
    if height is not None and _is_near_the_first(job, point, height):
        return None
    # The first readings of a poured floor have its plan to be held against.
    near = surface_near(job, point, 1 if job.slab is None else FEWEST_READINGS)
    if height is None:
        return None
    if near is None:
        return _off_plan(job, command, point, said, height)
    others = alternatives(reading)
    zero_mm, height_m = float(said.mm - height), float(height) / 1000
    heard_m = [(float(exact_mm(other)) - zero_mm) / 1000 for other in others]
    found = _look(job, near, point, height_m, heard_m)
    if not found.suspect:
        return None
    likely = [
        *_likely_values(command, others, heard_m, found),
        *_likely_turned(command, zero_mm, found),
        *_likely_points(job, near, command, point, height_m),
    ]
    return Suspicion(
        point=point,
        value_mm=float(said.mm),
        expected_mm=found.expected_m * 1000 + zero_mm,
        sd_mm=found.sd_m * 1000,
        likely=tuple(dict.fromkeys(likely))[:MOST_LIKELY],
        few=found.others < FEWEST_READINGS,
    )


def _is_near_the_first(job: Job, point: str, height: Fraction) -> bool:
    """Whether few others are read, and the height lies among them or near."""
    others = [kept for name, kept in heights_of(job).items() if name != point]
    if job.slab is not None or not 0 < len(others) < FEWEST_READINGS:
        return False
    return min(others) - NEAR_MM <= height <= max(others) + NEAR_MM


def _off_plan(
    job: Job, command: TakeReading | CorrectReading, point: str, said: Height, height: Fraction
) -> Suspicion | None:
    """
    The doubt about a reading of a poured floor that too little of it is known around.

    None once another point is as far off: then it is the floor or its zero, and asking at every
    point would teach to confirm without listening.
    """
    if job.slab is None:
        return None
    finish = finish_mm_of(job, zone_of_point(job, point))
    sd = hypot(POURED_SD_MM, reading_sd_mm(job))
    most = OFF_PLAN_SDS * sd
    others = [kept for name, kept in heights_of(job).items() if name != point]
    if abs(height - finish) <= most or any(abs(kept - height) <= most for kept in others):
        return None
    zero = said.mm - height
    meant = [
        other
        for other in (*alternatives(command.reading), *swapped(command.reading))
        if abs(exact_mm(other) - zero - finish) <= FITS_SDS * sd
    ]
    return Suspicion(
        point=point,
        value_mm=float(said.mm),
        expected_mm=float(finish + zero),
        sd_mm=sd,
        likely=tuple(
            replace(command, reading=other) for other in tuple(dict.fromkeys(meant))[:MOST_LIKELY]
        ),
        by_plan=True,
    )


def height_meant(job: Job, command: TakeReading | CorrectReading, point: str) -> Height:
    """The height that would be recorded; a correction stays with the set-up of its reading."""
    said = Measure(command.reading.number, command.reading.unit)
    if isinstance(command, CorrectReading) and point in job.readings:
        return job.survey.put_right(job.readings[point], said)
    return Height(said, exact_mm(command.reading), job.survey.set_up)


def is_accepted(job: Job, point: str, mm: Fraction) -> bool:
    """Whether this value was accepted at a point before, within what two readings may differ."""
    accepted = job.survey.accepted.get(point)
    if accepted is None or job.readings[point].set_up != job.survey.set_up:
        return False
    return abs(float(mm - accepted)) <= AS_ACCEPTED_SDS * 2**0.5 * reading_sd_mm(job)


def _is_same_again(job: Job, point: str, said: Height) -> bool:
    known = job.readings.get(point)
    return known is not None and (known.mm, known.set_up) == (said.mm, said.set_up)


def _not_to_be_asked(job: Job, point: str, said: Height) -> bool:
    if is_accepted(job, point, said.mm):
        return True
    if any(door.point == point for door in job.doors.values()):
        return True
    return any(point in step.beside for step in steps_of(job))


def surface_near(job: Job, point: str, fewest: int = FEWEST_READINGS) -> KrigedSurface | None:
    """
    The surface of the floor around a point, without what was read there; None with fewer
    readings than asked for.
    """
    places = places_of(job.layout)
    if point not in places.row or not places.inside[places.row[point]]:
        return None
    spots = spots_of(job, ground=False, but=point)
    if len(spots.names) < fewest:
        return None
    if len(spots.names) <= NEAREST:
        return fitted_surface(job, spots, "near")
    away = np.hypot(*(spots.xy_m - places.xy(point)).T)
    rows = np.sort(np.argsort(away, kind="stable")[:NEAREST])
    return fitted_surface(job, spots.part(rows), "near")


def _look(
    job: Job, near: KrigedSurface, point: str, height_m: float, heard_m: Sequence[float]
) -> NeighbourPrediction:
    from assistant.levels.outliers import look_at

    return look_at(
        near,
        places_of(job.layout).xy(point),
        height_m,
        mishearings_m=heard_m,
        resolution_m=float(job.survey.resolution_mm) / 1000,
        noise_sd_m=reading_sd_mm(job) / 1000,
        shared_m=shared_of_reading(job),
    )


def _likely_values(
    command: TakeReading | CorrectReading,
    others: tuple[Reading, ...],
    heard_m: Sequence[float],
    found: NeighbourPrediction,
) -> list[TakeReading | CorrectReading]:
    """Other values that agree with the floor around, likeliest first."""
    assert found.misheard is not None
    rows = [row - 1 for row in found.misheard.order.tolist() if row]
    fitting = [row for row in rows if found.low_m <= heard_m[row] <= found.high_m]
    return [replace(command, reading=others[row]) for row in fitting[:MOST_LIKELY]]


def _likely_turned(
    command: TakeReading | CorrectReading, zero_mm: float, found: NeighbourPrediction
) -> list[TakeReading | CorrectReading]:
    """The value with two figures turned round, where that agrees with the floor around."""
    return [
        replace(command, reading=other)
        for other in swapped(command.reading)
        if found.low_m <= (float(exact_mm(other)) - zero_mm) / 1000 <= found.high_m
    ]


def _likely_points(
    job: Job,
    near: KrigedSurface,
    command: TakeReading | CorrectReading,
    point: str,
    height_m: float,
) -> list[TakeReading]:
    """Unread points next to it, where this value would be expected."""
    places = places_of(job.layout)
    next_to = [name for name in _next_to(point) if name in places.row and name not in job.readings]
    if not next_to:
        return []
    there = near.predict_reading(
        places.xy_m[[places.row[name] for name in next_to]],
        reading_sd_mm(job) / 1000,
        shared_of_reading(job),
    )
    off = np.abs(there.mean - height_m)
    return [
        TakeReading(next_to[row], command.reading)
        for row in np.argsort(off, kind="stable").tolist()
        if off[row] <= FITS_SDS * there.sd[row]
    ]


def _next_to(point: str) -> list[str]:
    """Names of points in the next row or column."""
    letters, number = cell_of(point)
    if not letters or not number:
        return []
    column, row = column_number(letters), int(number)
    cells = [(column, row + 1), (column, row - 1), (column + 1, row), (column - 1, row)]
    return [f"{column_letters(c)}{r}" for c, r in cells if c > 0 and r > 0]


def weigh_readings(
    job: Job, point: str, heard: Sequence[tuple[Reading, float]]
) -> tuple[float, ...] | None:
    """
    How likely each of several readings is, by sound and by the floor around.

    Parameters
    ----------
    job : Job
    point : str
    heard : sequence of (reading, probability)
        What a recogniser may have heard, units filled in, and how likely by sound alone.

    Returns
    -------
    probabilities : tuple of float
        In the same order, adding up to 1; None where too little of the floor is known.
    """
    from assistant.levels.outliers import weigh_alternatives

    job = being_read(job)
    near = surface_near(job, point)
    known = [
        above_datum_mm(
            job,
            Height(Measure(one.number, one.unit), exact_mm(one), job.survey.set_up),
        )
        for one, _ in heard
    ]
    heights = [float(height) / 1000 for height in known if height is not None]
    if near is None or len(heights) < len(heard) or not heard:
        return None
    found = weigh_alternatives(
        near,
        places_of(job.layout).xy(point),
        heights,
        [chance for _, chance in heard],
        noise_sd_m=reading_sd_mm(job) / 1000,
        shared_m=shared_of_reading(job),
    )
    return tuple(found.probabilities.tolist())
