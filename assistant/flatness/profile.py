"""Profiles: heights along a straight line over the floor, and the checks they all need."""

from __future__ import annotations

from math import isfinite

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, IntArray

__all__ = ["as_profiles", "checked_length", "station_and_share"]


def as_profiles(along_m: ArrayLike, heights_mm: ArrayLike) -> tuple[FloatArray, FloatArray]:
    """
    Heights along one line, or along many that were read at the same distances.

    Parameters
    ----------
    along_m : (n,) array_like
        Distances from the line's beginning, metres, each more than the one before.
    heights_mm : (..., n) array_like
        Millimetres; NaN where nothing was read, which no straightedge lies across.

    Returns
    -------
    along_m, heights_mm : arrays of float

    Raises
    ------
    SurveyError
        If there are fewer than two places, they do not go on, or a height is infinite.

    Examples
    --------
    >>> as_profiles([0, 1, 1], [0, 2, 1])
    Traceback (most recent call last):
        ...
    assistant.errors.SurveyError: The places of a line go on from its beginning; number 3 does not.
    """
    along = np.asarray(along_m, dtype=np.float64)
    heights = np.asarray(heights_mm, dtype=np.float64)
    if along.ndim != 1 or len(along) < 2:
        raise SurveyError("A line needs two places at least.")
    if heights.shape[-1:] != along.shape:
        raise SurveyError(f"A line of {len(along)} places needs as many heights.")
    steps = np.diff(along)
    if not (np.isfinite(along).all() and (steps > 0).all()):
        row = int(np.argmin(np.isfinite(along[1:]) & (steps > 0))) + 2
        raise SurveyError(f"The places of a line go on from its beginning; number {row} does not.")
    if np.isinf(heights).any():
        raise SurveyError("A height on the line is not a usable number (inf).")
    return along, heights


def checked_length(length_m: float) -> float:
    """The length of a straightedge; raises SurveyError unless it is more than zero."""
    if not (isfinite(length_m) and length_m > 0):
        raise SurveyError(f"A straightedge is longer than nothing, not {length_m} m.")
    return length_m


def station_and_share(along_m: FloatArray, at_m: FloatArray) -> tuple[IntArray, FloatArray]:
    """
    Where places lie between those of a line: the row before, and the share of the way on.

    >>> station_and_share(np.array([0.0, 0.5, 1.0]), np.array([0.6, 1.0]))
    (array([1, 1]), array([0.2, 1. ]))
    """
    row = np.clip(np.searchsorted(along_m, at_m, side="right") - 1, 0, len(along_m) - 2)
    share = (at_m - along_m[row]) / (along_m[row + 1] - along_m[row])
    return row, np.clip(share, 0.0, 1.0)
