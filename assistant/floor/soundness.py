"""
Which set-ups and points hang on sound readings alone, and which on one that is in doubt.

A reading is in doubt by itself where its zero moved meanwhile, nobody knows when. All else
follows: a set-up is sound if it is the first one, whose zero is the datum, or was read from
soundly on something sound; a benchmark or point is sound if its height was given, or was read
soundly from a sound set-up. What cannot be reached like that hangs in doubt.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from assistant.floor.sights import Sight, heights_from, joined
from assistant.floor.zero_checks import Watch, good_mm
from assistant.job import Job
from assistant.job.set_ups import Height


@dataclass(frozen=True)
class Soundness:
    """What can be relied on."""

    own: Mapping[int, str]
    """Orders of heights that are in doubt by themselves, and why: ``moved``, ``step``."""
    set_ups: frozenset[int]
    marks: frozenset[str | int]
    """Points, and benchmarks by their number."""

    def is_sound(self, sight: Sight) -> bool:
        """Whether a reading fixes what it was read on."""
        return sight.height.set_up in self.set_ups and sight.height.order not in self.own

    def counts(self, sight: Sight) -> bool:
        """False for a reading in doubt between what sound ones fix already."""
        fixed = sight.height.set_up in self.set_ups and sight.on in self.marks
        return not (fixed and sight.height.order in self.own)


FIRST_ALONE = Soundness({}, frozenset({0}), frozenset())
"""Of one set-up that nothing is read twice from: its zero is the datum."""


def soundness(
    job: Job,
    sights: Sequence[Sight],
    watches: Sequence[Watch],
    known_zeros: Iterable[int],
    stood: frozenset[int],
    borne_out: Collection[int] = (),
) -> Soundness:
    """
    What sound readings reach.

    Parameters
    ----------
    job : Job
    sights : sequence of Sight
    watches : sequence of Watch
        Of each set-up.
    known_zeros : iterable of int
        Set-ups that are sound from the beginning.
    stood : frozenset of int
        Set-ups whose reference was said to have moved and is known to have stood still.
    borne_out : collection of int
        Orders of heights that other readings leave in no doubt.
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
    What was read since the last good check of a set-up whose reference moved afterwards.

    Ties that agree with each other do not clear it: they show that the zero stood still between
    them, not that it did before. What the set-up was tied by is apart from it: its zero is the
    one that was tied.
    """
    seen = watches[set_up]
    since = seen.last_good(good_mm(job.survey)) if seen.seen else 0
    apart = set(_tying(job, set_up))
    for height in heights_from(job, set_up):
        if height.order >= since and height.order not in apart:
            yield height


def _tying(job: Job, set_up: int) -> list[int]:
    """Orders of the ties that a set-up began with; of the first where it was read from before."""
    if set_up == 0:  # its zero is the datum, whatever is read from it
        return []
    ties = [mark.height.order for mark in joined(job) if mark.height.set_up == set_up]
    others = {height.order for height in heights_from(job, set_up)} - set(ties)
    first = min(others, default=None)
    return [order for order in ties if first is None or order < first] or ties[:1]
