"""Points of a file against the room: which way they lie, and whether they lie in it at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.errors import SurveyError
from assistant.floor.late_numpy import np
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray

LEAST_IN = 0.9
"""Share of points that has to lie in the room: scanners see through doors."""
_NEARLY_M = 0.05


@frozen
class Fit:
    """How much of a file lies in the room, read one way round and the other."""

    as_read: float
    swapped: float
    spans_m: tuple[float, float]
    """Extent of the points, first and second place."""
    starts_m: tuple[float, float]

    @property
    def lies_as_read(self) -> bool:
        """Whether nearly all points lie in the room as they are."""
        return self.as_read >= LEAST_IN

    @property
    def lies_swapped(self) -> bool:
        """Whether the points lie in the room once their two columns are swapped."""
        return self.swapped >= LEAST_IN


def fit_of(outline_m: FloatArray, first_m: FloatArray, second_m: FloatArray) -> Fit:
    """Shares of points within the outline, both ways round."""
    if not len(first_m):
        raise SurveyError("There are no points.")
    places = np.column_stack((first_m, second_m))
    # A few tell as much as all.
    some = places[:: max(len(places) // 20_000, 1)]
    low, high = np.percentile(some, [1, 99], axis=0)
    return Fit(
        share_in(outline_m, some),
        share_in(outline_m, some[:, ::-1]),
        (float(high[0] - low[0]), float(high[1] - low[1])),
        (float(low[0]), float(low[1])),
    )


def share_in(outline_m: FloatArray, places_m: FloatArray) -> float:
    """Share of points within the outline, or a hand's breadth beside it."""
    import shapely

    room = shapely.Polygon(outline_m).buffer(_NEARLY_M)
    shapely.prepare(room)
    return float(np.mean(shapely.contains_xy(room, places_m[:, 0], places_m[:, 1])))


@frozen
class ScanPlacement:
    """One way in which points of a file that has axes of its own may lie in the room."""

    corner: tuple[float, float]
    """Of the room's A1 corner, as the file has it, metres."""
    along: tuple[float, float]
    """Of the far end of its first side."""
    mirrored: bool
    """Whether northing has to come before easting in the file."""

    @property
    def degrees(self) -> float:
        """From the file's first axis to the room's first side, anticlockwise as the file has it."""
        return float(
            np.degrees(np.arctan2(self.along[1] - self.corner[1], self.along[0] - self.corner[0]))
        )


def in_room_axes(
    places_m: FloatArray, corner: tuple[float, float], along: tuple[float, float], *, mirrored: bool
) -> FloatArray:
    """
    Places of a file in the room: from the A1 corner along the first side, and across it.

    >>> places_m = np.array([[1.0, 5.0]])
    >>> in_room_axes(places_m, (1.0, 2.0), (1.0, 9.0), mirrored=False).round(3).tolist()
    [[3.0, 0.0]]
    """
    start = np.array(corner)
    side = np.array(along) - start
    length = float(np.hypot(*side))
    if not length > 0:
        raise SurveyError("The first side begins and ends at one place.")
    across = np.array([-side[1], side[0]]) * (-1 if mirrored else 1)
    placed: FloatArray = (places_m - start) @ np.column_stack((side, across)) / length
    return placed


def ways_in(outline_m: FloatArray, places_m: FloatArray) -> tuple[ScanPlacement, ...]:
    """
    The ways in which points can lie in the room, whatever the axes of their file.

    The rectangle round the points is laid on that round the room; where both are as large, each
    way round that brings the points into the room is one. A room that looks the same from two
    corners has more than one, and only somebody who knows the corners can tell them apart.
    """
    import shapely

    some = places_m[:: max(len(places_m) // 20_000, 1)]
    around = shapely.minimum_rotated_rectangle(shapely.MultiPoint(some))
    if around.geom_type != "Polygon":
        return ()
    corners = np.array(shapely.orient_polygons(around).exterior.coords)[:4]
    low, high = outline_m.min(axis=0), outline_m.max(axis=0)
    found = []
    for first in range(4):
        for step in (1, -1):
            start, along, across = (corners[(first + k * step) % 4] for k in (0, 1, -1))
            spans = np.array([np.hypot(*(along - start)), np.hypot(*(across - start))])
            size = high - low
            if not (_LEAST_SPAN * size <= spans).all() or not (spans <= _MOST_SPAN * size).all():
                continue
            # What was left at the walls is taken to be as wide on either side.
            unit = np.column_stack((along - start, across - start)) / spans
            at_low = start - unit @ ((size - spans) / 2)
            corner = at_low - unit @ low
            far = corner + unit[:, 0] * high[0]
            way = ScanPlacement(
                (float(corner[0]), float(corner[1])), (float(far[0]), float(far[1])), step < 0
            )
            placed = in_room_axes(some, way.corner, way.along, mirrored=way.mirrored)
            if share_in(outline_m, placed) >= LEAST_IN:
                found.append(way)
    return tuple(found)


_LEAST_SPAN, _MOST_SPAN = 0.8, 1.02
"""Of the room's size, what points of all of it span: a scanner leaves a strip at the walls."""
