"""Describes a place on the floor: the point there, or the distances from a wall and a door."""

from __future__ import annotations

from collections.abc import Callable
from math import hypot

from assistant.floor.late_numpy import np
from assistant.floor.places import places_of
from assistant.job import Job
from assistant.reply import wording

AT_THE_POINT_M = 0.05
"""A place nearer than this to a point is the point, as nobody sets a staff finer."""


def point_at(job: Job, x_m: float, y_m: float) -> str | None:
    """The point at a place, read or not."""
    places = places_of(job.layout)
    if not places.names:
        return None
    away = np.hypot(places.xy_m[:, 0] - x_m, places.xy_m[:, 1] - y_m)
    nearest = int(np.argmin(away))
    return places.names[nearest] if away[nearest] <= AT_THE_POINT_M else None


def place_words(job: Job, x_m: float, y_m: float) -> str:
    """
    A place in words, for somebody standing in the room.

    Along the first side from the corner's wall (the left one, looking from the corner along the
    rows), and from the nearest door that has a place; without a door along the second side, from
    the wall nearest to row 1.
    """
    return point_at(job, x_m, y_m) or _from_walls(job, x_m, y_m, wording.distance, str)


def spoken_place(job: Job, x_m: float, y_m: float) -> str:
    """A place in words, to be said aloud."""
    point = point_at(job, x_m, y_m)
    if point is not None:
        return wording.spoken_name(point)
    return _from_walls(job, x_m, y_m, wording.spoken_distance, wording.spoken_number)


def _from_walls(
    job: Job,
    x_m: float,
    y_m: float,
    far: Callable[[float, str], str],
    count: Callable[[int], str],
) -> str:
    unit = job.reading_unit
    wall = f"{far(_rounded(x_m, unit), unit)} from the left wall"
    doors = door_places(job)
    if not doors:
        return f"{wall}, {far(_rounded(y_m, unit), unit)} from the wall at row {count(1)}"
    number, away = min(
        ((n, hypot(x_m - x, y_m - y)) for n, (x, y) in doors.items()), key=lambda door: door[1]
    )
    name = "the door" if len(doors) == 1 else f"door {count(number)}"
    return f"{wall}, {far(_rounded(away, unit), unit)} from {name}"


def door_places(job: Job) -> dict[int, tuple[float, float]]:
    """Places of the doors by number, where they have one."""
    places = places_of(job.layout)
    return {
        number: places.xy(door.point)
        for number, door in sorted(job.doors.items())
        if door.point is not None and door.point in places.row
    }


def _rounded(metres: float, unit: str) -> float:
    """Rounded to the decimetre, enough to find the place. Inches are rounded when shown."""
    return round(metres, 1) if unit == "mm" else round(metres / 0.0254 / 6) * 6 * 0.0254
