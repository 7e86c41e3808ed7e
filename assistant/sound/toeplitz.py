"""Equations whose matrix is the same along each diagonal, as a filter's are."""

from __future__ import annotations

import numpy as np

_NEAR = 1e-9
"""Size of what is left over against the right side. Larger is sooner there, and less exact."""
_MOST_STEPS = 300
"""Speech takes 60 to 90 for half a second's filter. What is not there by then is solved outright,
at the work of as many."""


def toeplitz_solution(column: np.ndarray, right: np.ndarray) -> np.ndarray:
    """
    Solve for ``x`` where a symmetric, positive definite Toeplitz matrix times ``x`` is `right`.

    Parameters
    ----------
    column : (n,) array of float
        The matrix's first column.
    right : (n,) array of float

    Returns
    -------
    x : (n,) array of float
        To nine digits of `right`.

    Notes
    -----
    Conjugate gradients, with T. Chan's circulant matrix before them (SIAM Journal on Scientific
    and Statistical Computing 9, 1988): each step is four Fourier transforms, where Levinson's
    recursion works through the square of n.

    Examples
    --------
    >>> toeplitz_solution(np.array([2.0, 1.0, 0.0]), np.array([4.0, 8.0, 8.0])).round(6)
    array([1., 2., 3.])
    """
    from scipy import fft
    from scipy.linalg import solve_toeplitz

    size = len(column)
    if size < 2 or not np.any(right):
        return np.asarray(right / column[0], float)
    around = fft.next_fast_len(2 * size, real=True)
    ring = np.zeros(around)
    ring[:size] = column
    ring[around - size + 1 :] = column[:0:-1]
    matrix, nearly = fft.rfft(ring), _circulant(column)
    found, left = np.zeros(size), np.array(right, float)
    ahead = step = fft.irfft(fft.rfft(left) / nearly, size)
    reach = float(left @ ahead)
    enough = _NEAR * float(np.linalg.norm(right))
    for _ in range(_MOST_STEPS):
        pushed = fft.irfft(matrix * fft.rfft(step, around), around)[:size]
        length = reach / float(step @ pushed)
        found += length * step
        left -= length * pushed
        if float(np.linalg.norm(left)) <= enough:
            return found
        ahead = fft.irfft(fft.rfft(left) / nearly, size)
        before, reach = reach, float(left @ ahead)
        step = ahead + reach / before * step
    solved: np.ndarray = solve_toeplitz(column, right)
    return solved


def _circulant(column: np.ndarray) -> np.ndarray:
    """Eigenvalues of the circulant matrix nearest to the Toeplitz one."""
    from scipy import fft

    size = len(column)
    part = np.arange(size) / size
    nearest = (1 - part) * column
    nearest[1:] += part[1:] * column[:0:-1]
    found: np.ndarray = np.real(fft.rfft(nearest))
    # Those of a positive definite matrix are above zero, but for rounding.
    above: np.ndarray = np.maximum(found, np.finfo(float).eps * column[0])
    return above
