"""Lines of one height and areas between two of them, over the surface that the tally uses."""

from __future__ import annotations

from collections.abc import Callable
from itertools import pairwise
from typing import TYPE_CHECKING

from assistant.floor.geometry import area_to_pour
from assistant.floor.late_numpy import np
from assistant.floor.surfaces import surface_of
from assistant.floor.zone_shapes import floor_alone
from assistant.handover.extras import needed
from assistant.job import Job
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from shapely import Geometry, MultiPolygon, Polygon

    from assistant.levels.arrays import FloatArray

    Values = Callable[[FloatArray], FloatArray]

CELLS_ALONG = 160
"""Cells of the lattice along the longer side. Raising it makes lines truer between the points and
takes longer, with its square; straight stretches of the surface come out straight at any."""
_CLIP_GRID_M = 1e-6
"""Corners of clipped areas are put on a lattice as fine as this; far less than a picture shows."""


@frozen_identity
class Sampled:
    """A surface on a lattice that reaches a little past the floor."""

    x_m: FloatArray
    """(nx,)"""
    y_m: FloatArray
    """(ny,)"""
    values: FloatArray
    """(ny, nx)"""
    area: Polygon | MultiPolygon
    """The floor that it is cut to."""


def sampled_surface(area: Polygon | MultiPolygon, values_at: Values) -> Sampled:
    """A surface over an area, from its value at places, (n, 2) in metres."""
    low_x, low_y, high_x, high_y = area.bounds
    cell = max(high_x - low_x, high_y - low_y) / CELLS_ALONG
    x_m, y_m = (
        np.linspace(low, high, max(int(np.ceil((high - low) / cell)), 2) + 1)
        for low, high in ((low_x, high_x), (low_y, high_y))
    )
    places = np.stack(np.meshgrid(x_m, y_m), axis=-1).reshape(-1, 2)
    return Sampled(x_m, y_m, values_at(places).reshape(len(y_m), len(x_m)), area)


def heights_sampled(part: Job) -> Sampled | None:
    """Heights above the datum of a floor or a part of it, millimetres; None without a surface."""
    surface, area = surface_of(part), area_to_pour(part.layout)
    if surface is None or area is None or area.is_empty:
        return None
    finish_mm = float(part.finish_mm)

    def height_mm(places: FloatArray) -> FloatArray:
        heights: FloatArray = finish_mm - surface.mesh.heights_at(places, surface.depths_m) * 1000
        return heights

    return sampled_surface(area, height_mm)


def lines_at(surface: Sampled, level: float) -> list[FloatArray]:
    """The lines where a surface has a value, each (k, 2), metres, cut to the floor."""
    import shapely

    with needed("A picture or drawing with contours", "picture"):
        from contourpy import contour_generator

    found = contour_generator(surface.x_m, surface.y_m, surface.values).lines(level)
    lines = [shapely.LineString(np.asarray(line)) for line in found if len(line) > 1]
    parts = shapely.get_parts(shapely.intersection(lines, surface.area))
    kept = [part for part in shapely.get_parts(parts) if part.geom_type == "LineString"]
    if not kept:
        return []
    merged = shapely.get_parts(shapely.line_merge(shapely.multilinestrings(kept)))
    return [shapely.get_coordinates(line) for line in merged if line.length > 0]


def band_between(surface: Sampled, low: float, high: float) -> Geometry:
    """Where a surface is from one value to another, cut to the floor; may be empty."""
    import shapely

    with needed("A picture or drawing with contours", "picture"):
        from contourpy import FillType, contour_generator

    maker = contour_generator(
        surface.x_m, surface.y_m, surface.values, fill_type=FillType.OuterOffset
    )
    polygons = []
    for corners, offsets in zip(*maker.filled(low, high), strict=True):
        rings = [corners[a:b] for a, b in pairwise(offsets.tolist())]
        polygons.append(shapely.Polygon(rings[0], [ring for ring in rings[1:] if len(ring) > 3]))
    if not polygons:
        return shapely.MultiPolygon()
    # Where a surface is level at a border, the maker leaves lines and points too.
    whole = shapely.union_all([floor_alone(shapely.make_valid(each)) for each in polygons])
    return floor_alone(shapely.intersection(whole, surface.area, grid_size=_CLIP_GRID_M))


STEPS_MM = {
    "mm": (0.5, 1.0, 2.0, 5.0, 10.0, 20.0, 50.0, 100.0, 200.0, 500.0),
    "in": tuple(25.4 * inches for inches in (1 / 32, 1 / 16, 1 / 8, 1 / 4, 1 / 2, 1, 2, 4, 8, 16)),
}
"""Steps between lines that are read off at a glance, millimetres, by the job's unit."""
MOST_LEVELS = 8


def levels_between(low_mm: float, high_mm: float, unit: str) -> list[float]:
    """
    Even levels that lie round a range, at most nine of them; whole steps from the zero.

    >>> levels_between(3, 21, "mm")
    [0.0, 5.0, 10.0, 15.0, 20.0, 25.0]
    """
    span = max(high_mm - low_mm, 1e-9)
    steps = [step for step in STEPS_MM[unit] if span / step <= MOST_LEVELS - 2]
    step = steps[0] if steps else span / (MOST_LEVELS - 2)
    first = np.floor(low_mm / step)
    last = max(np.ceil(high_mm / step), first + 1)
    return [float(number * step) for number in np.arange(first, last + 1)]
