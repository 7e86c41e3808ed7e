"""A fit with all that is known of it, to hold the core's solver to certified ones."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, as_levels
from assistant.levels.least_squares import as_sds, solve_independent
from grammar.frozen import frozen_identity


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
    fit : LeastSquaresFit

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
