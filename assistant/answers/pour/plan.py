"""The plan of a pour: its strips, the edges that would be lost, and where bags stand."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Any

from assistant.answers.parts import Answerer, Moment
from assistant.answers.pour.pace import no_pace, rounded_m, shown_at, unread_points_note
from assistant.errors import Refusal
from assistant.floor.late_numpy import np
from assistant.floor.places import places_of
from assistant.floor.pour.bays import bay_at, zones_named
from assistant.floor.pour.edge_saved import Saving, savings_of
from assistant.floor.pour.placing import is_alone
from assistant.floor.pour.plan import PlannedStrip, PourPlan, plan_of
from assistant.floor.pour.progress import strips_done
from assistant.floor.pour.way import way_out_of
from assistant.floor.warnings import all_warnings, warning_kind, warning_subject
from assistant.job import Job
from assistant.reply import wording
from assistant.reply.replies import Reply, SpokenSentence, Table
from assistant.reply.times import shown_length, spoken_length
from grammar.commands import Command
from grammar.commands.pour import ShowPlan, ShowStrip

MOST_NAMED = 3
"""Lost edges named one by one."""
AT_THE_END_M = 1.5
"""A door so near the end of the way is at it: doors stand at the point next to them."""


def plan_told(moment: Moment, _command: ShowPlan) -> Reply:
    job = moment.job
    plan = plan_of(job)
    if plan.placing is None:
        return no_pace(moment, plan)
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
        *_bay_lines(job, plan),
        *_deep_lines(job),
        f"An edge waits {_limits(plan)} min at most (the working time on the card, less its "
        "mixing time). Strips run across; pour each from the same end.",
        *unread_points_note(job),
    )
    return Reply(
        f"{headline}.",
        tuple(spoken),
        details,
        (_table(moment, plan),),
        data=plan_data(job, plan),
    )


def _limits(plan: PourPlan) -> str:
    """How long an edge may wait, by each product's card."""
    limits = sorted({bay.edge_limit_min for bay in plan.floor})
    return " or ".join(wording.figure(limit, 1) for limit in limits)


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
    zoned, done = any(each.zones for each in plan.strips), strips_done(moment.job, plan)
    columns = ["Strip", "From", "To", "Bags", "Batches", "Min", "At min", "Edge waits"]
    rows = [
        (
            str(each.number),
            shown_at(moment, each.from_m),
            shown_at(moment, each.to_m),
            str(each.bags),
            str(each.batches),
            wording.figure(each.strip.minutes, 0),
            wording.figure(each.start_min, 0),
            "done" if each.number in done else _waits(each),
            *([wording.join_names(each.zones, 2)] if zoned else []),
        )
        for each in plan.strips
    ]
    return Table("Strips", (*columns, *(["Zone"] if zoned else [])), tuple(rows))


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
            f"{shown_at(moment, plan.front_m / size)} or so"
        )
    if saving.kind == "wider":
        return f"strips {shown_at(moment, saving.size)} wide"
    at = wording.join_names([shown_at(moment, each.to_m) for each in plan.lost], 4)
    return f"a dam at {at}, and what lies behind it another day"


def _first_saving_said(job: Job) -> tuple[str, ...]:
    for saving in savings_of(job):
        size = round(saving.size)
        if saving.kind == "mixers":
            return (f"{wording.spoken_count(size, 'mixer')} would save it",)
        if saving.kind == "pump":
            return (f"{wording.spoken_count(size, 'bag')} an hour would save it",)
        if saving.kind == "wider":
            return ("Wider strips would save it",)
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
        f"Alone you keep a strip of {shown_at(moment, rounded_m(moment.unit, widest))} wet along "
        f"the whole front of {shown_at(moment, plan.front_m)}, {area} at the mean depth of "
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
        why = "as nobody said where; start at column A"
        if out:
            why = "towards the way out"
        elif plan.way.deeper:
            why = "the deeper end, as nobody said where"
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


def _bay_lines(job: Job, plan: PourPlan) -> tuple[str, ...]:
    """Zones that are poured each by itself, and what each product takes."""
    alike = tuple({id(bay.alike): bay.alike for bay in plan.floor}.values())
    if len(alike) < 2:
        return _dam_lines(job, plan)
    order = ", then ".join(zones_named(each) for each in alike)
    lines = [
        f"In this order: {order}. Each has a finish or a product of its own, so it is poured by "
        "itself, with a dam where they meet."
    ]
    if len(plan.products) > 1:
        bags = (
            f"{name} {sum(each.bags for each in plan.strips if each.product == name)}"
            for name in plan.products
        )
        lines.append(f"Bags: {', '.join(bags)}. Different products never share a batch.")
    return tuple(lines)


def _dam_lines(job: Job, plan: PourPlan) -> tuple[str, ...]:
    """Which strips lie on which side of a dam along the way, by the points there."""
    if plan.bays < 2:
        return ()
    places, found = places_of(job.layout), []
    for bay in plan.floor:
        inside = [name for name in places.names if bay_at(plan.floor, places.xy(name)) is bay]
        names = sorted(inside, key=places.xy)
        numbers = [each.number for each in plan.strips if each.bay == bay.number]
        strips = f"strip {numbers[0]}"
        if len(numbers) > 1:
            strips = f"strips {numbers[0]} to {numbers[-1]}"
        found.append(f"{strips} at {names[0]} to {names[-1]}" if names else strips)
    return (f"In this order, with dams between: {', then '.join(found)}.",)


def _deep_lines(job: Job) -> tuple[str, ...]:
    """Points over the product's most depth, which are filled before."""
    points = [
        warning_subject(each)
        for each in all_warnings(job)
        if warning_kind(each) in ("over-maximum", "over-aggregate-maximum")
    ]
    if not points:
        return ()
    are = "is" if len(points) == 1 else "are"
    return (
        f"Deep places first: {wording.join_names(points, 4)} {are} over the product's maximum. "
        "Fill there in a lift of its own before strip 1, as the data sheet allows.",
    )


def strip_of_way_out(job: Job, plan: PourPlan) -> PlannedStrip | None:
    """The strip that the way out lies in; None where nobody said it, or it has no place."""
    out = way_out_of(job)
    if out is None or not plan.strips:
        return None
    at = float(np.dot(out, plan.way.direction)) - plan.whole.from_m
    bay = bay_at(plan.floor, out)
    strips = [each for each in plan.strips if each.bay == bay.number]
    if at > bay.to_m - AT_THE_END_M:
        return strips[-1]
    return next((each for each in strips if at <= each.to_m), None)


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
        "zones": list(each.zones),
        "product": each.product,
    }


def strip_told(moment: Moment, command: ShowStrip) -> Reply:
    plan = plan_of(moment.job)
    if plan.placing is None:
        return no_pace(moment, plan)
    each = strip_numbered(plan, command.strip)
    strip, unit = each.strip, moment.unit
    minutes = timedelta(minutes=max(round(strip.minutes), 1))  # as in the table
    waits = strip.edge_wait_min
    edge = "Its edge need not be met: a wall or a dam."
    if waits is not None:
        told = "too long, the edge is lost" if each.edge_lost else "in time"
        edge = (
            f"Its edge waits {wording.figure(waits, 0)} of "
            f"{wording.figure(strip.edge_limit_min, 0)} min at most: {told}."
        )
    return Reply(
        f"Strip {each.number}: {shown_at(moment, each.from_m)} to {shown_at(moment, each.to_m)}, "
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


ANSWERS: dict[type[Command], Answerer] = {
    ShowPlan: plan_told,
    ShowStrip: strip_told,
}
