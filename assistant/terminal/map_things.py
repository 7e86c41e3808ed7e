"""What stands on the floor, as a map of points shows it: marks at points, and between them."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from assistant.reply.replies import FloorMap, MapSpot, MapThing
from grammar.frozen import frozen

STANDS = "#"
"""Where something stands: no depth, no point."""
RUNS = {"opening": "o", "drain": "v", "crack": "~", "joint": "="}
"""Before a depth: what lies at the point or runs through it, of several the first."""
ON_A_ROW = 0.25
"""Part of the way to the next row within which a thing is drawn on a row."""


@frozen
class Between:
    """Things that cover no point, and so stand between the points of a map."""

    on_row: dict[int, tuple[float, ...]]
    """Row, counted from the bottom -> where along it, in columns: 1.5 is midway between the
    second and the third."""
    above: dict[int, tuple[float, ...]]
    """The same of those between a row and the next; -1 for those under the first row."""

    def gaps(self, row: int) -> frozenset[int]:
        """Columns before which something stands on a row."""
        return frozenset(int(at // 1) + 1 for at in self.on_row.get(row, ()))

    def line_above(self, row: int, columns: range, cell: int) -> str:
        """What stands above a row, as a line under which the columns of a panel are."""
        line = ""
        for at in sorted(self.above.get(row, ())):
            if columns.start - 0.5 <= at <= columns.stop - 0.5:
                line = line.ljust(place_of(at - columns.start, cell)) + STANDS
        return line


def place_of(column: float, cell: int) -> int:
    """Where the last figure of a column's depth stands, after the wall on the left."""
    return max(round(column * cell) + cell - 1, 0)


def between_points(
    things: Sequence[MapThing], x_m: Sequence[float], y_m: Sequence[float]
) -> Between:
    """
    Where things stand that cover no point.

    Parameters
    ----------
    things : sequence of MapThing
    x_m, y_m : sequences of float
        Where columns and rows run, metres, ascending.
    """
    on_row: dict[int, tuple[float, ...]] = {}
    above: dict[int, tuple[float, ...]] = {}
    for thing in things:
        if not thing.stands or thing.points or not x_m or not y_m:
            continue
        (x, y), *_ = thing.at_m
        column, row = _along(x, x_m), _along(y, y_m)
        nearest = min(max(round(row), 0), len(y_m) - 1)
        if abs(row - nearest) <= ON_A_ROW:
            on_row[nearest] = (*on_row.get(nearest, ()), column)
        else:
            below = int(row // 1)
            above[below] = (*above.get(below, ()), column)
    return Between(on_row, above)


def _along(place: float, lines: Sequence[float]) -> float:
    """A place in lines: 1.5 midway between the second and the third; at most half one beyond."""
    if place <= lines[0] or len(lines) == 1:
        return -0.5 if place < lines[0] else 0.5 if place > lines[0] else 0.0
    for row, (one, other) in enumerate(pairwise(lines)):
        if place <= other:
            return row + (place - one) / (other - one)
    return len(lines) - 0.5


def mark_before(point: str, things: Sequence[MapThing]) -> str:
    """The mark before a point's depth; nothing where nothing runs through it."""
    kinds = {thing.kind for thing in things if point in thing.points and not thing.stands}
    return next((mark for kind, mark in RUNS.items() if kind in kinds), "")


def marked_cell(floor: FloorMap, spot: MapSpot, texts: tuple[str, ...]) -> tuple[str, ...]:
    """The lines of a point's cell, with the mark of what lies there, or only that it is covered."""
    if spot in floor.covered:
        return (f"{STANDS} ", *[""] * (len(texts) - 1))
    return (f"{mark_before(spot.point, floor.things)}{texts[0]}", *texts[1:])


def line_over_line(over: str, under: str) -> str:
    """One line of a map over another, which shows where the first is blank."""
    length = max(len(over), len(under))
    pairs = zip(over.ljust(length), under.ljust(length), strict=True)
    return "".join(one if one != " " else other for one, other in pairs)


def thing_notes(things: Sequence[MapThing]) -> list[str]:
    """Which mark is what, one line each."""
    told: dict[str, list[str]] = {}
    for thing in things:
        mark = STANDS if thing.stands else RUNS[thing.kind]
        told.setdefault(mark, []).append(thing.told)
    return [f"{mark} {'; '.join(each)}" for mark, each in told.items()]
