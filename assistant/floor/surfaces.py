"""The surface through the read points: depths over the whole floor, or over one part of it."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from assistant.floor.depths import depths_of, finish_mm_of
from assistant.floor.geometry import area_to_pour, zone_at
from assistant.floor.heights import heights_of
from assistant.floor.late_numpy import np
from assistant.floor.places import places_of
from assistant.job import Job
from assistant.job.once import cached
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray
    from assistant.levels.surface import Mesh


@frozen
class Surface:
    """Depths over the floor, or a part of it, under one level."""

    mesh: Mesh
    names: tuple[str, ...]
    """Number of points it goes through."""
    depths_m: FloatArray
    """(n,), same order."""

    def depth_mm_at(self, x_m: float, y_m: float) -> float:
        """Depth at a place, mm."""
        return float(self.mesh.heights_at(np.array([[x_m, y_m]]), self.depths_m)[0]) * 1000


def depth_mm_at(job: Job, surface: Surface, x_m: float, y_m: float) -> float:
    """Depth at a place, mm, under the finish that is wanted there; surface of the whole job."""
    higher = finish_mm_of(job, zone_at(job.layout, x_m, y_m)) - job.finish_mm
    return surface.depth_mm_at(x_m, y_m) + float(higher)


@cached
def surface_of(job: Job) -> Surface | None:
    """
    The surface through all read points on the floor; None without a room or such a point.

    Its depths are under the room's finish, also where a zone has its own. Of a job that shows a
    part of the floor it is the same surface over that part, and under its finish.
    """
    if job.whole is not None:
        return _surface_of_part(job, surface_of(job.whole))
    depths = depths_of(job)
    area = area_to_pour(job.layout) if depths else None
    if area is None:
        return None
    places = places_of(job.layout)
    names = tuple(name for name in depths if name in places.row and places.inside[places.row[name]])
    if not names:
        return None
    xy_m = places.xy_m[[places.row[name] for name in names]]
    mesh = _mesh(xy_m.tobytes(), area.wkb)
    if job.zones.pours:
        heights = heights_of(job)
        depths = {name: job.finish_mm - heights[name] for name in names}
    return Surface(mesh, names, np.array([float(depths[name]) / 1000 for name in names]))


def _surface_of_part(job: Job, everywhere: Surface | None) -> Surface | None:
    area = area_to_pour(job.layout)
    if everywhere is None or job.whole is None or area is None or area.is_empty:
        return None
    higher_m = float(job.finish_mm - job.whole.finish_mm) / 1000
    mesh = _part_of_mesh(everywhere.mesh, area.wkb)
    return Surface(mesh, everywhere.names, everywhere.depths_m + higher_m)


@lru_cache(maxsize=32)
def _part_of_mesh(mesh: Mesh, area_wkb: bytes) -> Mesh:
    """As with whole floors, other depths need no other triangles."""
    import shapely

    return mesh.over(shapely.from_wkb(area_wkb))


@lru_cache(maxsize=8)
def _mesh(points: bytes, area_wkb: bytes) -> Mesh:
    """Cached by geometry, as other depths at the same points need no other triangles.

    A handful is enough for the job, an undo, and what-ifs.
    """
    import shapely

    from assistant.levels.surface import mesh_over

    return mesh_over(np.frombuffer(points).reshape(-1, 2).copy(), shapely.from_wkb(area_wkb))
