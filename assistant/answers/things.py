"""Answers about what stands on the floor, goes through it, or runs over it."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.events.readings import ReadingStruck
from assistant.events.things import (
    CrackRepaired,
    DrainPlaced,
    LineMarked,
    ObstacleAdded,
    OpeningPlugged,
)
from assistant.floor.geometry import area_of, area_to_pour
from assistant.floor.obstacles import shape_of
from assistant.floor.places import places_of
from assistant.floor.things_in_words import (
    kind_of,
    name_words,
    size_words,
    spoken_size,
    spoken_thing,
    spoken_where,
    where_words,
)
from assistant.floor.warnings import all_warnings, warnings_about
from assistant.job import Job
from assistant.job.things import Drain, JointOrCrack, Obstacle, Thing
from assistant.reply import wording
from assistant.reply.replies import Reply, Table
from assistant.units.lengths import metres
from grammar.commands import Command
from grammar.commands.things import (
    AddCrack,
    AddDrain,
    AddJoint,
    AddJointAlong,
    AddJointBetween,
    AddObstacle,
    AskObstacles,
    DropThing,
    PlugOpening,
    RepairCrack,
)


def obstacle_added(moment: Moment, _command: AddObstacle) -> Reply:
    job, unit = moment.job, moment.unit
    event = next(event for event in moment.events if isinstance(event, ObstacleAdded))
    one = next(
        each
        for each in job.layout.things.obstacles
        if (each.kind, each.number) == (event.kind, event.number)
    )
    told = f"{name_words(one).capitalize()}, {size_words(one)} {where_words(one)}"
    spoken = f"{spoken_thing(one)}, {spoken_size(one)} {spoken_where(one)}."
    left = area_of(job.layout) or 0.0
    if not one.is_off_the_area:
        reply = Reply(
            f"{told}: to be plugged before the pour.",
            f"{spoken} To be plugged.",
            (
                _reach(one, unit),
                f"Once plugged it is poured over, so it stays in the area. When it is: "
                f"opening {one.number} plugged. What stays open is a hole.",
            ),
            data={"obstacle": _obstacle_data(one), "area_m2": left},
        )
        return with_matters(moment, reply)
    taken = (area_of(moment.before.layout) or 0.0) - left
    details = [
        _reach(one, unit),
        f"{wording.area(taken, unit)} off the floor; {wording.area(left, unit)} is poured.",
        *_points_lost(moment),
        *_parted(job),
    ]
    reply = Reply(
        f"{told}: off the area, the volume and the grid.",
        spoken,
        tuple(details),
        data={"obstacle": _obstacle_data(one), "area_m2": left},
    )
    return with_matters(moment, reply)


def _reach(one: Obstacle, unit: str) -> str:
    """From where to where it reaches, so that whoever taped it can tell a slip."""
    x, y, to_x, to_y = shape_of(one).bounds
    far = [wording.distance(round(each, 4) + 0.0, unit) for each in (x, to_x, y, to_y)]
    return (
        f"It reaches from {far[0]} to {far[1]} along the first side (letters), and from {far[2]} "
        f"to {far[3]} along the second (numbers)."
    )


def _points_lost(moment: Moment) -> list[str]:
    before, after = (places_of(job.layout).covered for job in (moment.before, moment.after))
    lost = tuple(name for name in after if name not in before)
    if not lost:
        return []
    struck = tuple(e.point for e in moment.events if isinstance(e, ReadingStruck))
    told = [f"Under it: {wording.join_names(lost)}, not to be read, and without a pin."]
    if struck:
        told.append(f"What was read at {wording.join_names(struck)} counts no more.")
    return told


def _parted(job: Job) -> list[str]:
    area = area_to_pour(job.layout)
    parts = 1 if area is None or area.geom_type == "Polygon" else len(area.geoms)
    return [f"The floor is in {parts} parts now."] if parts > 1 else []


def thing_dropped(moment: Moment, command: DropThing) -> Reply:
    job, unit = moment.job, moment.unit
    was, area = area_of(moment.before.layout), area_of(job.layout)
    before, after = (places_of(each.layout).covered for each in (moment.before, moment.after))
    back = tuple(name for name in before if name not in after)
    details = []
    if area is not None and area != was:
        details.append(f"{wording.area(area, unit)} is poured.")
    if back:
        are = "is a point" if len(back) == 1 else "are points"
        details.append(f"{wording.join_names(back)} {are} again, to be read.")
    reply = Reply(
        f"{command.kind.capitalize()} {command.number} dropped.",
        f"{command.kind} {wording.spoken_number(command.number)} dropped.",
        tuple(details),
        data={"dropped": {"kind": command.kind, "number": command.number}, "area_m2": area},
    )
    return with_matters(moment, reply)


def opening_plugged(moment: Moment, _command: PlugOpening) -> Reply:
    number = next(event.number for event in moment.events if isinstance(event, OpeningPlugged))
    return with_matters(
        moment,
        Reply(
            f"Opening {number} plugged, as said.",
            f"Opening {wording.spoken_number(number)} plugged.",
            ("What it is plugged with must hold the pour: look at it again before it begins.",),
            data={"opening": {"number": number, "plugged": True}},
        ),
    )


def drain_added(moment: Moment, _command: AddDrain) -> Reply:
    job, unit = moment.job, moment.unit
    event = next(event for event in moment.events if isinstance(event, DrainPlaced))
    drain = job.layout.things.drain(event.number)
    assert drain is not None  # it was placed just now
    over = job.finish_mm - drain.mm
    details = ["The finish as it is meets it."]
    if over:
        side = "over" if over > 0 else "under"
        details = [
            f"The finish as it is lies {wording.length(abs(over), unit)} {side} it. Towards it: "
            f"fall 1 percent towards {drain.point}, then best plane; or best finish."
        ]
    details.append(
        f"The drain is a height for the finish, no reading: the slab at {drain.point} is read "
        "beside it."
    )
    reply = Reply(
        f"Drain {drain.number} at {drain.point}, {wording.said_height(drain.height)}: the finish "
        "is to meet it.",
        f"Drain at {wording.spoken_name(drain.point)}, {wording.spoken_height(drain.height)}.",
        tuple(details),
        data={"drain": _drain_data(job, drain)},
    )
    return with_matters(moment, reply, warnings_about(all_warnings(job), "drain"))


def line_marked(
    moment: Moment, _command: AddJoint | AddJointAlong | AddJointBetween | AddCrack
) -> Reply:
    event = next(event for event in moment.events if isinstance(event, LineMarked))
    line = next(
        each
        for each in moment.job.layout.things.lines
        if (each.kind, each.number) == (event.kind, event.number)
    )
    reply = Reply(
        f"{name_words(line).capitalize()}, {where_words(line)}.",
        f"{spoken_thing(line)}, {spoken_where(line)}.",
        data={"line": _line_data(line)},
    )
    return with_matters(moment, reply)


def crack_repaired(moment: Moment, _command: RepairCrack) -> Reply:
    number = next(event.number for event in moment.events if isinstance(event, CrackRepaired))
    return with_matters(
        moment,
        Reply(
            f"Crack {number} repaired, as said.",
            f"Crack {wording.spoken_number(number)} repaired.",
            ("Whether that is enough is for whoever answers for the slab.",),
            data={"crack": {"number": number, "repaired": True}},
        ),
    )


# --- all of them ---------------------------------------------------------------------------


def obstacles_told(moment: Moment, _command: AskObstacles) -> Reply:
    job, things = moment.job, moment.job.layout.things
    every = things.every
    data: dict[str, Any] = {
        "obstacles": [_obstacle_data(one) for one in things.obstacles],
        "drains": [_drain_data(job, one) for one in things.drains],
        "lines": [_line_data(one) for one in things.lines],
        "area_m2": area_of(job.layout),
    }
    if not every:
        told = "Nothing is on record that stands on this floor, or goes through it."
        return Reply(told, "Nothing on the floor.", data=data)
    kinds = [kind_of(one) for one in every]
    counted = [(kinds.count(kind), kind) for kind in dict.fromkeys(kinds)]
    told = wording.join_names([wording.counted(count, kind) for count, kind in counted], most=8)
    spoken = [wording.spoken_count(count, kind) for count, kind in counted]
    rows = tuple(
        (name_words(one), _size(one), where_words(one).removeprefix("at "), _state(one))
        for one in every
    )
    area = area_of(job.layout)
    details = () if area is None else (f"{wording.area(area, moment.unit)} is poured.",)
    return Reply(
        f"On this floor: {told}.",
        (wording.join_names(spoken, most=8),),
        details,
        (Table("What is on the floor", ("What", "Size", "Where", ""), rows),),
        data=data,
    )


def _size(thing: Thing) -> str:
    if isinstance(thing, Obstacle):
        return size_words(thing)
    return wording.said_height(thing.height) if isinstance(thing, Drain) else ""


def _state(thing: Thing) -> str:
    if isinstance(thing, Obstacle):
        if thing.is_off_the_area:
            return "off the area"
        return "plugged" if thing.plugged else "to be plugged"
    if isinstance(thing, Drain):
        return "a height for the finish"
    if thing.kind == "joint":
        return "to be carried through"
    return "repaired" if thing.repaired else "to be looked at"


def _obstacle_data(one: Obstacle) -> dict[str, Any]:
    shape = shape_of(one)
    return {
        "kind": one.kind,
        "number": one.number,
        "round": one.second is None,
        "sides_m": [metres(side) for side in (one.first, one.second) if side is not None],
        "middle_m": [metres(one.along), metres(one.across)],
        "point": one.point,
        "area_m2": float(shape.area),
        "off_the_area": one.is_off_the_area,
        "plugged": one.plugged,
    }


def _drain_data(job: Job, drain: Drain) -> dict[str, Any]:
    return {
        "number": drain.number,
        "point": drain.point,
        "height_mm": float(drain.mm),
        "finish_over_it_mm": float(job.finish_mm - drain.mm),
    }


def _line_data(line: JointOrCrack) -> dict[str, Any]:
    places = [metres(each) for each in line.places]
    return {
        "kind": line.kind,
        "number": line.number,
        "points": [name for name in (line.start, line.end) if name is not None],
        "places_m": [places[row : row + 2] for row in range(0, len(places), 2)],
        "repaired": line.repaired,
    }


ANSWERS: dict[type[Command], Answerer] = {
    AddObstacle: obstacle_added,
    DropThing: thing_dropped,
    PlugOpening: opening_plugged,
    AddDrain: drain_added,
    AddJoint: line_marked,
    AddJointAlong: line_marked,
    AddJointBetween: line_marked,
    AddCrack: line_marked,
    RepairCrack: crack_repaired,
    AskObstacles: obstacles_told,
}
