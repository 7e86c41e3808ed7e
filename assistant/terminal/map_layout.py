"""Which points of a map stand on the lines of a grid."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterable, Sequence

from assistant.reply.replies import MapSpot
from grammar.frozen import frozen

SAME_PLACE_M = 0.001
"""Points closer to a grid line than this are on it."""

_NAME = re.compile(r"([A-Z]{1,2})([1-9][0-9]?)")


@frozen
class MapLayout:
    """Which points stand on lines of a grid, and the lines."""

    columns: tuple[tuple[str, float], ...]
    """Letters and distance along the first side, left to right."""
    rows: tuple[tuple[int, float], ...]
    """Numbers and distance along the second side, from the bottom up."""
    cells: dict[tuple[str, int], MapSpot]
    apart: tuple[MapSpot, ...]
    """Points that stand on no common line."""


def lay_out(spots: Sequence[MapSpot]) -> MapLayout:
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
    return MapLayout(
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


def span_of(columns: Sequence[tuple[str, float]]) -> str:
    first, last = columns[0][0], columns[-1][0]
    return first if first == last else f"{first} to {last}"
