"""The floor from above, with the depths on it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import numpy as np

from assistant.floor.geometry import area_to_pour, outline_of, zone_areas
from assistant.floor.obstacles import shape_of
from assistant.floor.things_on_map import things_on_map
from assistant.handover.isolines import band_between, lines_at
from assistant.handover.picture.bands import UNREAD, Bands, bands_of
from assistant.handover.picture.frame import WIDTH, PictureFrame, frame_for
from assistant.handover.picture.key import key_of
from assistant.handover.picture.names import OF_NAMES, places_of_names
from assistant.handover.picture.pen import Pen, Place, whole_svg, width_of
from assistant.handover.picture.scale import text_on
from assistant.handover.picture.views import Spot, View, view_of
from assistant.handover.strips import poured_area, strip_shapes
from assistant.job import Job
from assistant.reply import wording

if TYPE_CHECKING:
    from collections.abc import Sequence

STANDING = "#5a5a5a"
WALL = "#000000"
_TITLE = 17.0
_LARGEST, _SMALLEST = 15.0, 6.5
"""Sizes of type on the plan; with many points it is smaller, down to what a printer shows."""
_OF_SPACING = 0.3


def plan_svg(job: Job, name: str, show: str = "", *, id: str = "plan") -> str:
    """
    The plan as a picture of its own.

    Raises LeadsmanError where there is nothing of what is asked for.
    """
    view = view_of(job, show)
    bands = bands_of(view)
    outline = outline_of(job.layout)
    assert outline is not None  # a view needs the room
    pen = Pen()
    bounds = (*outline.min(axis=0).tolist(), *outline.max(axis=0).tolist())
    pen.text(view.title, WIDTH / 2, 24, font_size=_TITLE, font_weight="bold", text_anchor="middle")
    frame = frame_for(bounds, 30)
    _floor(pen, frame, view, bands)
    _strips(pen, frame, job)
    _standing(pen, frame, job)
    _names(pen, frame, job, view)
    pen.path([frame.places(outline)], closed=True, fill="none", stroke=WALL, stroke_width=4,
             stroke_linejoin="miter")  # fmt: skip
    _doors(pen, frame, job, outline)
    _spots(pen, frame, view, bands)
    height = key_of(pen, view, bands, job, frame, 30 + frame.height)
    return whole_svg(pen.drawn, (WIDTH, height), f"{name}: {view.title}", about(view), id=id)


def about(view: View) -> str:
    """The picture in words."""
    read = [spot for spot in view.spots if spot.value_mm is not None]
    if not read:
        return f"{view.title}: nothing was read yet, {len(view.spots)} points."
    low, high = (wording.length(abs(value), view.unit) for value in view.range_mm)
    least, most = _extremes(read)
    up = " above the finish" if view.to_grind else " above the zero"
    low += up if view.range_mm[0] < 0 else ""
    return (
        f"{view.title}: {low} at {least.name} to {high} at {most.name}, {len(read)} of "
        f"{len(view.spots)} points read. The same figures stand in the table of points."
    )


def _extremes(read: Sequence[Spot]) -> tuple[Spot, Spot]:
    def value(spot: Spot) -> float:
        assert spot.value_mm is not None
        return spot.value_mm

    return min(read, key=value), max(read, key=value)


# --- the floor --------------------------------------------------------------------------


def _floor(pen: Pen, frame: PictureFrame, view: View, bands: Bands) -> None:
    steps = list(zip(*_drawn_levels(bands.levels), bands.shades, strict=True))
    for surface in view.surfaces:
        for low, high, shade in steps:
            shape = band_between(surface, low, high)
            pen.path(frame.rings(shape), closed=True, fill=shade, stroke=shade, stroke_width=0.5)
        for low, _, shade in steps[1:]:
            lines = [frame.places(line) for line in lines_at(surface, low)]
            pen.path(lines, closed=False, fill="none", stroke=text_on(shade), stroke_width=0.7,
                     stroke_opacity=0.55)  # fmt: skip
        if view.to_grind and bands.levels[0] < -view.let_pass_mm:
            high_spots = band_between(surface, bands.levels[0] - 1, -view.let_pass_mm)
            _hatch(pen, frame, high_spots)


def _drawn_levels(levels: Sequence[float]) -> tuple[list[float], list[float]]:
    """
    From where to where each band is drawn.

    A hair beside whole values: readings are whole, and where several are the same the surface is
    level just there, and has no line. Beyond its ends nothing is left out for rounding.
    """
    step = levels[1] - levels[0]
    inner = [level + step * 1e-6 for level in levels[1:-1]]
    return [levels[0] - step, *inner], [*inner, levels[-1] + step]


def _hatch(pen: Pen, frame: PictureFrame, shape: object) -> None:
    """Slanted lines over an area, drawn one by one: patterns are not shown everywhere."""
    import shapely

    if shape.is_empty:  # type: ignore[attr-defined]
        return
    low_x, low_y, high_x, high_y = shape.bounds  # type: ignore[attr-defined]
    step, height = 7 / frame.scale, high_y - low_y
    starts = np.arange(low_x - height, high_x + step, step)
    lines = [shapely.LineString([(at, low_y), (at + height, high_y)]) for at in starts.tolist()]
    kept = shapely.get_parts(shapely.get_parts(shapely.intersection(lines, shape)))
    drawn = [frame.places(line.coords) for line in kept if line.geom_type == "LineString"]
    pen.path(drawn, closed=False, fill="none", stroke=WALL, stroke_width=1.3, class_="grind")
    pen.path(frame.rings(shape), closed=True, fill="none", stroke=WALL, stroke_width=1.6)


def _strips(pen: Pen, frame: PictureFrame, job: Job) -> None:
    area = area_to_pour(job.layout)
    shapes = strip_shapes(job)
    if area is None or not shapes:
        return
    import shapely

    # Two strips share an edge; drawn twice, its dashes would fill each other's gaps.
    edges = shapely.union_all([shape.boundary for _, shape in shapes], grid_size=1e-6)
    _edge(pen, frame, edges, area, stroke_width=1.4, stroke_dasharray="7 4", class_="strip")
    done = poured_area(job, area)
    if done is not None and not done.is_empty:
        _edge(pen, frame, done.boundary, area, stroke_width=3.2, class_="front")


def _edge(
    pen: Pen, frame: PictureFrame, lines: Any, area: Any, *, stroke_width: float, **how: object
) -> None:
    """Lines as far as they run over the floor, not along its walls."""
    import shapely

    kept = shapely.line_merge(shapely.intersection(lines, area.buffer(-1e-4)))
    drawn = [frame.places(part.coords) for part in shapely.get_parts(kept)
             if part.geom_type == "LineString"]  # fmt: skip
    _seen_anywhere(pen, drawn, closed=False, stroke_width=stroke_width, **how)


def _seen_anywhere(
    pen: Pen, lines: Sequence[Sequence[Place]], *, closed: bool, stroke_width: float, **how: object
) -> None:
    """Black lines on white ones a little wider, so that they are seen on the darkest step too."""
    pen.path(lines, closed=closed, fill="none", stroke="#ffffff", class_="under-line",
             stroke_width=stroke_width + 2)  # fmt: skip
    pen.path(lines, closed=closed, fill="none", stroke=WALL, stroke_width=stroke_width, **how)


def _standing(pen: Pen, frame: PictureFrame, job: Job) -> None:
    for shape in zone_areas(job.layout).values() if job.layout.zones else ():
        _seen_anywhere(pen, frame.rings(shape), closed=True, stroke_width=1.6,
                       stroke_dasharray="2 3", class_="zone")  # fmt: skip
    for obstacle in job.layout.things.obstacles:
        shape = shape_of(obstacle)
        fill = STANDING if obstacle.is_off_the_area else "none"
        pen.path(frame.rings(shape), closed=True, fill=fill, stroke=WALL, stroke_width=1.5,
                 class_="standing")  # fmt: skip
        x, y = frame.place(*shape.centroid.coords[0])
        words = f"{obstacle.kind} {obstacle.number}"
        if width_of(words, 9) < (shape.bounds[2] - shape.bounds[0]) * frame.scale:
            pen.text(words, x, y + 3, font_size=9, text_anchor="middle",
                     fill=text_on(STANDING) if fill != "none" else WALL)  # fmt: skip
    for thing in things_on_map(job.layout):
        if thing.kind in ("joint", "crack") and len(thing.at_m) == 2:
            dashes = "10 3 2 3" if thing.kind == "joint" else "3 2"
            _seen_anywhere(pen, [frame.places(thing.at_m)], closed=False, stroke_width=1.8,
                           stroke_dasharray=dashes, class_=thing.kind)  # fmt: skip
        elif thing.kind == "drain":
            x, y = frame.place(*thing.at_m[0])
            pen.add("circle", cx=x, cy=y, r=8, fill="none", stroke="#ffffff", stroke_width=4)
            pen.add("circle", cx=x, cy=y, r=8, fill="none", stroke=WALL, stroke_width=2)


def _names(pen: Pen, frame: PictureFrame, job: Job, view: View) -> None:
    """Numbers of strips, and names of zones."""
    strips = [(f"{number}", shape) for number, shape in strip_shapes(job)]
    zones = list(zone_areas(job.layout).items()) if job.layout.zones else []
    points_m = [(spot.x_m, spot.y_m) for spot in view.spots]
    named = [*strips, *zones]
    places = places_of_names(frame, named, points_m, _size_of_type(frame, view.spots))
    for row, ((words, _), at) in enumerate(zip(named, places, strict=True)):
        _plate(pen, words, at, OF_NAMES, "#ffffff", rounded=row < len(strips))


def _doors(pen: Pen, frame: PictureFrame, job: Job, outline: np.ndarray) -> None:
    """A gap in the wall nearest to each door's point, with the door's number beside it."""
    from assistant.floor.places import places_of

    at_m = places_of(job.layout).at_m
    middle = frame.place(*outline.mean(axis=0).tolist())
    for number, door in sorted(job.doors.items()):
        if door.point not in at_m:
            continue
        (x, y), (along_x, along_y) = _on_the_wall(outline, at_m[door.point])
        place = frame.place(x, y)
        half = 12.0
        start = (place[0] - along_x * half, place[1] + along_y * half)
        end = (place[0] + along_x * half, place[1] - along_y * half)
        pen.line(start, end, stroke="#ffffff", stroke_width=6)
        pen.line(start, end, stroke=WALL, stroke_width=1.4, class_="door")
        # Of the two sides of the wall, the one away from the middle of the room.
        across = (along_y, along_x)
        out = (
            1 if (place[0] - middle[0]) * across[0] + (place[1] - middle[1]) * across[1] > 0 else -1
        )
        # In full, as D1 is a point; beside a wall that runs up the words need more room.
        away = out * (17 + 10 * abs(across[0]))
        label = (place[0] + away * across[0], place[1] + away * across[1])
        _plate(pen, f"door {number}", label, 11, "#ffffff")


def _on_the_wall(outline: np.ndarray, at: Place) -> tuple[Place, Place]:
    """The nearest place on the outline, and the direction of its wall."""
    starts, ends = outline, np.roll(outline, -1, axis=0)
    along = ends - starts
    lengths = np.hypot(along[:, 0], along[:, 1])
    share = ((np.array(at) - starts) * along).sum(axis=1) / lengths**2
    feet = starts + np.clip(share, 0, 1)[:, None] * along
    nearest = int(np.argmin(np.hypot(*(feet - np.array(at)).T)))
    unit = along[nearest] / lengths[nearest]
    foot = feet[nearest]
    return (float(foot[0]), float(foot[1])), (float(unit[0]), float(unit[1]))


# --- the points -------------------------------------------------------------------------


def _spots(pen: Pen, frame: PictureFrame, view: View, bands: Bands) -> None:
    size = _size_of_type(frame, view.spots)
    read = [spot for spot in view.spots if spot.value_mm is not None]
    ends = set(map(id, _extremes(read))) if len(read) > 1 else set()
    named = size > 8
    for spot in view.spots:
        x, y = frame.place(spot.x_m, spot.y_m)
        colour = bands.colour(spot.value_mm)
        if spot.value_mm is None:
            pen.add("circle", cx=x, cy=y, r=size / 3, fill=UNREAD, stroke=WALL, stroke_width=1)
            _plate(pen, spot.name, (x, y + size * 1.1), size * 0.85, UNREAD)
            continue
        words = view.words(spot.value_mm) + ("?" if spot.doubtful else "")
        pen.add("circle", cx=x, cy=y, r=max(size / 6, 1.2), fill=text_on(colour))
        if named:
            _plate(pen, spot.name, (x, y - size * 0.85), size * 0.7, colour)
        _plate(pen, words, (x, y + size * 0.85), size, colour, bold=True, framed=id(spot) in ends)


def _size_of_type(frame: PictureFrame, spots: Sequence[Spot]) -> float:
    """Small enough that values beside each other do not touch, as far as they can be read then."""
    if len(spots) < 2:
        return _LARGEST
    places = np.array([(spot.x_m, spot.y_m) for spot in spots])
    nearest = np.inf
    for row in range(len(places) - 1):
        away = np.hypot(*(places[row + 1 :] - places[row]).T)
        nearest = min(nearest, float(away.min()))
    return float(np.clip(nearest * frame.scale * _OF_SPACING, _SMALLEST, _LARGEST))


def _plate(
    pen: Pen,
    words: str,
    middle: Place,
    size: float,
    colour: str,
    *,
    bold: bool = False,
    framed: bool = False,
    rounded: bool = False,
) -> None:
    """
    Words on a plate of one colour, which hides the lines beneath them.

    So what their contrast comes to is known wherever they stand.
    """
    wide, high = width_of(words, size) + size * 0.3, size * 1.16
    x, y = middle
    text = text_on(colour)
    pen.add("rect", x=x - wide / 2, y=y - high / 2, width=wide, height=high, fill=colour,
            rx=high / 2 if rounded else 2, stroke=text if framed or rounded else None,
            stroke_width=1.6 if framed else 1 if rounded else None, class_="plate")  # fmt: skip
    pen.text(words, x, y + size * 0.36, font_size=size, text_anchor="middle", fill=text,
             font_weight="bold" if bold else None, class_="on-plate")  # fmt: skip
