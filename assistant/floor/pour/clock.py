"""What the clock says while it is poured: an edge that is about to be lost."""

from __future__ import annotations

from datetime import datetime

from assistant.floor.pour.progress import EDGE_WARNED, progress_of
from assistant.job import Job
from assistant.job.clocks import Ringing
from assistant.reply.times import shown_length, spoken_length


def not_met_since(rung: tuple[Ringing, ...], job: Job, now: datetime) -> tuple[Ringing, ...]:
    """What is still so once a line was taken: an edge that its batch met is warned of no more."""
    if not any(each.clock == "edge" for each in rung):
        return rung
    due = progress_of(job).edge_due
    met = due is None or due - EDGE_WARNED > now
    return tuple(each for each in rung if each.clock != "edge" or not met)


def pour_rung_between(job: Job, after: datetime, until: datetime) -> tuple[Ringing, ...]:
    """What the edge had to say after one time and up to another; oldest first."""
    if not job.pour.batches:
        return ()
    due = progress_of(job).edge_due
    if due is None:
        return ()
    warned, left = due - EDGE_WARNED, EDGE_WARNED
    rung = (
        Ringing(
            "edge",
            warned,
            f"{shown_length(left)} until the edge is lost: meet it now.".capitalize(),
            f"Edge, {spoken_length(left)} left.",
        ),
        Ringing("edge-lost", due, "The working time of the edge is over.", "Edge, time over."),
    )
    told = tuple(each for each in rung if after < each.time <= until)
    # Where the warning comes too late, as in played lines, only that it is over is said.
    return told[-1:]
