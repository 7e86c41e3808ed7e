"""What was laid by two scans, in words and for programs."""

from __future__ import annotations

from typing import Any

from assistant.floor.places_in_words import place_words
from assistant.floor.scans.difference import LaidByScans, scans_lack
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply


def by_scans_alone(job: Job, found: LaidByScans, unit: str) -> Reply:
    """What two scans tell where no point was read before and after."""
    mean, planned = (
        wording.length(round(each, 1), unit) for each in (found.mean_mm, found.planned_mm)
    )
    used = job.pour.bags_used
    bags = [f"{wording.counted(used, 'bag')} used."] if used else []
    return Reply(
        f"Poured {mean} deep in the mean by both scans; planned {planned}.",
        f"Poured {wording.spoken_length(round(found.mean_mm, 1), unit)} in the mean, by both "
        "scans.",
        (
            *by_scans_words(job, found, unit),
            *bags,
            "No point is read both before and after the pour.",
        ),
        data={
            "poured": {
                "bags_used": used,
                "litres_survey": [None, None, None],
                "mean_mm": found.mean_mm,
                "planned_mean_mm": found.planned_mm,
                "points": [],
                "by_scans": by_scans_data(found),
            }
        },
    )


def by_scans_words(job: Job, found: LaidByScans | None, unit: str) -> list[str]:
    if found is None:
        return [lack] if (lack := scans_lack(job)) else []
    mean, planned, least, most = (
        wording.length(round(each, 1), unit)
        for each in (found.mean_mm, found.planned_mm, found.least.mm, found.most.mm)
    )
    litres, off, a_millimetre = (
        wording.liquid(unit, each, places=0)
        for each in (found.litres, 2 * found.sd_l, found.area_m2)
    )
    percent = wording.figure(100 * found.seen_m2 / found.area_m2, 0)
    told = [
        f"By both scans {litres}, {mean} in the mean where {planned} was planned, good to {off} by "
        f"errors of their heights; they saw {percent} % of the floor, the rest is taken to be as "
        f"deep. A millimetre in either zero is {a_millimetre} more or less.",
        f"By them least was laid at {place_words(job, found.least.x_m, found.least.y_m)}, {least}, "
        f"and most at {place_words(job, found.most.x_m, found.most.y_m)}, {most}; each good to "
        f"about {wording.length(round(2 * found.sd_mm, 1), unit)}.",
    ]
    if round(found.under_slab_m2, 2):
        told.append(
            f"Over {wording.area(found.under_slab_m2, unit)} the finished floor lies under the "
            "slab by them, which it cannot: a zero, a file of the other floor, or what was ground."
        )
    return told


def by_scans_data(found: LaidByScans | None) -> dict[str, Any] | None:
    if found is None:
        return None
    return {
        "mean_mm": found.mean_mm,
        "planned_mean_mm": found.planned_mm,
        "litres": found.litres,
        "sd_l": found.sd_l,
        "floor_m2": found.area_m2,
        "seen_m2": found.seen_m2,
        "under_slab_m2": found.under_slab_m2,
        "least": {"mm": found.least.mm, "x_m": found.least.x_m, "y_m": found.least.y_m},
        "most": {"mm": found.most.mm, "x_m": found.most.x_m, "y_m": found.most.y_m},
    }
