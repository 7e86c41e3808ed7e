"""
A single zero check that is far off: ties show whether it was misread or the zero moved.

The readings around it are doubtful. Where other sound set-ups tie on some of those points and find
them as they were read, the zero had not moved then; if that was after the check, the check was
misread.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from assistant.floor.sights import Sight
from assistant.floor.soundness import Soundness
from assistant.floor.zero_checks import GOOD_SDS, Watch, ZeroLook, look_sd_mm
from assistant.job import Job

if TYPE_CHECKING:
    from assistant.floor.surveyed import Surveyed


def stood_until(
    job: Job, found: Surveyed, sound: Soundness, sights: Sequence[Sight]
) -> dict[int, int]:
    """
    Set-ups with an odd check, and the order of their last height that others find as it was read.

    A set-up is left out where as many of its heights are found different.
    """
    stood = {}
    for number, seen in enumerate(found.watches):
        if seen.alone is None or number not in sound.set_ups:
            continue
        before = _before(seen)
        if before is None:
            continue
        shift = seen.alone.off_mm - before.off_mm
        equal, others = [], 0
        for sight in sights:
            order = sight.height.order
            doubted = sight.height.set_up == number and sound.own.get(order) == "step"
            if not doubted or order < before.order or sight.on not in found.heights_mm:
                continue
            if sight.on not in sound.marks:
                continue
            off, noise = _off_mm(job, found, sight)
            if abs(off) > noise:
                others += 1
            elif abs(off - shift) > noise:
                equal.append(order)
        if len(equal) > others:
            stood[number] = max(equal)
    return stood


def cleared_orders(job: Job, watches: Sequence[Watch], until: Mapping[int, int]) -> set[int]:
    """
    Orders of heights that an odd check leaves free of doubt.

    The check itself is among them only if it was compared with an earlier reading on its
    benchmark, not with a given height: then either may be wrong, and the adjustment decides.
    """
    orders: set[int] = set()
    for number, last in until.items():
        seen = watches[number]
        before = _before(seen)
        if seen.alone is None or before is None:
            continue
        misread = last > seen.alone.order
        if number > 0 or seen.alone.on not in (None, *job.survey.benchmarks):
            orders.add(seen.alone.order)
        orders |= {
            order
            for order in seen.doubtful
            if before.order <= order != seen.alone.order and (misread or order <= last)
        }
    return orders


def _before(seen: Watch) -> ZeroLook | None:
    """The last check of the zero before an odd one."""
    if seen.alone is None or seen.alone not in seen.seen[1:]:
        return None
    return seen.seen[seen.seen.index(seen.alone) - 1]


def _off_mm(job: Job, found: Surveyed, sight: Sight) -> tuple[float, float]:
    """A point's reading minus the height that others find, and the allowance for noise."""
    zero = found.zeros_mm[sight.height.set_up]
    assert zero is not None
    assert isinstance(sight.on, str)
    off = float(zero + sight.exact_mm - found.heights_mm[sight.on])
    zero_sd = found.zero_sd_mm[sight.height.set_up]
    sd = (look_sd_mm(job.survey) ** 2 + found.sd_mm[sight.on] ** 2 + zero_sd**2) ** 0.5
    return off, GOOD_SDS * sd
