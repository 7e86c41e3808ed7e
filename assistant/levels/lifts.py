"""
Deep places: more than one lift, or the mix with aggregate, bay by bay.

A lift finds its own level, so its top is level and it only covers what lies below that. Where
the floor rises, a lower lift runs out to nothing along a line; points near that line would get
a film thinner than the product's minimum, and are named: a batten along the line, or grinding,
keeps the lift whole.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import ceil, isfinite
from typing import Literal

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray, as_levels
from grammar.frozen import frozen

SAME_M = 1e-9
"""Depths that differ by less are the same; a depth of just the maximum is one lift."""

Way = Literal["nothing", "one lift", "aggregate", "lifts"]


@frozen
class Lift:
    """One layer of a bay, poured to a level top."""

    thickness_m: float
    """Where it is whole, at the deepest point."""
    top_below_finish_m: float
    """Its top against the finish; 0 for the last lift."""
    points: tuple[int, ...]
    """Points it covers."""
    thin: tuple[int, ...]
    """Of those, points where it would be thinner than the minimum."""


@frozen
class BayPlan:
    """How a bay can be brought up to its finish."""

    shallowest_m: float
    deepest_m: float
    over_maximum: tuple[int, ...]
    """Points deeper than one neat lift may be."""
    under_minimum: tuple[int, ...]
    """Points not deep enough for the product at all."""
    lifts: tuple[Lift, ...]
    """Neat, the lowest first; empty where the depth cannot be made up of lifts."""
    one_pour_with_aggregate: bool
    """The mix with aggregate would do in one pour what neat takes several lifts for."""

    @property
    def ways(self) -> tuple[Way, ...]:
        """What would do, simplest first; empty where nothing would."""
        if self.deepest_m <= 0:
            return ("nothing",)
        if len(self.lifts) == 1:
            return ("one lift",)
        aggregate: tuple[Way, ...] = ("aggregate",) if self.one_pour_with_aggregate else ()
        return (*aggregate, "lifts") if self.lifts else aggregate


def lift_depths(depth_m: float, min_depth_m: float, max_depth_m: float) -> tuple[float, ...]:
    """
    As few equal lifts as make up a depth.

    Parameters
    ----------
    depth_m : float
        More than zero gives lifts.
    min_depth_m, max_depth_m : float
        Of one lift, zero or more and above zero.

    Returns
    -------
    depths_m : tuple of float
        Each within the two; empty where that cannot be done (too thin for even one lift, or
        a product whose minimum is more than half its maximum at a depth in between), or where
        there is nothing to pour.

    Raises
    ------
    SurveyError
        If a number is not finite, or the maximum is below the minimum.

    Examples
    --------
    >>> lift_depths(0.065, 0.003, 0.030)
    (0.021666666666666667, 0.021666666666666667, 0.021666666666666667)
    """
    _check(min_depth_m, max_depth_m)
    if not isfinite(depth_m):
        raise SurveyError(f"A depth of {depth_m} cannot be poured.")
    if depth_m <= SAME_M:
        return ()
    count = max(ceil((depth_m - SAME_M) / max_depth_m), 1)
    if depth_m / count < min_depth_m - SAME_M:
        return ()
    return (depth_m / count,) * count


def plan_bay(
    depths_m: ArrayLike,
    min_depth_m: float,
    max_depth_m: float,
    max_with_aggregate_m: float | None = None,
    points: Sequence[int] | None = None,
) -> BayPlan:
    """
    Lifts for a bay, from the depths at its points.

    Parameters
    ----------
    depths_m : (n,) array_like
        Finish minus floor at the survey's points, metres.
    min_depth_m, max_depth_m : float
        Of one neat lift.
    max_with_aggregate_m : float, optional
        Of a pour with aggregate; None where the product takes none.
    points : sequence of int, optional
        Which of the points the bay holds; all if left out.

    Returns
    -------
    plan : BayPlan
        With the fewest lifts. The last one is as thick as leaves fewest points with a film
        of the lift below; the others share the rest evenly.

    Raises
    ------
    SurveyError
        If the bay holds no point, or a number is missing or not finite.

    Examples
    --------
    >>> plan = plan_bay([0.012, 0.020, 0.048], 0.003, 0.030, max_with_aggregate_m=0.050)
    >>> plan.ways, [round(lift.thickness_m, 3) for lift in plan.lifts], plan.lifts[0].points
    (('aggregate', 'lifts'), [0.018, 0.03], (2,))
    """
    _check(min_depth_m, max_depth_m)
    all_depths = as_levels(depths_m, np.asarray(depths_m).size, "depth")
    chosen = np.arange(all_depths.size) if points is None else np.asarray(points, dtype=np.intp)
    if not chosen.size:
        raise SurveyError("A bay without a point has no depth to plan for.")
    depths = all_depths[chosen]
    deepest = float(depths.max())
    numbers = chosen.tolist()
    tops = _thicknesses(depths, deepest, min_depth_m, max_depth_m)
    aggregate = max_with_aggregate_m is not None and deepest <= max_with_aggregate_m + SAME_M
    return BayPlan(
        shallowest_m=float(depths.min()),
        deepest_m=deepest,
        over_maximum=_which(numbers, depths > max_depth_m + SAME_M),
        under_minimum=_which(numbers, depths < min_depth_m - SAME_M),
        lifts=_lifts(numbers, depths, tops, min_depth_m),
        one_pour_with_aggregate=aggregate and deepest > max_depth_m + SAME_M,
    )


def plan_bays(
    depths_m: ArrayLike,
    bays: Mapping[str, Sequence[int]],
    min_depth_m: float,
    max_depth_m: float,
    max_with_aggregate_m: float | None = None,
) -> dict[str, BayPlan]:
    """A plan for each bay, under the bay's name; bays without a point are left out."""
    return {
        name: plan_bay(depths_m, min_depth_m, max_depth_m, max_with_aggregate_m, points)
        for name, points in bays.items()
        if points
    }


