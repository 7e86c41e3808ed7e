"""How certain the floor is between its readings, and what that means for the volume.

It connects the job with the kriged surface. A fit is cached with its job, and the last one
with the layout: the next fit of the same floor starts from it, which makes it quicker but
not different.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from assistant.errors import Refusal
from assistant.floor.depths import depths_of, finish_mm_of
from assistant.floor.geometry import area_m_of, has_outline, outline_of, zone_areas
from assistant.floor.heights import survey_of
from assistant.floor.late_numpy import np
from assistant.floor.places import places_of
from assistant.floor.steps import steps_of
from assistant.floor.surveyed import Surveyed
from assistant.job import Job
from assistant.job.once import cached
from assistant.reply import wording
from assistant.reply.examples import ROOM
from assistant.reply.wording import spoken_number
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray, IntArray
    from assistant.levels.kriged.finish import FinishLike
    from assistant.levels.kriged.surface import KrigedSurface
    from assistant.levels.kriged.volume import Volume

FEWEST_POINTS = 5
"""Fewest read points for an interval: with fewer it would describe floors in general more than
this one. Our own choice, no source."""


@frozen
class Spots:
    """Read points on the floor, in the order they were read."""

    names: tuple[str, ...]
    xy_m: FloatArray
    heights_m: FloatArray
    noise_m: FloatArray
    """Standard deviation of each, from its own readings alone."""
    shared_m: FloatArray
    """(n, k) the effect on each of one standard deviation of each shared error."""

    def part(self, rows: IntArray) -> Spots:
        """Some of the points."""
        names = tuple(self.names[row] for row in rows.tolist())
        arrays = (self.xy_m, self.heights_m, self.noise_m, self.shared_m)
        return Spots(names, *(one[rows] for one in arrays))


def spots_of(job: Job, *, ground: bool = True, but: str | None = None) -> Spots:
    """
    Points that have a place on the floor and a height.

    Parameters
    ----------
    job : Job
    ground : bool
        After any grinding; False for the floor as it was read.
    but : str, optional
        A point to leave out.
    """
    places, survey = places_of(job.layout), survey_of(job)
    on_floor = [
        name
        for name in survey.heights_mm
        if name != but and name in places.row and places.inside[places.row[name]]
    ]
    names = tuple(sorted(on_floor, key=lambda name: (job.readings[name].order, name)))
    off = job.survey.ground if ground else {}
    heights = [float(survey.heights_mm[name] - off.get(name, 0)) / 1000 for name in names]
    return Spots(
        names,
        places.xy_m[[places.row[name] for name in names]].reshape(-1, 2),
        np.array(heights),
        np.array([survey.own_sd_mm[name] / 1000 for name in names]),
        _shared_m(survey, [survey.shared_mm.get(name, ()) for name in names]),
    )


def shared_of_reading(job: Job) -> FloatArray | None:
    """The effect of the shared errors on a reading from the present set-up, (k,)."""
    survey = survey_of(job)
    if not survey.zeros_shared_mm:
        return None
    mine: FloatArray = _shared_m(survey, [survey.zeros_shared_mm[job.survey.set_up]])[0]
    return mine


def _shared_m(survey: Surveyed, rows: Sequence[Sequence[float]]) -> FloatArray:
    count = len(survey.zeros_shared_mm[0]) if survey.zeros_shared_mm else 0
    shared_m: FloatArray = np.array(rows, dtype=np.float64).reshape(len(rows), count) / 1000
    return shared_m


@cached
def fit_of(job: Job) -> KrigedSurface | None:
    """The kriged surface of the whole floor; None with fewer than :data:`FEWEST_POINTS`."""
    if job.whole is not None:
        return fit_of(job.whole)
    if not has_outline(job.layout) or len(job.readings) < FEWEST_POINTS:
        return None
    spots = spots_of(job)
    if len(spots.names) < FEWEST_POINTS:
        return None
    return fitted_surface(job, spots, "whole")


@cached
def natural_fit_of(job: Job) -> KrigedSurface | None:
    """The kriged surface of the floor as it was read, before any grinding."""
    if not job.survey.ground:
        return fit_of(job)
    spots = spots_of(job, ground=False)
    return fitted_surface(job, spots, "natural") if len(spots.names) >= FEWEST_POINTS else None


def fitted_surface(job: Job, spots: Spots, slot: str) -> KrigedSurface:
    """The surface through some points; each fit of a slot starts from the last one."""
    from assistant.levels.kriging import fit_surface

    kept = job.layout.kept
    slot = f"{__name__}.{slot}"
    steps = [step.line_m for step in steps_of(job)]
    found = fit_surface(
        spots.xy_m,
        spots.heights_m,
        spots.noise_m,
        size_m=_size_m(job),
        steps_m=steps,
        shared_m=spots.shared_m,
        like=kept.get(slot),
    )
    kept[slot] = found
    return found


def _size_m(job: Job) -> float | None:
    """The diagonal of the floor; None without an outline."""
    outline = outline_of(job.layout)
    return None if outline is None else float(np.hypot(*np.ptp(outline, axis=0)))


@cached
def volume_of(job: Job) -> Volume | None:
    """The volume under the finish with its certainty; None where :func:`fit_of` is."""
    floor = fit_of(job)
    area = None if floor is None else area_m_of(job.layout)
    if floor is None or area is None:
        return None
    from assistant.levels.kriged.volume import volume_with_interval

    # The finish is set off from the datum, so an error of that moves both.
    return volume_with_interval(floor, area, finish_m_of(job))


def finish_m_of(job: Job) -> FinishLike:
    """The finish as the numeric core takes it, metres above the datum; in parts by zones."""
    if all(pour.finish_mm is None for pour in job.zones.pours.values()):
        return float(job.finish_mm) / 1000
    from assistant.levels.kriged.finish import FinishInParts

    areas = {name: area for name, area in zone_areas(job.layout).items() if not area.is_empty}
    levels = tuple(float(finish_mm_of(job, name)) / 1000 for name in areas)
    return FinishInParts(tuple(areas.values()), levels)


def left_out_words(job: Job) -> str:
    """For a large floor, how many readings the surface uses; else empty."""
    floor, read = fit_of(job), len(spots_of(job.whole or job).names)
    if floor is None or len(floor.points_m) == read:
        return ""
    used = wording.figure(len(floor.points_m), 0)
    return (
        f"How sure that is goes by {used} of the {wording.figure(read, 0)} readings, drawn once "
        "and for all; with all it would be surer."
    )


def no_interval(job: Job) -> Refusal:
    """The refusal that says what an interval of the volume still needs."""
    if not has_outline(job.layout):
        return Refusal("How sure that is needs the room: ", ROOM, ".", spoken="The room first.")
    read = len(depths_of(job.whole or job))
    return Refusal(
        f"How sure that is takes {FEWEST_POINTS} points on the floor; {read} so far.",
        spoken=f"That takes {spoken_number(FEWEST_POINTS)} points on the floor.",
    )
