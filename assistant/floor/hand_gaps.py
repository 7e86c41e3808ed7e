"""Gaps under a straightedge laid by hand, against what the floor is held to."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from assistant.job import Job

if TYPE_CHECKING:
    from assistant.floor.spec_check import Found

HAND_SD_MM = 0.5
"""Standard deviation of a gap read with a wedge or a feeler under an edge laid by hand. Common
practice, no source."""
HAIR_MM = 1
"""A straightedge of 10 ft is one of 3.05 m."""
_REST = "readings, or the edge laid over the rest of the floor"


def with_hand(job: Job, found: Found, length_m: float) -> Found:
    """
    A verdict on the gap under an edge with what was laid by hand, which only speaks against it.

    One place shows what is not met; of all the others it tells nothing. A shorter edge counts too:
    under a longer one laid there the gap is no narrower.
    """
    from assistant.flatness.verdicts import verdict

    gaps = [gap for gap in job.proof.gaps if gap.under_mm <= length_m * 1000 + HAIR_MM]
    if not gaps or found.met is False:
        return found
    widest = max(gaps, key=lambda gap: gap.mm)
    mm = float(widest.mm)
    said = verdict(mm, found.limit, HAND_SD_MM, choices=len(gaps), whole=False)
    if said.met is None and (found.value or 0.0) >= mm:
        return found
    if said.met is None and found.met and mm <= found.limit:
        return found
    tells = found.tells or _REST
    if said.met is None and mm > found.limit:
        tells = f"the edge laid again at {widest.point}, read more finely"
    return replace(
        found,
        met=said.met,
        value=mm,
        sd=HAND_SD_MM,
        where=f"{widest.point}, laid by hand",
        tells=tells if said.met is None else "",
    )
