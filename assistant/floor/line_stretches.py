"""Where the lines over a floor are further off its finish than is let pass."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from math import hypot

from assistant.floor.geometry import finish_mm_of, is_inside, zone_at
from assistant.floor.heights import survey_of
from assistant.floor.proof_lines import Profile, profiles_of
from assistant.job import Job
from assistant.job.proof import ProofLine
from grammar.frozen import frozen


@frozen
class Stretch:
    """Values of a line, one after the other, that are off to the same side."""

    line: int
    first: int
    """Its values, counted from 1."""
    last: int
    number: int
    """The value that is off most."""
    mm: float
    """How far that one is above the finish."""
    sd_mm: float
    place_m: tuple[float, float]
    places_m: tuple[tuple[float, float], ...]
    """Of all its values."""
    last_order: int
    """Among all heights read, of the one of them that was read last."""
    spacing_m: float

    def is_at(self, place_m: tuple[float, float]) -> bool:
        """Whether a place lies no further from one of its values than the next one does."""
        x_m, y_m = place_m
        return any(hypot(x_m - x, y_m - y) < self.spacing_m * (1 + _HAIR) for x, y in self.places_m)


_HAIR = 1e-6


def stretches_off(job: Job, most_mm: float) -> Iterator[Stretch]:
    """
    The stretches of all lines that are off the finish by more.

    Only of lines that have a place on the floor and were read from set-ups tied to the zero that
    the finish refers to.
    """
    zeros = survey_of(job).zeros_mm
    for profile in profiles_of(job):
        line = job.proof.lines[profile.line]
        if line.ends_m is None or any(zeros[each.set_up] is None for each in line.values):
            continue
        off = list(enumerate(_off_finish(job, line, profile)))
        for side, group in groupby(off, lambda each: _side(each[1], most_mm)):
            if side:
                yield _stretch(line, [(at, mm) for at, mm in group if mm is not None], profile)


def _stretch(line: ProofLine, off: list[tuple[int, float]], profile: Profile) -> Stretch:
    worst, mm = max(off, key=lambda each: abs(each[1]))
    places = {at: place for at, _ in off if (place := line.place_m(at)) is not None}
    return Stretch(
        line.number,
        off[0][0] + 1,
        off[-1][0] + 1,
        worst + 1,
        mm,
        profile.sd_mm,
        places[worst],
        tuple(places.values()),
        max(line.values[at].order for at, _ in off),
        line.spacing_m,
    )


def _off_finish(job: Job, line: ProofLine, profile: Profile) -> list[float | None]:
    """How far each value is above the finish there; None off the floor."""
    found: list[float | None] = []
    for at, height in enumerate(profile.heights_mm):
        place = line.place_m(at)
        if place is None or not is_inside(job.layout, *place):
            found.append(None)
        else:
            found.append(height - float(finish_mm_of(job, zone_at(job.layout, *place))))
    return found


def _side(off: float | None, most: float) -> int:
    if off is None or abs(off) <= most:
        return 0
    return 1 if off > 0 else -1
