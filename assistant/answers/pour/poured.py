"""What was really poured: bags, yield and mean depth, part by part."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Moment
from assistant.answers.pour.pace import rounded_m, shown_at
from assistant.floor.pour.litres import laid_of, measured_yield
from assistant.floor.pour.parts import Part, plan_known
from assistant.floor.pour.progress import progress_of
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
    if is_poured(job) and progress.batch_missing:
        lines.append(
            "So much less: is all of it poured? Where it stops before the wall: take that back, "
            "tell the front, stop pour. Where a batch was not told: take that back, and batch."
        )
    lines += [
        f"Something was lost once, from {_span(moment, part)}."
        for part in progress.parts
        if part.lost
    ]
    rest = left_over(job)
    why = f", because “{rest['why']}”" if rest["why"] else ""
    for bags, kind, counted in _there(job):
        where = "as counted" if counted else "by the tally's order"
        left = "left over" if is_poured(job) else "there"
        lines.append(f"{wording.counted(bags, 'bag')}{kind} {left}, {where}{why}.")
    if rest["bags"] and not rest["why"] and is_poured(job):
        lines.append("Why? Left over because, and why, in your words.")
    return tuple(lines)


def _there(job: Job) -> list[tuple[int, str, bool]]:
    """Bags that are there of each product, which, and whether they were counted."""
    progress = progress_of(job)
    if not progress.stocks:
        bags = left_over(job)["bags"]
        return [] if bags is None else [(bags, "", job.pour.counted is not None)]
    return [
        (stock.left, f" of {stock.product}" if progress.several else "", stock.counted)
        for stock in progress.stocks
        if stock.left is not None
    ]


def left_over(job: Job) -> dict[str, Any]:
    """Bags that are left over, None where nobody knows; and why, as it was said."""
    progress = progress_of(job)
    known = [stock.left for stock in progress.stocks if stock.left is not None]
    bags = sum(known) if known else None
    if not progress.stocks and progress.at_hand is not None:
        bags = max(progress.at_hand - progress.used, 0)
    by_product = {stock.product: stock.left for stock in progress.stocks}
    return {"bags": bags, "why": job.pour.left_over,
            **({"by_product": by_product} if progress.several else {})}  # fmt: skip


def poured_table(moment: Moment) -> tuple[Table, ...]:
    """Each part with its bags, planned and used, and the depth that was really poured."""
    progress, laid = progress_of(moment.job), laid_of(moment.job)
    if not laid:
        return ()
    rows = tuple(
        (
            _span(moment, part),
            wording.figure(part.planned_bags, 1),
            str(part.used_bags),
            wording.liquid(moment.unit, each.litres, places=0),
            "-" if each.mean_depth_mm is None
            else wording.length(round(each.mean_depth_mm, 1), moment.unit),
            "hole" if part.lost else "",
        )
        for part, each in zip(progress.parts, laid, strict=True)
    )  # fmt: skip
    columns = ("From and to", "Planned", "Used", "Litres", "Mean depth", "")
    return (Table("Poured", columns, rows),)


def yield_line(job: Job) -> tuple[str, ...]:
    """What the litres of each part are worked out with, once the finished floor tells it."""
    times = measured_yield(job)
    if times is None:
        return ()
    percent = wording.figure(100 * times, 0)
    return (f"Litres and depths by the two surveys: a bag came to {percent} % of its yield.",)


def poured_data(moment: Moment) -> dict[str, Any]:
    """The same for programs."""
    progress, laid = progress_of(moment.job), laid_of(moment.job)
    return {
        "bags_used": progress.used,
        "left_over": left_over(moment.job),
        "yield_measured": measured_yield(moment.job),
        "parts": [
            {
                "from_m": part.from_m,
                "to_m": part.to_m,
                "bags_planned": part.planned_bags,
                "bags_used": part.used_bags,
                "litres": each.litres,
                "mean_depth_mm": each.mean_depth_mm,
                "hole": part.lost,
            }
            for part, each in zip(progress.parts, laid, strict=True)
        ],
    }


def _span(moment: Moment, part: Part) -> str:
    begins, ends = (shown_at(moment, rounded_m(moment.unit, at)) for at in (part.from_m, part.to_m))
    return f"{begins} to {ends}"
