"""The floor as a DXF drawing in metres: outline, what stands there, points, surface, contours."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

from assistant.answers.overview.drawn_map import floor_map
from assistant.answers.parts import depth_cell
from assistant.errors import LeadsmanError
from assistant.floor.obstacles import shape_of
from assistant.floor.zones import poured_parts
from assistant.handover.extras import needed
from assistant.handover.isolines import heights_sampled, levels_between, lines_at
from assistant.handover.strips import strip_shapes
from assistant.handover.terrain import NO_SURFACE, terrain_of
from assistant.job import Job
from assistant.job.surveys import finished_floor
from assistant.reply.visible import visible

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

    from assistant.levels.arrays import FloatArray

_METRES = 6
"""The unit of a drawing, as its header has it ($INSUNITS)."""
_TEXT_M = 0.12
LAYERS = {
    "EDGE": 7,
    "STANDING": 8,
    "JOINTS_CRACKS": 30,
    "DOORS": 5,
    "POINTS": 2,
    "VALUES": 7,
    "SLAB": 9,
    "SLAB_CONTOURS": 4,
    "FINISHED": 9,
    "FINISHED_CONTOURS": 3,
    "STRIPS": 6,
}
"""With their colours, by the index that every program has."""


def floor_dxf(job: Job, name: str) -> bytes:
    """
    The drawing. x runs along the first side, y along the second, z is the height above the datum.

    Raises LeadsmanError without a room, or a surface in it.
    """
    with needed("A DXF drawing", "export"):
        import ezdxf
        from ezdxf._options import options
    before = options.write_fixed_meta_data_for_testing
    # Else the time of day and a random number stand in it, and no two are the same.
    options.write_fixed_meta_data_for_testing = True
    try:
        drawing = ezdxf.new("R2010", units=_METRES)  # type: ignore[attr-defined]
        for layer, colour in LAYERS.items():
            drawing.layers.add(layer, color=colour)
        drawing.header["$PROJECTNAME"] = drawing_text(name)
        _draw(drawing.modelspace(), job)
        _check(drawing)
        text = io.StringIO()
        drawing.write(text)
        return drawing.encode(text.getvalue())
    finally:
        options.write_fixed_meta_data_for_testing = before


def _check(drawing: Drawing) -> None:
    auditor = drawing.audit()
    if auditor.has_errors:
        raise LeadsmanError(f"The drawing has a fault ({auditor.errors[0].message}); not written.")


def _draw(space: Modelspace, job: Job) -> None:
    plan = floor_map(job)
    if not plan.outline:
        raise LeadsmanError(NO_SURFACE)
    _ring(space, plan.outline, "EDGE")
    for obstacle in job.layout.things.obstacles:
        _ring(space, list(shape_of(obstacle).exterior.coords)[:-1], "STANDING")
    for thing in plan.things:
        if thing.kind in ("joint", "crack") and len(thing.at_m) == 2:
            space.add_line(*thing.at_m, dxfattribs={"layer": "JOINTS_CRACKS"})
        else:
            _text(space, thing.told, thing.at_m[0], "STANDING")
    for number, x, y in plan.doors:
        _text(space, f"door {number}", (x, y - 2 * _TEXT_M), "DOORS")
    _surface(space, job, "SLAB")
    _points(space, job)
    after = finished_floor(job)
    if after is not None and after.readings:
        _surface(space, after, "FINISHED")
    for number, shape in strip_shapes(job):
        for part in getattr(shape, "geoms", [shape]):
            _ring(space, list(part.exterior.coords)[:-1], "STRIPS")
        _text(space, f"strip {number}", shape.representative_point().coords[0], "STRIPS")


def _surface(space: Modelspace, floor: Job, layer: str) -> None:
    terrain = terrain_of(floor)
    for corners in terrain.xyz_m[terrain.triangles].tolist():
        space.add_3dface(corners, dxfattribs={"layer": layer})
    for level, line in contours_of(floor):
        space.add_lwpolyline(
            line.tolist(), dxfattribs={"layer": f"{layer}_CONTOURS", "elevation": level / 1000}
        )


def contours_of(floor: Job) -> list[tuple[float, FloatArray]]:
    """Contours of a floor's own height: millimetres above the datum, and places in metres."""
    found = []
    for part in poured_parts(floor):
        surface = heights_sampled(part)
        if surface is None:
            continue
        low, high = float(surface.values.min()), float(surface.values.max())
        for level in levels_between(low, high, floor.reading_unit):
            found += [(level, line) for line in lines_at(surface, level)]
    return found


def _points(space: Modelspace, job: Job) -> None:
    finish_m = float(job.finish_mm) / 1000
    for spot in floor_map(job).spots:
        at: Any = (spot.x_m, spot.y_m)
        value = ""
        if spot.depth_mm is not None:
            at = (*at, finish_m - spot.depth_mm / 1000)
            value = f" {depth_cell(spot.depth_mm, job.reading_unit)}"
        space.add_point(at, dxfattribs={"layer": "POINTS"})
        _text(space, spot.point + value, (spot.x_m + _TEXT_M / 2, spot.y_m), "VALUES")


def _ring(space: Modelspace, corners: Any, layer: str) -> None:
    space.add_lwpolyline([tuple(each)[:2] for each in corners], close=True,
                         dxfattribs={"layer": layer})  # fmt: skip


def _text(space: Modelspace, words: str, at: Any, layer: str) -> None:
    text = space.add_text(drawing_text(words), height=_TEXT_M, dxfattribs={"layer": layer})
    text.dxf.insert = (at[0], at[1], 0)


def drawing_text(text: str) -> str:
    r"""
    A text in which a drawing program finds no code: ``%%`` begins one there, and ``\U+`` a sign.

    >>> drawing_text("50%%u of it \\U+202E")
    '50% %u of it \\ U+202E'
    """
    shown = visible(text)
    while "%%" in shown:
        shown = shown.replace("%%", "% %")
    return shown.replace("\\U+", "\\ U+").replace("\\M+", "\\ M+")
