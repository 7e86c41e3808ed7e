"""The floor in metres: its outline, its points, and the depths through them.

It connects the job, which is exact and holds only what was said, with the numeric
core, which works on arrays. The numeric core is imported when first needed, so that
the start does not wait for it.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from math import hypot, sqrt
from typing import TYPE_CHECKING

from assistant.errors import SurveyError
from assistant.floor.heights import heights_of
from assistant.floor.late_numpy import np
from assistant.floor.obstacles import (
    NO_FLOOR_M2,
    is_covered,
    left_beside,
    obstacle_over,
    taken_area,
)
from assistant.floor.zone_shapes import are_in, floor_alone, zone_of_area
from assistant.job import Job, Layout, Rectangle, WalkedRoom, Wall
from assistant.job.once import cached
from assistant.job.things import Obstacle
from assistant.job.zones import REST
from assistant.units.lengths import metres
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    from assistant.levels.area import AreaLike
    from assistant.levels.arrays import BoolArray, FloatArray
    from assistant.levels.grid import Grid


_HALF = sqrt(0.5)
DIRECTIONS: dict[str, tuple[float, float]] = {
    "north": (0.0, 1.0),
    "north east": (_HALF, _HALF),
    "east": (1.0, 0.0),
    "south east": (_HALF, -_HALF),
    "south": (0.0, -1.0),
    "south west": (-_HALF, -_HALF),
    "west": (-1.0, 0.0),
    "north west": (-_HALF, _HALF),
}
"""One metre of wall in each direction: east, north."""


# --- the outline -----------------------------------------------------------------


def legs_of(walls: tuple[Wall, ...]) -> list[tuple[float, float]]:
    """Walls as displacements, metres east and north."""
    return [
        (metres(wall.length) * east, metres(wall.length) * north)
        for wall in walls
        for east, north in [DIRECTIONS[wall.direction]]
    ]


def gap_m(walls: tuple[Wall, ...]) -> float:
    """Distance from the end of the walls to their beginning."""
    legs = legs_of(walls)
    return hypot(sum(east for east, _ in legs), sum(north for _, north in legs))


def perimeter_m(walls: tuple[Wall, ...]) -> float:
    """Length of all walls given."""
    return float(sum(metres(wall.length) for wall in walls))


def has_outline(layout: Layout) -> bool:
    """Whether there is a room whose walls close."""
    room = layout.room
    return isinstance(room, Rectangle) or (isinstance(room, WalkedRoom) and room.closed)


def check_room(layout: Layout) -> None:
    """
    Raises SurveyError if the walls cross, or enclose nothing; while there is no room, neither does.

    Sides were held to be lengths when they were said, so a rectangle need not be drawn for it.
    """
    if not isinstance(layout.room, Rectangle):
        outline_of(layout)


@cached
def outline_of(layout: Layout) -> FloatArray | None:
    """
    The room's outline, (k, 2), metres, corner at (0, 0); None until there is one.

    Raises
    ------
    SurveyError
        If the walls cross, or enclose nothing.
    """
    room = layout.room
    if room is None or not has_outline(layout):
        return None
    from assistant.levels.outline import check_outline, rectangle

    if isinstance(room, Rectangle):
        return rectangle(metres(room.first), metres(room.second))
    vertices = _walked(room)
    check_outline(vertices)
    return vertices


def _walked(room: WalkedRoom) -> FloatArray:
    from assistant.levels.outline import in_frame, spread_misclosure, walk_walls

    legs = legs_of(room.walls)
    vertices = walk_walls(legs) if room.straight_wall_added else spread_misclosure(legs)
    # The first wall that turns off shows on which side the room lies.
    turned = [leg for leg in legs if abs(legs[0][0] * leg[1] - legs[0][1] * leg[0]) > 1e-9]
    if not turned:
        raise SurveyError("The walls all run along one line; a room needs a wall that turns.")
    return in_frame(vertices, legs[0], turned[0])


@cached
def area_to_pour(layout: Layout) -> Polygon | MultiPolygon | None:
    """
    The floor that is poured, metres: the room less what stands on it; None until there is a room.

    Raises
    ------
    SurveyError
        If the outline is none, or nothing is left of it.
    """
    if layout.whole is not None:
        # A room described anew, wall by wall, has no area until it closes; its zones wait.
        return zone_areas(layout.whole).get(layout.part or REST)
    outline = outline_of(layout)
    return None if outline is None else left_beside(layout, outline)


@cached
def zone_areas(layout: Layout) -> dict[str, Polygon | MultiPolygon]:
    """
    Areas of the zones, by name, and of the rest where there is one; together the whole floor.

    Of zones that overlap, as they may since the room has changed, the first has what is common.
    Empty until there is a room. A zone may have an empty area.
    """
    left = area_to_pour(layout)
    if left is None:
        return {}
    import shapely

    from assistant.levels.kriged.cells import OVERLAY_GRID_M

    areas = {}
    for name, zone in layout.zones.items():
        areas[name] = zone_of_area(left, zone)
        left = floor_alone(shapely.difference(left, areas[name], grid_size=OVERLAY_GRID_M))
    return {**areas, REST: left} if left.area > NO_FLOOR_M2 or not areas else areas


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


def zone_at(layout: Layout, x_m: float, y_m: float) -> str:
    """The name of the zone that a place lies in."""
    at = np.array([[x_m, y_m]])
    return next((name for name, zone in layout.zones.items() if are_in(zone, at)[0]), REST)


def with_part(layout: Layout, part: str) -> Layout:
    """The layout with one part of the floor alone: a zone, or the rest."""
    return replace(layout, zones={}, part=part, whole=layout)


def area_m_of(layout: Layout) -> AreaLike | None:
    """
    The floor that is poured as the numeric core takes it.

    The bare outline where nothing stands on it, so that its cells run along the first wall.
    """
    if taken_area(layout) is None and layout.whole is None:
        return outline_of(layout)
    return area_to_pour(layout)


@cached
def area_of(layout: Layout) -> float | None:
    """Area to be poured, m²; None until there is a room."""
    room = layout.room
    if not layout.things.obstacles and isinstance(room, Rectangle) and layout.whole is None:
        return metres(room.first) * metres(room.second)
    area = area_m_of(layout)
    if area is None:
        return None
    if layout.whole is not None and zone_areas(layout.whole)[layout.part or REST].is_empty:
        return 0.0  # of a zone that the room no longer has
    from assistant.levels.area import as_area

    return as_area(area).area_m2


def is_inside(layout: Layout, x_m: float, y_m: float) -> bool:
    """Whether a place is on the floor; always while there is no room."""
    outline = outline_of(layout)
    if outline is None:
        return True
    from assistant.levels.outline import contains

    return bool(contains(outline, np.array([[x_m, y_m]]))[0])


# --- the points --------------------------------------------------------------------


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


def untied_points(job: Job) -> tuple[str, ...]:
    """Points that were read from a set-up without a tie to the others."""
    depths, places = depths_of(job), places_of(job.layout)
    return tuple(
        name
        for name in job.readings
        if name not in depths
        and name not in places.covered
        and (job.whole is None or name in places.at_m)
    )


# --- the depths ------------------------------------------------------------------------


@cached
def depths_of(job: Job) -> dict[str, Fraction]:
    """
    Exact depth in mm at every point of known height: in walking order, then those without a place.

    A point read from a set-up without a tie has no height yet, and so no depth; nor has one that
    has come under an obstacle since.
    """
    places = places_of(job.layout)
    names = places.row
    if job.whole is not None:
        everywhere = depths_of(job.whole)
        return {name: everywhere[name] for name in names if name in everywhere}
    heights = heights_of(job)
    read = [name for name in names if name in heights]
    # Sorted, so that the order of reading makes no difference.
    read += sorted(heights.keys() - names.keys() - places.covered.keys())
    if not job.zones.pours:  # the usual case, kept quick
        return {name: job.finish_mm - heights[name] for name in read}
    return {name: finish_mm_of(job, zone_of_point(job, name)) - heights[name] for name in read}


def zone_of_point(job: Job, point: str | None) -> str:
    """The zone of a point; the rest for one that is in none, or has no place."""
    return zone_of_points(job.layout).get(point or "", REST) if job.layout.zones else REST


def finish_mm_of(job: Job, zone: str) -> Fraction:
    """Height of the finish above the zero in a zone, which is the room's where it has no own."""
    own = job.zones.of(zone).finish_mm
    return job.finish_mm if own is None else own
