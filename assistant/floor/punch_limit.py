"""How far a finished floor may be off, and how wide a gap may be, before it is to be mended."""

from __future__ import annotations

from fractions import Fraction

from assistant.floor.hand_gaps import HAIR_MM
from assistant.floor.off_promise import is_flat_only
from assistant.floor.spec_check import held_to
from assistant.job import Job
from assistant.job.once import cached
from assistant.job.proof import HandLaidGap
from grammar.frozen import frozen

USUAL_PUNCH_MM = Fraction(3)
"""Common practice, no source; what is promised in writing decides."""


@frozen
class PunchLimit:
    """A limit of the punch list, and what it was taken from."""

    mm: Fraction
    source: str = ""
    """The name of what the floor is held to; nothing where it was said, or is the usual one."""


@cached
def punch_limit_of(job: Job) -> PunchLimit:
    """
    What was said; else what the floor is held to; else 3 mm.

    Of what it is held to, its departure from the finish where it has one, or the least of its gaps:
    a floor that is nowhere further off than that is seldom mended for its height.
    """
    said = job.punch_limit_said_mm
    if said is not None:
        return PunchLimit(said)
    # A departure from the finish is no matter of a floor that is to be flat alone.
    for test in ("gap",) if is_flat_only(job) else ("from finish", "gap"):
        limits = [
            (limit.limit, spec.name)
            for spec in held_to(job)
            for limit in spec.limits
            if limit.test == test and limit.limit is not None
        ]
        if limits:
            return PunchLimit(*min(limits))
    return PunchLimit(USUAL_PUNCH_MM)


def is_held_to_gaps(job: Job) -> bool:
    """Whether anything that the floor is held to limits gaps under a straightedge."""
    return any(
        limit.test in ("gap", "own distance") for spec in held_to(job) for limit in spec.limits
    )


def gap_limit_of(job: Job, gap: HandLaidGap) -> PunchLimit:
    """
    How wide a gap under an edge laid by hand may be.

    That of what the floor is held to, for an edge as long; a gap under a shorter one is no wider
    than under a longer one laid there, so the longer one's limit holds for it too.
    """
    under = Fraction(gap.under_mm, 1000)
    limits = [
        (limit.limit, spec.name)
        for spec in held_to(job)
        for limit in spec.limits
        if limit.test == "gap"
        and limit.limit is not None
        and limit.length_m is not None
        and under <= limit.length_m + Fraction(HAIR_MM, 1000)
    ]
    return PunchLimit(*min(limits)) if limits else punch_limit_of(job)
