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


@frozen_identity
class LeastSquaresFit:
    """Unknowns that agree best with the observations; see :func:`fit_least_squares`."""

    unknowns: FloatArray
    """(n,)"""
    covariance: FloatArray
    """(n, n) as the given standard deviations promise it, not scaled by ``sigma0``."""
    residuals: FloatArray
    """(m,) adjusted minus observed."""
    redundancy: FloatArray
    """(m,) how far the others check each observation: 0 not at all, 1 fully. They add up
    to ``dof``."""
    weighted_squares: float
    """Sum of the squares of residual over standard deviation."""
    dof: int
    """Observations more than unknowns."""

    @property
    def sigma0(self) -> float:
        """How much larger the residuals are than promised; nan where nothing is checked."""
        return float(np.sqrt(self.weighted_squares / self.dof)) if self.dof else float("nan")


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


def fit_least_squares(
    design: ArrayLike, observed: ArrayLike, sds: ArrayLike | None = None
) -> LeastSquaresFit:
    """
    Unknowns from more observations than needed.

    Parameters
    ----------
    design : (m, n) array_like
        What each observation should read for one of each unknown.
    observed : (m,) array_like
    sds : (m,) array_like, optional
        Standard deviation of each observation, more than zero; all 1 if left out.

    Returns
    -------
    fit : Fit

    Raises
    ------
    SurveyError
        If a number is not finite, a standard deviation is not above zero, or the
        observations cannot fix all unknowns.

    Examples
    --------
    A line through three points.

    >>> line = fit_least_squares([[1, 0], [1, 1], [1, 2]], [0.0, 1.0, 5.0])
    >>> print(line.unknowns.round(6), line.dof, round(line.sigma0, 6))
    [-0.5  2.5] 1 1.224745
    """
    matrix = np.asarray(design, dtype=np.float64)
    if matrix.ndim != 2 or not np.isfinite(matrix).all():
        raise SurveyError("The design must be a table of finite numbers.")
    values = as_levels(observed, len(matrix), "observation")
    spreads = as_sds(1.0 if sds is None else sds, len(matrix))
    weighted, scaled = matrix / spreads[:, None], values / spreads
    solved = solve_independent(weighted, scaled)
    missed = weighted @ solved.unknowns - scaled
    return LeastSquaresFit(
        unknowns=solved.unknowns,
        covariance=solved.inverse @ solved.inverse.T,
        residuals=missed * spreads,
        redundancy=np.clip(1.0 - ((weighted @ solved.inverse) ** 2).sum(axis=1), 0.0, 1.0),
        weighted_squares=float(missed @ missed),
        dof=matrix.shape[0] - matrix.shape[1],
    )


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
