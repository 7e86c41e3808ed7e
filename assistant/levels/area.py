"""
The area of a floor, of any shape: an outline, less what stands on the floor, in any number of
pieces.

It is kept as rings with a direction. What is added up over the inside of each ring, plus for a ring
that runs counter-clockwise and minus for one that runs clockwise, is added up over the area.
"""

from __future__ import annotations

from functools import cached_property
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, as_places, cross
from assistant.levels.outline import check_outline, outline_area
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from typing import TypeAlias

    from shapely import Geometry, MultiPolygon, Polygon

    AreaLike: TypeAlias = ArrayLike | Geometry
    """The corners of an outline, (k, 2), metres; or a polygon with or without holes, or several."""


@frozen_identity
class FloorArea:
    """A checked area."""

    rings_m: tuple[FloatArray, ...]
    """(k, 2) each, metres: counter-clockwise round floor, clockwise round what is taken out."""
    outer: tuple[int, ...]
    """Which of the rings run round floor."""
    area_m2: float
    wall_m: FloatArray
    """(2, 2) ends of a wall: the first of an outline, the longest of a polygon."""

    @cached_property
    def polygon(self) -> Polygon | MultiPolygon:
        """The area as a shapely polygon."""
        # Imported late: many commands need no outline.
        import shapely

        ends = (*self.outer[1:], len(self.rings_m))
        parts = [
            shapely.Polygon(self.rings_m[start], self.rings_m[start + 1 : end])
            for start, end in zip(self.outer, ends, strict=True)
        ]
        return parts[0] if len(parts) == 1 else shapely.MultiPolygon(parts)

    @property
    def corners_m(self) -> FloatArray:
        """(k, 2) corners of the rings that run round floor."""
        return np.vstack([self.rings_m[row] for row in self.outer])


def as_area(area_m: AreaLike) -> FloorArea:
    """
    An area with its rings in order.

    Parameters
    ----------
    area_m : (k, 2) array_like, or shapely polygon or multipolygon
        Corners of a simple outline, either way round; or any polygon, with its holes.

    Returns
    -------
    area : FloorArea

    Raises
    ------
    SurveyError
        For an outline as :func:`~assistant.levels.outline.check_outline`; for a polygon without
        area.

    Examples
    --------
    >>> import shapely
    >>> room = shapely.box(0, 0, 6, 4)
    >>> as_area(room.difference(shapely.box(2, 1, 3, 2))).area_m2
    23.0
    >>> as_area([[0, 0], [0, 4], [6, 4], [6, 0]]).area_m2
    24.0
    """
    if hasattr(area_m, "geom_type"):
        return _of_polygons(area_m)
    outline = as_places(area_m, "corner")
    check_outline(outline)
    ring = outline if _signed_area(outline) > 0 else outline[::-1]
    return FloorArea((ring,), (0,), outline_area(outline), outline[:2])


def _of_polygons(area: Geometry) -> FloorArea:
    import shapely

    parts = [part for part in shapely.get_parts(area) if part.geom_type == "Polygon" and part.area]
    if not parts:
        raise SurveyError("There is no floor left in that area.")
    rings: list[FloatArray] = []
    outer: list[int] = []
    for part in parts:
        outer.append(len(rings))
        rings.append(_turned(part.exterior, 1))
        rings += [_turned(hole, -1) for hole in part.interiors]
    total = sum(_signed_area(ring) for ring in rings)
    return FloorArea(
        tuple(rings), tuple(outer), total, _longest_wall([rings[row] for row in outer])
    )


def _turned(ring: Geometry, way: int) -> FloatArray:
    """The corners of a ring, counter-clockwise for 1 and clockwise for -1."""
    import shapely

    corners: FloatArray = shapely.get_coordinates(ring)[:-1]
    return corners if _signed_area(corners) * way > 0 else corners[::-1]


def _longest_wall(rings: list[FloatArray]) -> FloatArray:
    starts = np.vstack(rings)
    ends = np.vstack([np.roll(ring, -1, axis=0) for ring in rings])
    lengths = np.hypot(*(ends - starts).T)
    # Of walls as long but for rounding the first one, so that which it is hangs on nothing.
    longest = int(np.argmax(lengths > lengths.max() * (1 - 1e-9)))
    return np.array([starts[longest], ends[longest]])


def _signed_area(ring: FloatArray) -> float:
    # From the first corner, so that an outline far from (0, 0) loses no digits.
    moved = ring - ring[:1]
    return float(cross(moved, np.roll(moved, -1, axis=0)).sum() / 2)
