"""
Which set-ups and points depend on sound readings alone, and which on a doubtful one.

A reading is doubtful itself where its zero moved at an unknown time. The rest follows: a set-up
is sound if it is the first one, whose zero is the datum, or has a sound reading on a sound mark;
a benchmark or point is sound if its height was given, or has a sound reading from a sound
set-up. Anything else depends on a doubtful reading.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

from assistant.floor.sights import Sight, heights_from, ties_and_benchmark_sights
from assistant.floor.zero_checks import Watch, good_mm
from assistant.job import Job
from assistant.job.set_ups import Height
from grammar.frozen import frozen


@frozen
class Soundness:
    """Which readings, set-ups and marks of a survey no doubt stands against."""

    own: Mapping[int, str]
    """Orders of heights that are doubtful themselves, and why: ``moved``, ``step``."""
    set_ups: frozenset[int]
    marks: frozenset[str | int]
    """Sound points, and benchmarks by number."""

    def counts(self, sight: Sight) -> bool:
        """False for a doubtful reading between marks that are sound already."""
        fixed = sight.height.set_up in self.set_ups and sight.on in self.marks
        return not (fixed and sight.height.order in self.own)


FIRST_ALONE = Soundness({}, frozenset({0}), frozenset())
"""The soundness with a single set-up, whose zero is the datum."""


def soundness(
    job: Job,
    sights: Sequence[Sight],
    watches: Sequence[Watch],
    known_zeros: Iterable[int],
    stood: frozenset[int],
    borne_out: Collection[int] = (),
) -> Soundness:
    """
    Works out what depends on sound readings alone.

    Parameters
    ----------
    job : Job
    sights : sequence of Sight
    watches : sequence of Watch
        Of each set-up.
    known_zeros : iterable of int
        Set-ups known to be sound.
    stood : frozenset of int
        Set-ups reported as moved and shown to have stood still.
    borne_out : collection of int
        Orders of heights that other readings confirm.
    """
    own = _in_doubt_themselves(job, watches, stood)
    for order in (*borne_out, *job.survey.borne_out.values()):
        own.pop(order, None)
    trusted = [sight for sight in sights if sight.height.order not in own]
    set_ups, marks = set(known_zeros), set[str | int](job.survey.benchmarks)
    waiting = trusted
    while True:
        left = []
        for sight in waiting:
            if sight.height.set_up in set_ups or sight.on in marks:
                set_ups.add(sight.height.set_up)
                marks.add(sight.on)
            else:
                left.append(sight)
        if len(left) == len(waiting):
            return Soundness(own, frozenset(set_ups), frozenset(marks))
        waiting = left


def _in_doubt_themselves(
    job: Job, watches: Sequence[Watch], stood: frozenset[int]
) -> dict[int, str]:
    found: dict[int, str] = {}
    for number, seen in enumerate(watches):
        by_benchmark = len(seen.seen) > 1 and seen.seen[1].on is not None
        apart = set(_tying(job, number)) if by_benchmark else set()
        found.update(dict.fromkeys(seen.doubtful - apart, "step"))
    for number, begun in enumerate(job.survey.set_ups):
        if begun.after_move and number - 1 not in stood:
            found.update((height.order, "moved") for height in _moved(job, watches, number - 1))
    return found


def _moved(job: Job, watches: Sequence[Watch], set_up: int) -> Iterator[Height]:
    """
    Readings since the last good check of a set-up whose reference moved afterwards.

    Ties that agree with each other do not confirm them: they show that the zero stood still
    between the ties, not before. The ties that the set-up began with are excepted, as they
    define its zero.
    """
    seen = watches[set_up]
    since = seen.last_good(good_mm(job.survey)) if seen.seen else 0
    apart = set(_tying(job, set_up))
    for height in heights_from(job, set_up):
        if height.order >= since and height.order not in apart:
            yield height


def _tying(job: Job, set_up: int) -> list[int]:
    """Orders of a set-up's opening ties; only the first where points were read before."""
    if set_up == 0:  # its zero is the datum by definition
        return []
    ties = [
        mark.height.order for mark in ties_and_benchmark_sights(job) if mark.height.set_up == set_up
    ]
    others = {height.order for height in heights_from(job, set_up)} - set(ties)
    first = min(others, default=None)
    return [order for order in ties if first is None or order < first] or ties[:1]
