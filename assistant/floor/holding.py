"""
Confirms doubtful readings by reading some of them again from a sound zero.

Where a point reads as before, the zero had not moved yet when the point was first read, nor for
all readings between the last good check and then. Later ones still need a reading of their own,
as the zero may have moved in between.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from statistics import NormalDist

from assistant.floor.heights import reading_sd_mm, survey_of
from assistant.floor.late_numpy import np
from assistant.floor.sights import sight_of
from assistant.floor.surveyed import Surveyed
from assistant.floor.zero_checks import GOOD_SDS, good_mm
from assistant.job import Job
from assistant.job.once import cached
from assistant.job.set_ups import Height
from grammar.frozen import frozen

MOST_CHANCE = 0.05
"""Greatest chance of such agreement if the zero was off by the limit. Raising it confirms more
with fewer readings. The usual level of a test of equivalence; from memory."""


@frozen
class Pair:
    """A point with a doubtful reading, and read again since."""

    point: str
    old: Height
    new: Height
    off_mm: float
    """The second reading minus the first, both above the datum."""
    zeros_mm: tuple[float, ...]
    """The effect on that of one standard deviation of each error of the two zeros."""


@frozen
class Held:
    """The comparison for one run of doubtful readings; see :func:`holding_of`."""

    set_up: int
    in_doubt: tuple[str, ...]
    """Points whose present reading is doubtful, in the order they were read."""
    pairs: tuple[Pair, ...]
    """The points compared, in the order they were first read."""
    odd: tuple[Pair, ...]
    """Those that differ by more than the errors of readings and zeros."""
    mean_mm: float = 0.0
    sd_mm: float = 0.0
    limit_mm: float = 0.0
    chance: float = 1.0
    """Chance of such agreement if the zero had been off by the limit."""
    last: str = ""
    """The last point that reads as before; the zero may have moved after it."""
    cleared: tuple[str, ...] = ()
    """The doubtful points that are confirmed."""

    @property
    def left(self) -> tuple[str, ...]:
        """The points that stay doubtful."""
        return tuple(point for point in self.in_doubt if point not in self.cleared)


@cached
def holding_of(job: Job) -> tuple[Held, ...]:
    """
    Each run of doubtful readings, and whether it is confirmed.

    Notes
    -----
    With d the mean of n differences, its variance is (old² + new²) / n plus that of the two zeros'
    errors, which all of them share. The run is confirmed where Phi((abs(d) - limit) / sd) is at
    most :data:`MOST_CHANCE`: two one-sided tests, Schuirmann (1987), from memory. The limit is what
    a good check may be off by.
    """
    found = survey_of(job)
    stretches: dict[tuple[int, int], list[tuple[str, Height]]] = {}
    for point, heights in _read(job).items():
        for height in heights:
            if height.order in found.sound.own:
                key = _stretch(found, height)
                stretches.setdefault(key, []).append((point, height))
    return tuple(
        _held(job, found, set_up, doubted) for (set_up, _), doubted in sorted(stretches.items())
    )


def _read(job: Job) -> dict[str, list[Height]]:
    """All readings of each point, superseded ones too."""
    before = job.survey.superseded
    return {point: [*before.get(point, ()), now] for point, now in job.readings.items()}


def _stretch(found: Surveyed, height: Height) -> tuple[int, int]:
    """The set-up, and the number of checks of its zero before, without a doubtful one."""
    watch = found.watches[height.set_up]
    looks = [one.order for one in watch.seen if one is not watch.alone]
    return height.set_up, sum(order <= height.order for order in looks)


def _held(job: Job, found: Surveyed, set_up: int, doubted: Sequence[tuple[str, Height]]) -> Held:
    counting = [
        (height.order, point)
        for point, height in doubted
        if job.readings[point] is height and point in found.doubtful
    ]
    in_doubt = tuple(point for _, point in sorted(counting))
    pairs = sorted(_pairs(job, found, doubted), key=lambda pair: pair.old.order)
    sd, limit = reading_sd_mm(job), good_mm(job.survey)
    odd = tuple(pair for pair in pairs if abs(pair.off_mm) > max(limit, _noise_mm(pair, sd)))
    equal = [pair for pair in pairs if pair not in odd]
    if equal:  # a later one that differs was read after the move; before it more must agree
        last = equal[-1].old.order
        if sum(pair.old.order < last for pair in odd) >= len(equal):
            equal = []
    if not equal:
        return Held(set_up, in_doubt, tuple(pairs), odd, limit_mm=limit)
    mean = float(np.mean([pair.off_mm for pair in equal]))
    shared = np.mean([pair.zeros_mm for pair in equal], axis=0)
    spread = float(np.sqrt(2 * sd**2 / len(equal) + shared @ shared))
    chance = NormalDist().cdf((abs(mean) - limit) / spread)
    borne = [point for order, point in sorted(counting) if order <= equal[-1].old.order]
    cleared = tuple(borne) if chance <= MOST_CHANCE else ()
    return Held(
        set_up, in_doubt, tuple(pairs), odd, mean, spread, limit, chance, equal[-1].point, cleared
    )


def _noise_mm(pair: Pair, sd_mm: float) -> float:
    zeros = float(np.sum(np.square(pair.zeros_mm)))
    return float(GOOD_SDS * (2 * sd_mm**2 + zeros) ** 0.5)


def _pairs(job: Job, found: Surveyed, doubted: Sequence[tuple[str, Height]]) -> Iterator[Pair]:
    latest = {point: height for point, height in doubted}  # noqa: C416  the last of each counts
    for point, old in latest.items():
        new = _read_again(job, found, point, old)
        if new is not None and old.set_up in found.sound.set_ups:
            above = [_above_datum_mm(job, found, point, height) for height in (new, old)]
            zeros = zip(
                found.zeros_shared_mm[new.set_up] if found.zeros_shared_mm else (),
                found.zeros_shared_mm[old.set_up] if found.zeros_shared_mm else (),
                strict=True,
            )
            apart = tuple(one - other for one, other in zeros)
            yield Pair(point, old, new, above[0] - above[1], apart)


def _read_again(job: Job, found: Surveyed, point: str, old: Height) -> Height | None:
    """The last sound reading of a point, or tie on it, since then."""
    read = [*_read(job)[point], *(m.height for m in job.survey.marks if m.on == point)]
    since = [
        height
        for height in read
        if height.order > old.order
        and height.order not in found.sound.own
        and height.set_up in found.sound.set_ups
    ]
    return max(since, key=lambda height: height.order, default=None)


def _above_datum_mm(job: Job, found: Surveyed, point: str, height: Height) -> float:
    zero = found.zeros_mm[height.set_up]
    assert zero is not None
    sight = sight_of(job, found.watches, point, point, height)
    return float(zero + sight.exact_mm) + sight.drift_mm
