"""
Where lines for F-numbers may run, and how many readings a section wants.

Where they are not kept, that is reported, and the number is no E1155 number; it is still worked
out, since it says something of the lines that were read.
"""

from __future__ import annotations

from math import ceil, degrees, sqrt

import numpy as np
from numpy.typing import ArrayLike

from assistant.levels.arrays import FloatArray, as_places, cross
from grammar.frozen import frozen

__all__ = ["Shortfall", "least_z_readings", "shortfalls"]

LONGEST_NARROW_M = 7.5
"""A section narrower than this is read on lines at 45°. Source: E1155/E1155M, front pages."""
FROM_EDGE_M = 0.6
APART_M = 1.2
"""From edges and joints, and of parallel lines. Source: E1155/E1155M, front pages."""
LEAST_AREA_M2 = 320 * 0.3048**2
MANY_M2 = 1600 * 0.3048**2
"""From memory; the licensed text governs."""
_SLACK_M = 0.03
"""Nobody marks a line finer. Our own choice."""
_SLANT_OFF_DEG = 10.0
_PARALLEL_DEG = 10.0


@frozen
class Shortfall:
    """One thing that the standard's sampling asks for and these lines have not."""

    id: str
    """``area``, ``count``, ``edge``, ``apart``, ``slant`` or ``corners``."""
    found: float
    wanted: float
    lines: tuple[int, ...] = ()
    """Which lines, counted from 0; none where it is the section."""


def least_z_readings(area_m2: float) -> int:
    """
    How many z values a section of so many square metres wants.

    From memory: 2√A up to 1,600 square feet, A/30 from there. The licensed text governs.

    >>> least_z_readings(600 * 0.3048**2), least_z_readings(3000 * 0.3048**2)
    (49, 100)
    """
    square_feet = round(area_m2 / 0.3048**2, 6)
    return ceil(2 * sqrt(square_feet) if area_m2 < MANY_M2 - 1e-9 else square_feet / 30)


def shortfalls(
    lines_m: ArrayLike, z_count: int, area_m2: float | None, outline_m: ArrayLike | None
) -> tuple[Shortfall, ...]:
    """
    What the standard's rules find missing.

    Parameters
    ----------
    lines_m : (k, 2, 2) array_like
        Both ends of each line, metres.
    z_count : int
        Values over ten spacings, of all lines.
    area_m2 : float or None
        Of the section; None where it is not known, and nothing is held against it.
    outline_m : (c, 2) array_like or None
        Its corners.
    """
    lines = np.asarray(lines_m, dtype=np.float64).reshape(-1, 2, 2)
    found = list(_of_section(z_count, area_m2))
    found += _apart(lines)
    if outline_m is not None:
        found += _of_walls(lines, as_places(outline_m, "corner"))
    return tuple(found)


def _of_section(z_count: int, area_m2: float | None) -> list[Shortfall]:
    if area_m2 is None:
        return []
    found = []
    if area_m2 < LEAST_AREA_M2 - 1e-9:
        found.append(Shortfall("area", area_m2, LEAST_AREA_M2))
    if z_count < (wanted := least_z_readings(area_m2)):
        found.append(Shortfall("count", z_count, wanted))
    return found


def _apart(lines: FloatArray) -> list[Shortfall]:
    """Parallel lines beside each other that are too close."""
    found = []
    for one in range(len(lines)):
        for other in range(one + 1, len(lines)):
            if _angle(_way(lines[one]), _way(lines[other])) > _PARALLEL_DEG:
                continue
            near = _apart_m(lines[one], lines[other])
            if near is not None and near < APART_M - _SLACK_M:
                found.append(Shortfall("apart", near, APART_M, (one, other)))
    return found


def _apart_m(one: FloatArray, other: FloatArray) -> float | None:
    """Distance across between two parallel lines; None where neither runs beside the other."""
    way = _way(one)
    along = (other - one[0]) @ way
    length = float((one[1] - one[0]) @ way)
    if min(along) >= length - _SLACK_M or max(along) <= _SLACK_M:
        return None
    return float(np.abs(cross(way[None], other - one[0])).min())


def _of_walls(lines: FloatArray, corners: FloatArray) -> list[Shortfall]:
    walls = np.stack([corners, np.roll(corners, -1, axis=0)], axis=1)
    longest = walls[int(np.argmax(np.hypot(*(walls[:, 1] - walls[:, 0]).T)))]
    narrow = _narrow_m(corners, _way(longest))
    found = []
    for row, line in enumerate(lines):
        near = min(_to_wall(end, wall) for end in line for wall in walls)
        if near < FROM_EDGE_M - _SLACK_M:
            found.append(Shortfall("edge", near, FROM_EDGE_M, (row,)))
        slant = _angle(_way(line), _way(longest))
        if narrow < LONGEST_NARROW_M and abs(slant - 45) > _SLANT_OFF_DEG:
            found.append(Shortfall("slant", slant, 45.0, (row,)))
        if (near_corners := _corner_to_corner_m(line, corners)) is not None:
            found.append(Shortfall("corners", near_corners, FROM_EDGE_M * 2, (row,)))
    return found


def _corner_to_corner_m(line: FloatArray, corners: FloatArray) -> float | None:
    """How near its ends come to two corners across the section; None where they do not.

    Beside a wall a line ends near both of the wall's corners, and runs from none to the other.
    """
    away = np.array([np.hypot(*(corners - end).T) for end in line])
    one, other = (int(row) for row in away.argmin(axis=1))
    beside = (one - other) % len(corners) in (0, 1, len(corners) - 1)
    near = float(away.min(axis=1).max())
    return None if beside or near >= FROM_EDGE_M * 2 else near


def _narrow_m(corners: FloatArray, way: FloatArray) -> float:
    """Width across the longest wall, or along it where that is less."""
    return min(float(np.ptp(corners @ way)), float(np.ptp(cross(way[None], corners))))


def _way(line: FloatArray) -> FloatArray:
    run = line[1] - line[0]
    way: FloatArray = run / max(float(np.hypot(*run)), 1e-12)
    return way


def _angle(one: FloatArray, other: FloatArray) -> float:
    """The angle between two directions, 0 to 90 degrees."""
    return degrees(float(np.arccos(np.clip(abs(float(one @ other)), 0.0, 1.0))))


def _to_wall(place: FloatArray, wall: FloatArray) -> float:
    run = wall[1] - wall[0]
    share = float(np.clip((place - wall[0]) @ run / max(float(run @ run), 1e-12), 0.0, 1.0))
    return float(np.hypot(*(wall[0] + share * run - place)))
