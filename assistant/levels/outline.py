"""
The outline of a floor: corners in order, metres, not repeated at the end.

A corner's wall is the one that starts there, so a floor of four corners has walls
1 to 4 and wall 4 leads back to the first corner.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray, as_places, cross

ON_THE_WALL_M = 1e-9
"""A place this near a wall stands on it. Raising it lets points outside count as inside."""


def rectangle(first_m: float, second_m: float) -> FloatArray:
    """
    Corners of a rectangular floor, first side along x and second along y.

    Parameters
    ----------
    first_m, second_m : float
        Sides, metres, more than nothing.

    Returns
    -------
    vertices_m : (4, 2) array of float
        From (0, 0), first side first, counter-clockwise.

    Raises
    ------
    SurveyError
        If a side is not a finite length above zero.

    Examples
    --------
    >>> print(rectangle(6, 4))
    [[0. 0.]
     [6. 0.]
     [6. 4.]
     [0. 4.]]
    """
    for side in (first_m, second_m):
        if not (np.isfinite(side) and side > 0):
            raise SurveyError(f"A side of {side} m encloses nothing; a side is longer than 0.")
    return np.array([[0, 0], [first_m, 0], [first_m, second_m], [0, second_m]], dtype=np.float64)


def walk_walls(legs_m: ArrayLike) -> FloatArray:
    """
    Where a walk along the walls leads, corner by corner, as measured.

    Parameters
    ----------
    legs_m : (n, 2) array_like
        Along each wall in turn: how far in x and in y, metres.

    Returns
    -------
    vertices_m : (n + 1, 2) array of float
        From (0, 0); the last is where the walk ended, so its distance from (0, 0) is the
        misclosure of a walk all the way round.

    Raises
    ------
    SurveyError
        If a leg is not finite. Names the row.

    Examples
    --------
    >>> print(walk_walls([[6, 0], [0, 4], [-5.99, 0]]))
    [[0.   0.  ]
     [6.   0.  ]
     [6.   4.  ]
     [0.01 4.  ]]
    """
    legs = as_places(legs_m, "wall")
    return np.vstack([np.zeros((1, 2)), np.cumsum(legs, axis=0)])


def spread_misclosure(legs_m: ArrayLike) -> FloatArray:
    """
    Corners of a walk all the way round, its misclosure spread over the walls by length.

    Does not judge whether the misclosure is small enough to spread; see
    :func:`walk_walls` for its size.

    Parameters
    ----------
    legs_m : (n, 2) array_like
        Along each wall in turn: how far in x and in y, metres. The last wall comes back to
        the first corner, or should.

    Returns
    -------
    vertices_m : (n, 2) array of float
        From (0, 0). The last leg now ends there exactly.

    Raises
    ------
    SurveyError
        If a leg is not finite (names the row), or the walk has no length.

    Notes
    -----
    Compass rule (Bowditch): each leg takes a share of the misclosure, turned round, in
    proportion to its length. From memory; any surveying textbook has it.

    Examples
    --------
    >>> print(spread_misclosure([[6, 0], [0, 4], [-5.8, 0], [0, -4]]).round(2))
    [[0.   0.  ]
     [5.94 0.  ]
     [5.9  4.  ]
     [0.04 4.  ]]
    """
    legs = as_places(legs_m, "wall")
    lengths = np.hypot(legs[:, 0], legs[:, 1])
    if not lengths.sum() > 0:
        raise SurveyError("A walk along the walls needs at least one wall with a length.")
    shares = lengths / lengths.sum()
    adjusted = legs - shares[:, None] * legs.sum(axis=0)
    return walk_walls(adjusted)[:-1]


def in_frame(
    vertices_m: ArrayLike, first_wall_m: ArrayLike, second_wall_m: ArrayLike
) -> FloatArray:
    """
    An outline moved, turned and if need be flipped to stand in the floor's own frame.

    Parameters
    ----------
    vertices_m : (k, 2) array_like
        Corners, metres; the first is the corner everything is measured from.
    first_wall_m, second_wall_m : (2,) array_like
        Which way the first and the second wall run, in the vertices' own directions. Only
        the direction counts, and of the second wall only to which side of the first it is.

    Returns
    -------
    vertices_m : (k, 2) array of float
        The first corner at (0, 0), the first wall along +x, the second towards +y.

    Raises
    ------
    SurveyError
        If a number is not finite, the first wall has no length, or the second does not turn
        away from it.

    Examples
    --------
    First wall south, second wall east.

    >>> print(in_frame([[1, 5], [1, 2], [3, 2], [3, 5]], [0, -3], [2, 0]))
    [[0. 0.]
     [3. 0.]
     [3. 2.]
     [0. 2.]]
    """
    vertices = as_places(vertices_m, "corner")
    first, second = as_places(np.array([first_wall_m, second_wall_m], dtype=np.float64), "wall")
    length = float(np.hypot(first[0], first[1]))
    if length == 0:
        raise SurveyError("The first wall has no length, so it gives no direction.")
    along = first / length
    side = float(cross(along, second))
    if abs(side) <= ON_THE_WALL_M * float(np.hypot(second[0], second[1])):
        raise SurveyError(
            "The second wall runs on in line with the first; it has to turn left or right."
        )
    across = np.array([-along[1], along[0]]) * np.sign(side)
    moved = vertices - vertices[:1]
    # Adding 0 turns -0.0 into 0.0, which would print as a corner off the floor.
    return np.column_stack([moved @ along, moved @ across]) + 0.0


def check_outline(vertices_m: ArrayLike) -> None:
    """
    Make sure corners enclose one floor.

    Parameters
    ----------
    vertices_m : (k, 2) array_like
        Corners, metres, the first not repeated at the end.

    Raises
    ------
    SurveyError
        If there are fewer than three corners, a number is not finite (names the row), a wall
        has no length, two walls cross or touch (names them), or nothing is enclosed.

    Examples
    --------
    >>> check_outline([[0, 0], [6, 4], [6, 0], [0, 4]])
    Traceback (most recent call last):
        ...
    assistant.errors.SurveyError: The outline crosses itself: wall 1 meets wall 3.
    """
    vertices = as_places(vertices_m, "corner")
    if len(vertices) < 3:
        raise SurveyError(f"A floor has at least three corners; got {len(vertices)}.")
    walls = np.roll(vertices, -1, axis=0) - vertices
    short = np.flatnonzero(np.hypot(walls[:, 0], walls[:, 1]) <= ON_THE_WALL_M)
    if short.size:
        raise SurveyError(
            f"Wall {short[0] + 1} of the outline has no length; leave the second of two equal "
            "corners out."
        )
    meeting = _walls_that_meet(vertices)
    if meeting is not None:
        one, other = meeting
        raise SurveyError(f"The outline crosses itself: wall {one + 1} meets wall {other + 1}.")
    # After the crossings: a figure of eight can enclose nothing too, but is better named so.
    if np.abs(_signed_area(vertices)) <= ON_THE_WALL_M * np.abs(walls).sum():
        raise SurveyError("The outline encloses no area.")


def outline_area(vertices_m: ArrayLike) -> float:
    """
    Area inside an outline.

    Does not check the outline; see :func:`check_outline`.

    Parameters
    ----------
    vertices_m : (k, 2) array_like
        Corners, metres, either way round.

    Returns
    -------
    area_m2 : float

    Raises
    ------
    SurveyError
        If a number is not finite. Names the row.

    Examples
    --------
    >>> outline_area([[0, 0], [6, 0], [6, 2.5], [4, 2.5], [4, 4], [0, 4]])
    21.0
    """
    return float(np.abs(_signed_area(as_places(vertices_m, "corner"))))


def contains(vertices_m: ArrayLike, points_m: ArrayLike) -> BoolArray:
    """
    Which points are on the floor; on a wall counts as on the floor.

    Parameters
    ----------
    vertices_m : (k, 2) array_like
        Corners of the outline, metres.
    points_m : (n, 2) array_like
        Metres.

    Returns
    -------
    inside : (n,) array of bool
        On a wall means within 1e-9 m of it.

    Raises
    ------
    SurveyError
        If a number is not finite. Names the row.

    Examples
    --------
    >>> print(contains([[0, 0], [4, 0], [0, 3]], [[1, 1], [2, 1.5], [3, 3]]))
    [ True  True False]
    """
    starts = as_places(vertices_m, "corner")
    points = as_places(points_m, "point")
    walls = np.roll(starts, -1, axis=0) - starts
    to_point = points[:, None, :] - starts
    return _crossings_odd(points, starts, walls, to_point) | _on_a_wall(walls, to_point)


def _crossings_odd(
    points: FloatArray, starts: FloatArray, walls: FloatArray, to_point: FloatArray
) -> BoolArray:
    """Whether a line from each point along +x crosses the walls an odd number of times."""
    start_above = starts[:, 1] > points[:, None, 1]
    end_above = (starts + walls)[:, 1] > points[:, None, 1]
    left_of_wall = cross(walls, to_point) > 0
    crossed = (start_above != end_above) & (left_of_wall == end_above)
    odd: BoolArray = crossed.sum(axis=1) % 2 == 1
    return odd


def _on_a_wall(walls: FloatArray, to_point: FloatArray) -> BoolArray:
    squares = np.maximum((walls**2).sum(axis=1), np.finfo(np.float64).tiny)
    shares = np.clip((to_point * walls).sum(axis=2) / squares, 0, 1)
    away = to_point - shares[:, :, None] * walls
    near: BoolArray = (np.hypot(away[..., 0], away[..., 1]) <= ON_THE_WALL_M).any(axis=1)
    return near


def _signed_area(vertices: FloatArray) -> np.float64:
    # Measured from the first corner, so that an outline far from (0, 0) loses no digits.
    moved = vertices - vertices[:1]
    return np.float64(cross(moved, np.roll(moved, -1, axis=0)).sum() / 2)


def _walls_that_meet(vertices: FloatArray) -> tuple[int, int] | None:
    """The first two walls that cross, touch or run back over each other."""
    count = len(vertices)
    ends = np.roll(vertices, -1, axis=0)
    one, other = np.triu_indices(count, 1)
    next_wall = (one + 1) % count == other
    last_wall = (other + 1) % count == one
    apart = ~next_wall & ~last_wall
    bad = apart & _meet(vertices[one], ends[one], vertices[other], ends[other])
    # Neighbours share a corner; they are wrong only where one runs back over the other.
    bad |= next_wall & _runs_back(ends[one], vertices[one], ends[other])
    bad |= last_wall & _runs_back(vertices[one], ends[one], vertices[other])
    rows = np.flatnonzero(bad)
    return (int(one[rows[0]]), int(other[rows[0]])) if rows.size else None


def _meet(a: FloatArray, b: FloatArray, c: FloatArray, d: FloatArray) -> BoolArray:
    """Whether each wall from a to b has a place in common with that from c to d."""
    side_c, side_d = _side(a, b, c), _side(a, b, d)
    side_a, side_b = _side(c, d, a), _side(c, d, b)
    in_line = (side_c == 0) & (side_d == 0)
    overlap = (np.maximum(np.minimum(a, b), np.minimum(c, d))
               <= np.minimum(np.maximum(a, b), np.maximum(c, d))).all(axis=1)  # fmt: skip
    meet: BoolArray = (side_c * side_d <= 0) & (side_a * side_b <= 0) & (~in_line | overlap)
    return meet


def _side(a: FloatArray, b: FloatArray, places: FloatArray) -> FloatArray:
    """1 to the left of the line from a to b, -1 to the right, 0 on it."""
    wall = b - a
    away = cross(wall, places - a)
    on_it = np.abs(away) <= ON_THE_WALL_M * np.hypot(wall[:, 0], wall[:, 1])
    return np.where(on_it, 0.0, np.sign(away))


def _runs_back(corner: FloatArray, one_end: FloatArray, other_end: FloatArray) -> BoolArray:
    """Whether two walls that share a corner leave it in the same direction."""
    one, other = one_end - corner, other_end - corner
    back: BoolArray = ((one * other).sum(axis=1) > 0) & (_side(corner, one_end, other_end) == 0)
    return back
