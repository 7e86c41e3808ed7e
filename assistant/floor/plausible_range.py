"""Finds heights so far from the zero that a slip of the tongue is likelier than such a floor.

This needs no neighbours, so it also checks the first points of a survey.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from assistant.job import Job

FARTHEST_MM = Fraction(400)
"""A height further from the zero than this is asked about. Common practice, no source:
underlayment is poured in millimetres and centimetres, hollows deeper than that are filled
with something else first, and a zero is set at the finish or within a short staff of it.
Raising it lets more slips through, as eighteen inches where millimetres were meant (457 mm);
lowering it asks more often where the zero stands off the floor."""


def farthest_mm(job: Job) -> Fraction:
    """How far from the zero a height is taken without asking; the instrument's range may extend
    it."""
    return max(FARTHEST_MM, job.reach_mm)


def is_far_off(job: Job, mm: Fraction, set_up: int) -> bool:
    """
    Whether a height is too far from its zero to be taken without asking.

    Parameters
    ----------
    job : Job
    mm : Fraction
        As read, against the zero of the set-up.
    set_up : int
        Counted from 0.

    Returns
    -------
    bool
        False once there is another such height: the zero is then that far off the floor, and
        asking at every point would teach the installer to confirm without listening.
    """
    most = farthest_mm(job)
    if abs(mm) <= most:
        return False
    return not any(abs(kept) > most and abs(mm - kept) <= most for kept in _kept_mm(job, set_up))


def _kept_mm(job: Job, set_up: int) -> Iterator[Fraction]:
    """All heights read against one zero; for the first one the finish too."""
    heights = [*job.readings.values(), *(mark.height for mark in job.survey.marks)]
    for door in job.doors.values():
        heights += [one for one in (door.left, door.right, door.outside) if one is not None]
    yield from (height.mm for height in heights if height.set_up == set_up)
    if set_up == 0:
        yield job.finish_mm
