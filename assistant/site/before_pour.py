"""What stands against the first bag, and what the room's air does to what is poured."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import datetime

from assistant.job import Job
from assistant.job.site import AIR, HUMIDITY, SLAB
from assistant.limits.limits import PRACTICE
from assistant.pours.evaporation import UNCERTAIN_BY, evaporation_kg_m2_h
from assistant.reply.wording import figure, join_names
from assistant.site.reason import Reason
from assistant.site.rules import ready_to_pour

BREEZE_KM_H = 8.0
"""A draught that is felt in the face, about 2 m/s (Beaufort 2 begins at 1.6 m/s)."""


def against_pour(job: Job, now: datetime) -> tuple[Reason, ...]:
    """
    The reasons against the first bag now, those that somebody accepted left out.

    All that stand against pouring, and what is looked at only with the barrel ready.
    """
    return (*ready_to_pour(job, now).reasons, *_edge_reasons(job), *_joint_reasons(job))


def _edge_reasons(job: Job) -> Iterable[Reason]:
    if not job.pour.edge_strip:
        yield Reason(
            "edge-strip",
            "Nobody has said that the edge strip is in place: without it the floor presses "
            "against walls and columns.",
            "one independent trade article has it at walls and columns; the data sheet decides",
            "put it up, then edge strip in place",
        )


def joints_of(job: Job) -> tuple[int, ...]:
    """The numbers of the joints on record."""
    return tuple(one.number for one in job.layout.things.lines if one.kind == "joint")


def _joint_reasons(job: Job) -> Iterable[Reason]:
    open_joints = [number for number in joints_of(job) if number not in job.pour.joints]
    if open_joints:
        names = join_names([str(number) for number in open_joints], 4)
        what = f"Joint {names} is" if len(open_joints) == 1 else f"Joints {names} are"
        yield Reason(
            "joints",
            f"{what} not told to be carried through: the pour would crack over it.",
            f"{PRACTICE}; the data sheet and whoever designed it decide",
            "a dam or a profile along it, then joints carried through",
        )


def draught_notes(job: Job) -> Iterable[str]:
    """How fast the room takes water from the pour, in still air and in a draught."""
    last = [job.site.last(kind) for kind in (AIR, SLAB, HUMIDITY)]
    air, slab, humidity = (None if one is None else float(one.value) for one in last)
    if air is None or slab is None or humidity is None:
        return
    still, breeze = (evaporation_kg_m2_h(air, slab, humidity, wind) for wind in (0.0, BREEZE_KM_H))
    yield (
        f"Evaporation: {figure(still, 2)} kg/m² an hour in still air, {figure(breeze, 2)} in a "
        f"draught of {figure(BREEZE_KM_H, 0)} km/h, each ±{figure(100 * UNCERTAIN_BY, 0)} % "
        "(Uno 1998, made for concrete: no limit). Shut doors and windows."
    )
