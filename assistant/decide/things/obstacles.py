"""What stands on the floor, and takes of the area that is poured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.decide.parts import Decider, Decision, World, length_of
from assistant.decide.questions import HowBig, YesOrNo
from assistant.decide.readings import check_point
from assistant.decide.room import layout_after, room_words
from assistant.errors import Refusal
from assistant.events.kinds import Event
from assistant.events.readings import ReadingStruck
from assistant.events.things import (
    ObstacleAdded,
)
from assistant.floor.geometry import outline_of
from assistant.floor.obstacles import shape_of
from assistant.floor.places import place_of_point, places_of
from assistant.job import Job, Layout, is_poured
from assistant.job.things import OFF_THE_AREA, Obstacle
from assistant.reply import wording
from assistant.reply.examples import GRID, ROOM, place_of
from assistant.units.lengths import exact_mm
from assistant.units.measures import measure_of, measured_m
from grammar.commands import Change, Command, Measure
from grammar.commands.things import (
    AddObstacle,
)

if TYPE_CHECKING:
    from shapely import Polygon

TAPE_M = 0.010
"""As far as things taped by hand may stand out of a wall or into each other, and still be what was
meant. Common practice, no source; the same as for the walls of a room."""
LARGE_PART = 0.5
"""Part of the floor that one thing hardly covers: asked about. Our own choice, no source."""


def thing_name(kind: str, number: int) -> str:
    """As it is shown: ``column 1``."""
    return f"{kind} {number}"


def said_thing(kind: str, number: int) -> str:
    """As it is said: ``column one``."""
    return f"{kind} {wording.spoken_number(number)}"


def add_obstacle(job: Job, command: AddObstacle, _world: World) -> Decision:
    if outline_of(job.layout) is None:
        raise Refusal("The room first: ", ROOM, ".", spoken="The room first.")
    if command.first is None:
        if command.point is not None:
            place_measured(job, command.point)
        asked = f"How big is the {command.kind}?"
        return Decision(ask=HowBig(f"{asked} Its sides, or how far it is across.", asked, command))
    if command.kind in OFF_THE_AREA:
        check_not_poured(job)
    added = _added(job, command)
    shape = _checked_shape(job, command, added)
    layout = layout_after(job, added)
    covered = [name for name in job.readings if name in places_of(layout).covered]
    _check_fixed(job, layout, command.kind)
    struck = tuple(ReadingStruck(name) for name in covered)
    events: tuple[Event, ...] = (added, *struck)
    return Decision(events, _question(job, command, added, shape, covered))


def check_not_poured(job: Job) -> None:
    """Refuse a change of the area, or of what the finish meets, once the slab is covered."""
    if is_poured(job) and job.readings:
        raise Refusal(
            "The pour is finished: its area, and the drains it had to meet, stay as they were.",
            spoken="The pour is finished. Its area and drains stay.",
        )


def _added(job: Job, command: AddObstacle) -> ObstacleAdded:
    kind = command.kind
    assert command.first is not None  # it was asked for
    first = length_of(command.first, f"A side of the {kind}")
    second = None if command.second is None else length_of(command.second, f"A side of the {kind}")
    if command.shape == "square":
        second = first
    along, across = _middle(job, command, first, second)
    number = job.layout.things.next_number(kind)
    return ObstacleAdded(kind, number, first, second, along, across, command.point)


def _middle(
    job: Job, command: AddObstacle, first: Measure, second: Measure | None
) -> tuple[Measure, Measure]:
    if command.point is not None:
        return place_measured(job, command.point)
    assert command.along is not None  # a place is said where no point is
    assert command.across is not None
    if command.placed != "corner":
        return command.along, command.across
    return (_from_corner(command.along, first), _from_corner(command.across, second or first))


def _from_corner(corner: Measure, side: Measure) -> Measure:
    """The middle of a side that begins at a corner, exactly."""
    if corner.unit == side.unit:
        return Measure(corner.number + side.number / 2, corner.unit)
    # A length is a decimal, or a fraction of an inch, so half of it is a decimal in metres.
    exact = (exact_mm(corner) + exact_mm(side) / 2) / 1000
    return measure_of(exact, "m")


def place_measured(job: Job, point: str) -> tuple[Measure, Measure]:
    """The place of a point as it is recorded, so that it stays when the points are laid anew."""
    place = place_of_point(job.layout, point)
    if place is None:
        if not places_of(job.layout).names:
            raise Refusal(
                f"{point} has no place yet. Set a grid: ",
                GRID,
                ", or say where it is in metres from the corner.",
                spoken=f"{wording.spoken_name(point)} has no place yet.",
            )
        check_point(job, point)
        raise Refusal(
            f"{point} has no place yet: ",
            place_of(point),
            ".",
            spoken=f"{wording.spoken_name(point)} has no place yet.",
        )
    x, y = (measured_m(each) for each in place)
    return x, y


def _as_obstacle(added: ObstacleAdded) -> Obstacle:
    return Obstacle(
        added.kind, added.number, added.first, added.second, added.along, added.across, added.point
    )


def _checked_shape(job: Job, command: AddObstacle, added: ObstacleAdded) -> Polygon:
    """Its shape, in the room and clear of all others; else a refusal."""
    import shapely

    shape, outline = shape_of(_as_obstacle(added)), outline_of(job.layout)
    room = shapely.Polygon(outline)
    if not shape.intersection(room).area > 0:
        raise Refusal(
            f"That {command.kind} is outside {room_words(job)}. Its place is that of its middle, "
            "from the corner at A1.",
            spoken=f"That {command.kind} is outside the room.",
        )
    for other in job.layout.things.obstacles:
        over = shape.intersection(shape_of(other))
        # Less than a tape can tell apart is touching.
        if over.buffer(-TAPE_M / 2).is_empty:
            continue
        name = thing_name(other.kind, other.number)
        raise Refusal(
            f"That {command.kind} would stand in {name}: they share "
            f"{wording.area(over.area, job.reading_unit)}. If {name} is wrong: drop {name}.",
            spoken=f"That would stand in {said_thing(other.kind, other.number)}.",
        )
    return shape


def _check_fixed(job: Job, layout: Layout, kind: str) -> None:
    """Refuse to cover a drain, or a point whose height is fixed."""
    gone = [name for name in job.survey.fixed if name in places_of(layout).covered]
    if not gone:
        return
    drains = {drain.point: drain.number for drain in layout.things.drains}
    point = gone[0]
    what = thing_name("drain", drains[point]) if point in drains else "the height of the finish"
    raise Refusal(
        f"That {kind} would cover {point}, where {what} is set.",
        spoken=f"That would cover {wording.spoken_name(point)}.",
    )


def _question(
    job: Job, command: Command, added: ObstacleAdded, shape: Polygon, covered: list[str]
) -> YesOrNo | None:
    """Asks about what looks like a slip, or takes readings with it."""
    import shapely

    room = shapely.Polygon(outline_of(job.layout))
    doubts: list[tuple[str, str]] = []
    if (out := _sticks_out_m(shape, room)) > TAPE_M:
        far = wording.distance(out, job.reading_unit)
        doubts.append(
            (
                f"It stands {far} out of the room, and only what is inside counts.",
                "It stands out of the room.",
            )
        )
    if added.kind in OFF_THE_AREA and shape.area > LARGE_PART * room.area:
        doubts.append(
            (
                f"It covers {wording.area(shape.area, job.reading_unit)} of "
                f"{wording.area(room.area, job.reading_unit)}.",
                "It covers most of the room.",
            )
        )
    if covered:
        points = wording.counted(len(covered), "point that has been read", "points that were read")
        what = "Its reading counts" if len(covered) == 1 else "Their readings count"
        doubts.append(
            (
                f"It covers {points}: {wording.join_names(covered)}. {what} no more.",
                f"It covers {wording.spoken_count(len(covered), 'read point')}.",
            )
        )
    doors = [
        number
        for number, door in sorted(job.doors.items())
        if door.point in places_of(layout_after(job, added)).covered
    ]
    if doors:
        doubts.append(
            (
                f"Door {doors[0]} was placed at a point that it covers.",
                f"It covers door {wording.spoken_number(doors[0])}.",
            )
        )
    if not doubts:
        return None
    name = thing_name(added.kind, added.number)
    text = " ".join(long for long, _ in doubts)
    return YesOrNo(
        f"{wording.sentence(name)[:-1]}? {text} Confirm, or cancel that.",
        f"{doubts[0][1]} Confirm, or cancel that.",
        command,
    )


def _sticks_out_m(shape: Polygon, room: Polygon) -> float:
    """How far a shape reaches out of the room, metres."""
    import shapely

    corners = shapely.points(shapely.get_coordinates(shape))
    return float(shapely.distance(corners, room).max())


DECIDERS: dict[type[Change], Decider] = {
    AddObstacle: add_obstacle,
}
