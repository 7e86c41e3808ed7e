"""The answer to "what if": the difference a change would make, without making it."""

from __future__ import annotations

from datetime import timedelta

from assistant.answers.finish.then import best_then
from assistant.answers.material.product import short_weight
from assistant.answers.parts import (
    Answerer,
    Moment,
    depth_cell,
    gone_warnings,
    new_warnings,
    spoken_depth,
    spoken_warnings,
)
from assistant.answers.pour.crew import idle_mixers
from assistant.errors import Refusal
from assistant.floor.pour.placing import placing_of
from assistant.floor.pour.plan import PourPlan, plan_of
from assistant.floor.tally import Tally, tally_of
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import LimitWarning, Reply, SpokenSentence, Table, ToSay
from assistant.reply.times import shown_length
from grammar.commands import Command
from grammar.commands.pour import SetCrew, SetMixers
from grammar.commands.talk import WhatIf

Row = tuple[str, str, str]


def what_if(moment: Moment, command: WhatIf) -> Reply:
    """The answer, with lengths in the unit of the present job."""
    from grammar import short_form

    before, after = tally_of(moment.before), tally_of(moment.after)
    gone = gone_warnings(moment.before, moment.after)
    come = new_warnings(moment.before, moment.after)
    asked = " and ".join(short_form(change) for change in command.changes)
    unit = moment.before.reading_unit
    plans = (_plan(moment.before), _plan(moment.after))
    rows = [*_differences(before, after, unit), *_plan_rows(*plans)]
    data = {
        "before": before.as_data(),
        "after": after.as_data(),
        "warnings_gone": [warning.id for warning in gone],
        "warnings_come": [warning.id for warning in come],
    }
    crew = idle_mixers(moment.after) if _of_the_crew(command) else ()
    if not rows and not gone and not come:
        where = "the tally" if plans[1] is None else "the tally or the plan"
        return Reply(
            f"{asked}: nothing in {where} would change.",
            "Nothing would change.",
            (*crew, *best_then(moment), *_nothing_done(moment.before, moment.after)),
            data=data,
        )
    table = Table("What would change", ("", "Now", "Then"), tuple(rows))
    return Reply(
        f"{asked}: {_headline(rows, gone, come)}.",
        _spoken(before, after, unit, gone, come, plans),
        (*crew, *_warning_lines(gone, come), *best_then(moment), "Nothing is recorded."),
        (table,) if rows else (),
        warnings=come,
        data=data,
    )


def _of_the_crew(command: WhatIf) -> bool:
    return any(isinstance(change, SetCrew | SetMixers) for change in command.changes)


def _nothing_done(before: Job, after: Job) -> tuple[str, ...]:
    same = "Nothing is recorded."
    return (same,) if before == after else ("The job would differ, its numbers would not.", same)


def _differences(before: Tally, after: Tally, unit: str) -> list[Row]:
    """The parts of the tally that would change: name, now, then."""
    told = zip(_told(before, unit), _told(after, unit), strict=True)
    return [(name, now, then) for (name, now), (_, then) in told if now != then]


def _plan(job: Job) -> PourPlan | None:
    """The plan of the pour; None while there can be none."""
    if placing_of(job) is None:
        return None
    try:
        return plan_of(job)
    except Refusal:
        return None


def _plan_rows(before: PourPlan | None, after: PourPlan | None) -> list[Row]:
    """The parts of the plan that would change."""
    told = zip(_plan_told(before), _plan_told(after), strict=True)
    return [(name, now, then) for (name, now), (_, then) in told if now != then]


def _plan_told(plan: PourPlan | None) -> list[tuple[str, str]]:
    none = "-"
    return [
        ("edges lost", none if plan is None else str(len(plan.lost))),
        ("strips", none if plan is None else str(len(plan.strips))),
        ("pouring", none if plan is None else shown_length(timedelta(minutes=plan.minutes))),
        ("longest edge wait", none if plan is None else _longest_wait(plan)),
        ("start", none if plan is None else plan.way.start),
    ]


def _longest_wait(plan: PourPlan) -> str:
    waits = [each.strip.edge_wait_min for each in plan.strips]
    longest = max((wait for wait in waits if wait is not None), default=None)
    return "-" if longest is None else f"{wording.figure(longest, 0)} min"


def _told(tally: Tally, unit: str) -> list[tuple[str, str]]:
    depths, made = tally.depths, tally.material
    none = "-"
    return [
        ("mean depth", depth_cell(depths.mean, unit) if depths else none),
        ("least depth", depth_cell(depths.least, unit) if depths else none),
        ("most depth", depth_cell(depths.most, unit) if depths else none),
        ("volume", none if tally.volume_m3 is None else wording.volume(tally.volume_m3, unit)),
        ("bags", str(made.bags) if made else none),
        ("cost", tally.cost.in_words() if tally.cost else none),
        ("weight", short_weight(made.mass_kg_per_m2, unit) if made else none),
        ("points read", str(tally.points)),
        ("points missing", str(tally.missing)),
        ("floor", none if tally.area_m2 is None else wording.area(tally.area_m2, unit)),
        ("product", tally.product or none),
    ]


def _headline(
    rows: list[Row], gone: tuple[LimitWarning, ...], come: tuple[LimitWarning, ...]
) -> str:
    told = [f"{name} {now} to {then}" for name, now, then in rows if name in ("mean depth", "bags")]
    told = told or [f"{name} {now} to {then}" for name, now, then in rows[:2]]
    if gone:
        told.append(f"{wording.counted(len(gone), 'warning')} gone")
    if come:
        told.append(f"{wording.counted(len(come), 'new warning')}")
    return ", ".join(told)


def _warning_lines(
    gone: tuple[LimitWarning, ...], come: tuple[LimitWarning, ...]
) -> tuple[str, ...]:
    lines = [f"Gone: {warning.message}" for warning in gone]
    if come:
        lines.append(f"Would come: {wording.counted(len(come), 'warning')}, below.")
    return tuple(lines)


def _spoken(
    before: Tally,
    after: Tally,
    unit: str,
    gone: tuple[LimitWarning, ...],
    come: tuple[LimitWarning, ...],
    plans: tuple[PourPlan | None, PourPlan | None],
) -> ToSay:
    parts: list[SpokenSentence | str] = []
    if after.depths is not None and before.depths != after.depths:
        parts.append(f"mean would be {spoken_depth(after.depths.mean, unit)}")
    if after.material is not None and _bags(before) != after.material.bags:
        parts.append(f"{wording.spoken_count(after.material.bags, 'bag')}{_from(before)}")
    now, then = plans
    if then is not None and (now is None or len(now.strips) != len(then.strips)):
        parts.append(wording.spoken_count(len(then.strips), "strip"))
    if then is not None and len(then.lost) > (len(now.lost) if now else 0):
        parts.append(f"{wording.spoken_count(len(then.lost), 'edge')} lost")
    if gone:
        parts.append(f"{wording.spoken_count(len(gone), 'warning')} gone")
    return (*parts, *spoken_warnings(come)) or "Little would change."


def _bags(tally: Tally) -> int | None:
    return tally.material.bags if tally.material else None


def _from(before: Tally) -> str:
    bags = _bags(before)
    return "" if bags is None else f", not {wording.spoken_number(bags)}"


ANSWERS: dict[type[Command], Answerer] = {WhatIf: what_if}
