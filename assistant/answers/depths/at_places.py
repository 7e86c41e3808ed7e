"""Answers about depth: at a point, at a place, shallowest and deepest."""

from __future__ import annotations

from fractions import Fraction

from assistant.answers.parts import (
    Answerer,
    Moment,
    about_depth,
    depth_cell,
    depth_words,
    spoken_depth,
)
from assistant.decide.readings import check_point, check_tied
from assistant.decide.room import check_inside
from assistant.errors import Refusal
from assistant.floor import warnings as checks
from assistant.floor.depths import depths_of
from assistant.floor.geometry import has_outline
from assistant.floor.places import places_of, point_here
from assistant.floor.surfaces import Surface, depth_mm_at, surface_of
from assistant.job import Job
from assistant.limits.cautions import cautions_at
from assistant.reply import wording
from assistant.reply.examples import ROOM, reading_of
from assistant.reply.replies import Reply, Table
from assistant.units.lengths import metres
from grammar.commands import Command
from grammar.commands.depths import AskDepthAtPlace, AskDepthAtPoint, AskHighSpots, AskLowSpots

MOST_SPOTS = 5
"""Most spots named: as many as can be remembered on the way to them."""


def depth_at_point(moment: Moment, command: AskDepthAtPoint) -> Reply:
    job, point = moment.job, command.point
    depth = depths_of(job).get(point)
    if depth is not None:
        return _read_depth(moment, point, depth)
    check_point(job, point)
    check_tied(job, point)
    if point not in places_of(job.layout).row:
        raise Refusal(
            f"{point} has no reading and no place yet. Read it: ",
            reading_of(point),
            ".",
            spoken=f"{wording.spoken_name(point)} has no reading and no place.",
        )
    surface = _surface(job)
    depth_mm = depth_mm_at(job, surface, *places_of(job.layout).xy(point))
    return _between(moment, point, wording.spoken_name(point), depth_mm)


def depth_at_place(moment: Moment, command: AskDepthAtPlace) -> Reply:
    job = moment.job
    check_inside(job, command.first, command.second)
    x_m, y_m = metres(command.first), metres(command.second)
    here = point_here(job.layout, x_m, y_m)
    if here is not None and here in depths_of(job):
        return _read_depth(moment, here, depths_of(job)[here])
    place = f"{wording.as_said(command.first)} by {wording.as_said(command.second)}"
    spoken = f"{wording.spoken_said(command.first)} by {wording.spoken_said(command.second)}"
    return _between(moment, place, spoken, depth_mm_at(job, _surface(job), x_m, y_m))


def _read_depth(moment: Moment, point: str, depth: Fraction) -> Reply:
    reading = moment.job.readings[point]
    return Reply(
        f"{point}: {depth_words(depth, moment.unit)}.",
        f"{wording.spoken_name(point)}, {spoken_depth(depth, moment.unit)}.",
        (f"Read there: {wording.said_height(reading.said)}.",),
        warnings=checks.warnings_about(checks.all_warnings(moment.job), point),
        data={"depth_mm": float(depth), "read": True},
    )


def _between(moment: Moment, place: str, spoken_place: str, depth_mm: float) -> Reply:
    rounded = round(depth_mm) if moment.unit == "mm" else depth_mm
    return Reply(
        f"{place}: {about_depth(depth_mm, moment.unit)}.",
        f"{spoken_place}, about {spoken_depth(rounded, moment.unit)}.",
        ("Not read; worked out from the points around it.",),
        data={"depth_mm": depth_mm, "read": False},
    )


def _surface(job: Job) -> Surface:
    surface = surface_of(job)
    if surface is not None:
        return surface
    if not has_outline(job.layout):
        raise Refusal(
            "No depth between points without a room. The room first: ",
            ROOM,
            ".",
            spoken="The room first.",
        )
    raise Refusal("No depth yet: no point of this floor has been read.")


# --- shallowest and deepest -------------------------------------------------------------


def high_spots(moment: Moment, _command: AskHighSpots) -> Reply:
    spots = sorted(depths_of(moment.job).items(), key=lambda spot: spot[1])[:MOST_SPOTS]
    grinding = checks.to_grind(moment.job)
    reply = _spots(moment, spots, "Highest", "high_spots")
    return Reply(
        reply.headline,
        reply.spoken,
        reply.details,
        reply.tables,
        warnings=grinding,
        cautions=cautions_at("grind") if grinding else (),
        data=reply.data,
    )


def low_spots(moment: Moment, _command: AskLowSpots) -> Reply:
    deepest = sorted(depths_of(moment.job).items(), key=lambda spot: -spot[1])[:MOST_SPOTS]
    reply = _spots(moment, deepest, "Lowest", "low_spots")
    warnings = checks.all_warnings(moment.job)
    deep = checks.warnings_about(warnings, "over-maximum", "over-aggregate-maximum")
    return reply.with_warnings(deep)


def _spots(moment: Moment, spots: list[tuple[str, Fraction]], what: str, key: str) -> Reply:
    unit = moment.unit
    data = {key: [{"point": point, "depth_mm": float(depth)} for point, depth in spots]}
    if not spots:
        return Reply("No readings yet.", data=data)
    point, depth = spots[0]
    rows = tuple((name, depth_cell(there, unit)) for name, there in spots)
    title = f"{what} points, by depth under the finish"
    return Reply(
        f"{what}: {point}, {depth_words(depth, unit)}.",
        f"{what}, {wording.spoken_name(point)}, {spoken_depth(depth, unit)}.",
        tables=(Table(title, ("Point", "Depth"), rows),),
        data=data,
    )


ANSWERS: dict[type[Command], Answerer] = {
    AskDepthAtPoint: depth_at_point,
    AskDepthAtPlace: depth_at_place,
    AskHighSpots: high_spots,
    AskLowSpots: low_spots,
}
