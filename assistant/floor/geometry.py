"""The floor in metres: its outline, what stands on it, and the area that is poured.

It connects the job, which is exact and holds only what was said, with the numeric
core, which works on arrays. The numeric core is imported when first needed, so that
the start does not wait for it.
"""

from __future__ import annotations

from dataclasses import replace
from math import hypot, sqrt
from typing import TYPE_CHECKING

from assistant.errors import SurveyError
from assistant.floor.late_numpy import np
from assistant.floor.obstacles import (
    NO_FLOOR_M2,
    left_beside,
    taken_area,
)
from assistant.floor.zone_shapes import are_in, floor_alone, zone_of_area
from assistant.job import Layout, Rectangle, WalkedRoom, Wall
from assistant.job.once import cached
from assistant.job.zones import REST
from assistant.units.lengths import metres

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    from assistant.levels.area import AreaLike
    from assistant.levels.arrays import FloatArray


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
