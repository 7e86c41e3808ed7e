"""The floor from above, in text: one cell a point, readable without colour.

Rows are numbered up the page and columns lettered to the right, like a plan, so
that A1 is at the bottom left. A floor too wide for the page is cut into panels
side by side on paper; it is never shrunk, because a depth that can't be read is
worse than a longer page.
"""

from __future__ import annotations

import textwrap
from collections.abc import Callable, Mapping, Sequence

from assistant.reply.replies import FloorMap, MapSpot
from assistant.terminal.map_layout import MapLayout, lay_out, span_of
from assistant.terminal.map_marks import depth_text, mark_of
from assistant.terminal.map_notes import map_notes, unit_word
from assistant.terminal.map_things import (
    STANDS,
    Between,
    between_points,
    line_over_line,
    marked_cell,
)
from assistant.terminal.map_walls import Walls, walls_of
from grammar.frozen import frozen


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


def draw(floor: FloorMap, width: int = 60) -> tuple[MapLine, ...]:
    """The map as lines no wider than `width`, each in pieces that carry their shade."""
    layout = lay_out((*floor.spots, *floor.covered))
    lines: list[MapLine] = [
        _plain(f"{floor.shows} in {unit_word(floor.unit)}, floor seen from above")
    ]
    if layout.cells:
        lines += _panels(floor, layout, width)
    notes = map_notes(floor, layout)
    lines += [_plain(line) for note in notes for line in textwrap.wrap(note, max(width, 20))]
    return tuple(lines)


# --- the drawing ---------------------------------------------------------------


def _panels(floor: FloorMap, layout: MapLayout, width: int) -> list[MapLine]:
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
            lines += [(), _plain(f"Columns {span_of(layout.columns[start : start + across])}")]
        lines += panel.drawn(columns)
    lines.append(())
    if any(len(texts) > 1 for texts in shown.values()):
        lines.append(_plain("Whole inches stand over their fractions."))
    return lines


def _shown(floor: FloorMap, layout: MapLayout, width: int) -> tuple[_Cells, int]:
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


def _cell_width(layout: MapLayout, shown: _Cells) -> int:
    return max(
        max(len(text) for texts in shown.values() for text in texts) + 1,
        max(len(letters) for letters, _ in layout.columns) + 2,
    )


def _across(layout: MapLayout, width: int, cell: int) -> int:
    """Columns that fit beside each other."""
    return max(1, (width - _margin(layout) - 3) // cell)


def _margin(layout: MapLayout) -> int:
    return max(len(str(row)) for row, _ in layout.rows)


@frozen
class _Panel:
    """Some columns with all their rows, the last row on top."""

    layout: MapLayout
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
    return depth_text(spot.depth_mm, unit) + (mark_of(spot) or " ")


def _inches_over_parts(spot: MapSpot) -> tuple[str, str]:
    """Whole inches and the mark, and under them the fraction: half as wide."""
    if spot.depth_mm is None:
        return ".", ""
    whole, _, parts = depth_text(spot.depth_mm, "in").rpartition(" ")
    if not whole and "/" not in parts:
        whole, parts = parts, ""
    return whole + (mark_of(spot) or " "), parts


def _plain(text: str) -> MapLine:
    return (MapText(text),)
