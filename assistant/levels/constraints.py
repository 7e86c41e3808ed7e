"""The wishes for a finish as rows of a linear programme, each with the wish it belongs to."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from math import isfinite
from typing import TYPE_CHECKING, Literal

import numpy as np
from numpy.typing import ArrayLike

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray, IntArray, as_levels
from assistant.levels.linear_programme import Cone
from grammar.frozen import frozen, frozen_identity

if TYPE_CHECKING:
    import scipy.sparse

MM = 1000.0
"""Rows are in millimetres; see :mod:`~assistant.levels.linear_programme`."""

ConstraintKind = Literal["minimum", "maximum", "door", "fixed", "slope"]


@frozen
class Constraint:
    """One thing that is wanted. The caller knows the names behind the numbers."""

    kind: ConstraintKind
    """``minimum`` or ``maximum`` depth at a point, a ``door`` or ``fixed`` height to meet, the
    ``slope`` limit."""
    number: int
    """Which point, counted from 0; which row of what is held; 0 for the slope."""


@frozen
class PointConstraint:
    """A place at which the finish must lie between two heights."""

    kind: Literal["door", "fixed"]
    lowest_m: float
    highest_m: float
    place_m: tuple[float, float]
    """Where; does not matter for a level finish."""


def door_constraint(
    outside_m: float, step_m: float, place_m: tuple[float, float] = (0.0, 0.0)
) -> PointConstraint:
    """
    A door whose floor outside may be a step higher or lower than the finish.

    >>> door_constraint(0.012, 0.008)
    PointConstraint(kind='door', lowest_m=0.004, highest_m=0.02, place_m=(0.0, 0.0))
    """
    return PointConstraint("door", outside_m - step_m, outside_m + step_m, place_m)


def fixed_constraint(
    height_m: float,
    tolerance_m: float = 0.0,
    place_m: tuple[float, float] = (0.0, 0.0),
) -> PointConstraint:
    """A place at which the finish is given."""
    return PointConstraint("fixed", height_m - tolerance_m, height_m + tolerance_m, place_m)


@frozen_identity
class ConstraintRows:
    """``matrix @ unknowns <= bounds``; the unknowns are a height, and a slope where it is free."""

    matrix: FloatArray
    """(m, 1) or (m, 3)"""
    bounds: FloatArray
    """(m,) millimetres"""
    owner: IntArray
    """(m,) which of the wishes a row belongs to."""
    wishes: tuple[Constraint, ...]
    slope_limit: float | None
    """In the unknowns' own measure; the slope is then the last of the wishes."""

    @property
    def unknown_count(self) -> int:
        return int(self.matrix.shape[1])

    def sparse(self) -> scipy.sparse.csr_array:
        import scipy.sparse

        return scipy.sparse.csr_array(self.matrix)

    def cone(self, extra: int | None = None) -> Cone | None:
        return None if self.slope_limit is None else Cone(self.slope_limit, extra)

    def only(self, chosen: BoolArray) -> ConstraintRows:
        """The rows of some wishes alone, (w,) which; the numbering of the wishes stays."""
        kept = chosen[self.owner]
        limit = self.slope_limit if chosen[-1] else None
        return replace(
            self,
            matrix=self.matrix[kept],
            bounds=self.bounds[kept],
            owner=self.owner[kept],
            slope_limit=limit,
        )

    def eased(self, amounts: FloatArray) -> ConstraintRows:
        """Each wish given way by so much, (w,)."""
        limit = None if self.slope_limit is None else self.slope_limit + float(amounts[-1])
        return replace(self, bounds=self.bounds + amounts[self.owner], slope_limit=limit)


