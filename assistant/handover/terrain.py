"""The surveyed surface as triangles with heights, for files that hold it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.errors import LeadsmanError
from assistant.floor.geometry import area_to_pour
from assistant.floor.surfaces import surface_of
from assistant.job import Job
from assistant.job.once import cached
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray, IntArray

NO_SURFACE = (
    "There is no surface yet: it takes the room and at least one reading on the floor. "
    "What is missing: leadsman, then: what is missing"
)


@frozen_identity
class Terrain:
    """Corners in metres, heights in metres above the datum."""

    xyz_m: FloatArray
    """(c, 3)"""
    triangles: IntArray
    """(t, 3) rows of the corners, counter-clockwise from above."""


@cached
def terrain_of(job: Job) -> Terrain:
    """
    The surface that the tally is worked out from: of the slab, or of the finished floor.

    Raises LeadsmanError without a room or a reading in it.
    """
    surface, area = surface_of(job), area_to_pour(job.layout)
    if surface is None or area is None:
        raise LeadsmanError(NO_SURFACE)
    import numpy as np

    from assistant.levels.facets import facets_of

    facets = facets_of(surface.mesh, area)
    depths_m = surface.mesh.heights_at(facets.corners_m, surface.depths_m)
    heights_m = float(job.finish_mm) / 1000 - depths_m
    return Terrain(np.column_stack([facets.corners_m, heights_m]), facets.triangles)
