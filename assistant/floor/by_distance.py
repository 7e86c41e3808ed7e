"""Lines of readings against limits that grow with a distance, as DIN 18202 has them."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from assistant.floor.profiles import Lines
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.flatness.limits_by_distance import LimitsByDistance
    from assistant.flatness.own_distance import AtDistance
    from assistant.flatness.verdicts import LimitVerdict

SHORTEST_M = 1.0
"""Of a facet shorter than this, readings are taken to hide the share that they hide of one of it.
DIN 18202 has a column for it; our own choice, no source. Lowering it asks for closer readings
before a floor is called within its limits."""


@frozen
class ByDistance:
    """What is nearest to its limit on some lines, and what that says."""

    found: AtDistance
    said: LimitVerdict
    sd_mm: float
    wave_m: float
    """The wave of which the readings may hide a share."""


def own_distance_of(
    lines: Lines, longest_m: float, limits: LimitsByDistance, choices: int
) -> ByDistance | None:
    """
    Gaps against the limits at their own distance.

    A short facet has less room than a long one that is nearer to its limit, as the same readings
    hide more of it. So met is what leaves room for what they hide at any distance.
    """
    from assistant.flatness.own_distance import worst_facet
    from assistant.flatness.verdicts import hidden_share

    def hidden(apart_m: float) -> float:
        return hidden_share(lines.spacing_m, max(apart_m, SHORTEST_M), lines.averaged_m)

    worst = worst_facet(lines.along_m, lines.heights_mm, longest_m, limits)
    by_worst = _said_of(lines, worst, hidden, choices)
    if by_worst is None or not by_worst.said.met:
        return by_worst
    tightest = worst_facet(lines.along_m, lines.heights_mm, longest_m, limits, hidden)
    return _said_of(lines, tightest, hidden, choices)


def neighbours_of(lines: Lines, limits: LimitsByDistance, choices: int) -> ByDistance | None:
    """Levels against the mean of both neighbours, which hides nothing but what a cell levels."""
    from assistant.flatness.own_distance import worst_of_three
    from assistant.flatness.verdicts import levelled_out

    def hidden(apart_m: float) -> float:
        return 1 - levelled_out(lines.averaged_m, apart_m)

    return _said_of(lines, worst_of_three(lines.along_m, lines.heights_mm, limits), hidden, choices)


def _said_of(
    lines: Lines, found: AtDistance | None, hidden: Callable[[float], float], choices: int
) -> ByDistance | None:
    from assistant.flatness.verdicts import verdict

    if found is None:
        return None
    apart = found.between_m[1] - found.between_m[0]
    sd, unseen = lines.sd_mm * found.noise, found.limit_mm * hidden(apart)
    said = verdict(found.mm, found.limit_mm, sd, hidden_mm=unseen, choices=choices)
    return ByDistance(found, said, sd, max(apart, SHORTEST_M))
