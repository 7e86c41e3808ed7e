"""The surface as LandXML 1.2, and the checks that its schema leaves out."""

from __future__ import annotations

import xml.etree.ElementTree as ET
from datetime import UTC
from typing import TYPE_CHECKING

from assistant.errors import LeadsmanError
from assistant.handover.tables import surveys_of
from assistant.handover.terrain import NO_SURFACE, Terrain, terrain_of
from assistant.job import Job
from assistant.reply.times import UNTIMED
from assistant.reply.visible import visible
from assistant.version import __version__

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray, IntArray

_NAMESPACE = "http://www.landxml.org/schema/LandXML-1.2"
_DECIMALS = 6
"""A micrometre: what is read to a tenth of a millimetre comes back as it was."""


def surface_xml(job: Job, name: str) -> bytes:
    """
    The surface of the slab, and of the finished floor once that was surveyed.

    Places are northing, easting, elevation in metres: the second side of the room, the first, and
    the height above the datum. Nothing is known of where on earth that is.

    Raises LeadsmanError without a surface.
    """
    root = _root(job)
    ET.SubElement(root, "Project", {"name": visible(name) or "floor"})
    ET.SubElement(root, "Application", {"name": "Leadsman", "version": __version__})
    surfaces = ET.SubElement(root, "Surfaces")
    for title, floor in surveys_of(job).items():
        try:
            terrain = terrain_of(floor)
        except LeadsmanError:
            if floor is job:
                raise
            continue  # a second survey that was only begun
        check_terrain(terrain)
        surfaces.append(_surface(title, terrain))
    ET.indent(root, " ")
    head = b'<?xml version="1.0" encoding="UTF-8"?>\n'
    text: bytes = ET.tostring(root, encoding="utf-8")
    return head + text + b"\n"


def _root(job: Job) -> ET.Element:
    last = (job.last_time or UNTIMED).astimezone(UTC)
    root = ET.Element(
        "LandXML",
        {
            "xmlns": _NAMESPACE,
            "date": f"{last:%Y-%m-%d}",
            "time": f"{last:%H:%M:%S}",
            "version": "1.2",
            "readOnly": "false",
            "language": "English",
        },
    )
    units = ET.SubElement(root, "Units")
    ET.SubElement(
        units,
        "Metric",
        {
            "areaUnit": "squareMeter",
            "linearUnit": "meter",
            "volumeUnit": "cubicMeter",
            "temperatureUnit": "celsius",
            "pressureUnit": "milliBars",
        },
    )
    return root


def _surface(title: str, terrain: Terrain) -> ET.Element:
    surface = ET.Element("Surface", {"name": title, "desc": "heights above the datum"})
    definition = ET.SubElement(surface, "Definition", {"surfType": "TIN"})
    places = ET.SubElement(definition, "Pnts")
    for number, (x, y, z) in enumerate(terrain.xyz_m.tolist(), start=1):
        place = ET.SubElement(places, "P", {"id": str(number)})
        place.text = " ".join(f"{value + 0.0:.{_DECIMALS}f}" for value in (y, x, z))
    faces = ET.SubElement(definition, "Faces")
    for corners in (terrain.triangles + 1).tolist():
        ET.SubElement(faces, "F").text = " ".join(map(str, corners))
    return surface


def check_terrain(terrain: Terrain) -> None:
    """
    Raises LeadsmanError unless the triangles are ones: three corners each, that exist and differ,
    all turned the same way, and every number a number.

    The schema takes a face of two corners, or of three that are one.
    """
    import numpy as np

    corners, faces = terrain.xyz_m, terrain.triangles
    if len(faces) == 0 or len(corners) < 3:
        raise LeadsmanError(NO_SURFACE)
    if not np.isfinite(corners).all():
        raise LeadsmanError("The surface has a height that is no number; nothing was written.")
    there = (faces >= 0).all() and (faces < len(corners)).all()
    differ = (np.diff(np.sort(faces, axis=1), axis=1) > 0).all()
    if not there or not differ or not (_turns(corners, faces) > 0).all():
        raise LeadsmanError("The surface has a triangle that is none; nothing was written.")


def _turns(corners: FloatArray, faces: IntArray) -> FloatArray:
    """Twice the area of each, positive where it runs counter-clockwise."""
    a, b, c = (corners[faces[:, at], :2] for at in range(3))
    turns: FloatArray = (b - a)[:, 0] * (c - a)[:, 1] - (b - a)[:, 1] * (c - a)[:, 0]
    return turns
