"""Where walls run between the points of a map, in rooms that are no rectangle."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from grammar.frozen import frozen

Outline = Sequence[tuple[float, float]]


@frozen
class Walls:
    """Which crossings of a grid are floor; a wall runs between floor and no floor."""

    floor: tuple[tuple[bool, ...], ...]
    """Row by row from the bottom up, column by column."""

    @property
    def bend(self) -> bool:
        """Whether a part of the grid lies outside the room; a full rectangle needs no walls."""
        return any(not here for row in self.floor for here in row)

    def is_floor(self, column: int, row: int) -> bool:
        """Whether a crossing is floor; beyond the grid none is."""
        if not (0 <= row < len(self.floor) and 0 <= column < len(self.floor[row])):
            return False
        return self.floor[row][column]

    def left_of(self, column: int, row: int) -> bool:
        """Whether a wall runs between a column and the one before, along a row."""
        return self.is_floor(column - 1, row) != self.is_floor(column, row)

    def above(self, column: int, row: int) -> bool:
        """Whether a wall runs between a row and the next, over a column."""
        return self.is_floor(column, row) != self.is_floor(column, row + 1)

    def line_above(self, row: int, columns: range, cell: int) -> str:
        """
        The walls that run across above a row, or nothing where there are none.

        Parameters
        ----------
        row : int
            -1 for the line under the first row.
        columns : range
            Those of the panel.
        cell : int
            Characters of one column.
        """
        across = [self.above(column, row) for column in columns]
        if not any(across):
            return ""
        line = [" "] * (wall_place(len(columns), cell) + 1)
        for at, column in enumerate((*columns, columns.stop)):
            if self.left_of(column, row) and self.left_of(column, row + 1):
                line[wall_place(at, cell)] = "|"
        for at, runs in enumerate(across):
            if runs:
                first, last = wall_place(at, cell), wall_place(at + 1, cell)
                line[first : last + 1] = "+" + "-" * (last - first - 1) + "+"
        for at in range(1, len(across)):
            if across[at - 1] and across[at]:
                line[wall_place(at, cell)] = "-"
        return "".join(line).rstrip()


def wall_place(at: int, cell: int) -> int:
    """Where the wall before a panel's column stands in its line: on the blank before the cell."""
    return 0 if at == 0 else at * cell + 1


def walls_of(
    outline: Outline, x_m: Sequence[float], y_m: Sequence[float], read: Collection[tuple[int, int]]
) -> Walls:
    """
    The walls of a room between the crossings of its grid.

    Parameters
    ----------
    outline : (n,) points, metres
        Empty where it is not known: then there are no walls.
    x_m, y_m : sequences of float
        Where columns and rows run, metres.
    read : collection of (column, row)
        Crossings that have a point, which are floor whatever the outline says.
    """
    return Walls(
        tuple(
            tuple(
                not outline or (column, row) in read or is_within(outline, x, y)
                for column, x in enumerate(x_m)
            )
            for row, y in enumerate(y_m)
        )
    )


def is_within(outline: Outline, x: float, y: float) -> bool:
    """
    Whether a place lies within an outline; the outline's own sides may go either way.

    By the even-odd rule: how often a ray from the place crosses the outline.

    >>> is_within([(0, 0), (2, 0), (2, 2), (0, 2)], 1, 1)
    True
    """
    inside = False
    for (x1, y1), (x2, y2) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if (y1 > y) != (y2 > y) and x < x1 + (y - y1) * (x2 - x1) / (y2 - y1):
            inside = not inside
    return inside
