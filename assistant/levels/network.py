"""
Heights on a net of height differences: the arithmetic under the adjustment.

Everything an instrument can say is a difference between two nodes. A reading is the
difference from the zero of its set-up to a point; a benchmark known to so many millimetres is
a difference from the ground; a height taken as exactly known is no unknown at all.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

import numpy as np

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray, IntArray
from assistant.levels.least_squares import solve_independent as solve_dense
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    import scipy.sparse

GROUND = -1
"""Start of a difference that says how high its end is known to be."""


@frozen_identity
class Differences:
    """What was observed: the end is so much higher than the start."""

    start: IntArray
    """(m,) nodes, or GROUND."""
    end: IntArray
    """(m,) nodes."""
    value_m: FloatArray
    """(m,)"""
    sd_m: FloatArray
    """(m,) above zero."""


@frozen_identity
class Net:
    """Adjusted heights and what they rest on; nan wherever nothing ties to the ground."""

    heights_m: FloatArray
    """(nodes,)"""
    sd_m: FloatArray
    """(nodes,) as the given standard deviations promise it."""
    residuals_m: FloatArray
    """(m,) adjusted minus observed."""
    redundancy: FloatArray
    """(m,) 0 where nothing checks the observation, 1 where it is checked fully; nan for
    observations left out."""
    weighted_squares: float
    dof: int
    parts: IntArray
    """(nodes,) nodes with the same number are joined by observations; 0 is the ground's."""
    _shares: FloatArray
    """(nodes, kept): how the heights follow the kept unknowns' independent errors."""
    _own_variance: FloatArray
    """(nodes,) what each has beside, from its own readings alone."""
    _follows: FloatArray
    """(nodes, kept) how the heights follow the kept unknowns' heights."""
    _kept: IntArray
    """(kept,) which nodes those are."""

    def own_sd_m(self, nodes: IntArray) -> FloatArray:
        """What each node's height is unsure by from readings of it alone, (k,)."""
        own: FloatArray = np.sqrt(self._own_variance[nodes])
        own[self.parts[nodes] != 0] = np.nan
        return own

    def shared_m(self, nodes: IntArray) -> FloatArray:
        """
        What independent errors, common to many nodes, do to each node's height, (k, kept).

        A standard deviation of each. With :meth:`own_sd_m` they are the whole covariance:
        ``diag(own_sd_m²) + shared_m shared_mᵀ``. An unknown that is solved together brings its
        own error, in the order of the nodes: one that hangs on others leaves theirs as they are.
        """
        errors = self._shares[self._kept]
        shared: FloatArray = self._follows[nodes] @ np.linalg.cholesky(errors @ errors.T)
        shared[self.parts[nodes] != 0] = np.nan
        return shared

    def covariance_m2(self, nodes: IntArray) -> FloatArray:
        """Covariance of some nodes' heights, (k, k), not scaled; nan where undetermined."""
        shares = self._shares[nodes]
        covariance: FloatArray = shares @ shares.T
        covariance += np.where(nodes[:, None] == nodes, self._own_variance[nodes], 0.0)
        loose = self.parts[nodes] != 0
        covariance[loose] = covariance[:, loose] = np.nan
        return covariance


@frozen_identity
class _Columns:
    """Which unknown each determined node is."""

    eliminated: IntArray
    """(nodes,) number among those worked out one by one, else -1."""
    kept: IntArray
    """(nodes,) number among those solved together, else -1."""

    @property
    def eliminated_count(self) -> int:
        return int(self.eliminated.max(initial=-1)) + 1

    @property
    def kept_count(self) -> int:
        return int(self.kept.max(initial=-1)) + 1


def solve_network(
    differences: Differences,
    node_count: int,
    fixed_m: Mapping[int, float],
    one_by_one: BoolArray,
    used: BoolArray | None = None,
) -> Net:
    """
    Heights of all nodes that the ground reaches.

    Parameters
    ----------
    differences : Differences
    node_count : int
    fixed_m : mapping of node to height
        Exactly known, metres.
    one_by_one : (nodes,) array of bool
        Nodes no two of which share a difference (the points of a survey). Each is eliminated
        by an orthogonal turn of its own few rows, so only the others are solved together:
        500 points read from 100 set-ups cost 100 unknowns, not 600.
    used : (m,) array of bool, optional
        False leaves an observation out; its residual is still worked out.

    Returns
    -------
    net : Net

    Notes
    -----
    A net of differences is determined exactly where it hangs together with the ground, so rank
    is read from the connected components and not guessed from small numbers; the pivoted
    factors of :mod:`~assistant.levels.least_squares` then confirm it.
    """
    _check(differences, node_count)
    taken = np.ones(len(differences.value_m), dtype=bool) if used is None else used
    parts = _parts(differences, node_count, fixed_m, taken)
    taken = taken & (parts[differences.end] == 0)
    columns = _columns(fixed_m, parts, one_by_one)
    return _solve(differences, columns, fixed_m, parts, taken)


def _check(differences: Differences, node_count: int) -> None:
    ends = np.concatenate([differences.start, differences.end])
    if ends.size and (ends.max() >= node_count or ends.min() < GROUND):
        raise SurveyError("An observation names a point or set-up that is not there.")
    loops = np.flatnonzero(differences.start == differences.end)
    if loops.size:
        raise SurveyError(f"The difference in row {loops[0] + 1} starts where it ends.")