@frozen_identity
class CentredFrame:
    """Where the unknowns are counted from, so that the programme's numbers are near 1."""

    about_m: tuple[float, float]
    """The height is that of the finish here."""
    radius_m: float
    """The slope is counted in millimetres over this length."""
    base_m: float
    """The height is counted from here."""
    given_slope: FloatArray
    """(2,) rise per metre in x and y that is not an unknown."""

    def away(self, places_m: FloatArray) -> FloatArray:
        """(n, 2) places in radii from the middle."""
        away: FloatArray = (places_m - np.array(self.about_m)) / self.radius_m
        return away

    def given_mm(self, places_m: FloatArray) -> FloatArray:
        """(n,) what the given slope adds at places, with the base taken off."""
        rise = (places_m - np.array(self.about_m)) @ self.given_slope
        given: FloatArray = (rise + self.base_m) * MM
        return given


def rows_for(
    frame: CentredFrame,
    places_m: FloatArray,
    heights_m: FloatArray,
    min_depth_m: ArrayLike,
    max_depth_m: ArrayLike | None,
    held: Sequence[PointConstraint],
    slope_limit: float | None,
) -> ConstraintRows:
    """
    All wishes as rows.

    Parameters
    ----------
    frame : Frame
    places_m, heights_m : (n, 2) and (n,) arrays of float
    min_depth_m, max_depth_m : (n,) array_like or float
        Zero or more; no maximum where it is None.
    held : sequence of Held
    slope_limit : float, optional
        Rise per metre; None for a finish whose slope is not free.

    Raises
    ------
    SurveyError
        If a number is not finite, or a held height has its bounds the wrong way round.
    """
    count = len(heights_m)
    lower = _depths(min_depth_m, count, "minimum depth") + heights_m
    parts = [_side(frame, places_m, lower, -1.0, slope_limit is not None)]
    wishes = [Constraint("minimum", number) for number in range(count)]
    owners = [np.arange(count)]
    if max_depth_m is not None:
        upper = _depths(max_depth_m, count, "maximum depth") + heights_m
        parts.append(_side(frame, places_m, upper, 1.0, slope_limit is not None))
        owners.append(np.arange(count) + len(wishes))
        wishes += [Constraint("maximum", number) for number in range(count)]
    if held:
        at, low, high = _held(held)
        for bound, sign in ((low, -1.0), (high, 1.0)):
            parts.append(_side(frame, at, bound, sign, slope_limit is not None))
            owners.append(np.arange(len(held)) + len(wishes))
        wishes += [Constraint(one.kind, number) for number, one in enumerate(held)]
    if slope_limit is not None:
        wishes.append(Constraint("slope", 0))
    return ConstraintRows(
        matrix=np.vstack([matrix for matrix, _ in parts]),
        bounds=np.concatenate([bounds for _, bounds in parts]),
        owner=np.concatenate(owners).astype(np.intp),
        wishes=tuple(wishes),
        slope_limit=None if slope_limit is None else slope_limit * frame.radius_m * MM,
    )


def _side(
    frame: CentredFrame, places_m: FloatArray, bound_m: FloatArray, sign: float, sloping: bool
) -> tuple[FloatArray, FloatArray]:
    ones = np.ones((len(places_m), 1))
    matrix = np.hstack([ones, frame.away(places_m)]) if sloping else ones
    return sign * matrix, sign * (bound_m * MM - frame.given_mm(places_m))


def _depths(depths_m: ArrayLike, count: int, what: str) -> FloatArray:
    depths = as_levels(np.broadcast_to(np.asarray(depths_m, dtype=np.float64), count), count, what)
    bad = np.flatnonzero(depths < 0)
    if bad.size:
        raise SurveyError(
            f"The {what} in row {bad[0] + 1} is {depths[bad[0]]}; it cannot be less than 0."
        )
    return depths


def _held(held: Sequence[PointConstraint]) -> tuple[FloatArray, FloatArray, FloatArray]:
    for row, one in enumerate(held):
        if not (isfinite(one.lowest_m) and isfinite(one.highest_m)):
            raise SurveyError(f"The held height in row {row + 1} is not a usable number.")
        if one.lowest_m > one.highest_m:
            raise SurveyError(
                f"The held height in row {row + 1} has its bounds the wrong way round."
            )
    places = np.array([one.place_m for one in held], dtype=np.float64)
    low = np.array([one.lowest_m for one in held])
    return places, low, np.array([one.highest_m for one in held])
