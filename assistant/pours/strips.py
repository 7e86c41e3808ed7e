"""
Strips of a pour, so cut that each edge is still wet when the next strip meets it.

A strip runs across the room. It is poured along its length, the next one beside it from the same
end: its edge waits from the first mix at that end until the next strip begins, which is the time
that the strip itself takes, or, at the other end, the time of the next one.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import ceil, isfinite

import numpy as np

from assistant.errors import SurveyError
from assistant.levels.arrays import BoolArray, FloatArray
from assistant.pours.fill_along import FillAlong
from assistant.pours.material import more_than_zero, zero_or_more
from grammar.frozen import frozen

LEAST_WIDTH_M = 0.5
"""Narrowest strip that is planned: less is no strip to stand beside and spread. Our own choice,
no source."""
STEP_M = 0.05
"""Cuts lie at whole multiples of it from the start, so that they can be measured and marked."""
MOST_PLACES = 600
"""Places where one bay may be cut; a longer bay is cut at wider whole steps. Raising it costs
time with its square."""
_DUST = 1e-9


@frozen
class Strip:
    """One strip of a pour."""

    from_m: float
    """Its near edge, metres from the start."""
    to_m: float
    area_m2: float
    volume_m3: float
    minutes: float
    """Time that placing it takes."""
    start_min: float
    """When it begins, minutes from the first one's beginning."""
    edge_wait_min: float | None
    """The longest that its far edge waits; None where it ends at a wall or a dam."""
    edge_limit_min: float
    """The longest that its edge may wait for the next mix."""

    @property
    def edge_lost(self) -> bool:
        """Whether its far edge is dry before the next strip meets all of it."""
        return (self.edge_wait_min or 0.0) > self.edge_limit_min * (1 + _DUST)


@frozen
class Pace:
    """How fast material comes, and how long it stays workable on the floor."""

    m3_per_min: float
    """How fast mix is placed, by all mixers together."""
    edge_limit_min: float
    """From being poured until it must be met."""
    batch_min: float = 0.0
    """Minutes between two batches; every edge waits at least so long."""


def widest_m(pace: Pace, depth_m: float, front_m: float) -> float:
    """
    The widest strip whose edge is met in time, on a floor of one depth.

    Parameters
    ----------
    pace : Pace
    depth_m, front_m : float
        Depth, and the length of the strip, metres, above zero.

    Examples
    --------
    Three people placing 139 m²/h at 6 mm, along a front of 8 m, with 10 minutes: exact arithmetic.

    >>> pace = Pace(139 * 0.006 / 60, 10)
    >>> round(widest_m(pace, 0.006, 8), 2), round(widest_m(pace, 0.012, 8), 2)
    (2.9, 1.45)
    """
    more_than_zero("depth", depth_m)
    more_than_zero("front", front_m)
    return pace.m3_per_min * pace.edge_limit_min / (depth_m * front_m)


def plan_strips(
    fill: FillAlong,
    pace: Pace,
    *,
    dams_m: Sequence[float] = (),
    least_width_m: float = LEAST_WIDTH_M,
    most_width_m: float = float("inf"),
    step_m: float = STEP_M,
) -> tuple[Strip, ...]:
    """
    Cut a floor into strips from the start to the way out.

    Parameters
    ----------
    fill : FillAlong
    pace : Pace
    dams_m : sequence of float
        Where a dam or joint runs across, metres from the start: the pour may stop there, so
        that nothing has to be met. Those outside the floor are passed over.
    least_width_m, most_width_m : float
        Of a strip; a bay that is narrower is one strip.
    step_m : float
        Cuts lie at whole multiples of it; of a bay with more than :data:`MOST_PLACES` of them,
        of two or three steps and so on.

    Returns
    -------
    strips : tuple of Strip
        The fewest that keep every edge wet, and of those the ones whose longest wait is least.
        Where no cut keeps every edge wet, those that are over the limit by the least minutes,
        all together.

    Raises
    ------
    SurveyError
        If pace or widths are not above zero, or the limit is not finite.
    """
    _check(pace, least_width_m, most_width_m, step_m)
    length = fill.to_m - fill.from_m
    inside = sorted({dam for dam in dams_m if step_m / 2 < dam < length - step_m / 2})
    ends = [0.0, *inside, length]
    cuts: list[list[float]] = []
    for near, far in itertools.pairwise(ends):
        places = _candidates(near, far, step_m)
        volumes = fill.volume_behind(fill.from_m + places)
        allowed = _allowed(places, least_width_m, most_width_m)
        chosen = best_cuts(volumes / pace.m3_per_min, allowed, pace.edge_limit_min)
        cuts.append(places[chosen].tolist())
    return _strips(fill, pace, cuts)


