"""What was really poured: bags, yield and mean depth, part by part."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Moment
from assistant.answers.pour.pace import about, far
from assistant.floor.pour_parts import Part, plan_known
from assistant.floor.pour_plan import PourPlan
from assistant.floor.pour_progress import progress_of
from assistant.job import Job, is_poured
from assistant.reply import wording
from assistant.reply.replies import Table


def poured_lines(moment: Moment) -> tuple[str, ...]:
    """Used of planned where nothing was lost, what was lost, and what is left over."""
    job = moment.job
    if not job.pour.batches:
        return ()
    progress, plan = progress_of(job), plan_known(job)
    lines = []
    whole = [part for part in progress.parts if not part.lost]
    if whole and plan is not None:
        used = sum(part.used_bags for part in whole)
        planned = sum(part.planned_bags for part in whole)
        over = wording.figure(100 * (used / planned - 1), 0)
        sign = "more" if used >= planned else "less"
        lines.append(
            f"{used} bags where {wording.figure(planned, 1)} were planned, {over.lstrip('-')} % "
            f"{sign}: the floor, the zero and the yield together."
        )
    lines += [
        f"Something was lost once, from {_span(moment, part)}."
        for part in progress.parts
        if part.lost
    ]
    rest = left_over(job)
    if rest["bags"] is not None:
        where = "as counted" if job.pour.counted is not None else "by the tally's order"
        left = "left over" if is_poured(job) else "there"
        why = f", because “{rest['why']}”" if rest["why"] else ""
        lines.append(f"{wording.counted(rest['bags'], 'bag')} {left}, {where}{why}.")
        if rest["bags"] and not rest["why"] and is_poured(job):
            lines.append("Why? Left over because, and why, in your words.")
    return tuple(lines)


def left_over(job: Job) -> dict[str, Any]:
    """Bags that are left over, None where nobody knows; and why, as it was said."""
    progress = progress_of(job)
    bags = None if progress.at_hand is None else max(progress.at_hand - progress.used, 0)
    return {"bags": bags, "why": job.pour.left_over}


def poured_table(moment: Moment) -> tuple[Table, ...]:
    """Each part with its bags, planned and used, and the depth that was really poured."""
    progress, plan = progress_of(moment.job), plan_known(moment.job)
    if plan is None or not progress.parts:
        return ()
    rows = tuple(
        (
            _span(moment, part),
            wording.figure(part.planned_bags, 1),
            str(part.used_bags),
            "-" if (depth := mean_depth_mm(plan, part)) is None
            else wording.length(depth, moment.unit),
            "hole" if part.lost else "",
        )
        for part in progress.parts
    )  # fmt: skip
    return (Table("Poured", ("From and to", "Planned", "Used", "Mean depth", ""), rows),)


def poured_data(moment: Moment) -> dict[str, Any]:
    """The same for programs."""
    progress, plan = progress_of(moment.job), plan_known(moment.job)
    return {
        "bags_used": progress.used,
        "left_over": left_over(moment.job),
        "parts": [
            {
                "from_m": part.from_m,
                "to_m": part.to_m,
                "bags_planned": part.planned_bags,
                "bags_used": part.used_bags,
                "mean_depth_mm": None if plan is None else mean_depth_mm(plan, part),
                "hole": part.lost,
            }
            for part in progress.parts
        ],
    }


def mean_depth_mm(plan: PourPlan, part: Part) -> float | None:
    """
    The mean depth that a part took, by its bags and the yield on the card, waste taken off.

    None where something was lost, or where it reached from one bay into another.
    """
    bay = plan.floor[part.bay - 1]
    if part.lost or part.area_m2 <= 0 or part.to_m > bay.to_m + 1e-6:
        return None
    return part.used_bags * bay.alike.bag_m3 / part.area_m2 * 1000


def _span(moment: Moment, part: Part) -> str:
    begins, ends = (far(moment, about(moment.unit, at)) for at in (part.from_m, part.to_m))
    return f"{begins} to {ends}"
