"""A cut through the floor along a line: slab, finish, and what was poured."""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from assistant.errors import LeadsmanError
from assistant.floor.depths import finish_mm_of
from assistant.floor.geometry import area_to_pour, zone_at
from assistant.floor.places import place_of_point
from assistant.floor.surfaces import surface_of
from assistant.handover.isolines import levels_between
from assistant.handover.picture.frame import MARGIN, WIDTH
from assistant.handover.picture.pen import Pen, Place, whole_svg
from assistant.handover.picture.scale import INK
from assistant.job import Job
from assistant.job.surveys import finished_floor
from assistant.reply import wording

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray

_PLACES = 241
"""Places along the line; raising it makes bends sharper."""
_TOP, _HIGH = 60.0, 220.0
_LEFT = 62.0
_SIZE = 11.5
POURED, HIGH = "#d6cda0", "#5a5a5a"


def profile_svg(job: Job, name: str, start: str, end: str, *, id: str = "profile") -> str:
    """
    The cut from one point to another.

    Raises LeadsmanError where a point has no place, or there is no surface yet.
    """
    ends = [_place(job, each) for each in (start, end)]
    length_m = float(np.hypot(*(np.array(ends[1]) - np.array(ends[0]))))
    if start == end or length_m == 0:
        raise LeadsmanError(f"A line from {start} to itself has no length: --along A1 F4")
    share = np.linspace(0, 1, _PLACES)
    places = np.array(ends[0]) + share[:, None] * (np.array(ends[1]) - np.array(ends[0]))
    on_floor = _on_floor(job, places)
    slab = np.where(on_floor, _heights_mm(job, places), np.nan)
    finish = np.array(
        [float(finish_mm_of(job, zone_at(job.layout, *at))) for at in places.tolist()]
    )
    after = finished_floor(job)
    poured = None
    if after is not None and after.readings and surface_of(after) is not None:
        poured = np.where(on_floor, _heights_mm(after, places), np.nan)
    pen = Pen()
    title = f"Cut from {start} to {end}"
    pen.text(title, WIDTH / 2, 24, font_size=17, font_weight="bold", text_anchor="middle")
    every = np.concatenate([slab, finish, poured if poured is not None else finish])
    axis = _Axis(float(np.nanmin(every)), float(np.nanmax(every)), length_m, job.reading_unit)
    _draw(pen, axis, share * length_m, slab, finish, poured)
    _labels(pen, axis, start, end, is_poured=poured is not None)
    deep = finish - slab
    low, high = (wording.length(abs(round(float(f(deep)), 1)), job.reading_unit)
                 for f in (np.nanmin, np.nanmax))  # fmt: skip
    above = " above the finish" if np.nanmin(deep) < 0 else ""
    about = f"{title}, {wording.distance(length_m, job.reading_unit)}: {low}{above} to {high} deep."
    return whole_svg(pen.drawn, (WIDTH, _TOP + _HIGH + 84), f"{name}: {title}", about, id=id)


def _place(job: Job, point: str) -> Place:
    place = place_of_point(job.layout, point)
    if place is None:
        raise LeadsmanError(f"{point} has no place on this floor, so no line runs there.")
    return place


def _on_floor(job: Job, places: FloatArray) -> FloatArray:
    import shapely

    area = area_to_pour(job.layout)
    if area is None:
        raise LeadsmanError("There is nothing to draw yet: a picture needs the room.")
    inside: FloatArray = shapely.intersects_xy(area.buffer(1e-6), places)
    if not inside.any():
        raise LeadsmanError("That line runs over no floor.")
    return inside


def _heights_mm(floor: Job, places: FloatArray) -> FloatArray:
    surface = surface_of(floor)
    if surface is None:
        raise LeadsmanError("There is nothing to draw yet: a cut needs readings on the floor.")
    depths: FloatArray = surface.mesh.heights_at(places, surface.depths_m)
    return float(floor.finish_mm) - depths * 1000


