"""Drawing a sample by rooms, and what it says about all of them."""

from __future__ import annotations

import math
import random
from collections.abc import Iterable

from tests.mutation.places import Place

Z = 1.959964
"""Of the normal distribution, for 95 %."""
LEAST = 20
"""Of each room, so that a small one is seen too."""


def drawn_from(rooms: dict[str, list[Place]], count: int, chance: random.Random) -> list[Place]:
    """So many places (0: all), spread over the rooms by their sizes."""
    total = sum(map(len, rooms.values()))
    drawn: list[Place] = []
    for places in rooms.values():
        share = max(LEAST, round(count * len(places) / total)) if count else len(places)
        drawn += chance.sample(places, min(share, len(places)))
    return drawn


def interval(killed: float, tried: float) -> tuple[float, float]:
    """
    Where the share of all places lies, with 95 %.

    Wilson (1927), "Probable inference, the law of succession, and statistical inference",
    J. Am. Stat. Assoc. 22, 209-212.

    >>> low, high = interval(8, 10)
    >>> print(f"{low:.2f} {high:.2f}")
    0.49 0.94
    """
    share = killed / tried
    middle = share + Z**2 / (2 * tried)
    half = Z * math.sqrt(share * (1 - share) / tried + Z**2 / (4 * tried**2))
    return (middle - half) / (1 + Z**2 / tried), (middle + half) / (1 + Z**2 / tried)


def share_in_words(killed: float, tried: float) -> str:
    """The share and its interval."""
    if not tried:
        return "none tried"
    low, high = interval(killed, tried)
    return f"{100 * killed / tried:.1f} % (95 %: {100 * low:.0f} to {100 * high:.0f})"


def share_of_all(counts: Iterable[tuple[int, int, int]]) -> str:
    """
    Of killed, tried and places in each room: the share of all places.

    Each room weighs as much as it has places; the interval is that of a plain sample with the
    same variance.
    """
    rows = [row for row in counts if row[1]]
    total = sum(places for *_, places in rows)
    share = sum(places / total * killed / tried for killed, tried, places in rows)
    variance = sum(
        (places / total) ** 2 * (killed / tried) * (1 - killed / tried) / tried
        for killed, tried, places in rows
    )
    like = share * (1 - share) / variance if variance else sum(tried for _, tried, _ in rows)
    return share_in_words(share * like, like)