def _check(min_depth_m: float, max_depth_m: float) -> None:
    if not (isfinite(min_depth_m) and min_depth_m >= 0):
        raise SurveyError(f"A minimum depth is zero or more, not {min_depth_m}.")
    if not (isfinite(max_depth_m) and max_depth_m > 0 and max_depth_m >= min_depth_m):
        raise SurveyError(f"A maximum depth of {max_depth_m} leaves no room above the minimum.")


def _thicknesses(
    depths: FloatArray, deepest: float, least: float, most: float
) -> tuple[float, ...]:
    """Of the lifts at the deepest point, the lowest first."""
    even = lift_depths(deepest, least, most)
    lower = len(even) - 1
    if lower < 1:
        return even
    # How thick the last lift may be, so that each of the others is within its own bounds too.
    thinnest = max(least, deepest - lower * most)
    thickest = min(most, deepest - lower * least)
    # The number of films only changes where some point's own rest passes nothing or the minimum.
    edges = np.concatenate([depths, depths - least, [thinnest, thickest, even[0]]])
    tries = np.unique(edges[(edges >= thinnest - SAME_M) & (edges <= thickest + SAME_M)])
    options = [(*(((deepest - last) / lower,) * lower), float(last)) for last in tries.tolist()]
    return min(options, key=lambda option: (_films(depths, option, least), -option[-1]))


def _films(depths: FloatArray, thicknesses: tuple[float, ...], least: float) -> int:
    return sum(int(_thin(own, least).sum()) for _, own in _own(depths, thicknesses))


def _own(depths: FloatArray, thicknesses: tuple[float, ...]) -> list[tuple[float, FloatArray]]:
    """For each lift, its top below the finish, and what of it each point gets."""
    parts: list[tuple[float, FloatArray]] = []
    top = 0.0
    for thickness in reversed(thicknesses):
        parts.append((top, np.clip(depths - top, 0.0, thickness)))
        top += thickness
    return parts[::-1]


def _thin(own: FloatArray, least: float) -> BoolArray:
    return (own > SAME_M) & (own < least - SAME_M)


def _lifts(
    numbers: list[int], depths: FloatArray, thicknesses: tuple[float, ...], least: float
) -> tuple[Lift, ...]:
    return tuple(
        Lift(
            thickness_m=thickness,
            top_below_finish_m=top,
            points=_which(numbers, own > SAME_M),
            thin=_which(numbers, _thin(own, least)),
        )
        for thickness, (top, own) in zip(thicknesses, _own(depths, thicknesses), strict=True)
    )


def _which(numbers: list[int], chosen: BoolArray) -> tuple[int, ...]:
    return tuple(number for number, yes in zip(numbers, chosen.tolist(), strict=True) if yes)
