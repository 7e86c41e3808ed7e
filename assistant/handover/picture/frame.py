"""Where a place of the floor lies on a picture, with A1 at the bottom left."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from assistant.handover.picture.pen import Place
from grammar.frozen import frozen

if TYPE_CHECKING:
    from shapely import Geometry

WIDTH = 640.0
"""Of every picture: on a phone its type is still read, on a page it is not coarse."""
MARGIN = 50.0
FINEST = 0.12
"""Bends smaller than this, in the picture's own units, are drawn straight: nobody sees them."""
TALLEST = 760.0
"""Of the plan alone; a long room is drawn smaller rather than off the page."""


@frozen
class PictureFrame:
    """Metres to the picture's own units."""

    left_m: float
    top_m: float
    scale: float
    """Units a metre."""
    left: float
    top: float
    height: float
    """Of the plan, without what stands under it."""

    def place(self, x_m: float, y_m: float) -> Place:
        """A place of the floor on the picture."""
        return (
            self.left + (x_m - self.left_m) * self.scale,
            self.top + (self.top_m - y_m) * self.scale,
        )

    def places(self, at_m: Iterable[Iterable[float]]) -> list[Place]:
        """Several of them."""
        return [self.place(*list(each)[:2]) for each in at_m]

    def rings(self, shape: Geometry) -> list[list[Place]]:
        """The rings of all polygons of a shape; of anything else in it none."""
        import shapely

        found = []
        for part in shapely.get_parts(shapely.simplify(shape, FINEST / self.scale)):
            if part.geom_type == "Polygon":
                rings = [part.exterior, *part.interiors]
                found += [self.places(ring.coords) for ring in rings]
            elif hasattr(part, "geoms"):
                found += self.rings(part)
        return found


def frame_for(bounds: tuple[float, float, float, float], top: float) -> PictureFrame:
    """The frame in which a floor of these bounds fills the picture's width, or its height."""
    low_x, low_y, high_x, high_y = bounds
    wide, high = max(high_x - low_x, 1e-6), max(high_y - low_y, 1e-6)
    scale = min((WIDTH - 2 * MARGIN) / wide, TALLEST / high)
    left = (WIDTH - wide * scale) / 2
    return PictureFrame(low_x, high_y, scale, left, top + MARGIN, high * scale + 2 * MARGIN)
