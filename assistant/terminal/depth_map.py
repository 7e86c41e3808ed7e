"""The floor from above, in text: one cell a point, readable without colour.

Rows are numbered up the page and columns lettered to the right, like a plan, so
that A1 is at the bottom left. A floor too wide for the page is cut into panels
side by side on paper; it is never shrunk, because a depth that can't be read is
worse than a longer page.
"""

from __future__ import annotations

import re
import textwrap
from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from itertools import pairwise

from assistant.reply.replies import FloorMap, MapSpot
from assistant.terminal.map_things import (
    STANDS,
    Between,
    between_points,
    line_over_line,
    marked_cell,
    thing_notes,
)
from assistant.terminal.map_walls import Walls, walls_of
from assistant.terminal.point_runs import in_runs
from grammar.frozen import frozen

SAME_PLACE_M = 0.001
"""Points closer to a grid line than this are on it."""

SAME_STEP_M = 0.002
"""Spacings that differ by less count as equal: each end may be rounded."""

MARKS = {"high": "^", "shallow": "<", "deep": ">"}
"""Marks that stand after a depth, so that the numbers still line up."""

DOUBT = "?"
"""Stands in place of any other mark: a doubtful depth is not certainly past a limit."""

MEANINGS = {
    "^": "floor stands above the finish",
    "<": "less than the product's minimum",
    ">": "more than the product's maximum",
    "?": "in doubt: survey check tells why",
    ".": "not read yet",
}

_NAME = re.compile(r"([A-Z]{1,2})([1-9][0-9]?)")
_MM_PER_INCH = 25.4
_METRES_PER_FOOT = 0.3048
_SIXTEENTHS = 16


@frozen
class MapText:
    """Some text of a map line."""

    text: str
    shade: float | None = None
    """0 for the shallowest depth to 1 for the deepest; None for what is no depth."""
    flagged: bool = False
    """Past a limit or above the finish."""


MapLine = tuple[MapText, ...]


_Cells = Mapping[tuple[str, int], tuple[str, ...]]
"""(column, row) -> the lines of that cell's text."""


@frozen
class _Layout:
    """Which points stand on lines of a grid, and the lines."""

    columns: tuple[tuple[str, float], ...]
    """Letters and distance along the first side, left to right."""
    rows: tuple[tuple[int, float], ...]
    """Numbers and distance along the second side, from the bottom up."""
    cells: dict[tuple[str, int], MapSpot]
    apart: tuple[MapSpot, ...]
    """Points that stand on no common line."""


def draw(floor: FloorMap, width: int = 60) -> tuple[MapLine, ...]:
    """The map as lines no wider than `width`, each in pieces that carry their shade."""
    layout = _lay_out((*floor.spots, *floor.covered))
    lines: list[MapLine] = [
        _plain(f"{floor.shows} in {_unit_word(floor.unit)}, floor seen from above")
    ]
    if layout.cells:
        lines += _panels(floor, layout, width)
    notes = _notes(floor, layout)
    lines += [_plain(line) for note in notes for line in textwrap.wrap(note, max(width, 20))]
    return tuple(lines)


# --- which points make a grid --------------------------------------------------


def _lay_out(spots: Sequence[MapSpot]) -> _Layout:
    """Sort the points into a grid and the rest.

    A column is where most of the points with its letter stand, and a row the same:
    a point placed by hand may carry a name of the grid's pattern and stand anywhere.
    """
    named = [(spot, match) for spot in spots if (match := _NAME.fullmatch(spot.point))]
    column_m = _lines((match[1], spot.x_m) for spot, match in named)
    row_m = _lines((match[2], spot.y_m) for spot, match in named)
    cells = {
        (match[1], int(match[2])): spot
        for spot, match in named
        if abs(spot.x_m - column_m[match[1]]) <= SAME_PLACE_M
        and abs(spot.y_m - row_m[match[2]]) <= SAME_PLACE_M
    }
    taken = {spot.point for spot in cells.values()}
    columns = {column for column, _ in cells}
    rows = {row for _, row in cells}
    return _Layout(
        columns=tuple(sorted(((c, column_m[c]) for c in columns), key=lambda item: item[1])),
        rows=tuple(sorted(((r, row_m[str(r)]) for r in rows), key=lambda item: item[1])),
        cells=cells,
        apart=tuple(spot for spot in spots if spot.point not in taken),
    )


