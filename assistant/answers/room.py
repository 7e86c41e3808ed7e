"""Answers about the room and its points."""

from __future__ import annotations

from typing import Any

from assistant.answers.parts import Answerer, Moment, with_matters
from assistant.events.room import RoomClosed
from assistant.floor.geometry import area_of, gap_m, has_outline, is_inside, outline_of, perimeter_m
from assistant.floor.obstacles import obstacles_outside
from assistant.floor.places import Places, grid_of, places_of
from assistant.floor.steps import cell_of
from assistant.floor.things_in_words import name_words
from assistant.job import Job, WalkedRoom
from assistant.reply import wording
from assistant.reply.replies import Reply
from assistant.units.lengths import metres
from grammar.commands import Command, Measure
from grammar.commands.room import AddPoint, AddWall, CloseRoom, SetGrid, SetRoom


def _system(moment: Moment, *said: Measure) -> str:
    """``mm`` or ``in``: the system in which lengths were just said, that a reply about them goes
    on in; the job's own where they were said in both or with no unit."""
    systems = {"in" if measure.unit in ("in", "ft", "ft-in") else "mm" for measure in said}
    named = all(measure.unit for measure in said)
    return systems.pop() if named and len(systems) == 1 else moment.unit


def room_set(moment: Moment, command: SetRoom) -> Reply:
    area_m2 = area_of(moment.job.layout) or 0.0
    first, second = command.first, command.second
    unit = _system(moment, first, second)
    reply = Reply(
        f"Room {wording.as_said(first)} by {wording.as_said(second)}, "
        f"{wording.area(area_m2, unit)}.",
        f"Room {wording.spoken_said(first)} by {wording.spoken_said(second)}.",
        (*_grid_again(moment, unit), *_outside(moment)),
        data={"room": {"area_m2": area_m2}},
    )
    return with_matters(moment, reply)


def wall_added(moment: Moment, command: AddWall) -> Reply:
    room = moment.job.layout.room
    walls = room.walls if isinstance(room, WalkedRoom) else ()
    gap = gap_m(walls)
    details = [_how_far(gap, _system(moment, *(wall.length for wall in walls)))]
    if moment.before.layout.room is not None and len(walls) == 1:
        details.append("A new outline begins; the room before no longer counts.")
    reply = Reply(
        f"Wall {len(walls)} {command.direction}, {wording.as_said(command.length)}.",
        f"Wall {command.direction} {wording.spoken_said(command.length)}.",
        tuple(details),
        data={"walls": {"count": len(walls), "to_start_m": gap}},
    )
    return with_matters(moment, reply)


def _how_far(gap: float, unit: str) -> str:
    # Half a millimetre, as less cannot be read off a tape.
    if gap < 0.0005:
        return "The walls are back at the start: close room."
    return f"The walls end {wording.distance(gap, unit)} from the start."


def room_closed(moment: Moment, _command: CloseRoom) -> Reply:
    room = moment.job.layout.room
    walls = room.walls if isinstance(room, WalkedRoom) else ()
    straight = any(isinstance(e, RoomClosed) and e.straight_wall_added for e in moment.events)
    gap = gap_m(walls)
    area_m2 = area_of(moment.job.layout) or 0.0
    count, unit = len(walls) + straight, _system(moment, *(wall.length for wall in walls))
    if straight:
        told = f"A straight wall of {wording.distance(gap, unit)} closes it."
        spoken = "Closed with a straight wall."
    elif gap < 0.0005:
        told = spoken = "The walls close without a gap."
    else:
        size = wording.length(gap * 1000, unit)
        told = (
            f"The walls missed the start by {size} on "
            f"{wording.distance(perimeter_m(walls), unit)}; spread over them by length."
        )
        spoken = f"Misclosure {wording.spoken_length(gap * 1000, unit)}, spread."
    data: dict[str, Any] = {"area_m2": area_m2, "walls": count}
    data["misclosure_mm"] = None if straight else gap * 1000
    reply = Reply(
        f"Room closed: {wording.counted(count, 'wall')}, {wording.area(area_m2, unit)}.",
        f"Room closed. {spoken}",
        (told, *_grid_again(moment, unit), *_outside(moment)),
        data={"room": data},
    )
    return with_matters(moment, reply)


def _outside(moment: Moment) -> tuple[str, ...]:
    """Says which things recorded on the floor lie outside the room as it is now."""
    layout = moment.job.layout
    outline = outline_of(layout) if layout.things.obstacles else None
    if outline is None:
        return ()
    out = [name_words(one) for one in obstacles_outside(layout, outline)]
    if not out:
        return ()
    are = "is outside it and takes" if len(out) == 1 else "are outside it and take"
    return (f"{wording.sentence(wording.join_names(out))[:-1]} {are} nothing off: obstacles",)


