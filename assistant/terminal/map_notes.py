"""What stands under a map: what its marks mean, which way it lies, and what is off its grid."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from assistant.reply.replies import FloorMap, MapSpot
from assistant.terminal.map_layout import MapLayout
from assistant.terminal.map_marks import MEANINGS, depth_text, mark_of
from assistant.terminal.map_things import thing_notes
from assistant.terminal.point_runs import in_runs

SAME_STEP_M = 0.002
"""Spacings that differ by less count as equal: each end may be rounded."""
_METRES_PER_FOOT = 0.3048


def map_notes(floor: FloorMap, layout: MapLayout) -> list[str]:
    """The lines under a map, one for each thing that occurs on it."""
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
    used = {mark_of(spot) for spot in spots if spot.depth_mm is not None}
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


def _orientation(floor: FloorMap, layout: MapLayout) -> str:
    """Which way the map lies, how big the floor is, and how far apart its points are."""
    corner = f"{layout.columns[0][0]}{layout.rows[0][0]} is at the bottom left"
    sides = "letters go along the first side, numbers up the second"
    sentence = f"{corner}: {sides}."
    if floor.outline:
        wide = max(x for x, _ in floor.outline) - min(x for x, _ in floor.outline)
        deep = max(y for _, y in floor.outline) - min(y for _, y in floor.outline)
        sentence += f" Floor {_far(wide, floor.unit)} by {_far(deep, floor.unit)} over all."
    return sentence + _spacing(layout, floor.unit)


def _spacing(layout: MapLayout, unit: str) -> str:
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
    mark = mark_of(spot)
    meaning = f" ({MEANINGS[mark]})" if mark else ""
    return f"{place}, {depth_text(spot.depth_mm, unit)} {unit}{meaning}"


def _nearest(floor: FloorMap, x_m: float, y_m: float) -> str:
    if not floor.spots:
        return f"{_far(x_m, floor.unit)} by {_far(y_m, floor.unit)}"
    spot = min(floor.spots, key=lambda s: (s.x_m - x_m) ** 2 + (s.y_m - y_m) ** 2)
    return spot.point


def unit_word(unit: str) -> str:
    return "inches" if unit == "in" else "mm"


def _far(length_m: float, unit: str) -> str:
    """A length over the floor: feet where depths are in inches."""
    if unit == "in":
        return f"{round(length_m / _METRES_PER_FOOT, 1) + 0.0:g} ft"
    return f"{round(length_m, 2) + 0.0:g} m"
