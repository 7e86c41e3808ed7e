"""The floor as shapes in JSON, in its own metres."""

from __future__ import annotations

import json
from typing import Any

from assistant.answers.overview.drawn_map import floor_map
from assistant.errors import LeadsmanError
from assistant.floor.geometry import area_to_pour
from assistant.floor.obstacles import shape_of
from assistant.handover.strips import strip_shapes
from assistant.handover.terrain import NO_SURFACE
from assistant.job import Job
from assistant.reply.visible import visible

NOT_ON_EARTH = (
    "Places are metres from the room's A1 corner, x along its first side, y along its second. "
    "The job has no georeference, and GeoJSON (RFC 7946) is longitude and latitude in WGS 84 only, "
    "so this is not GeoJSON, though its shapes are written the same way."
)


def local_map(job: Job, name: str) -> bytes:
    """
    Outline, points, what stands there, doors and strips.

    Raises LeadsmanError without a room.
    """
    import shapely

    plan, area = floor_map(job), area_to_pour(job.layout)
    if area is None:
        raise LeadsmanError(NO_SURFACE)
    features = [_feature(area, "floor", visible(name), area_m2=area.area)]
    for obstacle in job.layout.things.obstacles:
        features.append(_feature(shape_of(obstacle), obstacle.kind, str(obstacle.number)))
    for thing in plan.things:
        if thing.kind in ("joint", "crack", "drain"):
            line = len(thing.at_m) > 1
            shape = shapely.LineString(thing.at_m) if line else shapely.Point(thing.at_m[0])
            features.append(_feature(shape, thing.kind, visible(thing.told)))
    finish_mm = float(job.finish_mm)
    for spot in plan.spots:
        depth = spot.depth_mm
        place = shapely.Point(spot.x_m, spot.y_m)
        height = None if depth is None else finish_mm - depth
        features.append(_feature(place, "point", spot.point, depth_mm=depth, height_mm=height))
    features += [_feature(shapely.Point(x, y), "door", str(n)) for n, x, y in plan.doors]
    features += [_feature(shape, "strip", str(n)) for n, shape in strip_shapes(job)]
    whole = {"georeferenced": False, "coordinates": NOT_ON_EARTH, "features": features}
    return (json.dumps(whole, indent=1, allow_nan=False) + "\n").encode("ascii")


def _feature(shape: Any, kind: str, name: str, **more: Any) -> dict[str, Any]:
    from shapely.geometry import mapping

    # As tuples they would be written the same; a list is what is read back.
    geometry = json.loads(json.dumps(mapping(shape)))
    return {"geometry": geometry, "properties": {"kind": kind, "name": name, **more}}