def _grid_again(moment: Moment, unit: str) -> tuple[str, ...]:
    """Says that the grid was laid out again, as the room under it changed."""
    grid = grid_of(moment.job.layout)
    if grid is None:
        return ()
    points = wording.counted(len(grid.names), "point")
    places = places_of(moment.job.layout)
    return (f"The grid is laid again: {points}. {_first_place(moment, places, unit)}",)


def grid_set(moment: Moment, command: SetGrid) -> Reply:
    layout = moment.job.layout
    said = (command.first, command.second, command.starting)
    unit = _system(moment, *(length for length in said if length is not None))
    grid, places = grid_of(layout), places_of(layout)
    assert grid is not None  # it was just decided that it fits
    letters, rows = map(set, zip(*map(cell_of, grid.names), strict=True))
    count = wording.counted(len(grid.names), "point")
    laid = f"{wording.counted(len(letters), 'column')} by {wording.counted(len(rows), 'row')}"
    x_m, y_m = places.xy(places.names[0])
    data = {
        "points": len(grid.names),
        "columns": len(letters),
        "rows": len(rows),
        "first_point": places.names[0],
        "first_point_m": [x_m, y_m],
        "names": list(grid.names),
    }
    details = [_first_place(moment, places, unit), _walk(places)]
    if places.gave_way:
        details.append(
            f"The grid has taken the name or the place of {wording.join_names(places.gave_way)}."
        )
    first = wording.spoken_name(places.names[0])
    reply = Reply(
        f"Grid of {count}: {laid}.",
        (
            wording.spoken_count(len(grid.names), "point"),
            f"{first} is {wording.spoken_distance(x_m, unit)} by "
            f"{wording.spoken_distance(y_m, unit)} from the corner",
        ),
        tuple(details),
        data={"grid": data},
    )
    return with_matters(moment, reply, _about_spacing(moment))


def _about_spacing(moment: Moment) -> tuple[Any, ...]:
    from assistant.floor.warnings import all_warnings, warnings_about

    return warnings_about(all_warnings(moment.after), "pin-spacing")


def _first_place(moment: Moment, places: Places, unit: str) -> str:
    """Where the first point lies, and which way columns and rows run from it."""
    name = places.names[0]
    x_m, y_m = places.xy(name)
    first, second = _sides(moment.job)
    return (
        f"{name} is {wording.distance(x_m, unit)} along {first} and "
        f"{wording.distance(y_m, unit)} along {second} from the corner."
    )


def _sides(job: Job) -> tuple[str, str]:
    room = job.layout.room
    if isinstance(room, WalkedRoom):
        return "the first wall (letters)", "the way it turns (numbers)"
    return "the first side (letters)", "the second side (numbers)"


def _walk(places: Places) -> str:
    """The walking order: to and fro."""
    names = places.names
    turn = next((n for n in range(1, len(names)) if _row(names[n]) != _row(names[0])), None)
    if turn is None:
        return f"Walk from {names[0]} to {names[-1]}."
    return (
        f"Walk to and fro: {names[0]} to {names[turn - 1]}, then {names[turn]} and back, "
        f"on to {names[-1]}."
    )


def _row(name: str) -> str:
    return cell_of(name)[1]


def point_added(moment: Moment, command: AddPoint) -> Reply:
    x_m, y_m = metres(command.first), metres(command.second)
    details = []
    if command.point in moment.before.layout.own_points:
        details.append(f"{command.point} was elsewhere before; this place counts now.")
    if not has_outline(moment.job.layout):
        details.append("There is no room yet to hold it against.")
    elif not is_inside(moment.job.layout, x_m, y_m):
        details.append("It lies outside the room.")
    if command.point in moment.job.readings:
        details.append("It has a reading already.")
    reply = Reply(
        f"{command.point} at {wording.as_said(command.first)} by "
        f"{wording.as_said(command.second)}.",
        f"{wording.spoken_name(command.point)} at {wording.spoken_said(command.first)} by "
        f"{wording.spoken_said(command.second)}.",
        tuple(details),
        data={"point": {"name": command.point, "at_m": [x_m, y_m]}},
    )
    return with_matters(moment, reply)


ANSWERS: dict[type[Command], Answerer] = {
    SetRoom: room_set,
    AddWall: wall_added,
    CloseRoom: room_closed,
    SetGrid: grid_set,
    AddPoint: point_added,
}
