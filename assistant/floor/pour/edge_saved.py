"""The least change that keeps every edge of a pour wet."""

from __future__ import annotations

from dataclasses import replace

from assistant.events.pour import StripWidthSet
from assistant.floor.pour.placing import placing_of
from assistant.floor.pour.plan import PourPlan, plan_of, planned
from assistant.job import Job
from assistant.job.once import cached
from grammar.frozen import frozen

MOST_MIXERS = 8
"""Mixers tried; more stand in each other's way. Our own choice, no source."""
MOST_BAYS = 6
"""The most bays side by side that are tried."""
_FASTER = (1.1, 1.2, 1.35, 1.5, 1.75, 2.0, 2.5, 3.0, 4.0)
"""How many times as fast as now a pump may place; each is tried in turn."""


@frozen
class Saving:
    """One change after which no edge is lost."""

    kind: str
    """``mixers``, ``pump``, ``bays``, ``wider`` or ``days``."""
    size: float
    """Mixers; bags an hour; bays; the widest strip in metres; stops at dams."""


@cached
def savings_of(job: Job) -> tuple[Saving, ...]:
    """Changes that each keep every edge wet, the least first; none where none is lost."""
    plan = plan_of(job)
    if not plan.lost or plan.placing is None:
        return ()
    tried = (_wider(job), _faster(job, plan), _bays(job, plan), _days(plan))
    return tuple(saving for saving in tried if saving is not None)


def _wider(job: Job) -> Saving | None:
    """Wider strips than were wished for: where batches come too seldom for any edge to wait for the
    next one, a small room poured as one strip has no edge to lose."""
    width = job.setting(StripWidthSet)
    plan = planned(job, placing_of(job), job.pour.dams, as_wide_as_said=False)
    if width is None or plan.lost:
        return None
    return Saving("wider", max(each.to_m - each.from_m for each in plan.strips))


def _faster(job: Job, plan: PourPlan) -> Saving | None:
    """More mixers, or more bags an hour from a pump."""
    placing = plan.placing
    assert placing is not None
    if not placing.mixers:
        for times in _FASTER:
            faster = replace(placing, bags_per_min=placing.bags_per_min * times)
            if not planned(job, faster, job.pour.dams).lost:
                return Saving("pump", faster.bags_per_min * 60)
        return None
    each = placing.bags_per_min / placing.mixers
    for mixers in range(placing.mixers + 1, MOST_MIXERS + 1):
        more = replace(placing, bags_per_min=each * mixers, mixers=mixers)
        if not planned(job, more, job.pour.dams).lost:
            return Saving("mixers", mixers)
    return None


def _bays(job: Job, plan: PourPlan) -> Saving | None:
    """Dams along the way, so that the front is shorter."""
    from assistant.pours.strips import LEAST_WIDTH_M

    for bays in range(2, MOST_BAYS + 1):
        if plan.front_m / bays < LEAST_WIDTH_M:
            return None
        if not planned(job, plan.placing, job.pour.dams, bays=bays).lost:
            return Saving("bays", bays)
    return None


def _days(plan: PourPlan) -> Saving | None:
    """A dam at the edge of each strip that loses one, and the next strip another day."""
    return Saving("days", len(plan.lost))
