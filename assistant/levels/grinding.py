"""
What grinding the high spots would save: a level finish can be lower when they are gone.

The highest point sets the finish. Ground down to the next highest it lets the finish sink so
far, then both are ground to the third, and so on: each option grinds one point more.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import FloatArray, as_levels
from assistant.levels.constraints import PointConstraint
from assistant.levels.surface import Mesh
from assistant.levels.volume import fill
from grammar.frozen import frozen

SAME_M = 1e-9
"""Points nearer to each other in height are ground together."""


@frozen
class PointToGrind:
    """A point and how much to take off there."""

    point: int
    """Counted from 0."""
    height_m: float


@frozen
class GrindingOption:
    """One option: so much grinding, for so much less material."""

    grinds: tuple[PointToGrind, ...]
    """Highest point first."""
    finish_m: float
    """The level finish it allows."""
    volume_m3: float
    """The volume to pour once that is ground off."""
    saved_m3: float
    """How much less that is than without grinding."""
    ground_m2: float
    """Area to grind, an estimate: where the floor between the points stands too high."""
    ground_m3: float
    """What the grinder takes off there, with the same caution."""

    @property
    def deepest_m(self) -> float:
        """Most that is taken off anywhere."""
        return max((one.height_m for one in self.grinds), default=0.0)


def grinding_options(
    heights_m: ArrayLike,
    weights_m2: ArrayLike,
    min_depth_m: ArrayLike,
    held: Sequence[PointConstraint] = (),
    *,
    mesh: Mesh | None = None,
    most_options: int = 8,
    most_grind_m: float = 0.010,
) -> tuple[GrindingOption, ...]:
    """
    Options from no grinding to much, for a level finish.

    Parameters
    ----------
    heights_m, weights_m2, min_depth_m, held
        As in :func:`~assistant.levels.best_finish.best_level`.
    mesh : Mesh, optional
        The floor between the points, for the area to grind. Without it each ground point
        counts with the whole area it stands for, which is too much.
    most_options : int
        Beside the first.
    most_grind_m : float
        Most to take off one point. The default is common practice, no source: deeper means
        cutting, and what lies in the slab has to be looked at first.

    Returns
    -------
    options : tuple of GrindingOption
        First the finish without grinding, then each with one high point more. The last one
        stops at ``most_grind_m``, or where a held height keeps the finish up.

    Raises
    ------
    SurveyError
        If there is no point, or a number is missing or not finite.

    Notes
    -----
    The finish is the lowest that keeps the minimum depth; whether deeper places then pass a
    maximum, :func:`~assistant.levels.best_finish.best_level` says. Volumes take the ground
    points at their new heights, as the survey would after grinding.

    Examples
    --------
    One point of nine is 6 mm higher than the rest.

    >>> options = grinding_options([0, 0, 0, 0, 0.006, 0, 0, 0, 0], [2.0] * 9, 0.003)
    >>> for one in options:
    ...     points = [grind.point for grind in one.grinds]
    ...     print(points, round(one.deepest_m, 6), round(one.saved_m3, 6))
    [] 0.0 0.0
    [4] 0.006 0.096
    """
    count = np.asarray(heights_m).size
    if not count:
        raise SurveyError("There is no point to grind.")
    heights = as_levels(heights_m, count)
    weights = as_levels(weights_m2, count, "area")
    least = as_levels(np.broadcast_to(np.asarray(min_depth_m, dtype=float), count), count, "depth")
    needs = heights + least
    floor = max((one.lowest_m for one in held), default=-np.inf)
    start = max(float(needs.max()), floor)
    floor = max(floor, float(needs.max()) - most_grind_m)
    before = float(weights @ (start - heights))
    options = []
    for finish in _finishes(needs, start, floor, most_options):
        over = np.maximum(needs - finish, 0.0)
        after = float(weights @ (finish - heights + over))
        area, taken = _ground(over, needs - finish, weights, mesh)
        options.append(GrindingOption(_grinds(over), finish, after, before - after, area, taken))
    return tuple(options)


def _finishes(needs: FloatArray, start: float, floor: float, most: int) -> list[float]:
    """Finishes at which one point more begins to stand too high, downwards from the start."""
    finishes = [start]
    for level in np.sort(needs)[::-1].tolist():
        if len(finishes) > most:
            return finishes
        if level <= floor + SAME_M:
            break
        if level < finishes[-1] - SAME_M:
            finishes.append(level)
    # Where everything left is to be ground, nothing is gained by going below the lowest point.
    end = max(floor, float(needs.min()))
    if len(finishes) <= most and end < finishes[-1] - SAME_M:
        finishes.append(end)
    return finishes


def _grinds(over: FloatArray) -> tuple[PointToGrind, ...]:
    order = np.argsort(-over, kind="stable").tolist()
    return tuple(PointToGrind(point, float(over[point])) for point in order if over[point] > SAME_M)


def _ground(
    over: FloatArray, above: FloatArray, weights: FloatArray, mesh: Mesh | None
) -> tuple[float, float]:
    if mesh is None:
        return float(weights[over > SAME_M].sum()), float(weights @ over)
    too_high = fill(mesh, above)
    return too_high.filled_area_m2, too_high.volume_m3