def _parts(
    differences: Differences, node_count: int, fixed_m: Mapping[int, float], taken: BoolArray
) -> IntArray:
    import scipy.sparse
    from scipy.sparse.csgraph import connected_components

    ground = node_count
    fixed = np.fromiter(fixed_m, dtype=np.intp, count=len(fixed_m))
    start = np.where(differences.start == GROUND, ground, differences.start)[taken]
    rows = np.concatenate([start, np.full(fixed.size, ground)])
    ends = np.concatenate([differences.end[taken], fixed])
    joined = scipy.sparse.coo_array(
        (np.ones(rows.size), (rows, ends)), shape=(node_count + 1, node_count + 1)
    )
    _, labels = connected_components(joined, directed=False)
    # Renumbered so that whatever hangs together with the ground is part 0.
    numbers = np.asarray(labels, dtype=np.intp)
    swapped = np.where(numbers == 0, numbers[ground], numbers)
    swapped[numbers == numbers[ground]] = 0
    nodes: IntArray = swapped[:node_count]
    return nodes


def _columns(fixed_m: Mapping[int, float], parts: IntArray, one_by_one: BoolArray) -> _Columns:
    unknown = parts == 0
    unknown[list(fixed_m)] = False
    return _Columns(*(_numbered(unknown & chosen) for chosen in (one_by_one, ~one_by_one)))


def _numbered(chosen: BoolArray) -> IntArray:
    return np.where(chosen, np.cumsum(chosen) - 1, -1).astype(np.intp)


def _solve(
    differences: Differences,
    columns: _Columns,
    fixed_m: Mapping[int, float],
    parts: IntArray,
    taken: BoolArray,
) -> Net:
    import scipy.sparse

    nodes = parts.size
    heights = np.zeros(nodes)
    heights[list(fixed_m)] = list(fixed_m.values())
    rows = np.flatnonzero(taken)
    weight = 1.0 / differences.sd_m[rows]
    start, end = differences.start[rows], differences.end[rows]
    # Until they are solved the unknowns count as 0, so this takes off what is known already.
    observed = weight * (differences.value_m[rows] - _at(end, heights) + _at(start, heights))
    alone = _incidence(columns.eliminated, columns.eliminated_count, start, end, weight)
    lengths = np.sqrt(np.asarray((alone**2).sum(axis=0)).ravel())
    alone = scipy.sparse.csr_array(alone @ scipy.sparse.diags_array(1 / lengths))
    together = _incidence(columns.kept, columns.kept_count, start, end, weight)
    across = scipy.sparse.csr_array(alone.T @ together)
    reduced = together - alone @ across
    # A point read once takes that reading whole; nothing of it is left to fix a set-up.
    reduced.data[np.abs(reduced.data) < 1e-14 * np.repeat(weight, np.diff(reduced.indptr))] = 0.0
    reduced.eliminate_zeros()
    left = np.flatnonzero(np.diff(reduced.indptr))
    dense = reduced[left].toarray()
    target = observed - alone @ (alone.T @ observed)
    split = solve_dense(dense, target[left])
    single = (alone.T @ (observed - together @ split.unknowns)) / lengths
    leverage = np.asarray((alone**2).sum(axis=1)).ravel()
    leverage[left] += ((dense @ split.inverse) ** 2).sum(axis=1)
    shares = np.zeros((nodes, columns.kept_count))
    own = np.zeros(nodes)
    _place(columns.kept, split.unknowns, heights)
    _place(columns.eliminated, single, heights)
    _place(columns.kept, split.inverse, shares)
    _place(columns.eliminated, -(across @ split.inverse) / lengths[:, None], shares)
    _place(columns.eliminated, 1 / lengths**2, own)
    follows = np.zeros((nodes, columns.kept_count))
    _place(columns.kept, np.eye(columns.kept_count), follows)
    _place(columns.eliminated, -across.toarray() / lengths[:, None], follows)
    heights[parts != 0] = np.nan
    redundancy = np.full(taken.size, np.nan)
    redundancy[rows] = np.clip(1.0 - leverage, 0.0, 1.0)
    residuals = _at(differences.end, heights) - _at(differences.start, heights)
    residuals -= differences.value_m
    scaled = residuals[rows] * weight
    return Net(
        heights_m=heights,
        sd_m=np.where(parts == 0, np.sqrt((shares**2).sum(axis=1) + own), np.nan),
        residuals_m=residuals,
        redundancy=redundancy,
        weighted_squares=float(scaled @ scaled),
        dof=rows.size - columns.kept_count - columns.eliminated_count,
        parts=parts,
        _shares=shares,
        _own_variance=own,
        _follows=follows,
        _kept=np.flatnonzero(columns.kept >= 0),
    )


def _at(ends: IntArray, heights_m: FloatArray) -> FloatArray:
    """Heights at the ends of differences; the ground, whose number is -1, is at 0."""
    heights: FloatArray = np.append(heights_m, 0.0)[ends]
    return heights


def _incidence(
    number: IntArray, count: int, start: IntArray, end: IntArray, weight: FloatArray
) -> scipy.sparse.csr_array:
    """Weighted rows of the design, for the unknowns with a number."""
    import scipy.sparse

    rows = np.arange(weight.size)
    padded = np.append(number, -1)
    at = np.concatenate([padded[start], padded[end]])
    values = np.concatenate([-weight, weight])
    has = at >= 0
    return scipy.sparse.csr_array(
        (values[has], (np.tile(rows, 2)[has], at[has])), shape=(weight.size, count)
    )


def _place(number: IntArray, values: FloatArray, into: FloatArray) -> None:
    chosen = number >= 0
    into[chosen] = values[number[chosen]]
