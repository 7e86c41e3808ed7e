"""
Where the points of a survey go, and the order to walk them in.

Columns are lettered along x, rows numbered along y, so A1 is nearest the corner that
everything is measured from.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterable

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, as_places
from assistant.levels.outline import contains
from grammar.frozen import frozen_identity

FROM_WALLS_M = 0.3
"""Least distance of a centred grid from the walls.

Common practice, no source. Raising it leaves wider strips that are judged from further in.
"""
MOST_COLUMNS = 702
"""A to ZZ."""
MOST_ROWS = 99
_SLACK = 1e-9
"""Part of a spacing that counts as rounding: 2.1 / 0.7 is 3, though floats say less."""
_NAME = re.compile(r"([A-Z]{1,2})([1-9][0-9]?)")


@frozen_identity
class Grid:
    """Named points in rows and columns; holes where the outline leaves some out."""

    names: tuple[str, ...]
    """Row by row, A1 B1 C1 A2 B2 C2."""
    xy_m: FloatArray
    """(n, 2), metres, in the order of the names."""


def grid_points(
    outline_m: ArrayLike, first_m: float, second_m: float, starting_m: float | None = None
) -> Grid:
    """
    Points on a grid over a floor.

    Parameters
    ----------
    outline_m : (k, 2) array_like
        Corners of the floor, metres.
    first_m, second_m : float
        Spacing along x and along y, metres.
    starting_m : float or None
        Distance of the first column and row from the floor's least x and y, metres. With
        None the grid stands in the middle of the floor, as many points a side as leave at
        least 0.3 m to the walls.

    Returns
    -------
    grid : Grid
        Points outside the outline are left out and keep their names free; on a wall is in.

    Raises
    ------
    SurveyError
        If a spacing is not above zero, nothing fits, or there are more than 702 columns or
        99 rows.

    Examples
    --------
    >>> grid = grid_points([[0, 0], [6, 0], [6, 4], [0, 4]], 2.5, 3)
    >>> grid.names
    ('A1', 'B1', 'C1', 'A2', 'B2', 'C2')
    >>> print(grid.xy_m[[0, -1]])
    [[0.5 0.5]
     [5.5 3.5]]
    """
    outline = as_places(outline_m, "corner")
    if len(outline) < 3:
        raise SurveyError(f"A floor has at least three corners; got {len(outline)}.")
    least, most = outline.min(axis=0), outline.max(axis=0)
    sides = most - least
    columns_m = _along(float(sides[0]), first_m, starting_m, MOST_COLUMNS, "columns")
    rows_m = _along(float(sides[1]), second_m, starting_m, MOST_ROWS, "rows")
    x, y = np.meshgrid(columns_m + least[0], rows_m + least[1])
    places = np.column_stack([x.ravel(), y.ravel()])
    inside = contains(outline, places)
    if not inside.any():
        raise SurveyError(
            "No point of that grid stands on the floor; try a smaller spacing or another start."
        )
    names = [
        f"{column_letters(column)}{row + 1}"
        for row in range(len(rows_m))
        for column in range(len(columns_m))
    ]
    kept = tuple(name for name, is_in in zip(names, inside.tolist(), strict=True) if is_in)
    return Grid(names=kept, xy_m=places[inside])


def column_letters(column: int) -> str:
    """
    Letters of a column counted from 0: A to Z, then AA, AB and on to ZZ.

    Parameters
    ----------
    column : int
        0 to 701.

    Returns
    -------
    letters : str

    Examples
    --------
    >>> [column_letters(column) for column in (0, 25, 26, 701)]
    ['A', 'Z', 'AA', 'ZZ']
    """
    first, second = divmod(column, 26)
    return (chr(64 + first) if first else "") + chr(65 + second)


def walking_order(names: Iterable[str], along: str = "rows") -> tuple[str, ...]:
    """
    Points in the order to walk them: along the first row, back along the second.

    Parameters
    ----------
    names : iterable of str
    along : {"rows", "columns"}
        Along the first column, and back along the second.

    Returns
    -------
    names : tuple of str
        Grid points first, rows to and fro; then whatever is not on the grid, as given.

    Examples
    --------
    >>> walking_order(["A1", "A2", "door", "B1", "B2", "C2"])
    ('A1', 'B1', 'C2', 'B2', 'A2', 'door')
    >>> walking_order(["A1", "A2", "B1", "B2", "C2"], along="columns")
    ('A1', 'A2', 'B2', 'B1', 'C2')
    """
    lines: dict[tuple[int, str], list[tuple[tuple[int, str], str]]] = {}
    others: list[str] = []
    for name in names:
        found = _NAME.fullmatch(name)
        if found is None:
            others.append(name)
        else:
            letters, number = found.groups()
            column, row = (len(letters), letters), (int(number), "")
            line, place = (row, column) if along == "rows" else (column, row)
            lines.setdefault(line, []).append((place, name))
    walk: list[str] = []
    for turn, line in enumerate(sorted(lines)):
        walk += [name for _, name in sorted(lines[line], reverse=turn % 2 == 1)]
    return (*walk, *others)


def _along(
    side_m: float, spacing_m: float, starting_m: float | None, most: int, what: str
) -> FloatArray:
    """Distances of the columns (or rows) from the floor's edge."""
    if not (math.isfinite(spacing_m) and spacing_m > 0):
        raise SurveyError(f"A spacing of {spacing_m:g} m makes no grid; it must be more than 0.")
    if starting_m is None:
        count = _steps(side_m - 2 * FROM_WALLS_M, spacing_m) + 1
        start = (side_m - (count - 1) * spacing_m) / 2
    else:
        if not (math.isfinite(starting_m) and starting_m >= 0):
            raise SurveyError(f"A grid cannot start {starting_m:g} m from the wall.")
        count = _steps(side_m - starting_m, spacing_m) + 1
        start = starting_m
    if count < 1:
        raise SurveyError(_nothing_fits(side_m, starting_m, what))
    if count > most:
        raise SurveyError(
            f"A spacing of {spacing_m:g} m makes {count} {what} and {most} can be named; "
            "use a wider spacing."
        )
    distances: FloatArray = start + spacing_m * np.arange(count, dtype=np.float64)
    return distances


def _steps(length_m: float, spacing_m: float) -> int:
    """Whole spacings in a length, one that is short by rounding only counted whole."""
    # A spacing of next to nothing gives more steps than a float holds; 1e9 is refused as well.
    return math.floor(min(length_m / spacing_m, 1e9) + _SLACK)


def _nothing_fits(side_m: float, starting_m: float | None, what: str) -> str:
    if starting_m is None:
        return (
            f"No {what} fit: the floor is {side_m:g} m across and a centred grid keeps "
            f"{FROM_WALLS_M:g} m from each wall. Say where the grid starts, for instance "
            f"{side_m / 2:g} m from the wall."
        )
    return (
        f"No {what} fit: the grid starts {starting_m:g} m from the wall and the floor is "
        f"{side_m:g} m across. Start nearer the wall."
    )