class _Axis:
    """Distances and heights on the picture."""

    def __init__(self, low_mm: float, high_mm: float, length_m: float, unit: str) -> None:
        self.levels = levels_between(low_mm, high_mm, unit)
        self.length_m, self.unit = length_m, unit
        self._up = _HIGH / (self.levels[-1] - self.levels[0])
        self._along = (WIDTH - _LEFT - MARGIN) / length_m

    def place(self, at_m: float, height_mm: float) -> Place:
        return _LEFT + at_m * self._along, _TOP + (self.levels[-1] - height_mm) * self._up

    @property
    def steeper(self) -> float:
        """How many times heights are drawn larger than lengths."""
        return self._up * 1000 / self._along


def _draw(
    pen: Pen, axis: _Axis, at_m: FloatArray, slab: FloatArray, finish: FloatArray,
    poured: FloatArray | None,
) -> None:  # fmt: skip
    for level in axis.levels:
        (left, y), (right, _) = axis.place(0, level), axis.place(axis.length_m, level)
        pen.line((left, y), (right, y), stroke=INK, stroke_width=0.5, stroke_opacity=0.35)
        shown = wording.length(abs(round(level, 1)), axis.unit)
        pen.text(f"{'−' if level < 0 else ''}{shown}", left - 6, y + 4, font_size=_SIZE,
                 text_anchor="end", fill=INK)  # fmt: skip
    # A slab above the finish has nothing over it.
    top = np.maximum(finish if poured is None else poured, slab)
    pen.path(_between(axis, at_m, slab, top), closed=True, fill=POURED)
    if poured is None:
        high = np.maximum(finish, slab)
        pen.path(_between(axis, at_m, finish, high), closed=True, fill=HIGH, class_="grind")
    lines = [
        ("slab", slab, 2.6, None), ("finish", finish, 1.6, "7 4"),
        *([] if poured is None else [("floor", poured, 1.6, None)]),
    ]  # fmt: skip
    for name, heights, wide, dashes in lines:
        drawn = [
            [axis.place(at_m[i], heights[i]) for i in run] for run in _runs(~np.isnan(heights))
        ]
        pen.path(drawn, closed=False, fill="none", stroke=INK, stroke_width=wide,
                 stroke_dasharray=dashes, class_=name)  # fmt: skip


def _between(axis: _Axis, at_m: FloatArray, low: FloatArray, high: FloatArray) -> list[list[Place]]:
    """What lies between two lines, where both are."""
    return [
        [axis.place(at_m[i], high[i]) for i in run]
        + [axis.place(at_m[i], low[i]) for i in reversed(run)]
        for run in _runs(~np.isnan(low + high))
    ]


def _runs(there: FloatArray) -> list[list[int]]:
    """Rows that follow each other, run by run."""
    rows = np.flatnonzero(there)
    parts = np.split(rows, np.flatnonzero(np.diff(rows) > 1) + 1)
    return [part.tolist() for part in parts if len(part) > 1]


BEFORE_POUR = "Thick: the slab. Dashed: the finish. Pale: what is poured. Dark: stands above."
AFTER_POUR = "Thick: the slab. Dashed: the finish. Thin: the poured floor. Pale: what was poured."


def _labels(pen: Pen, axis: _Axis, start: str, end: str, *, is_poured: bool) -> None:
    y = _TOP + _HIGH + 20
    for words, at_m, anchor in ((start, 0.0, "start"), (end, axis.length_m, "end")):
        pen.text(words, axis.place(at_m, 0)[0], y, font_size=_SIZE, font_weight="bold",
                 text_anchor=anchor, fill=INK)  # fmt: skip
    pen.text(wording.distance(axis.length_m, axis.unit), WIDTH / 2, y, font_size=_SIZE,
             text_anchor="middle", fill=INK)  # fmt: skip
    for row, words in enumerate(
        (
            AFTER_POUR if is_poured else BEFORE_POUR,
            f"Heights against the zero, drawn {axis.steeper:.0f} times as large as lengths.",
        )
    ):
        pen.text(words, _LEFT, y + 22 + 17 * row, font_size=_SIZE, fill=INK)
