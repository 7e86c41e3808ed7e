"""
Weighted least squares by orthogonal factors, never by normal equations.

Normal equations square the condition of a problem, so half of the digits are gone before
anything is solved; survey weights of very different size get there quickly.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, IntArray, as_levels
from grammar.frozen import frozen_identity

RANK_TOLERANCE = 1e-12
"""A column that adds less than this part of its own length is a mixture of the others.
Raising it refuses designs that are merely ill-conditioned; rounding alone gives 1e-15."""


_AT_ONCE = 512
"""Rows turned in one go, so that they stay in the processor's cache."""


@frozen_identity
class TriangularSolution:
    """Unknowns, and the triangle their uncertainty comes from."""

    unknowns: FloatArray
    """(n,)"""
    inverse: FloatArray
    """(n, n), of the triangle: its rows' squares add up to the variances of the unknowns,
    ``design @ inverse`` has orthonormal columns."""


def solve_independent(design: FloatArray, observed: FloatArray) -> TriangularSolution:
    """
    Unknowns of a design whose columns are independent.

    Parameters
    ----------
    design, observed : (m, n) and (m,) arrays of float
        Each row already divided by its standard deviation.

    Raises
    ------
    SurveyError
        If the rows cannot fix all columns. Names the columns, counted from 1.

    Notes
    -----
    Householder QR of the design with the observations beside it; then QR with column pivoting
    of the small triangle, its columns brought to unit length, which shows the rank (Golub and
    Van Loan, Matrix Computations, the chapter on least squares; from memory). Two steps,
    because pivoting a tall array is slow.
    """
    import scipy.linalg

    columns = design.shape[1]
    if not columns:
        return TriangularSolution(np.zeros(0), np.zeros((0, 0)))
    small = _triangle(np.column_stack([design, observed]))
    lengths = np.sqrt((small[:, :columns] ** 2).sum(axis=0))
    lengths[lengths == 0] = 1.0
    turn, pivoted, order = scipy.linalg.qr(
        small[:, :columns] / lengths, mode="economic", pivoting=True, check_finite=False
    )
    _check_rank(np.abs(np.diag(pivoted)), order.astype(np.intp))
    back = scipy.linalg.solve_triangular(pivoted, np.eye(columns), check_finite=False)
    solved = scipy.linalg.solve_triangular(pivoted, turn.T @ small[:, columns], check_finite=False)
    inverse, unknowns = np.empty_like(back), np.empty_like(solved)
    inverse[order], unknowns[order] = back, solved
    return TriangularSolution(unknowns / lengths, inverse / lengths[:, None])


def _triangle(rows: FloatArray) -> FloatArray:
    """The upper triangle that many rows turn into, and no fewer rows than columns."""
    import scipy.linalg

    # Rows of nothing change no answer, and let the pivoting name what is missing.
    triangle: FloatArray = np.zeros((rows.shape[1], rows.shape[1]))
    for first in range(0, len(rows), _AT_ONCE):
        stacked = np.vstack([triangle, rows[first : first + _AT_ONCE]])
        (turned,) = scipy.linalg.qr(stacked, mode="r", overwrite_a=True, check_finite=False)
        triangle = np.asarray(turned[: rows.shape[1]], dtype=np.float64)
    return triangle


def as_sds(sds: ArrayLike, count: int, zero_allowed: bool = False) -> FloatArray:
    """
    One standard deviation for each of ``count`` observations; a single one counts for all.

    Raises
    ------
    SurveyError
        If one is not a finite number above zero (or zero, where that is allowed). Names the row.
    """
    spreads = np.asarray(sds, dtype=np.float64)
    if spreads.ndim == 0:
        spreads = np.full(count, float(spreads))
    spreads = as_levels(spreads, count, "standard deviation")
    bad = np.flatnonzero((spreads < 0) if zero_allowed else (spreads <= 0))
    if bad.size:
        least = "zero or more" if zero_allowed else "above zero"
        raise SurveyError(
            f"The standard deviation in row {bad[0] + 1} is {spreads[bad[0]]}; it must be {least}."
        )
    return spreads


def _check_rank(diagonal: FloatArray, order: IntArray) -> None:
    loose = order[diagonal <= RANK_TOLERANCE]
    if loose.size:
        named = ", ".join(str(column + 1) for column in sorted(loose.tolist()))
        raise SurveyError(f"The observations do not fix every unknown; not fixed: {named}.")
