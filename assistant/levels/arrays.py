"""
Checks that arrays handed to the numeric core can be used.

Every message names the row, counted from 1 as an installer counts, because the
array's rows are the points or corners of somebody's floor.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from assistant.errors import SurveyError

FloatArray = NDArray[np.float64]
IntArray = NDArray[np.intp]
BoolArray = NDArray[np.bool_]


def as_places(places_m: ArrayLike, what: str = "place") -> FloatArray:
    """
    Places on the floor as an array of x and y.

    Parameters
    ----------
    places_m : (n, 2) array_like
        Metres.
    what : str
        What one row is, for the message.

    Returns
    -------
    places_m : (n, 2) array of float
        A fresh array; later changes to the input do not reach it.

    Raises
    ------
    SurveyError
        If the shape is another, or a number is not finite (names the row).

    Examples
    --------
    >>> as_places([[0, 0], [4, float("nan")]], "corner")
    Traceback (most recent call last):
        ...
    assistant.errors.SurveyError: The corner in row 2 has no usable place (4.0, nan).
    """
    places = np.array(places_m, dtype=np.float64)
    if places.size == 0:
        places = places.reshape(0, 2)
    if places.ndim != 2 or places.shape[1] != 2:
        raise SurveyError(f"Each {what} needs an x and a y; got an array of shape {places.shape}.")
    row = _first(~(np.isfinite(places[:, 0]) & np.isfinite(places[:, 1])))
    if row is not None:
        x, y = places[row].tolist()
        raise SurveyError(f"The {what} in row {row + 1} has no usable place ({x}, {y}).")
    return places


def as_levels(levels_m: ArrayLike, count: int, what: str = "height") -> FloatArray:
    """
    Heights or depths, one for each of ``count`` points.

    Parameters
    ----------
    levels_m : (n,) array_like
        Metres.
    count : int
        How many there must be.
    what : str
        What one row is, for the message.

    Returns
    -------
    levels_m : (n,) array of float

    Raises
    ------
    SurveyError
        If there are more or fewer, or one is not finite (names the row).

    Examples
    --------
    >>> as_levels([0.012, float("inf")], 2, "depth")
    Traceback (most recent call last):
        ...
    assistant.errors.SurveyError: The depth in row 2 is not a usable number (inf).
    """
    levels = np.asarray(levels_m, dtype=np.float64)
    if levels.shape != (count,):
        raise SurveyError(
            f"There are {count} points, so {count} {what}s are needed; "
            f"got an array of shape {levels.shape}."
        )
    row = _first(~np.isfinite(levels))
    if row is not None:
        raise SurveyError(f"The {what} in row {row + 1} is not a usable number ({levels[row]}).")
    return levels


def cross(a: FloatArray, b: FloatArray) -> FloatArray:
    """
    Twice the area of the triangle two vectors span, plus when ``b`` is to the left of ``a``.

    Parameters
    ----------
    a, b : (..., 2) array of float

    Returns
    -------
    (...) array of float

    Examples
    --------
    >>> print(cross(np.array([2.0, 0.0]), np.array([1.0, 3.0])))
    6.0
    """
    product: FloatArray = a[..., 0] * b[..., 1] - a[..., 1] * b[..., 0]
    return product


def _first(bad: BoolArray) -> int | None:
    rows = np.flatnonzero(bad)
    return int(rows[0]) if rows.size else None
