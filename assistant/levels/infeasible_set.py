"""
Wishes that cannot all be met: which stand against each other, and the least that must give.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray
from assistant.levels.constraints import ConstraintKind, ConstraintRows
from assistant.levels.linear_programme import minimise
from grammar.frozen import frozen_identity

MET_MM = 1e-6
"""A row missed by no more than this is met. It covers what the solver leaves open."""
TIE_BREAK = 1e-3
"""What a millimetre of height costs against one that gives way: enough to choose between
answers that are else as good, too little to buy one with the other."""
CHEAPEST = 0.01
"""A kind of wish may not be cheaper than this, so that the height above never counts."""


@frozen_identity
class InfeasibleSet:
    """Numbers of wishes, and by how much they would have to give way, in the rows' measure."""

    members: tuple[int, ...]
    """Cannot be met together; can be, when any one of them is dropped."""
    amounts: FloatArray
    """(w,) the least change, weighed, with which everything can be met."""
    alone: tuple[float | None, ...]
    """For each member: how far it would have to give way if all other wishes stayed as they
    are; None where it cannot reconcile them by itself."""


def find_infeasible_set(
    rows: ConstraintRows, weights: Mapping[ConstraintKind, float]
) -> InfeasibleSet:
    """
    The wishes that conflict, in rows that cannot all be met.

    Parameters
    ----------
    rows : Rows
    weights : mapping of kind of wish to float
        How dear a millimetre of each is, at least :data:`CHEAPEST`; 1 where a kind is not
        named. For the slope, a millimetre at the point furthest from the middle.

    Returns
    -------
    clash : Clash
    """
    members = irreducible_set(rows)
    return InfeasibleSet(
        members=members,
        amounts=least_change(rows, weights),
        alone=tuple(_alone(rows, member) for member in members),
    )


def can_be_met(rows: ConstraintRows) -> bool:
    """Whether all rows and the slope limit can be met together."""
    return _worst(rows)[0] <= MET_MM


def irreducible_set(rows: ConstraintRows) -> tuple[int, ...]:
    """
    The smallest kind of conflict: wishes every one of which it takes.

    Notes
    -----
    Where the worst-missed row is missed by as little as possible, a few rows push against each
    other with everything they have; Farkas' lemma says that those cannot be met together, and a
    corner of the dual programme has no more of them than unknowns plus one. From the few, each
    wish that is not needed is then dropped (deletion filter, Chinneck; from memory).
    """
    chosen = _pushing(rows)
    if can_be_met(rows.only(chosen)):
        # Rounding hid one of them; the filter also works from everything, only slowly.
        chosen = np.ones(len(rows.wishes), dtype=bool)
    for wish in np.flatnonzero(chosen).tolist():
        fewer = chosen.copy()
        fewer[wish] = False
        if not can_be_met(rows.only(fewer)):
            chosen = fewer
    return tuple(np.flatnonzero(chosen).tolist())


def least_change(rows: ConstraintRows, weights: Mapping[ConstraintKind, float]) -> FloatArray:
    """
    How far each wish gives way when as little as possible is given in all, weighed.

    Returns
    -------
    amounts : (w,) array of float
        Where several answers cost the same, the one that needs least material.
    """
    import scipy.sparse

    dear = np.array([weights.get(wish.kind, 1.0) for wish in rows.wishes])
    if not (np.isfinite(dear).all() and dear.min() >= CHEAPEST):
        raise SurveyError(f"What a wish costs to give up must be at least {CHEAPEST}.")
    unknowns, wishes = rows.unknown_count, len(rows.wishes)
    giving = scipy.sparse.csr_array(
        (-np.ones(rows.owner.size), (np.arange(rows.owner.size), rows.owner)),
        shape=(rows.owner.size, wishes),
    )
    matrix = scipy.sparse.csr_array(scipy.sparse.hstack([rows.sparse(), giving]))
    cost = np.concatenate([np.zeros(unknowns), dear])
    cost[0] = TIE_BREAK
    least = np.concatenate([np.full(unknowns, -np.inf), np.zeros(wishes)])
    cone = rows.cone(extra=unknowns + wishes - 1)
    cheapest = minimise(cost, matrix, rows.bounds, least, cone)
    assert cheapest is not None, "with every wish giving way, everything can be met"
    return np.maximum(cheapest.unknowns[unknowns:], 0.0)


def _alone(rows: ConstraintRows, wish: int) -> float | None:
    import scipy.sparse

    unknowns = rows.unknown_count
    giving = scipy.sparse.csr_array(-(rows.owner == wish).astype(np.float64)[:, None])
    matrix = scipy.sparse.csr_array(scipy.sparse.hstack([rows.sparse(), giving]))
    least = np.append(np.full(unknowns, -np.inf), 0.0)
    is_slope = rows.slope_limit is not None and wish == len(rows.wishes) - 1
    cone = rows.cone(extra=unknowns if is_slope else None)
    found = minimise(np.append(np.zeros(unknowns), 1.0), matrix, rows.bounds, least, cone)
    return None if found is None else float(found.unknowns[-1])


def _worst(rows: ConstraintRows) -> tuple[float, FloatArray, float]:
    """By how much the worst row must be missed, and what pushes there: rows, and the slope."""
    import scipy.sparse

    unknowns = rows.unknown_count
    missing = scipy.sparse.csr_array(-np.ones((rows.bounds.size, 1)))
    matrix = scipy.sparse.csr_array(scipy.sparse.hstack([rows.sparse(), missing]))
    least = np.append(np.full(unknowns, -np.inf), 0.0)
    cost = np.append(np.zeros(unknowns), 1.0)
    found = minimise(cost, matrix, rows.bounds, least, rows.cone(extra=unknowns))
    assert found is not None, "with every row missed far enough, everything can be met"
    return float(found.unknowns[-1]), found.pushes, found.cone_pushes


def _pushing(rows: ConstraintRows) -> BoolArray:
    _, pushes, slope_pushes = _worst(rows)
    chosen = np.zeros(len(rows.wishes), dtype=bool)
    chosen[rows.owner[pushes > MET_MM]] = True
    if rows.slope_limit is not None:
        chosen[-1] = slope_pushes > MET_MM
    return chosen
