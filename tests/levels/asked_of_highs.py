"""Wishes for a plane solved by HiGHS directly, to check our own search against."""

from __future__ import annotations

import numpy as np
from scipy.optimize import OptimizeResult, linprog

from assistant.levels.arrays import FloatArray

MM = 0.001
RING = 1024
"""Sides of the polygon that stands in for the circle of slopes."""


def asked_of_highs(
    objective: FloatArray,
    at: FloatArray,
    low: FloatArray,
    high: FloatArray,
    steepest: float,
    *,
    inside: bool,
) -> OptimizeResult:
    """
    A plane between bounds at some places, no steeper than a limit.

    Parameters
    ----------
    objective : (3,) array
        Of the height at the origin and the slopes along x and y; made least.
    at : (n, 2) array
        Places, metres.
    low, high : (n,) array
        Bounds of the height there, metres.
    steepest : float
        Limit of the slope, metres in a metre.
    inside : bool
        Whether the polygon lies inside the circle or around it: the truth is between the two.

    Returns
    -------
    OptimizeResult
        Heights in millimetres; status 0 where there is such a plane.
    """
    rows = np.column_stack([np.ones(len(at)), at])
    angles = np.arange(RING) * 2 * np.pi / RING
    ring = np.column_stack([np.zeros(RING), np.cos(angles), np.sin(angles)])
    radius = steepest * (np.cos(np.pi / RING) if inside else 1.0)
    found: OptimizeResult = linprog(
        objective,
        A_ub=np.vstack([-rows, rows, ring]),
        b_ub=np.concatenate([-low, high, np.full(RING, radius)]) / MM,
        bounds=(None, None),
        method="highs",
    )
    return found