def _check(pace: Pace, least_m: float, most_m: float, step_m: float) -> None:
    more_than_zero("placing rate", pace.m3_per_min)
    more_than_zero("working time", pace.edge_limit_min)
    zero_or_more("time between batches", pace.batch_min)
    more_than_zero("narrowest strip", least_m)
    more_than_zero("step", step_m)
    if not most_m >= least_m or not isfinite(least_m):
        raise SurveyError(f"The widest strip ({most_m}) is narrower than the narrowest ({least_m})")


def _candidates(near: float, far: float, step_m: float) -> FloatArray:
    """Places of a bay where it may be cut: its ends, and the whole steps between them."""
    step = step_m * ceil((far - near) / step_m / MOST_PLACES)
    steps = np.arange(ceil(near / step + 0.5), ceil(far / step - 0.5)) * step
    return np.concatenate([[near], steps, [far]])


def _allowed(places: FloatArray, least_m: float, most_m: float) -> BoolArray:
    """(n, n) whether a strip may run from one place to another."""
    width = places[None, :] - places[:, None]
    ahead = width > 0
    wide: BoolArray = ahead & (width >= least_m - _DUST) & (width <= most_m + _DUST)
    # At an end that no whole number of strips reaches, the last one may be narrower.
    if not _reaches(wide):
        wide[:, -1] |= ahead[:, -1] & (width[:, -1] <= most_m + _DUST)
    return wide


def _reaches(allowed: BoolArray) -> bool:
    """Whether strips lead from the first place to the last."""
    reached = np.zeros(len(allowed), dtype=bool)
    reached[0] = True
    for at in range(len(allowed)):
        if reached[at]:
            reached |= allowed[at]
    return bool(reached[-1])


def best_cuts(done_min: FloatArray, allowed: BoolArray, limit_min: float) -> list[int]:
    """
    The best way to cut a bay.

    Parameters
    ----------
    done_min : (n,) array of float
        Minutes of placing up to each place where it may be cut; the first and last are its ends.
    allowed : (n, n) array of bool
        Whether a strip may run from one place to another.
    limit_min : float
        The longest that a strip may take.

    Returns
    -------
    rows : list of int
        Places of the cuts, both ends among them: least total of minutes over the limit; then
        fewest strips; then, where none is over, the shortest longest strip.
    """
    minutes = np.where(allowed, done_min[None, :] - done_min[:, None], np.inf)
    over = np.maximum(minutes - limit_min * (1 + _DUST), 0.0)
    least_over, count, back = _shortest(over)
    if least_over > _DUST:
        return back
    return _evenest(np.where(over <= _DUST, minutes, np.inf), count)


def _shortest(over: FloatArray) -> tuple[float, int, list[int]]:
    """Least total over the limit with the fewest strips: total, strips, and the cuts."""
    n = len(over)
    total, strips = np.full(n, np.inf), np.full(n, n + 1)
    total[0], strips[0] = 0.0, 0
    came = np.zeros(n, dtype=np.intp)
    for to in range(1, n):
        sums = total[:to] + over[:to, to]
        least = sums.min()
        if not isfinite(least):
            continue
        tied = np.flatnonzero(sums <= least + _DUST)
        best = tied[np.argmin(strips[tied])]
        total[to], strips[to], came[to] = sums[best], strips[best] + 1, best
    cuts = [n - 1]
    while cuts[-1]:
        cuts.append(int(came[cuts[-1]]))
    return float(total[-1]), int(strips[-1]), cuts[::-1]


def _evenest(minutes: FloatArray, count: int) -> list[int]:
    """So many strips, the longest of them as short as can be."""
    longest = np.full(len(minutes), np.inf)
    longest[0] = 0.0
    ways = []
    for _ in range(count):
        both = np.maximum(longest[:, None], minutes)
        ways.append(both.argmin(axis=0))
        longest = both.min(axis=0)
    cuts = [len(minutes) - 1]
    for way in reversed(ways):
        cuts.append(int(way[cuts[-1]]))
    return cuts[::-1]


def _strips(fill: FillAlong, pace: Pace, bays: Sequence[Sequence[float]]) -> tuple[Strip, ...]:
    """The strips of all bays one after the other, with their clock."""
    spans = [pair for cuts in bays for pair in itertools.pairwise(cuts)]
    ends = {cuts[-1] for cuts in bays}
    places = fill.from_m + np.array([spans[0][0], *(far for _, far in spans)])
    volumes, areas = np.diff(fill.volume_behind(places)), np.diff(fill.area_behind(places))
    minutes = volumes / pace.m3_per_min
    starts = np.concatenate([[0.0], np.cumsum(minutes)])
    strips = []
    for number, (near, far) in enumerate(spans):
        wait = None
        if far not in ends:
            wait = max(float(minutes[number]), float(minutes[number + 1]), pace.batch_min)
        strips.append(
            Strip(
                near,
                far,
                float(areas[number]),
                float(volumes[number]),
                float(minutes[number]),
                float(starts[number]),
                wait,
                pace.edge_limit_min,
            )
        )
    return tuple(strips)
