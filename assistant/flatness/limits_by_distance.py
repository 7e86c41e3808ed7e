"""Limits that grow with the distance between two points, as standards print them in columns."""

from __future__ import annotations

from fractions import Fraction
from itertools import pairwise
from math import floor, isfinite

from assistant.errors import SurveyError
from grammar.frozen import frozen

__all__ = ["LimitsByDistance"]


@frozen
class LimitsByDistance:
    """
    Limits in whole millimetres at a few distances.

    Between two of them a straight line holds, rounded to a whole millimetre, a half up; up to
    the first and from the last on, theirs.

    Source: DIN 18202, table 3, and its extended form in a handbook of the floor-laying trade.

    Examples
    --------
    >>> row_3 = LimitsByDistance((("0.1", 2), ("1", 4), ("4", 10), ("10", 12), ("15", 15)))
    >>> row_3.at(2.0), row_3.at(1.2), row_3.at(0.05), row_3.at(20.0)
    (6, 4, 2, 15)
    """

    columns: tuple[tuple[str, int], ...]
    """Distance in metres, as it is printed, and limit in millimetres; the distances go on."""

    def at(self, distance_m: float) -> int:
        """
        The limit for points so far apart, millimetres.

        Raises SurveyError for a distance of zero or less.
        """
        if not (isfinite(distance_m) and distance_m > 0):
            raise SurveyError(f"Two points are apart by more than nothing, not {distance_m} m.")
        # To a millimetre, so that a distance worked out in floats is the one that was meant.
        distance = Fraction(round(distance_m * 1000), 1000)
        exact = [(Fraction(metres), limit) for metres, limit in self.columns]
        if distance <= exact[0][0]:
            return exact[0][1]
        for (near, less), (far, more) in pairwise(exact):
            if distance <= far:
                return floor(
                    less + (more - less) * (distance - near) / (far - near) + Fraction(1, 2)
                )
        return exact[-1][1]