def _lines(members: Iterable[tuple[str, float]]) -> dict[str, float]:
    """For each name the place where most of its points stand; the first seen where they tie."""
    places: dict[str, Counter[float]] = {}
    for name, place_m in members:
        places.setdefault(name, Counter())[round(place_m, 3)] += 1
    return {name: count.most_common(1)[0][0] for name, count in places.items()}


# --- the drawing ---------------------------------------------------------------


def _panels(floor: FloorMap, layout: _Layout, width: int) -> list[MapLine]:
    """The grid, as many columns at a time as the width takes."""
    shown, cell = _shown(floor, layout, width)
    across = _across(layout, width, cell)
    depths = [s.depth_mm for s in layout.cells.values() if s.depth_mm is not None]
    at = {letters: column for column, (letters, _) in enumerate(layout.columns)}
    up = {number: row for row, (number, _) in enumerate(layout.rows)}
    walls = walls_of(
        floor.outline,
        [x for _, x in layout.columns],
        [y for _, y in layout.rows],
        {(at[letters], up[number]) for letters, number in layout.cells},
    )
    lines_m = [x for _, x in layout.columns], [y for _, y in layout.rows]
    between = between_points(floor.things, *lines_m)
    panel = _Panel(layout, shown, depths, walls if walls.bend else None, cell, between)
    lines: list[MapLine] = []
    for start in range(0, len(layout.columns), across):
        columns = range(start, min(start + across, len(layout.columns)))
        if len(layout.columns) > across:
            lines += [(), _plain(f"Columns {_span(layout.columns[start : start + across])}")]
        lines += panel.drawn(columns)
    lines.append(())
    if any(len(texts) > 1 for texts in shown.values()):
        lines.append(_plain("Whole inches stand over their fractions."))
    return lines


