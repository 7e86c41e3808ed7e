"""The points of a floor: where each lies, by the grid or by hand, and what stands over it."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property
from typing import TYPE_CHECKING

from assistant.errors import SurveyError
from assistant.floor.geometry import outline_of
from assistant.floor.late_numpy import np
from assistant.floor.obstacles import (
    is_covered,
    obstacle_over,
    taken_area,
)
from assistant.floor.zone_shapes import are_in
from assistant.job import Layout
from assistant.job.once import cached
from assistant.job.things import Obstacle
from assistant.job.zones import REST
from assistant.units.lengths import metres
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.arrays import BoolArray, FloatArray
    from assistant.levels.grid import Grid


@cached
def zone_of_points(layout: Layout) -> dict[str, str]:
    """The zone of each point that is in one, by name; on an edge the zone that was named first."""
    places = places_of(layout)
    found: dict[str, str] = {}
    for name, zone in layout.zones.items():
        for point, is_in in zip(places.names, are_in(zone, places.xy_m).tolist(), strict=True):
            if is_in:
                found.setdefault(point, name)
    return found


@frozen_identity
class Places:
    """All points that have a place."""

    at_m: dict[str, tuple[float, float]]
    """By name, metres from the corner; in walking order, single points after the grid."""
    gave_way: tuple[str, ...]
    """Single points whose name or place the grid has taken."""
    covered: dict[str, tuple[float, float]]
    """Points under an obstacle, which are not to be read, with their places."""
    layout: Layout
    """The layout that they were worked out from."""

    @cached_property
    def names(self) -> tuple[str, ...]:
        """In walking order."""
        return tuple(self.at_m)

    @cached_property
    def row(self) -> dict[str, int]:
        """Name to its row in the arrays."""
        return {name: row for row, name in enumerate(self.at_m)}

    @cached_property
    def xy_m(self) -> FloatArray:
        """(n, 2), metres from the corner, in the order of the names."""
        return np.array(list(self.at_m.values()), dtype=float).reshape(-1, 2)

    @cached_property
    def inside(self) -> BoolArray:
        """(n,), False for a single point outside the outline."""
        outline = outline_of(self.layout)
        if outline is None or not self.at_m:
            return np.ones(len(self.at_m), dtype=bool)
        from assistant.levels.outline import contains

        return contains(outline, self.xy_m)

    def xy(self, point: str) -> tuple[float, float]:
        """The place of a point, metres."""
        return self.at_m[point]


@cached
def grid_of(layout: Layout) -> Grid | None:
    """
    The grid over the floor, without what is covered; None without a grid, or a room it fits in.

    Raises
    ------
    SurveyError
        If no point of it is on the floor.
    """
    whole = whole_grid_of(layout)
    if whole is None or taken_area(layout) is None:
        return whole
    free = [not covered for covered in is_covered(layout, whole.xy_m)]
    if not any(free):
        raise SurveyError("What stands on the floor covers every point of the grid.")
    names = tuple(name for name, is_free in zip(whole.names, free, strict=True) if is_free)
    return replace(whole, names=names, xy_m=whole.xy_m[free])


@cached
def whole_grid_of(layout: Layout) -> Grid | None:
    """The grid over the room, whatever stands there; None as for :func:`grid_of`."""
    grid = layout.grid
    outline = None if grid is None else outline_of(layout)
    if grid is None or outline is None:
        return None
    from assistant.levels.grid import grid_points

    starting = None if grid.starting is None else metres(grid.starting)
    return grid_points(outline, metres(grid.first), metres(grid.second), starting)


@cached
def places_of(layout: Layout) -> Places:
    """Every point with a place, in walking order."""
    if layout.whole is not None:
        return _in_part(places_of(layout.whole), layout)
    named: dict[str, tuple[float, float]] = {}
    grid_of(layout)  # says so where nothing of the grid is left
    grid = whole_grid_of(layout)
    if grid is not None:
        from assistant.levels.grid import walking_order

        at = dict(zip(grid.names, grid.xy_m.tolist(), strict=True))
        named = {name: tuple(at[name]) for name in walking_order(grid.names, layout.walk_along)}
    taken = {_cell(place) for place in named.values()}
    gave_way = []
    for name, place in layout.own_points.items():
        at_m = (metres(place.first), metres(place.second))
        if name in named or not taken.isdisjoint(_cells_round(at_m)):
            gave_way.append(name)
        else:
            named[name] = at_m
            taken.add(_cell(at_m))
    return _but_covered(Places(named, tuple(gave_way), {}, layout))


def _in_part(places: Places, layout: Layout) -> Places:
    assert layout.whole is not None
    zone_of = zone_of_points(layout.whole)
    there = {name: at for name, at in places.at_m.items() if zone_of.get(name, REST) == layout.part}
    return replace(places, at_m=there, layout=layout)


def _but_covered(places: Places) -> Places:
    if taken_area(places.layout) is None:
        return places
    under = zip(places.at_m.items(), is_covered(places.layout, places.xy_m), strict=True)
    covered = {name: at for (name, at), is_in in under if is_in}
    free = {name: at for name, at in places.at_m.items() if name not in covered}
    return replace(places, at_m=free, covered=covered)


def place_of_point(layout: Layout, point: str) -> tuple[float, float] | None:
    """The place of a point, metres, under an obstacle or not; None where it has none."""
    places = places_of(layout)
    return places.at_m.get(point) or places.covered.get(point)


def over_point(layout: Layout, point: str) -> Obstacle | None:
    """The obstacle that a point is under; None where it is under none."""
    at = places_of(layout).covered.get(point)
    return None if at is None else obstacle_over(layout, *at)


def _cell(place: tuple[float, float]) -> tuple[int, int]:
    return round(place[0] * 1000), round(place[1] * 1000)


def _cells_round(place: tuple[float, float]) -> list[tuple[int, int]]:
    """The square millimetre of a place, and those around it: a point there is at the same place."""
    x, y = _cell(place)
    return [(x + i, y + j) for i in (-1, 0, 1) for j in (-1, 0, 1)]


SAME_PLACE_M = 0.003
"""Least distance of two points: no surface has two heights at one place, and nobody marks a floor
finer. More than :func:`_cells_round` takes for one place, so that a point is refused when it is
added, and never dropped afterwards."""


def point_here(layout: Layout, x_m: float, y_m: float) -> str | None:
    """The point that already lies at a place."""
    places = places_of(layout)
    if not places.names:
        return None
    away = np.hypot(places.xy_m[:, 0] - x_m, places.xy_m[:, 1] - y_m)
    nearest = int(np.argmin(away))
    return places.names[nearest] if away[nearest] < SAME_PLACE_M else None
