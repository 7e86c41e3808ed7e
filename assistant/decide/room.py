"""The room, its outline, and the points over its floor."""

from __future__ import annotations

from assistant.decide.parts import Decider, Decision, World, length_of
from assistant.decide.questions import YesOrNo
from assistant.decide.readings import grid_in_words
from assistant.errors import Refusal, SurveyError
from assistant.events.kinds import Event
from assistant.events.room import GridSet, PointPlaced, RoomClosed, RoomMeasured, WallMeasured
from assistant.floor.geometry import (
    DIRECTIONS,
    area_of,
    check_room,
    gap_m,
    has_outline,
    is_inside,
    outline_of,
    perimeter_m,
)
from assistant.floor.obstacles import obstacle_over
from assistant.floor.places import grid_of, places_of, point_here, whole_grid_of
from assistant.job import Job, Layout, WalkedRoom, apply
from assistant.reply import wording
from assistant.reply.examples import GRID, ROOM, STARTING, WALL_EAST, WALL_NORTH, place_of
from assistant.units.lengths import exact_mm, metres
from grammar.commands import Change, Command, Measure
from grammar.commands.room import AddPoint, AddWall, CloseRoom, SetGrid, SetRoom
from grammar.example import Example

MOST_POINTS = 10_000
"""Most points of a grid: more are a slip of the tongue, and would slow every reply."""

MISCLOSURE_M = 0.010
MISCLOSURE_PART = 1 / 200
"""Common practice, no source: walls taped by hand close to a centimetre, or to half a
percent of the way round. A larger gap is a wall missing or wrong, not error to spread."""


def set_room(job: Job, command: SetRoom, _world: World) -> Decision:
    first = length_of(command.first, "A side of the room")
    second = length_of(command.second, "A side of the room")
    return _if_nothing_moves(job, command, "room", RoomMeasured(first, second))


def add_wall(job: Job, command: AddWall, _world: World) -> Decision:
    if command.direction not in DIRECTIONS:
        raise Refusal(
            f"A wall runs {wording.join_names(tuple(DIRECTIONS), most=8, last='or')}, "
            f"not {command.direction}.",
            spoken="Say which way the wall runs.",
        )
    length = length_of(command.length, "A wall")
    return _if_nothing_moves(job, command, "outline", WallMeasured(command.direction, length))


def close_room(job: Job, command: CloseRoom, _world: World) -> Decision:
    room = job.layout.room
    if not isinstance(room, WalkedRoom):
        raise Refusal(
            "There are no walls to close. Tell them one by one: ",
            WALL_EAST,
            ".",
            spoken="There are no walls to close.",
        )
    if room.closed:
        raise Refusal("The room is closed already.")
    if len(room.walls) < 2:
        raise Refusal(
            "One wall makes no room. Tell the next: ",
            WALL_NORTH,
            ".",
            spoken="One wall makes no room.",
        )
    gap = round(gap_m(room.walls), 6)  # a centimetre is one, whatever rounding floats bring
    if gap <= max(MISCLOSURE_M, perimeter_m(room.walls) * MISCLOSURE_PART):
        return _if_nothing_moves(job, command, "room", RoomClosed(straight_wall_added=False))
    decision = _if_nothing_moves(job, command, "room", RoomClosed(straight_wall_added=True))
    far = wording.distance(gap, job.reading_unit)
    question = YesOrNo(
        f"The walls end {far} from the start. Confirm to close with one straight wall, "
        "or cancel that and put a wall right.",
        f"The walls end {wording.spoken_distance(gap, job.reading_unit)} from the start. "
        "Confirm, or cancel that.",
        command,
    )
    return Decision(decision.events, question)


def set_grid(job: Job, command: SetGrid, _world: World) -> Decision:
    if not has_outline(job.layout):
        if isinstance(job.layout.room, WalkedRoom):
            raise Refusal(
                "The room is not closed yet. When all walls are told: close room.",
                spoken="The room is not closed yet.",
            )
        raise Refusal("The room first: ", ROOM, ".", spoken="The room first.")
    first = length_of(command.first, "The spacing")
    second = first if command.second is None else length_of(command.second, "The spacing")
    starting = command.starting
    if starting is not None and exact_mm(starting) < 0:
        raise Refusal(
            "The start is measured from the corner into the room: ",
            STARTING,
            ".",
            spoken="The start is measured from the corner into the room.",
        )
    event = GridSet(first, second, starting)
    return _if_it_takes_all(job, command, _if_nothing_moves(job, command, "grid", event))


def add_point(job: Job, command: AddPoint, _world: World) -> Decision:
    grid = whole_grid_of(job.layout)
    if grid is not None and command.point in grid.names:
        raise Refusal(
            f"{command.point} is on the grid. Give the new point a name that is not: ",
            place_of(_free_name(job)),
            ".",
            spoken=f"{wording.spoken_name(command.point)} is on the grid.",
        )
    check_inside(job, command.first, command.second)
    x_m, y_m = metres(command.first), metres(command.second)
    there = point_here(job.layout, x_m, y_m)
    if there is not None and there != command.point:
        raise Refusal(
            f"{there} is there already; one place has one name.",
            spoken=f"{wording.spoken_name(there)} is there already.",
        )
    placed = PointPlaced(command.point, command.first, command.second)
    return _if_nothing_moves(job, command, "point", placed)


