"""How far a finished floor is off what was promised of it: its planned height, or a plane.

Flat and level are two promises. Where only flat was made, neither points nor lines are held against
the planned finish, but against the plane that lies best through all that was read of both.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.events.proof import PromiseMade
from assistant.floor.depths import depths_of, finish_mm_of
from assistant.floor.geometry import is_inside, zone_at
from assistant.floor.heights import survey_of
from assistant.floor.late_numpy import np
from assistant.floor.places import places_of
from assistant.floor.proof_lines import Profile, mended_since, profiles_of
from assistant.job import Job
from assistant.job.once import cached
from assistant.job.proof import ProofLine
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray

_FEWEST_FOR_A_PLANE = 4
"""Points and values; three lie in a plane always."""


def is_flat_only(job: Job) -> bool:
    """Whether flat was promised, and level was not."""
    promise = job.setting(PromiseMade)
    return promise is not None and promise.flat and not promise.level


def is_level_only(job: Job) -> bool:
    """Whether level was promised, and flat was not."""
    promise = job.setting(PromiseMade)
    return promise is not None and promise.level and not promise.flat


@cached
def departures_mm(job: Job) -> dict[str, float]:
    """How far each point is above what was promised; in walking order."""
    above = {name: -float(depth) for name, depth in depths_of(job).items()}
    if not is_flat_only(job):
        return above
    places, plane = places_of(job.layout), _plane(job)
    return {
        name: _off(plane, mm, places.xy(name)) for name, mm in above.items() if name in places.row
    }


@frozen
class LineOff:
    """A line that lies somewhere on the floor."""

    line: ProofLine
    profile: Profile
    above_mm: tuple[float | None, ...]
    """How far each value is above what was promised; None off the floor, and where it was mended
    since."""


def lines_off(job: Job) -> tuple[LineOff, ...]:
    """
    How far the lines over a floor are above what was promised.

    Only those that have a place on it and were read from set-ups tied to the zero that the finish
    refers to.
    """
    found = _lines_above(job)
    if not is_flat_only(job):
        return found
    plane = _plane(job)
    return tuple(
        LineOff(
            each.line,
            each.profile,
            tuple(
                None if mm is None else _off(plane, mm, each.line.place_m(at) or (0.0, 0.0))
                for at, mm in enumerate(each.above_mm)
            ),
        )
        for each in found
    )


@cached
def _lines_above(job: Job) -> tuple[LineOff, ...]:
    """The same above the planned finish, whatever was promised."""
    zeros = survey_of(job).zeros_mm
    return tuple(
        LineOff(line, profile, tuple(_above_finish(job, line, profile)))
        for profile in profiles_of(job)
        if (line := job.proof.lines[profile.line]).ends_m is not None
        and all(zeros[each.set_up] is not None for each in line.values)
    )


def _above_finish(job: Job, line: ProofLine, profile: Profile) -> list[float | None]:
    found: list[float | None] = []
    since = mended_since(job, line)
    for at, height in enumerate(profile.heights_mm):
        place = line.place_m(at)
        if place is None or at in since or not is_inside(job.layout, *place):
            found.append(None)
        else:
            found.append(height - float(finish_mm_of(job, zone_at(job.layout, *place))))
    return found


@cached
def _plane(job: Job) -> FloatArray | None:
    """
    Height at the corner and slopes of the plane that lies best through points and lines.

    None where too little was read for one. Along a single line it is the straight line that lies
    best: nothing is known of its slope across.
    """
    places = places_of(job.layout)
    read = [
        (*places.xy(name), -float(depth))
        for name, depth in depths_of(job).items()
        if name in places.row
    ]
    for each in _lines_above(job):
        for at, mm in enumerate(each.above_mm):
            place = each.line.place_m(at)
            if mm is not None and place is not None:
                read.append((*place, mm))
    if len(read) < _FEWEST_FOR_A_PLANE:
        return None
    table = np.array(read, dtype=np.float64)
    columns = np.column_stack([np.ones(len(table)), table[:, :2]])
    return np.asarray(np.linalg.lstsq(columns, table[:, 2], rcond=None)[0], dtype=np.float64)


def _off(plane: FloatArray | None, above_mm: float, place_m: tuple[float, float]) -> float:
    """Above the plane; nothing where there is none."""
    if plane is None:
        return 0.0
    return above_mm - float(plane @ np.array([1.0, *place_m]))
