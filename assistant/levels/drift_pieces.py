"""Cuts a row of checks into pieces in each of which the zero stands still or drifts evenly."""

from __future__ import annotations

from assistant.levels.arrays import FloatArray
from grammar.frozen import frozen

SAME = 1e-6
"""Costs that differ by less are the same, and the plainer explanation is taken; otherwise
rounding would decide, and the same checks read from another height might come out otherwise."""


@frozen
class DriftSegment:
    """Checks from ``first`` to ``last`` that lie on a line, level or sloping."""

    first: int
    last: int
    middle: float
    """Mean time."""
    level: float
    """Reading at the middle."""
    slope: float
    """Per minute; exactly 0 where the zero stands still."""
    spread: float
    """Sum of the squares of the times less their mean."""

    def at(self, time: float) -> float:
        """What the fitted line gives for a reading at a time."""
        return self.level + self.slope * (time - self.middle)

    def variance(self, time: float, sd: float) -> float:
        """How uncertain that is, for checks of a standard deviation ``sd``."""
        lever = (time - self.middle) ** 2 / self.spread if self.slope else 0.0
        return sd**2 * (1 / (self.last - self.first + 1) + lever)


def pieces_of(
    times: FloatArray,
    checks: FloatArray,
    sd: float,
    surprise: float,
    surprise_of_two: float | None = None,
) -> tuple[DriftSegment, ...]:
    """
    The cheapest way to cut the checks into pieces.

    Parameters
    ----------
    times, checks : (n,) arrays of float
    sd : float
        Standard deviation of one check.
    surprise : float
        What each free number costs: a level, a slope, the place of a step.
    surprise_of_two : float, optional
        What a slope through two checks costs, which no third one bears out; as any other if
        left out.

    Returns
    -------
    pieces : tuple of Piece
        In order, covering all checks.

    Notes
    -----
    Cost is the sum of squared misfits over the variance, plus ``surprise`` for each free
    number. The best cut up to each check is the best over where its last piece may start
    (optimal partitioning), so all cuts are weighed in n² steps.
    """
    of_two = surprise if surprise_of_two is None else surprise_of_two
    best = [0.0]
    cuts: list[DriftSegment] = []
    for last in range(len(times)):
        options = [
            _cheaper(times, checks, first, last, sd, surprise, of_two) for first in range(last + 1)
        ]
        totals = [
            best[piece.first] + cost + (surprise if piece.first else 0.0) for piece, cost in options
        ]
        chosen = next(first for first, total in enumerate(totals) if total <= min(totals) + SAME)
        best.append(totals[chosen])
        cuts.append(options[chosen][0])
    found: list[DriftSegment] = []
    end = len(times) - 1
    while end >= 0:
        found.append(cuts[end])
        end = cuts[end].first - 1
    return tuple(reversed(found))


def _cheaper(
    times: FloatArray,
    checks: FloatArray,
    first: int,
    last: int,
    sd: float,
    surprise: float,
    of_two: float,
) -> tuple[DriftSegment, float]:
    """The checks as one piece, level or sloping, with its cost."""
    here, read = times[first : last + 1], checks[first : last + 1]
    middle, level = float(here.mean()), float(read.mean())
    along, up = here - middle, read - level
    still = float(up @ up)
    spread = float(along @ along)
    slope = float(along @ up) / spread if spread > 0 else 0.0
    sloping = max(still - slope * slope * spread, 0.0)
    still_cost = still / sd**2 + surprise
    for_slope = of_two if last - first == 1 else surprise
    sloping_cost = sloping / sd**2 + surprise + for_slope
    if sloping_cost < still_cost - SAME:
        return DriftSegment(first, last, middle, level, slope, spread), sloping_cost
    return DriftSegment(first, last, middle, level, 0.0, spread), still_cost