def check_inside(job: Job, first: Measure, second: Measure) -> None:
    """Refuse a place off the floor, and say how far the floor extends."""
    if is_inside(job.layout, metres(first), metres(second)):
        over = obstacle_over(job.layout, metres(first), metres(second))
        if over is None:
            return
        raise Refusal(
            f"{wording.as_said(first)} by {wording.as_said(second)} is under {over.kind} "
            f"{over.number}: nothing is read or poured there.",
            spoken=f"That is under {over.kind} {wording.spoken_number(over.number)}.",
        )
    raise Refusal(
        f"{wording.as_said(first)} by {wording.as_said(second)} is outside {room_words(job)}.",
        spoken="That is outside the room.",
    )


# --- what a change of layout does to points already read --------------------------


def _if_nothing_moves(job: Job, command: Command, what: str, event: Event) -> Decision:
    """The event, with a question first where it moves points that have been read."""
    moved = _moved(job, layout_after(job, event))
    if not moved:
        return Decision((event,))
    points = wording.counted(len(moved), "point that has been read", "points that have been read")
    stay = "Its reading stays" if len(moved) == 1 else "Their readings stay"
    question = YesOrNo(
        f"The new {what} moves {points}: {wording.join_names(moved)}. "
        f"{stay} with the name. Confirm, or cancel that.",
        f"The new {what} moves {wording.spoken_count(len(moved), 'read point')}. "
        "Confirm, or cancel that.",
        command,
    )
    return Decision((event,), question)


def _if_it_takes_all(job: Job, command: Command, decision: Decision) -> Decision:
    """The event, with a question first where a first grid has no place for points read."""
    layout = layout_after(job, decision.events[0])
    grid = grid_of(layout)
    if decision.ask is not None or grid is None or grid_of(job.layout) is not None:
        return decision
    left_out = tuple(name for name in job.readings if name not in places_of(layout).row)
    if not left_out:
        return decision
    points = wording.counted(
        len(left_out), "point that has been read", "points that have been read"
    )
    question = YesOrNo(
        f"This grid leaves out {points}: {wording.join_names(left_out)}. {grid_in_words(grid)}. "
        "What was read there counts in no volume. Confirm, or cancel that.",
        f"This grid leaves out {wording.spoken_count(len(left_out), 'read point')}. "
        "Confirm, or cancel that.",
        command,
    )
    return Decision(decision.events, question)


def layout_after(job: Job, event: Event) -> Layout:
    """The layout after an event, or a refusal where that is impossible."""
    layout = apply(job, event).layout
    try:
        check_room(layout)
        _check_size(layout)
        places_of(layout)
        area_of(layout)
    except SurveyError as fault:
        raise Refusal(
            wording.sentence(str(fault)), spoken="That does not work out. The screen says why."
        ) from fault
    return layout


def _check_size(layout: Layout) -> None:
    grid = layout.grid
    outline = None if grid is None else outline_of(layout)
    if outline is None or grid is None:
        return
    across, along = outline.max(axis=0) - outline.min(axis=0)
    count = (across / metres(grid.first) + 1) * (along / metres(grid.second) + 1)
    if count > MOST_POINTS:
        raise Refusal(
            f"That grid would have more than {MOST_POINTS:,} points. ",
            Example("Pins stand metres apart: ", "Pins stand feet apart: "),
            GRID,
            ".",
            spoken="That grid would have too many points.",
        )


def _moved(job: Job, layout: Layout) -> tuple[str, ...]:
    """Points read whose place would change or be lost."""
    before, then = places_of(job.layout), places_of(layout)
    return tuple(
        name
        for name in before.names
        if name in job.readings
        and (name not in then.row or _differ(before.xy(name), then.xy(name)))
    )


def _differ(one: tuple[float, float], other: tuple[float, float]) -> bool:
    return max(abs(one[0] - other[0]), abs(one[1] - other[1])) >= 0.001


def _free_name(job: Job) -> str:
    taken = places_of(job.layout).row
    return next(
        f"{letter}{number}"
        for number in range(1, 100)
        for letter in "KPTXZ"
        if f"{letter}{number}" not in taken
    )


def room_words(job: Job) -> str:
    """The room and its size, to say what is outside of it."""
    outline = outline_of(job.layout)
    assert outline is not None  # nothing is outside while there is no outline
    across, along = (float(side) for side in outline.max(axis=0) - outline.min(axis=0))
    sides = " by ".join(wording.distance(side, job.reading_unit) for side in (across, along))
    if isinstance(job.layout.room, WalkedRoom):
        return f"the outline, which takes in {sides} at most"
    return f"the room, which is {sides}"


DECIDERS: dict[type[Change], Decider] = {
    SetRoom: set_room,
    AddWall: add_wall,
    CloseRoom: close_room,
    SetGrid: set_grid,
    AddPoint: add_point,
}
