"""Answers about parts of the floor with a name."""

from __future__ import annotations

from typing import Any

from assistant.answers.material.product import bags_words, card_details, spoken_bags
from assistant.answers.parts import Answerer, Moment, depth_range, spoken_depth, with_matters
from assistant.answers.zones.tables import parts_data, parts_table, rounded_up_words
from assistant.floor.depths import finish_mm_of
from assistant.floor.geometry import area_of
from assistant.floor.tally import aggregate_of, tally_of
from assistant.floor.warnings import all_warnings, warning_kind, warning_subject, warnings_about
from assistant.floor.zones import in_zone, part_names, points_in
from assistant.job import Job
from assistant.job.zones import REST
from assistant.reply import wording
from assistant.reply.replies import LimitWarning, Reply
from grammar.commands import Command
from grammar.commands.zones import (
    AddZone,
    AskZones,
    DropZone,
    SetZoneFinish,
    SetZoneProduct,
)


def zone_added(moment: Moment, command: AddZone) -> Reply:
    job, unit, name = moment.job, moment.unit, command.name
    zone, points = job.layout.zones[name], points_in(job, name)
    area_m2 = area_of(in_zone(job, name).layout) or 0.0
    count = wording.counted(len(points), "point")
    details = [_edges_words(job, name)]
    if REST in part_names(job):
        left = area_of(in_zone(job, REST).layout) or 0.0
        details.append(f"In no zone: {wording.area(left, unit)}, as rest.")
    else:
        details.append("All of the floor is in zones now.")
    reply = Reply(
        f"{_title(name)}: {zone.said}, {wording.area(area_m2, unit)}, {count}.",
        (_spoken_title(name), wording.spoken_count(len(points), "point")),
        tuple(details),
        data={"zone": {"name": name, "area_m2": area_m2, "points": list(points)}},
    )
    return with_matters(moment, reply)


def _title(name: str) -> str:
    return wording.sentence(name if name.startswith("zone ") else f"zone {name}").rstrip(".")


def _spoken_title(name: str) -> str:
    return wording.spoken_zone(name if name.startswith("zone ") else f"zone {name}")


def _edges_words(job: Job, name: str) -> str:
    zone = job.layout.zones[name]
    if zone.side is not None:
        return "It ends at the line itself; points on the line are in it."
    if None in (*zone.along, *zone.across):
        return "It ends half way to the next columns and rows, and at the walls."
    return "It ends half way to the next columns and rows."


def zone_dropped(moment: Moment, command: DropZone) -> Reply:
    job, name = moment.job, command.name
    had = moment.before.zones.pour_in(name)
    own = ["finish"] * (had.finish_mm is not None) + ["product"] * (had.card is not None)
    details = [f"Its own {wording.join_names(own)} went with it."] if own else []
    left = tuple(job.layout.zones)
    details.append(f"Zones left: {wording.join_names(left)}." if left else "No zone is left.")
    reply = Reply(
        f"{_title(name)} is dropped.",
        f"Dropped {wording.spoken_zone(name)}.",
        tuple(details),
        data={"dropped": name, "zones": parts_data(job)},
    )
    return with_matters(moment, reply)


def zones_told(moment: Moment, _command: AskZones) -> Reply:
    job, unit = moment.job, moment.unit
    if not job.layout.zones:
        return Reply(
            "No zones. To name a part of the floor: zone kitchen A1 to C3.",
            "No zones.",
            data={"zones": []},
        )
    names = tuple(job.layout.zones)
    rest = ", and the rest" if REST in part_names(job) else ""
    told = [f"{name}: {zone.said}." for name, zone in job.layout.zones.items()]
    said = [wording.spoken_zone(name) for name in names[:4]]
    if len(names) > 4:
        said.append(f"and {wording.spoken_number(len(names) - 4)} more")
    return Reply(
        f"{wording.counted(len(names), 'zone')}: {wording.join_names(names)}{rest}.",
        (wording.spoken_count(len(names), "zone"), ", ".join(said)),
        (*told, *rounded_up_words(job)),
        (parts_table(job, unit),),
        data={"zones": parts_data(job)},
    )


def zone_finish_set(moment: Moment, command: SetZoneFinish) -> Reply:
    job, unit, name = moment.job, moment.unit, command.zone
    finish = finish_mm_of(job, name)
    headline = f"Finish in {name} {wording.height(finish, unit)}."
    spoken = f"Finish in {wording.spoken_zone(name)} {wording.spoken_worked_height(finish, unit)}."
    depths = tally_of(in_zone(job, name)).depths
    if depths is not None:
        headline += f" {depth_range(depths, unit)}"
        spoken += f" Depth {spoken_depth(depths.least, unit)} to {spoken_depth(depths.most, unit)}."
    steps = steps_about(job, name)
    details = [] if steps else ["It is flush with what it meets."]
    moved = finish - finish_mm_of(moment.before, name)
    data: dict[str, Any] = {
        "finish": {"zone": name, "finish_mm": float(finish), "moved_mm": float(moved)},
        "zones": parts_data(job),
    }
    reply = Reply(headline, spoken, tuple(details), data=data)
    return with_matters(moment, reply, steps)


def steps_about(job: Job, zone: str) -> tuple[LimitWarning, ...]:
    """Warnings of steps between a zone and what it meets."""
    return tuple(
        warning
        for warning in all_warnings(job)
        if warning_kind(warning) == "zone-step" and zone in warning_subject(warning).split("/")
    )


def zone_product_chosen(moment: Moment, command: SetZoneProduct) -> Reply:
    job, unit, name = moment.job, moment.unit, command.zone
    part = in_zone(job, name)
    card = part.card
    assert card is not None  # it was just chosen
    depths = f"{wording.length(card.min_mm, unit)} to {wording.length(card.max_mm, unit)}"
    bags = bags_words(part)
    details = card_details(card, unit)
    if job.aggregate_percent and not aggregate_of(part):
        share = wording.percent(job.aggregate_percent)
        details.append(f"Poured neat in {name}: this card does not allow {share} aggregate.")
    details += [card.note] if card.note else []
    reply = Reply(
        f"Product in {name} {card.name}: {depths} deep.{' ' + bags if bags else ''}",
        (f"{wording.spoken_zone(name)}, product {card.name}", spoken_bags(part)),
        tuple(details),
        data={"zone": name, "product": card.as_dict(), "zones": parts_data(job)},
    )
    return with_matters(moment, reply, warnings_about(all_warnings(job), "pin-spacing"))


ANSWERS: dict[type[Command], Answerer] = {
    AddZone: zone_added,
    DropZone: zone_dropped,
    AskZones: zones_told,
    SetZoneFinish: zone_finish_set,
    SetZoneProduct: zone_product_chosen,
}
