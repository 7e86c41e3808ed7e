"""How fast material is placed: as said, as published, and as learnt from the batches."""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from math import isfinite

from assistant.errors import SurveyError
from assistant.pours.material import more_than_zero

__all__ = ["BY_HAND_M2_H", "BY_PUMP_M2_H", "bags_per_min", "learnt_minutes"]

BY_HAND_M2_H = 139.0
"""Three people mixing by hand place about so much an hour (1,500 ft²); one independent trade
article, no other source."""
BY_PUMP_M2_H = 650.0
"""Three people with a pump, the same article."""
PAUSE = 2.5
"""A gap of so many usual ones is a pause, not a batch that took long. Our own choice, no source."""


def bags_per_min(mixers: int, bags_per_batch: float, minutes_per_batch: float) -> float:
    """
    Bags placed a minute by mixers that work side by side.

    Examples
    --------
    >>> round(bags_per_min(2, 2, 6), 4)
    0.6667
    """
    more_than_zero("mixers", mixers)
    more_than_zero("bags in a batch", bags_per_batch)
    more_than_zero("minutes of a batch", minutes_per_batch)
    return mixers * bags_per_batch / minutes_per_batch


def learnt_minutes(at_min: Sequence[float], bags: Sequence[float]) -> float | None:
    """
    Minutes for one bag, from when batches were poured.

    Parameters
    ----------
    at_min : sequence of float
        When each batch was poured, minutes, in order.
    bags : sequence of float
        Bags in each.

    Returns
    -------
    float or None
        The time between batches over the bags poured in it, pauses left out; None before the
        third batch, and where all were reported at once.

    Raises
    ------
    SurveyError
        If the two do not fit, or times go back.

    Examples
    --------
    A break of half an hour after the third batch makes nobody slower.

    >>> learnt_minutes([0, 6, 12, 42, 48], [2, 2, 2, 2, 2])
    3.0
    """
    if len(at_min) != len(bags) or not all(isfinite(number) for number in (*at_min, *bags)):
        raise SurveyError("Each batch needs its time and its bags.")
    gaps = [late - early for early, late in itertools.pairwise(at_min)]
    if any(gap < 0 for gap in gaps):
        raise SurveyError("The times of batches go back.")
    if len(gaps) < 2:
        return None
    usual = sorted(gaps)[(len(gaps) - 1) // 2]
    counted = [(gap, many) for gap, many in zip(gaps, bags[1:], strict=True)
               if gap <= PAUSE * usual]  # fmt: skip
    poured = sum(many for _, many in counted)
    minutes = sum(gap for gap, _ in counted)
    return minutes / poured if poured > 0 and minutes > 0 else None