def _shown(floor: FloorMap, layout: _Layout, width: int) -> tuple[_Cells, int]:
    """Cells in one line each, or in two where that saves a panel; and their width."""

    def cells(texts_of: Callable[[MapSpot], tuple[str, ...]]) -> _Cells:
        spots = layout.cells.items()
        return {place: marked_cell(floor, spot, texts_of(spot)) for place, spot in spots}

    one = cells(lambda spot: (_cell_text(spot, floor.unit),))
    cell = _cell_width(layout, one)
    if floor.unit != "in" or _across(layout, width, cell) >= len(layout.columns):
        return one, cell
    two = cells(_inches_over_parts)
    narrow = _cell_width(layout, two)
    panels = {w: -(-len(layout.columns) // _across(layout, width, w)) for w in (cell, narrow)}
    return (two, narrow) if panels[narrow] < panels[cell] else (one, cell)


def _cell_width(layout: _Layout, shown: _Cells) -> int:
    return max(
        max(len(text) for texts in shown.values() for text in texts) + 1,
        max(len(letters) for letters, _ in layout.columns) + 2,
    )


def _across(layout: _Layout, width: int, cell: int) -> int:
    """Columns that fit beside each other."""
    return max(1, (width - _margin(layout) - 3) // cell)


def _margin(layout: _Layout) -> int:
    return max(len(str(row)) for row, _ in layout.rows)


@frozen
class _Panel:
    """Some columns with all their rows, the last row on top."""

    layout: _Layout
    shown: _Cells
    depths: Sequence[float]
    walls: Walls | None
    """The walls of a room that is no rectangle; otherwise two plain lines border the map."""
    cell: int
    between: Between

    def drawn(self, columns: range) -> list[MapLine]:
        lines: list[MapLine] = []
        margin, cell = _margin(self.layout), self.cell
        for row in reversed(range(len(self.layout.rows))):
            lines += self._across_above(row, columns)
            lines += self._row(row, columns)
        if self.walls is None:
            lines += self._across_above(-1, columns)
            lines.append(_plain(" " * (margin + 1) + "+" + "-" * (cell * len(columns))))
        else:
            lines += self._across_above(-1, columns)
        # The letter goes above the number's last digit; the mark's place is right of it.
        letters = "".join(f"{self.layout.columns[at][0]:>{cell - 1}} " for at in columns)
        lines.append(_plain((" " * (margin + 2) + letters).rstrip()))
        return lines

    def _across_above(self, row: int, columns: range) -> list[MapLine]:
        line = "" if self.walls is None else self.walls.line_above(row, columns, self.cell)
        over = self.between.line_above(row, columns, self.cell)
        line = line_over_line(over, line)
        return [_plain(" " * (_margin(self.layout) + 1) + line)] if line else []

    def _row(self, row: int, columns: range) -> list[MapLine]:
        number, margin = self.layout.rows[row][0], _margin(self.layout)
        height = max(len(texts) for texts in self.shown.values())
        lines: list[MapLine] = []
        for level in range(height):
            label = str(number) if level == 0 else ""
            pieces = [MapText(f"{label:>{margin}} {self._wall(columns.start, row, first=True)}")]
            gaps = self.between.gaps(row) if level == 0 else ()
            for column in columns:
                letters = self.layout.columns[column][0]
                spot = self.layout.cells.get((letters, number))
                text = self.shown.get((letters, number), ("",) * height)[level]
                wall = self._wall(column, row) if column > columns.start else " "
                pieces.append(MapText(STANDS if column in gaps else wall))
                pieces.append(_piece(text.rjust(self.cell - 1), spot, self.depths))
            last = self._wall(columns.stop, row)
            pieces.append(MapText(STANDS if columns.stop in gaps else last))
            lines.append(tuple(pieces))
        return lines

    def _wall(self, column: int, row: int, *, first: bool = False) -> str:
        """What stands before a column."""
        if self.walls is None:
            return "|" if first else " "
        return "|" if self.walls.left_of(column, row) else " "


def _piece(text: str, spot: MapSpot | None, depths: Sequence[float]) -> MapText:
    if spot is None or spot.depth_mm is None:
        return MapText(text)
    least, most = min(depths), max(depths)
    shade = (spot.depth_mm - least) / (most - least) if most > least else 0.5
    return MapText(text, shade, bool(spot.flag))


def _cell_text(spot: MapSpot, unit: str) -> str:
    """Depth and mark; the mark's place stays blank where there is none."""
    if spot.depth_mm is None:
        return ". "
    return depth_text(spot.depth_mm, unit) + (_mark(spot) or " ")


def _mark(spot: MapSpot) -> str:
    return DOUBT if spot.doubt else MARKS.get(spot.flag, "")


def _inches_over_parts(spot: MapSpot) -> tuple[str, str]:
    """Whole inches and the mark, and under them the fraction: half as wide."""
    if spot.depth_mm is None:
        return ".", ""
    whole, _, parts = depth_text(spot.depth_mm, "in").rpartition(" ")
    if not whole and "/" not in parts:
        whole, parts = parts, ""
    return whole + (_mark(spot) or " "), parts


def depth_text(depth_mm: float, unit: str) -> str:
    """A depth without its unit: whole mm (a tenth where it has one), or nearest 1/16 in."""
    if unit != "in":
        return f"{round(depth_mm, 1) + 0.0:g}"
    sixteenths = round(depth_mm / _MM_PER_INCH * _SIXTEENTHS)
    whole, rest = divmod(abs(sixteenths), _SIXTEENTHS)
    below, of = rest, _SIXTEENTHS
    while below and below % 2 == 0:
        below, of = below // 2, of // 2
    parts = [str(whole)] if whole or not rest else []
    if rest:
        parts.append(f"{below}/{of}")
    return ("-" if sixteenths < 0 else "") + " ".join(parts)


# --- what stands under the map ---------------------------------------------------


def _notes(floor: FloorMap, layout: _Layout) -> list[str]:
    notes: list[str] = []
    if layout.cells:
        notes += _legend(floor.spots)
        notes.append(_orientation(floor, layout))
    elif not floor.spots:
        notes.append("No points yet.")
    notes += thing_notes(floor.things)
    notes += _set_ups(floor.spots)
    if apart := [spot for spot in layout.apart if spot not in floor.covered]:
        notes.append("Off the grid: " + "; ".join(_apart(s, floor.unit) for s in apart))
    if floor.doors:
        doors = (f"door {number} at {_nearest(floor, x, y)}" for number, x, y in floor.doors)
        notes.append("Doors: " + "; ".join(doors))
    return notes


def _legend(spots: Sequence[MapSpot]) -> list[str]:
    """Explains the marks that occur, and no others."""
    used = {_mark(spot) for spot in spots if spot.depth_mm is not None}
    used |= {"." for spot in spots if spot.depth_mm is None}
    return [f"{mark} {meaning}" for mark, meaning in MEANINGS.items() if mark in used]


def _set_ups(spots: Sequence[MapSpot]) -> list[str]:
    """Which points were read from which set-up, where there are several."""
    read: dict[int, list[str]] = {}
    for spot in spots:
        if spot.set_up is not None:
            read.setdefault(spot.set_up, []).append(spot.point)
    if len(read) < 2:
        return []
    return [f"Set-up {number}: {in_runs(points)}." for number, points in sorted(read.items())]


def _orientation(floor: FloorMap, layout: _Layout) -> str:
    """Which way the map lies, how big the floor is, and how far apart its points are."""
    corner = f"{layout.columns[0][0]}{layout.rows[0][0]} is at the bottom left"
    sides = "letters go along the first side, numbers up the second"
    sentence = f"{corner}: {sides}."
    if floor.outline:
        wide = max(x for x, _ in floor.outline) - min(x for x, _ in floor.outline)
        deep = max(y for _, y in floor.outline) - min(y for _, y in floor.outline)
        sentence += f" Floor {_far(wide, floor.unit)} by {_far(deep, floor.unit)} over all."
    return sentence + _spacing(layout, floor.unit)


def _spacing(layout: _Layout, unit: str) -> str:
    across, up = _step([m for _, m in layout.columns]), _step([m for _, m in layout.rows])
    if across is None and up is None:
        return "" if len(layout.cells) == 1 else " Spacing is uneven: not to scale."
    if across is not None and up is not None and abs(across - up) > SAME_STEP_M:
        return f" Points {_far(across, unit)} apart across, {_far(up, unit)} up."
    one_way = across if across is not None else up
    return f" Points {_far(one_way or 0.0, unit)} apart."


def _step(places_m: Sequence[float]) -> float | None:
    """The one distance between neighbours; None where there are several, or no two."""
    steps = [b - a for a, b in pairwise(places_m)]
    if not steps or max(steps) - min(steps) > SAME_STEP_M:
        return None
    return sum(steps) / len(steps)


def _apart(spot: MapSpot, unit: str) -> str:
    place = f"{spot.point} at {_far(spot.x_m, unit)} by {_far(spot.y_m, unit)}"
    if spot.depth_mm is None:
        return f"{place}, not read yet"
    mark = _mark(spot)
    meaning = f" ({MEANINGS[mark]})" if mark else ""
    return f"{place}, {depth_text(spot.depth_mm, unit)} {unit}{meaning}"


def _nearest(floor: FloorMap, x_m: float, y_m: float) -> str:
    if not floor.spots:
        return f"{_far(x_m, floor.unit)} by {_far(y_m, floor.unit)}"
    spot = min(floor.spots, key=lambda s: (s.x_m - x_m) ** 2 + (s.y_m - y_m) ** 2)
    return spot.point


def _span(columns: Sequence[tuple[str, float]]) -> str:
    first, last = columns[0][0], columns[-1][0]
    return first if first == last else f"{first} to {last}"


def _unit_word(unit: str) -> str:
    return "inches" if unit == "in" else "mm"


def _far(length_m: float, unit: str) -> str:
    """A length over the floor: feet where depths are in inches."""
    if unit == "in":
        return f"{round(length_m / _METRES_PER_FOOT, 1) + 0.0:g} ft"
    return f"{round(length_m, 2) + 0.0:g} m"


def _plain(text: str) -> MapLine:
    return (MapText(text),)
