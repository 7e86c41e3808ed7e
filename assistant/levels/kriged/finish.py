"""
The finish as a height everywhere: level, or a plane.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray


def finish_at(finish_m: float | ArrayLike, places_m: FloatArray) -> FloatArray:
    """
    Height of the finish at places.

    Parameters
    ----------
    finish_m : float or (3,) array_like
        A level, metres; or a plane's height at (0, 0), and its slopes along x and y.
    places_m : (m, 2) array of float

    Returns
    -------
    heights_m : (m,) array of float

    Raises
    ------
    SurveyError
        If it is neither one number nor three, or not finite.

    Examples
    --------
    >>> print(finish_at([0.020, -0.010, 0], np.array([[0.0, 0.0], [1.0, 5.0]])))
    [0.02 0.01]
    """
    finish = np.asarray(finish_m, dtype=np.float64)
    if finish.shape not in {(), (3,)} or not np.isfinite(finish).all():
        raise SurveyError("A finish is one level, or a height and two slopes.")
    if finish.ndim == 0:
        return np.full(len(places_m), float(finish))
    heights: FloatArray = finish[0] + places_m @ finish[1:]
    return heights
