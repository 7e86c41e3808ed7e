"""What stands on the floor, as shapes in metres, and what it covers."""

from __future__ import annotations

from math import pi, sin, sqrt
from typing import TYPE_CHECKING

from assistant.errors import SurveyError
from assistant.floor.late_numpy import np
from assistant.job import Layout
from assistant.job.once import cached
from assistant.job.things import Obstacle
from assistant.units.lengths import metres

if TYPE_CHECKING:
    from shapely import MultiPolygon, Polygon

    from assistant.levels.arrays import BoolArray, FloatArray

ROUND_CORNERS = 64
"""Corners of a round one, which has the area of its circle. Raising it makes it rounder and slower;
so many are never further than 1/800 of the radius from the circle."""
NO_FLOOR_M2 = 1e-4
"""As much floor as a hand covers is none to pour."""
ON_THE_EDGE_M = 1e-6
"""A point this near to the edge of an obstacle stands beside it. Far more than rounding."""


def place_m(obstacle: Obstacle) -> tuple[float, float]:
    """Where the middle of an obstacle is, metres."""
    return metres(obstacle.along), metres(obstacle.across)


def shape_of(obstacle: Obstacle) -> Polygon:
    """The outline of an obstacle, metres; of a round one a polygon with its exact area."""
    import shapely

    x, y = place_m(obstacle)
    if obstacle.second is None:
        return shapely.Polygon(_ring(metres(obstacle.first) / 2) + np.array([x, y]))
    half = metres(obstacle.first) / 2, metres(obstacle.second) / 2
    return shapely.box(x - half[0], y - half[1], x + half[0], y + half[1])


def _ring(radius: float) -> FloatArray:
    turn = 2 * pi / ROUND_CORNERS
    reach = radius * sqrt(turn / sin(turn))
    angles = turn * (np.arange(ROUND_CORNERS) + 0.5)
    return reach * np.column_stack([np.cos(angles), np.sin(angles)])


def off_the_area(layout: Layout) -> tuple[Obstacle, ...]:
    """The things on the floor that nothing is poured over."""
    return tuple(one for one in layout.things.obstacles if one.is_off_the_area)


@cached
def taken_area(layout: Layout) -> Polygon | None:
    """All that is off the area in one shape, metres; None where nothing is."""
    obstacles = off_the_area(layout)
    if not obstacles:
        return None
    import shapely

    # Sorted, so that the order in which they were described makes no difference.
    shapes = sorted((shape_of(one) for one in obstacles), key=lambda shape: shape.wkb)
    return shapely.union_all(shapes)


def obstacles_outside(layout: Layout, outline_m: FloatArray) -> tuple[Obstacle, ...]:
    """Obstacles that are not in a room, whose corners are given: it may have changed since."""
    import shapely

    room = shapely.Polygon(outline_m)
    return tuple(one for one in layout.things.obstacles if not room.intersects(shape_of(one)))


def left_beside(layout: Layout, outline_m: FloatArray) -> Polygon | MultiPolygon:
    """
    What obstacles leave of a room, whose corners are given.

    Raises
    ------
    SurveyError
        If they leave nothing.
    """
    import shapely

    from assistant.levels.kriged.cells import OVERLAY_GRID_M

    room, taken = shapely.Polygon(outline_m), taken_area(layout)
    if taken is None:
        return room
    left = shapely.difference(room, taken, grid_size=OVERLAY_GRID_M)
    if left.area <= NO_FLOOR_M2:
        raise SurveyError("What stands on the floor leaves nothing of it to pour.")
    return left


def is_covered(layout: Layout, places_m: FloatArray) -> BoolArray:
    """Which of some places, (n, 2), are under an obstacle; at its edge is not under it."""
    taken = taken_area(layout)
    if taken is None or not len(places_m):
        return np.zeros(len(places_m), dtype=bool)
    import shapely

    inner = taken.buffer(-ON_THE_EDGE_M, join_style="mitre")
    shapely.prepare(inner)
    covered: BoolArray = shapely.contains_xy(inner, places_m)
    return covered


def obstacle_over(layout: Layout, x_m: float, y_m: float) -> Obstacle | None:
    """What covers a place; None where nothing does."""
    if not is_covered(layout, np.array([[x_m, y_m]]))[0]:
        return None
    import shapely

    place = shapely.Point(x_m, y_m)
    return min(off_the_area(layout), key=lambda one: shape_of(one).distance(place))
