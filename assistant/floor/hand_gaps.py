"""Gaps under a straightedge laid by hand, against what the floor is held to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.job import Job
from assistant.job.proof import HandLaidGap

if TYPE_CHECKING:
    from assistant.flatness.verdicts import LimitVerdict

HAND_SD_MM = 0.5
"""Standard deviation of a gap read with a wedge or a feeler under an edge laid by hand. Common
practice, no source."""
HAIR_MM = 1
"""A straightedge of 10 ft is one of 3.05 m."""


def laid_by_hand(
    job: Job, limit_mm: float, length_m: float
) -> tuple[HandLaidGap, LimitVerdict] | None:
    """
    The widest gap that an edge laid by hand showed, and what it says; None without one.

    It only speaks against a limit: one place shows what is not met, and of all the others it tells
    nothing. A shorter edge counts too: under a longer one laid there the gap is no narrower.
    """
    from assistant.flatness.verdicts import verdict

    gaps = [gap for gap in job.proof.gaps if gap.under_mm <= length_m * 1000 + HAIR_MM]
    if not gaps:
        return None
    widest = max(gaps, key=lambda gap: gap.mm)
    said = verdict(float(widest.mm), limit_mm, HAND_SD_MM, choices=len(gaps), whole=False)
    return widest, said
