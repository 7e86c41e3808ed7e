"""Where zones lie, as shapes in metres, and which place is in which."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.events.zones import ZoneAdded
from assistant.floor.late_numpy import np
from assistant.units.lengths import metres
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from shapely import Geometry, MultiPolygon, Polygon

    from assistant.levels.arrays import BoolArray, FloatArray

ON_THE_EDGE_M = 1e-6
"""A point this near to a zone is in it, so that those on its line are. Far more than rounding."""
_SIDES = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "above": (0.0, 1.0), "below": (0.0, -1.0)}
"""Which way each side lies on a plan: along the first side of the room, along the second."""


@frozen_identity
class HalfPlane:
    """All places on one side of a line."""

    start_m: FloatArray
    """(2,) a place on the line, metres."""
    inwards: FloatArray
    """(2,) unit vector across the line, into it."""

    def depth_of(self, places_m: FloatArray) -> FloatArray:
        """How far places, (n, 2), lie inside; negative outside."""
        inside: FloatArray = (places_m - self.start_m) @ self.inwards
        return inside

    @property
    def other_side(self) -> HalfPlane:
        """The half of the plane on the other side of a zone's line."""
        return HalfPlane(self.start_m, -self.inwards)


def across_line(start_m: FloatArray, end_m: FloatArray, side: str) -> HalfPlane | None:
    """The half on a side of a line; None for a line that has no such side."""
    along = (end_m - start_m) / np.hypot(*(end_m - start_m))
    inwards = np.array([-along[1], along[0]])
    towards = float(inwards @ np.array(_SIDES[side]))
    if abs(towards) < ON_THE_EDGE_M:
        return None
    return HalfPlane(start_m, inwards * np.sign(towards))


def half_planes(zone: ZoneAdded) -> list[HalfPlane]:
    """The lines that bound a zone inside the room; what it reaches the wall with has none."""
    if zone.side is not None:
        places = np.array([metres(each) for each in zone.line]).reshape(2, 2)
        half = across_line(places[0], places[1], zone.side)
        return [] if half is None else [half]
    found = []
    for axis, bounds in enumerate((zone.along, zone.across)):
        for bound, way in zip(bounds, (1.0, -1.0), strict=True):
            if bound is not None:
                place, inwards = np.zeros(2), np.zeros(2)
                place[axis], inwards[axis] = metres(bound), way
                found.append(HalfPlane(place, inwards))
    return found


def are_in(zone: ZoneAdded, places_m: FloatArray) -> BoolArray:
    """Which of some places, (n, 2), are in a zone or on its edge."""
    inside: BoolArray = np.ones(len(places_m), dtype=bool)
    for half in half_planes(zone):
        inside &= half.depth_of(places_m) >= -ON_THE_EDGE_M
    return inside


def half_of(area: Polygon | MultiPolygon, half: HalfPlane) -> Polygon | MultiPolygon:
    """What of an area lies on one side of a line."""
    import shapely

    from assistant.levels.kriged.cells import OVERLAY_GRID_M

    least, most = np.array(area.bounds[:2]), np.array(area.bounds[2:])
    middle = (least + most) / 2
    inside = half.depth_of(middle[None])[0]
    foot = middle - inside * half.inwards
    # A line may lie far beyond the area: of a zone whose room has become smaller.
    reach = float(np.hypot(*(most - least))) + abs(inside)
    along = reach * np.array([-half.inwards[1], half.inwards[0]])
    inwards = reach * half.inwards
    corners = [foot - along, foot + along, foot + along + inwards, foot - along + inwards]
    half_plane = shapely.Polygon(corners)
    return floor_alone(shapely.intersection(area, half_plane, grid_size=OVERLAY_GRID_M))


def floor_alone(shape: Geometry) -> Polygon | MultiPolygon:
    """A shape without the lines and points that an overlay leaves where areas only touch."""
    import shapely

    if shape.geom_type in ("Polygon", "MultiPolygon"):
        return shape
    parts = [part for part in shapely.get_parts(shape) if part.geom_type == "Polygon"]
    return parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)


def zone_of_area(area: Polygon | MultiPolygon, zone: ZoneAdded) -> Polygon | MultiPolygon:
    """What of an area lies in a zone; it may be empty."""
    for half in half_planes(zone):
        if not area.is_empty:
            area = half_of(area, half)
    return area
