"""
The finish that needs least material: level, sloping a little, or falling to one side.

Every point keeps the product's minimum depth and none passes its maximum; door sills, floors
outside and fixed heights are met. Where all that cannot be had at once, the answer is the
conflict: who stands against whom, and the least change that reconciles them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, as_levels, as_places
from assistant.levels.constraints import (
    MM,
    CentredFrame,
    Constraint,
    ConstraintKind,
    ConstraintRows,
    PointConstraint,
    door_constraint,
    fixed_constraint,
    rows_for,
)
from assistant.levels.infeasible_set import MET_MM, find_infeasible_set
from assistant.levels.linear_programme import Cone, minimise
from grammar.frozen import frozen, frozen_identity

__all__ = [
    "Concession",
    "Conflict",
    "Constraint",
    "Finish",
    "PointConstraint",
    "best_fall",
    "best_level",
    "best_plane",
    "door_constraint",
    "fixed_constraint",
]

TOUCHING_M = 1e-7
"""A wish with no more room than this holds the finish where it is."""


@frozen_identity
class Finish:
    """A finish, with the material that it takes."""

    height_m: float
    """Above datum, at ``about_m``; anywhere, for a level finish."""
    about_m: tuple[float, float]
    """Middle of the floor."""
    slope: tuple[float, float]
    """Rise per metre in x and in y; zero for a level finish."""
    volume_m3: float
    """The volume to pour."""
    depths_m: FloatArray
    """(n,) depths at the points."""
    binding: tuple[Constraint, ...]
    """Wishes that have no room left. Those that keep the finish from going lower are here."""

    def heights_at(self, places_m: ArrayLike) -> FloatArray:
        """Height of the finish at places, (m, 2) metres."""
        rise = (as_places(places_m) - np.array(self.about_m)) @ np.array(self.slope)
        heights: FloatArray = self.height_m + rise
        return heights


@frozen
class Concession:
    """A wish that is not met in full, and by how much."""

    wish: Constraint
    amount: float
    """Metres of depth or height; for the slope, rise per metre."""


@frozen_identity
class Conflict:
    """Wishes that cannot all be met."""

    members: tuple[Constraint, ...]
    """Cannot be met together; can be, when any one of them is dropped. There may be other
    conflicts beside this one."""
    changes: tuple[Concession, ...]
    """The least change, weighed, with which everything can be met. Less minimum depth at a
    point can be had as well by grinding it so much."""
    alone: tuple[Concession, ...]
    """Members that could reconcile everything by giving way alone, and by how much."""
    reconciled: Finish
    """The best finish after ``changes``."""


def best_level(
    heights_m: ArrayLike,
    weights_m2: ArrayLike,
    min_depth_m: ArrayLike,
    max_depth_m: ArrayLike | None = None,
    held: Sequence[PointConstraint] = (),
    dear: Mapping[ConstraintKind, float] | None = None,
) -> Finish | Conflict:
    """
    The level finish that needs least material.

    Parameters
    ----------
    heights_m : (n,) array_like
        Of the floor at the points, above datum, metres.
    weights_m2 : (n,) array_like
        Area each point stands for; see :attr:`~assistant.levels.surface.Mesh.area_weights`.
    min_depth_m, max_depth_m : (n,) array_like or float
        The product's; no maximum where it is None.
    held : sequence of Held
        See :func:`door_constraint` and :func:`fixed_constraint`.
    dear : mapping of kind of wish to float, optional
        What a metre less of each costs against the others when they conflict; 1 unless given.

    Returns
    -------
    finish : Finish or Conflict

    Raises
    ------
    SurveyError
        If there is no point, a number is missing or not finite, or the floor has no area.

    Notes
    -----
    A level finish needs more material the higher it is, so the best is the lowest that meets
    every lower bound; a linear programme would give the same.

    Examples
    --------
    >>> finish = best_level([0.000, -0.006, 0.004], [2, 4, 2], min_depth_m=0.003)
    >>> round(finish.height_m, 6), round(finish.volume_m3, 6), finish.binding
    (0.007, 0.072, (Constraint(kind='minimum', number=2),))
    """
    task = _task(None, heights_m, weights_m2, None)
    rows = rows_for(
        task.frame(), task.places_m, task.heights_m, min_depth_m, max_depth_m, held, None
    )
    return _best(task, task.frame(), rows, dear)


def best_plane(
    places_m: ArrayLike,
    heights_m: ArrayLike,
    weights_m2: ArrayLike,
    min_depth_m: ArrayLike,
    max_depth_m: ArrayLike | None = None,
    held: Sequence[PointConstraint] = (),
    *,
    slope_limit: float,
    centre_m: ArrayLike | None = None,
    dear: Mapping[ConstraintKind, float] | None = None,
) -> Finish | Conflict:
    """
    The flat finish that needs least material and is nowhere steeper than a limit.

    Parameters
    ----------
    places_m : (n, 2) array_like
        Where the points are, metres.
    heights_m, weights_m2, min_depth_m, max_depth_m, held, dear
        As in :func:`best_level`; held heights count where their place is.
    slope_limit : float
        Rise per metre in the steepest direction, zero or more: 0.002 is 2 mm in a metre.
    centre_m : (2,) array_like, optional
        Centroid of the floor's area; the points' weighted middle if left out. Material is
        the area times the height there, whatever the slope.

    Returns
    -------
    finish : Finish or Conflict
        Never more material than the level finish. Of several planes with as little, the
        flattest.

    Raises
    ------
    SurveyError
        As :func:`best_level`, or if the limit is negative or not finite.

    Notes
    -----
    A linear programme in a height and two slopes, solved by HiGHS; the limit is met in every
    direction, see :mod:`~assistant.levels.linear_programme`.

    Examples
    --------
    >>> places = [[0, 0], [4, 0], [0, 4], [4, 4]]
    >>> finish = best_plane(places, [0.0, 0.008, 0.0, 0.008], [4] * 4, 0.003, slope_limit=0.002)
    >>> print(round(finish.volume_m3, 6), [round(part, 6) for part in finish.slope])
    0.048 [0.002, 0.0]
    """
    if not (np.isfinite(slope_limit) and slope_limit >= 0):
        raise SurveyError(f"A slope limit is zero or more, not {slope_limit}.")
    task = _task(places_m, heights_m, weights_m2, centre_m)
    frame = task.frame()
    rows = rows_for(
        frame, task.places_m, task.heights_m, min_depth_m, max_depth_m, held, slope_limit
    )
    return _best(task, frame, rows, dear)


def best_fall(
    places_m: ArrayLike,
    heights_m: ArrayLike,
    weights_m2: ArrayLike,
    min_depth_m: ArrayLike,
    max_depth_m: ArrayLike | None = None,
    held: Sequence[PointConstraint] = (),
    *,
    fall: float,
    towards_m: ArrayLike,
    centre_m: ArrayLike | None = None,
    dear: Mapping[ConstraintKind, float] | None = None,
) -> Finish | Conflict:
    """
    The flat finish that falls so much towards a place and needs least material.

    Parameters
    ----------
    places_m, heights_m, weights_m2, min_depth_m, max_depth_m, held, dear, centre_m
        As in :func:`best_plane`.
    fall : float
        Metres down for each metre along: 0.01 is one percent.
    towards_m : (2,) array_like
        The place. The finish falls along the line from the floor's centre to it, and is level
        across that line: one plane, not a funnel.

    Raises
    ------
    SurveyError
        As :func:`best_level`, if the place is the centre itself, or the fall not finite.

    Examples
    --------
    >>> places = [[0, 0], [4, 0], [0, 4], [4, 4]]
    >>> finish = best_fall(places, [0, 0, 0, 0], [4] * 4, 0.003, fall=0.01, towards_m=[4, 2])
    >>> [round(part, 6) for part in finish.slope], round(finish.height_m, 6)
    ([-0.01, 0.0], 0.023)
    """
    task = _task(places_m, heights_m, weights_m2, centre_m)
    way = _place(towards_m, "place to fall to") - task.centre_m
    length = float(np.hypot(way[0], way[1]))
    if length < 1e-6:
        raise SurveyError("A fall towards the middle of the floor has no direction.")
    if not np.isfinite(fall):
        raise SurveyError(f"A fall of {fall} is not a usable number.")
    frame = task.frame(-fall * way / length)
    rows = rows_for(frame, task.places_m, task.heights_m, min_depth_m, max_depth_m, held, None)
    return _best(task, frame, rows, dear)


@frozen_identity
class _Task:
    places_m: FloatArray
    heights_m: FloatArray
    weights_m2: FloatArray
    centre_m: FloatArray

    def frame(self, given_slope: FloatArray | None = None) -> CentredFrame:
        away = self.places_m - self.centre_m
        radius = float(np.sqrt((away**2).sum(axis=1).max()))
        x, y = self.centre_m.tolist()
        slope = np.zeros(2) if given_slope is None else given_slope
        return CentredFrame((x, y), radius or 1.0, float(np.median(self.heights_m)), slope)


def _task(
    places_m: ArrayLike | None,
    heights_m: ArrayLike,
    weights_m2: ArrayLike,
    centre_m: ArrayLike | None,
) -> _Task:
    count = np.asarray(heights_m).size
    places = np.zeros((count, 2)) if places_m is None else as_places(places_m, "point")
    if not len(places):
        raise SurveyError("A finish needs at least one point.")
    heights = as_levels(heights_m, len(places))
    weights = as_levels(weights_m2, len(places), "area")
    if weights.sum() <= 0:
        raise SurveyError("The points stand for no area, so nothing can be poured.")
    middle = weights @ places / weights.sum()
    centre = middle if centre_m is None else _place(centre_m, "centre")
    return _Task(places, heights, weights, centre)


def _place(place_m: ArrayLike, what: str) -> FloatArray:
    place: FloatArray = as_places(np.asarray(place_m, dtype=np.float64)[None], what)[0]
    return place


def _best(
    task: _Task,
    frame: CentredFrame,
    rows: ConstraintRows,
    dear: Mapping[ConstraintKind, float] | None,
) -> Finish | Conflict:
    unknowns = _least_material(rows)
    if unknowns is not None:
        return _finish(task, frame, rows, unknowns)
    found = find_infeasible_set(rows, dear or {})
    eased = rows.eased(found.amounts + 2 * MET_MM)
    unknowns = _least_material(eased)
    assert unknowns is not None, "the least change reconciles all wishes"
    return Conflict(
        members=tuple(rows.wishes[member] for member in found.members),
        changes=tuple(
            _change(frame, rows.wishes[row], float(found.amounts[row]))
            for row in np.flatnonzero(found.amounts > TOUCHING_M * MM).tolist()
        ),
        alone=tuple(
            _change(frame, rows.wishes[member], amount)
            for member, amount in zip(found.members, found.alone, strict=True)
            if amount is not None
        ),
        reconciled=_finish(task, frame, eased, unknowns),
    )


def _change(frame: CentredFrame, wish: Constraint, amount: float) -> Concession:
    unit = MM * frame.radius_m if wish.kind == "slope" else MM
    return Concession(wish, amount / unit)


def _least_material(rows: ConstraintRows) -> FloatArray | None:
    """Height in the middle as low as can be, then the slope as small as can be."""
    if rows.unknown_count == 1:
        signs = rows.matrix[:, 0]
        low = float(np.max(-rows.bounds[signs < 0]))
        high = float(np.min(rows.bounds[signs > 0], initial=np.inf))
        return np.array([low]) if low <= high + MET_MM else None
    free = np.full(3, -np.inf)
    lowest = minimise(np.array([1.0, 0.0, 0.0]), rows.sparse(), rows.bounds, free, rows.cone())
    if lowest is None:
        return None
    return _flattest(rows, lowest.unknowns)


def _flattest(rows: ConstraintRows, unknowns: FloatArray) -> FloatArray:
    """A fourth unknown, as long as the slope, is made as small as it can be."""
    import scipy.sparse

    count = rows.bounds.size
    matrix = np.zeros((count + 2, 4))
    matrix[:count, :3] = rows.matrix
    matrix[count, 0] = 1.0
    matrix[count + 1, 3] = 1.0
    limit = rows.slope_limit if rows.slope_limit is not None else np.inf
    bounds = np.concatenate([rows.bounds, [unknowns[0] + MET_MM, limit]])
    least = np.array([-np.inf, -np.inf, -np.inf, 0.0])
    cost = np.array([0.0, 0.0, 0.0, 1.0])
    found = minimise(cost, scipy.sparse.csr_array(matrix), bounds, least, Cone(0.0, extra=3))
    return unknowns if found is None else found.unknowns[:3]


def _finish(task: _Task, frame: CentredFrame, rows: ConstraintRows, unknowns: FloatArray) -> Finish:
    height = frame.base_m + float(unknowns[0]) / MM
    slope = frame.given_slope.copy()
    if unknowns.size == 3:
        slope += unknowns[1:] / (MM * frame.radius_m)
    levels = height + (task.places_m - task.centre_m) @ slope
    depths = levels - task.heights_m
    area = float(task.weights_m2.sum())
    rise = float(slope[0] + 0.0), float(slope[1] + 0.0)  # no -0.0 to be read out
    return Finish(
        height_m=height,
        about_m=frame.about_m,
        slope=rise,
        # No point stands above a finish that is found, so that none is taken off.
        volume_m3=area * height - float(task.weights_m2 @ task.heights_m),
        depths_m=depths,
        binding=_binding(rows, unknowns),
    )


def _binding(rows: ConstraintRows, unknowns: FloatArray) -> tuple[Constraint, ...]:
    room = rows.bounds - rows.matrix @ unknowns
    touching = set(rows.owner[room <= TOUCHING_M * MM].tolist())
    if rows.slope_limit is not None:
        steepness = float(np.hypot(unknowns[1], unknowns[2]))
        if steepness >= rows.slope_limit - TOUCHING_M * MM:
            touching.add(len(rows.wishes) - 1)
    return tuple(rows.wishes[wish] for wish in sorted(touching))
