"""A pour that stops at a column or row, and is gone on with later."""

from __future__ import annotations

from math import fsum
from typing import Any

from assistant.errors import Refusal
from assistant.floor.geometry import area_to_pour
from assistant.floor.late_numpy import np
from assistant.floor.order import bags_for
from assistant.floor.places import whole_grid_of
from assistant.floor.steps import cell_of, column_number
from assistant.floor.surfaces import depth_mm_at, surface_of
from assistant.floor.tally import tally_of
from assistant.floor.zone_shapes import HalfPlane, half_of
from assistant.floor.zones import poured_parts
from assistant.job import Job
from assistant.reply.examples import GRID, ROOM, reading_of
from grammar.frozen import frozen

_EDGE_PLACES = 41
"""Places along the edge where its depth is looked at, beside its ends; the surface bends at
columns and rows, and such a difference is less than a pin can be cut to."""


@frozen
class Half:
    """What one side of the line takes."""

    volume_m3: float
    area_m2: float
    bags: int | None
    """Of all products together; None where one is missing."""

    def as_data(self) -> dict[str, Any]:
        return {"volume_m3": self.volume_m3, "area_m2": self.area_m2, "bags": self.bags}


@frozen
class Stop:
    """A pour in two parts."""

    first: Half
    """The half on the side of A1, which is poured first."""
    rest: Half
    bags: int | None
    """Bags if both halves were poured at once."""
    edge_m: float
    """How long a dam along the line is."""
    edge_depth_mm: tuple[float, float]
    """The least and most that it holds back; none of it where the floor stands above."""

    def as_data(self, at: str) -> dict[str, Any]:
        """The numbers for programs."""
        return {
            "at": at,
            **self.first.as_data(),
            "edge_m": self.edge_m,
            "edge_depth_mm": list(self.edge_depth_mm),
            "rest": self.rest.as_data(),
        }


def halves_at(job: Job, column: str | None, row: int | None) -> Stop:
    """
    A pour that stops at the line through a column or a row.

    Raises
    ------
    Refusal
        Without a room, a grid, such a line or readings.
    """
    import shapely

    line = _line(job, column, row)
    area, surface = area_to_pour(job.layout), surface_of(job)
    if area is None:
        raise Refusal("The room first: ", ROOM, ".", spoken="The room first.")
    if surface is None:
        raise Refusal("No readings yet: ", reading_of("A1"), ".", spoken="No readings yet.")
    first, rest = (_half(job, half) for half in (line, line.other_side))
    least, most = np.array(area.bounds[:2]) - 1, np.array(area.bounds[2:]) + 1
    along = np.array([-line.inwards[1], line.inwards[0]])
    ends = [np.where(along != 0, side, line.start_m) for side in (least, most)]
    edge = shapely.intersection(area, shapely.LineString(ends))
    edge_m = 0.0 if min(first.area_m2, rest.area_m2) <= 0 else float(edge.length)
    made = tally_of(job).material
    whole = None if made is None else made.bags
    return Stop(first, rest, whole, edge_m, _depths_along(job, edge) if edge_m else (0.0, 0.0))


def _line(job: Job, column: str | None, row: int | None) -> HalfPlane:
    """The line, with the side of A1 inwards."""
    grid = whole_grid_of(job.layout)
    if grid is None:
        raise Refusal("The grid first: ", GRID, ".", spoken="The grid first.")
    axis = 0 if column else 1
    wanted = column or str(row)
    for name, place in zip(grid.names, grid.xy_m.tolist(), strict=True):
        if cell_of(name)[axis] == wanted:
            inwards = np.zeros(2)
            inwards[axis] = -1.0
            return HalfPlane(np.array(place), inwards)
    lines = {cell_of(name)[axis] for name in grid.names}
    ordered = sorted(lines, key=column_number if column else int)
    what = "column" if column else "row"
    raise Refusal(
        f"There is no {what} {wanted}; the grid has {what}s {ordered[0]} to {ordered[-1]}.",
        spoken=f"There is no such {what}.",
    )


def _half(job: Job, half: HalfPlane) -> Half:
    from assistant.levels.volume import fill

    poured: dict[str, list[float]] = {}
    one_of: dict[str, Job] = {}
    area_m2 = 0.0
    for part in poured_parts(job):
        area, surface = area_to_pour(part.layout), surface_of(part)
        assert area is not None  # it has one
        here = half_of(area, half)
        if surface is not None and here.area > 0:
            filled = fill(surface.mesh.over(here), surface.depths_m)
            area_m2 += filled.area_m2
            product = part.card.name if part.card else ""
            poured.setdefault(product, []).append(filled.volume_m3)
            one_of.setdefault(product, part)
    bags = None
    if "" not in poured:  # each product's bags are rounded up by themselves
        bags = sum(bags_for(one_of[product], fsum(each)) for product, each in poured.items())
    return Half(fsum(volume for each in poured.values() for volume in each), area_m2, bags)


def _depths_along(job: Job, edge: Any) -> tuple[float, float]:
    import shapely

    surface = surface_of(job)
    assert surface is not None  # looked at before
    places = shapely.get_coordinates(
        shapely.line_interpolate_point(edge, np.linspace(0, 1, _EDGE_PLACES), normalized=True)
    )
    depths = [max(depth_mm_at(job, surface, x, y), 0.0) for x, y in places.tolist()]
    return min(depths), max(depths)
