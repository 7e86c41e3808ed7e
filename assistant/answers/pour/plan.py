"""The plan of a pour: its strips, the edges that would be lost, and where bags stand."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.errors import Refusal
from assistant.events.pour import WayOutSet
from assistant.floor.edge_saved import Saving, savings_of
from assistant.floor.late_numpy import np
from assistant.floor.placing import is_alone, placing_lacks
from assistant.floor.pour_plan import PlannedStrip, PourPlan, plan_of
from assistant.floor.pour_way import way_out_of
from assistant.floor.walk import points_missing
from assistant.job import Job
from assistant.pours.placing import BY_HAND_M2_H, BY_PUMP_M2_H
from assistant.reply import wording
from assistant.reply.replies import Reply, SpokenSentence, Table
from assistant.reply.times import shown_length, spoken_length
from grammar.commands import Command
from grammar.commands.pour import AskStaging, ShowPlan, ShowStrip

MOST_NAMED = 3
"""Lost edges named one by one."""
AT_THE_END_M = 1.5
"""A door so near the end of the way is at it: doors stand at the point next to them."""
PUBLISHED = "one independent trade article"


def plan_told(moment: Moment, _command: ShowPlan) -> Reply:
    job = moment.job
    plan = plan_of(job)
    if plan.placing is None:
        return _no_pace(moment, plan)
    count, bags = len(plan.strips), sum(each.bags for each in plan.strips)
    length = timedelta(minutes=plan.minutes)
    lost = plan.lost
    shown = f"{wording.counted(count, 'strip')}, {wording.counted(bags, 'bag')}, "
    headline = f"{shown}{shown_length(length)}"
    spoken: list[SpokenSentence | str] = [
        f"{wording.spoken_count(count, 'strip')}, {wording.spoken_count(bags, 'bag')}, "
        f"{spoken_length(length)}"
    ]
    if lost:
        headline += f"; {_edges(lost)} lost"
        spoken.append(SpokenSentence(f"{_edges_said(lost)} lost", needed=True))
        spoken += _first_saving_said(job)
    details = (
        *_lost_lines(moment, plan),
        *_alone_lines(moment, plan),
        *_way_lines(job, plan),
        f"An edge waits {wording.figure(plan.edge_limit_min, 1)} min at most (the working time on "
        "the card, less its mixing time). Strips run across; pour each from the same end.",
        *_missing(job),
    )
    return Reply(
        f"{headline}.",
        tuple(spoken),
        details,
        (_table(moment, plan),),
        data=plan_data(job, plan),
    )


def _edges(lost: Sequence[PlannedStrip]) -> str:
    if len(lost) > MOST_NAMED:
        return wording.counted(len(lost), "edge")
    names = wording.join_names([str(each.number) for each in lost])
    return f"the edge of strip {names}" if len(lost) == 1 else f"the edges of strips {names}"


def _edges_said(lost: Sequence[PlannedStrip]) -> str:
    if len(lost) == 1:
        return f"strip {wording.spoken_number(lost[0].number)}, edge"
    return f"{wording.spoken_count(len(lost), 'edge')}"


def _table(moment: Moment, plan: PourPlan) -> Table:
    rows = tuple(
        (
            str(each.number),
            _far(moment, each.from_m),
            _far(moment, each.to_m),
            str(each.bags),
            str(each.batches),
            wording.figure(each.strip.minutes, 0),
            wording.figure(each.start_min, 0),
            _waits(each),
        )
        for each in plan.strips
    )
    columns = ("Strip", "From", "To", "Bags", "Batches", "Min", "At min", "Edge waits")
    return Table("Strips", columns, rows)


def _far(moment: Moment, at_m: float) -> str:
    return wording.distance(at_m, moment.unit)


def _waits(each: PlannedStrip) -> str:
    wait = each.strip.edge_wait_min
    if wait is None:
        return "-"
    return f"{wording.figure(wait, 0)} min{', LOST' if each.edge_lost else ''}"


def _lost_lines(moment: Moment, plan: PourPlan) -> tuple[str, ...]:
    if not plan.lost:
        return ()
    found = savings_of(moment.job)
    ways = [_saving_words(moment, plan, saving) for saving in found]
    if not ways:
        return ("No single change was found that keeps every edge wet.",)
    return (f"Any one of these keeps every edge wet: {'; '.join(ways)}.",)


def _saving_words(moment: Moment, plan: PourPlan, saving: Saving) -> str:
    size = round(saving.size)
    if saving.kind == "mixers":
        return f"mixers {size}, crew {size + 1}"
    if saving.kind == "pump":
        return f"a pump of {size} bags an hour"
    if saving.kind == "bays":
        return (
            f"{wording.counted(size - 1, 'dam')} along the way of the pour, so that the front is "
            f"{_far(moment, plan.front_m / size)} or so"
        )
    if saving.kind == "narrower":
        return f"strips {_far(moment, saving.size)} wide"
    at = wording.join_names([_far(moment, each.to_m) for each in plan.lost], 4)
    return f"a dam at {at}, and what lies behind it another day"


def _first_saving_said(job: Job) -> tuple[str, ...]:
    for saving in savings_of(job):
        size = round(saving.size)
        if saving.kind == "mixers":
            return (f"{wording.spoken_count(size, 'mixer')} would save it",)
        if saving.kind == "pump":
            return (f"{wording.spoken_count(size, 'bag')} an hour would save it",)
        if saving.kind == "narrower":
            return ("Narrower strips would save it",)
        if saving.kind == "bays":
            return (f"{wording.spoken_count(size - 1, 'dam')} along the way would save it",)
    return ("The screen says what saves it",)


def _alone_lines(moment: Moment, plan: PourPlan) -> tuple[str, ...]:
    """The largest strip that one person keeps wet."""
    if not is_alone(moment.job):
        return ()
    widest = widest_kept_m(plan)
    mean = plan.whole.volume_m3 / plan.whole.area_m2
    area = wording.area(widest * plan.front_m, moment.unit)
    return (
        f"Alone you keep a strip of {_far(moment, round(widest, 2))} wet along the whole front of "
        f"{_far(moment, plan.front_m)}, {area} at the mean depth of "
        f"{wording.length(mean * 1000, moment.unit)}.",
    )


def widest_kept_m(plan: PourPlan) -> float:
    """The widest strip that the crew keeps wet, at the mean depth and along the longest front."""
    from assistant.pours.strips import Pace, widest_m

    assert plan.placing is not None
    pace = Pace(plan.placing.bags_per_min * plan.bag_m3, plan.edge_limit_min)
    return widest_m(pace, plan.whole.volume_m3 / plan.whole.area_m2, plan.front_m)


def _way_lines(job: Job, plan: PourPlan) -> tuple[str, ...]:
    """Where it begins, and a way out that does not lie at its end."""
    lines = []
    if not plan.way.said:
        out = way_out_of(job)
        why = "towards the way out" if out else "as nobody said where; start at column A"
        lines.append(f"It starts at {plan.way.start}, {why}.")
    else:
        lines.append(f"It starts at {plan.way.start}.")
    blocked = strip_of_way_out(job, plan)
    if blocked is not None and blocked.number < len(plan.strips):
        lines.append(
            f"The way out lies in strip {blocked.number}: whoever pours strips "
            f"{blocked.number + 1} to {len(plan.strips)} would leave over wet floor. Start at the "
            "other side, or say another way out."
        )
    return tuple(lines)


def strip_of_way_out(job: Job, plan: PourPlan) -> PlannedStrip | None:
    """The strip that the way out lies in; None where nobody said it, or it has no place."""
    out = way_out_of(job)
    if out is None or not plan.strips:
        return None
    at = float(np.dot(out, plan.way.direction)) - plan.whole.from_m
    end = max(each.to_m for each in plan.strips)
    if at > end - AT_THE_END_M:
        return plan.strips[-1]
    return next((each for each in plan.strips if at <= each.to_m), None)


def _missing(job: Job) -> tuple[str, ...]:
    missing = points_missing(job)
    return (f"{wording.counted(len(missing), 'point')} not read yet.",) if missing else ()


def _no_pace(moment: Moment, plan: PourPlan) -> Reply:
    """What the plan would need, and the one published rate beside it."""
    lacks = placing_lacks(moment.job)
    mean_m = plan.whole.volume_m3 / plan.whole.area_m2
    a_metre = mean_m * plan.front_m / plan.bag_m3
    needs = a_metre / plan.edge_limit_min * 60
    unit = moment.unit
    hand, pump = (rate * mean_m / plan.bag_m3 for rate in (BY_HAND_M2_H, BY_PUMP_M2_H))
    metre = wording.distance(1.0, "mm") if unit != "in" else "3 ft 3 3/8 in"
    return Reply(
        "No plan yet: how fast you place it is not said.",
        "No plan yet. Say mixers, batches and minutes.",
        (
            f"Say {', '.join(lacks)}; or pump 60 bags per hour.",
            f"What it would need: a strip {metre} wide along the front of "
            f"{_far(moment, plan.front_m)} takes {wording.figure(a_metre, 1)} bags; to keep its "
            f"edge wet ({wording.figure(plan.edge_limit_min, 1)} min), "
            f"{wording.figure(needs, 0)} bags an hour.",
            f"For scale: {PUBLISHED} has three people mixing by hand place "
            f"{wording.area(BY_HAND_M2_H, unit)} an hour, and with a pump "
            f"{wording.area(BY_PUMP_M2_H, unit)}; at this mean depth that is "
            f"{wording.figure(hand, 0)} and {wording.figure(pump, 0)} bags an hour.",
            *_missing(moment.job),
        ),
        data={
            "strips": [],
            "edge_lost": [],
            "needs": {
                "bags_per_hour_for_a_metre": needs,
                "edge_limit_min": plan.edge_limit_min,
                "published_m2_per_hour": {"by_hand": BY_HAND_M2_H, "by_pump": BY_PUMP_M2_H},
                "lacks": list(lacks),
            },
        },
    )


def plan_data(job: Job, plan: PourPlan) -> dict[str, Any]:
    """The plan for programs."""
    return {
        "strips": [strip_data(each) for each in plan.strips],
        "edge_lost": [
            {
                "strip": each.number,
                "at_m": each.to_m,
                "edge_wait_min": each.strip.edge_wait_min,
                "edge_limit_min": each.strip.edge_limit_min,
            }
            for each in plan.lost
        ],
        "saved_by": [{"change": each.kind, "size": each.size} for each in savings_of(job)],
        "plan": {
            "start": plan.way.start,
            "bags": plan.bags,
            "minutes": plan.minutes,
            "front_m": plan.front_m,
            "bays": plan.bays,
            "widest_strip_m": widest_kept_m(plan),
        },
    }


def strip_data(each: PlannedStrip) -> dict[str, Any]:
    """One strip for programs."""
    strip = each.strip
    return {
        "id": each.number,
        "from_m": each.from_m,
        "to_m": each.to_m,
        "area_m2": strip.area_m2,
        "litres": strip.volume_m3 * 1000,
        "bags": each.bags,
        "batches": each.batches,
        "minutes": strip.minutes,
        "start_min": each.start_min,
        "edge_wait_min": strip.edge_wait_min,
        "edge_limit_min": strip.edge_limit_min,
        "bay": each.bay,
    }


def strip_told(moment: Moment, command: ShowStrip) -> Reply:
    plan = plan_of(moment.job)
    if plan.placing is None:
        return _no_pace(moment, plan)
    each = strip_numbered(plan, command.strip)
    strip, unit = each.strip, moment.unit
    minutes = timedelta(minutes=strip.minutes)
    waits = strip.edge_wait_min
    edge = "Its edge need not be met: a wall or a dam."
    if waits is not None:
        told = "too long, the edge is lost" if each.edge_lost else "in time"
        edge = (
            f"Its edge waits {wording.figure(waits, 0)} of "
            f"{wording.figure(strip.edge_limit_min, 0)} min at most: {told}."
        )
    return Reply(
        f"Strip {each.number}: {_far(moment, each.from_m)} to {_far(moment, each.to_m)}, "
        f"{wording.counted(each.bags, 'bag')}, {shown_length(minutes)}.",
        f"Strip {wording.spoken_number(each.number)}, to "
        f"{wording.spoken_distance(each.to_m, unit)}. "
        f"{wording.spoken_count(each.bags, 'bag')}, {spoken_length(minutes)}.",
        (
            f"{wording.area(strip.area_m2, unit)}, {wording.volume(strip.volume_m3, unit)}, "
            f"{wording.counted(each.batches, 'batch', 'batches')}.",
            f"It begins {shown_length(timedelta(minutes=each.start_min))} after the first bag."
            if each.start_min
            else "It is the first.",
            edge,
        ),
        data={"strip": strip_data(each)},
    )


def strip_numbered(plan: PourPlan, number: int) -> PlannedStrip:
    """A strip of the plan, or a refusal that says how many there are."""
    if not 1 <= number <= len(plan.strips):
        raise Refusal(
            f"The plan has {wording.counted(len(plan.strips), 'strip')}, not {number}.",
            spoken=f"There is no strip {wording.spoken_number(number)}.",
        )
    return plan.strips[number - 1]


def staging_told(moment: Moment, _command: AskStaging) -> Reply:
    """Bags of each strip beyond its far edge, on floor that is dry until the next begins."""
    job = moment.job
    plan = plan_of(job)
    if plan.placing is None:
        return _no_pace(moment, plan)
    out = job.setting(WayOutSet)
    outside = f"outside door {out.door}" if out else "outside the way out"
    rows = []
    for each, after in zip(plan.strips, (*plan.strips[1:], None), strict=True):
        where = outside
        if after is not None:
            where = f"on strip {after.number}, past {_far(moment, each.to_m)}"
        rows.append((str(each.number), str(each.bags), where))
    last = plan.strips[-1]
    inside = sum(each.bags for each in plan.strips[:-1])
    mix = job.card.water_l if job.card else (0.0, 0.0)
    return Reply(
        f"{wording.counted(inside, 'bag')} inside, each strip's past its far edge; "
        f"{last.bags} {outside}.",
        f"{wording.spoken_count(inside, 'bag')} inside, "
        f"{wording.spoken_number(last.bags)} outside.",
        (
            "Each strip is poured from floor that is still dry; nobody has to step back over it. "
            "On primed floor bags stand on boards.",
            f"Water a bag: {wording.liquid(moment.unit, *mix, places=2)} on the card; one figure "
            "for the whole pour.",
        ),
        (Table("Bags", ("Strip", "Bags", "Where"), tuple(rows)),),
        data={
            "staging": [
                {"strip": each.number, "bags": each.bags,
                 "past_m": each.to_m if each is not last else None}
                for each in plan.strips
            ]
        },
    )  # fmt: skip


ANSWERS: dict[type[Command], Answerer] = {
    ShowPlan: plan_told,
    ShowStrip: strip_told,
    AskStaging: staging_told,
}
