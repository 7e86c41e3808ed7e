"""The way of the pour: where it begins, and the direction its front goes."""

from __future__ import annotations

from math import copysign, hypot

from assistant.errors import Refusal
from assistant.events.pour import PourStartSet, WayOutSet
from assistant.floor.depths import depths_of
from assistant.floor.geometry import DIRECTIONS, legs_of, outline_of
from assistant.floor.late_numpy import np
from assistant.floor.places import places_of, whole_grid_of
from assistant.floor.steps import cell_of
from assistant.job import Job, WalkedRoom
from assistant.job.once import cached
from grammar.frozen import frozen

CLEARLY_MM = 2.0
"""So much deeper one end must be, on average, for the pour to begin there. Our own choice, no
source."""

Direction = tuple[float, float]
ALONG_X, ALONG_Y = (1.0, 0.0), (0.0, 1.0)


@frozen
class PourDirection:
    """Where a pour begins and which way it goes."""

    direction: Direction
    """Of the front, in the floor's own frame; length one."""
    start: str
    """Where it begins, in words: ``column A``, ``the north wall``."""
    said: bool
    """False where it was worked out from the way out, or assumed."""
    deeper: bool = False
    """Whether it begins there as the floor is deeper at that end, and nobody said where."""


@cached
def way_of(job: Job) -> PourDirection:
    """The way of the pour: as said; else towards the way out; else along the longer side."""
    start = job.setting(PourStartSet)
    if start is not None:
        return _way_from(job, start)
    outline = outline_of(job.layout)
    assert outline is not None  # there is no plan without a room
    span = np.ptp(outline, axis=0)
    ways = [ALONG_X, (-1.0, 0.0), ALONG_Y, (0.0, -1.0)]
    out = way_out_of(job)
    if out is None:
        best: Direction = ALONG_X if span[0] >= span[1] else ALONG_Y
        if _deeper_at_end(job, best):
            best = (-best[0], -best[1])
            return PourDirection(best, _words_for(job, best), False, deeper=True)
    else:
        # Towards the side that the door stands in; of two such sides, along the longer way.
        def short_of(way: Direction) -> tuple[float, float]:
            end = float((outline @ np.array(way)).max())
            return round(end - float(np.dot(out, way)), 2), -float(span @ np.abs(way))

        best = min(ways, key=short_of)
    return PourDirection(best, _words_for(job, best), False)


def _deeper_at_end(job: Job, way: Direction) -> bool:
    """Whether the floor is clearly deeper in the half that lies last along a way."""
    places, depths = places_of(job.layout), depths_of(job)
    along = {name: float(np.dot(places.xy(name), way)) for name in depths if name in places.row}
    if len(along) < 2:
        return False
    middle = (min(along.values()) + max(along.values())) / 2
    near = [float(depths[name]) for name, at in along.items() if at < middle]
    far = [float(depths[name]) for name, at in along.items() if at > middle]
    return bool(near and far) and sum(far) / len(far) > sum(near) / len(near) + CLEARLY_MM


def way_out_of(job: Job) -> Direction | None:
    """Where the door of the way out stands; None where it was not said, or has no place."""
    said = job.setting(WayOutSet)
    door = job.doors.get(said.door) if said else None
    places = places_of(job.layout)
    if door is None or door.point not in places.row:
        return None
    return places.xy(door.point)


def _way_from(job: Job, start: PourStartSet) -> PourDirection:
    if start.wall is not None:
        x, y = frame_direction(job, start.wall)
        return PourDirection((-x, -y), f"the {start.wall} wall", True)
    if start.column is not None:
        first = is_first_line(job, start.column)
        return PourDirection((1.0 if first else -1.0, 0.0), f"column {start.column}", True)
    assert start.row is not None
    first = is_first_line(job, str(start.row))
    return PourDirection((0.0, 1.0 if first else -1.0), f"row {start.row}", True)


def frame_direction(job: Job, wind: str) -> Direction:
    """
    A direction of the compass in the floor's own frame.

    Raises
    ------
    Refusal
        If the room was not given wall by wall, so that nobody knows where north is.
    """
    room = job.layout.room
    if not isinstance(room, WalkedRoom) or not room.closed:
        raise Refusal(
            "Where north is, only a room given wall by wall shows. By its columns or rows: "
            "start at column A, or start at row 1.",
            spoken="Where is north? Say a column or a row.",
        )
    legs = legs_of(room.walls)
    east, north = (part / hypot(*legs[0]) for part in legs[0])
    turns = (east * y - north * x for x, y in legs)
    side = next(copysign(1.0, turn) for turn in turns if abs(turn) > 1e-9)
    x, y = DIRECTIONS[wind]
    # The first wall is along x; y lies on the side that the walls turn to.
    return round(x * east + y * north, 9), round(side * (y * east - x * north), 9)


def is_first_line(job: Job, line: str) -> bool:
    """
    Whether a column or row is the first one; False where it is the last.

    Raises
    ------
    Refusal
        If there is no grid, no such line, or it lies between others.
    """
    lines = lines_of(job, column=line.isalpha())
    if not lines:
        raise Refusal(
            "Columns and rows come with the grid: grid 2 metres.", spoken="The grid first."
        )
    what = "column" if line.isalpha() else "row"
    if line not in (lines[0], lines[-1]):
        raise Refusal(
            f"A pour begins at an end of the room: {what} {lines[0]} or {what} {lines[-1]}.",
            spoken="Say the first or the last one.",
        )
    return line == lines[0]


def lines_of(job: Job, *, column: bool) -> tuple[str, ...]:
    """The letters of all columns, or the numbers of all rows, in the order they lie.

    Those that something standing there covers are among them: a dam beside it lies on its line.
    """
    grid = whole_grid_of(job.layout)
    if grid is None:
        return ()
    at = grid.xy_m[:, 0 if column else 1]
    named = {_line(name, column=column): float(where)
             for name, where in zip(grid.names, at, strict=True)}  # fmt: skip
    return tuple(sorted(named, key=named.__getitem__))


def line_at_m(job: Job, line: str) -> float:
    """
    Where a column lies along the letters, or a row along the numbers, metres from the corner.

    Raises
    ------
    Refusal
        If there is no such line.
    """
    grid, column = whole_grid_of(job.layout), line.isalpha()
    rows = () if grid is None else grid.names
    for number, name in enumerate(rows):
        if _line(name, column=column) == line:
            assert grid is not None
            return float(grid.xy_m[number, 0 if column else 1])
    what = "column" if column else "row"
    lines = lines_of(job, column=column)
    there = f"They go from {lines[0]} to {lines[-1]}." if lines else "A grid has them: grid 2 m."
    raise Refusal(f"There is no {what} {line}. {there}", spoken=f"There is no such {what}.")


def _line(name: str, *, column: bool) -> str:
    return cell_of(name)[0 if column else 1]


def _words_for(job: Job, way: Direction) -> str:
    """Where a pour that goes one way begins."""
    lines = lines_of(job, column=way[0] != 0)
    if not lines:
        return "the A1 corner" if sum(way) > 0 else "the side across from the A1 corner"
    return f"{'column' if way[0] else 'row'} {lines[0] if sum(way) > 0 else lines[-1]}"
