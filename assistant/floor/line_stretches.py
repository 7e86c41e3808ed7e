"""Where the lines over a floor are further off what was promised than is let pass."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby
from math import hypot

from assistant.floor.off_promise import lines_off
from assistant.floor.proof_lines import Profile
from assistant.job import Job
from assistant.job.proof import ProofLine
from grammar.frozen import frozen


@frozen
class Stretch:
    """Values of a line, one after the other, that are off to the same side."""

    line: int
    first: int
    """The number of its first value on the line, counted from 1."""
    last: int
    number: int
    """The value that is off most."""
    mm: float
    """How far that one is above what was promised."""
    sd_mm: float
    place_m: tuple[float, float]
    places_m: tuple[tuple[float, float], ...]
    """Where each of its values was read."""
    spacing_m: float

    def is_at(self, place_m: tuple[float, float]) -> bool:
        """Whether a place lies no further from one of its values than the next one does."""
        x_m, y_m = place_m
        return any(hypot(x_m - x, y_m - y) < self.spacing_m * (1 + _HAIR) for x, y in self.places_m)


_HAIR = 1e-6


def stretches_off(job: Job, most_mm: float) -> Iterator[Stretch]:
    """The stretches of all lines that are off what was promised by more."""
    for each in lines_off(job):
        off = list(enumerate(each.above_mm))
        for side, group in groupby(off, lambda one: _side(one[1], most_mm)):
            if side:
                found = [(at, mm) for at, mm in group if mm is not None]
                yield _stretch(each.line, found, each.profile)


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
        line.spacing_m,
    )


def _side(off: float | None, most: float) -> int:
    if off is None or abs(off) <= most:
        return 0
    return 1 if off > 0 else -1
