"""
Linear programmes with one round side: a slope that may not be steeper than a limit.

Lengths in millimetres here, so that the solver's tolerance of 1e-7 is a tenth of a nanometre.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import numpy as np

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray
from grammar.frozen import frozen, frozen_identity

if TYPE_CHECKING:
    import scipy.sparse

SIDES = 32
"""Directions in which the slope is limited to begin with; more start closer and cost more."""
ROUND_MM = 1e-6
"""How far the slope may pass its limit, millimetres at the point furthest out. The solver
itself leaves a tenth of that open; lowering it towards that never ends."""
_FAN = 15
"""Directions added each time; each round then brings the slope some 250 times nearer."""
_ROUNDS = 6
_RING = 720
"""Sides of the polygon inside the circle that is taken where the rounds come to no end; it
gives away a hundred-thousandth of the limit."""
_FAR_MM = 1e6
"""Nothing is ever a kilometre away; without an end the solver now and then gives up."""
_SLOPE = slice(1, 3)
"""Where the slope stands among the unknowns."""


@frozen
class Cone:
    """The slope's length may be no more than ``limit`` plus the unknown ``extra``."""

    limit: float
    extra: int | None = None
    """Column of an unknown that widens the limit."""


@frozen_identity
class Solution:
    """Best unknowns, and what each row pushes with."""

    unknowns: FloatArray
    pushes: FloatArray
    """(m,) what the cost gains for one of each row's bound; 0 or more."""
    cone_pushes: float
    """The same for the slope's limit, all its directions together."""


def minimise(
    cost: FloatArray,
    matrix: scipy.sparse.csr_array,
    bounds: FloatArray,
    least: FloatArray,
    cone: Cone | None,
) -> Solution | None:
    """
    Unknowns of least cost with ``matrix @ unknowns <= bounds`` and a slope within its limit.

    Parameters
    ----------
    cost : (q,) array of float
    matrix : (m, q) sparse array
    bounds : (m,) array of float
    least : (q,) array of float
        Least value of each unknown; minus infinity where it is free.
    cone : Cone, optional
        The slope is the second and third unknown.

    Returns
    -------
    solution : Solution or None
        None where the rows cannot all be met.

    Notes
    -----
    The circle that limits the slope is drawn as a polygon around it. Where the best slope
    lies in a corner beyond the circle, sides are added just there and the programme is solved
    again (cutting planes, Kelley 1960; from memory). Every side is a true limit, so what cannot
    be met with the polygon cannot be met with the circle; and the last slope is on the circle
    to a millionth of a millimetre, so nothing is given away as a fixed polygon inside would.
    Where many slopes are equally good the solver may jump from corner to corner; after a few
    rounds a fine polygon inside the circle settles it.
    """
    angles = np.linspace(-np.pi, np.pi, SIDES + 1) if cone else np.zeros(0)
    for _ in range(_ROUNDS):
        solution = _once(cost, matrix, bounds, least, cone, _sides(angles), 1.0)
        if solution is None or cone is None:
            return solution
        slope = solution.unknowns[_SLOPE]
        limit = _limit(cone, solution.unknowns)
        length = float(np.hypot(slope[0], slope[1]))
        if length <= limit + ROUND_MM:
            return solution
        angles = _closer(angles, float(np.arctan2(slope[1], slope[0])))
    ring = _sides(np.arange(_RING) * 2 * np.pi / _RING)
    return _once(cost, matrix, bounds, least, cone, ring, float(np.cos(np.pi / _RING)))


def _sides(angles: FloatArray) -> FloatArray:
    return np.column_stack([np.cos(angles), np.sin(angles)])


def _closer(angles: FloatArray, angle: float) -> FloatArray:
    """Directions between the two on either side of an angle; always the angle's own as well."""
    after = min(int(np.searchsorted(angles, angle, side="right")), angles.size - 1)
    between = np.linspace(angles[after - 1], angles[after], _FAN + 2)[1:-1]
    return np.unique(np.concatenate([angles, between, [angle]]))


def _limit(cone: Cone, unknowns: FloatArray) -> float:
    return cone.limit + (float(unknowns[cone.extra]) if cone.extra is not None else 0.0)


def _once(
    cost: FloatArray,
    matrix: scipy.sparse.csr_array,
    bounds: FloatArray,
    least: FloatArray,
    cone: Cone | None,
    sides: FloatArray,
    shrunk: float,
) -> Solution | None:
    import scipy.sparse
    from scipy.optimize import linprog

    if cone is not None:
        rows = np.zeros((len(sides), cost.size))
        rows[:, _SLOPE] = sides
        if cone.extra is not None:
            rows[:, cone.extra] = -shrunk
        matrix = scipy.sparse.csr_array(scipy.sparse.vstack([matrix, scipy.sparse.csr_array(rows)]))
        bounds = np.concatenate([bounds, np.full(len(sides), cone.limit * shrunk)])
    between = np.column_stack([np.maximum(least, -_FAR_MM), np.full(cost.size, np.inf)])
    for method in ("highs", "highs-ipm"):  # the second way round where the first gets stuck
        # The stubs leave out sparse rows and bounds in an array; linprog's own text allows both.
        found = linprog(  # type: ignore[call-overload]
            cost, A_ub=matrix, b_ub=bounds, bounds=between, method=method
        )
        if found.status != 4:
            break
    if found.status == 2:
        return None
    if found.status != 0:
        raise SurveyError(f"The finish could not be worked out: {found.message}")
    pushes = np.abs(np.asarray(found.ineqlin.marginals, dtype=np.float64))
    own = len(pushes) - len(sides)
    unknowns = np.asarray(found.x, dtype=np.float64)
    return Solution(unknowns, pushes[:own], float(pushes[own:].sum()))
