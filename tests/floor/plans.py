"""Plans of a pour written down by hand, so that every number of a test can be checked by eye."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

from tests.job.conftest import Site

LEVEL = (
    "room 12 by 8 metres", "grid 2 metres", "product example standard",
    "A1 -6", "F1 -6", "A4 -6", "F4 -6", "C2 -6", "D3 -6",
    "crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6", "start at column A",
)  # fmt: skip
"""576 L, 40.32 bags, 40 bags an hour; four strips of 3 m and 10.08 bags; an edge waits 17 min."""


def a_plan(bays: int, *strips: tuple[float, float, float]) -> Any:
    """A plan of strips, each from where to where and with how many bags."""
    return SimpleNamespace(
        bays=bays,
        bags=sum(bags for *_, bags in strips),
        strips=tuple(
            SimpleNamespace(number=number, from_m=near, to_m=far, planned_bags=bags)
            for number, (near, far, bags) in enumerate(strips, start=1)
        ),
    )


ONE_BAY = a_plan(1, (0, 3, 6), (3, 5, 4), (5, 8, 6))
TWO_BAYS = a_plan(2, (0, 3, 6), (3, 5, 4), (0, 5, 10))


def pouring(*lines: str) -> Site:
    """The level floor, begun to be poured."""
    return Site(*LEVEL, "start pour anyway because this is a test", *lines)


def batches(floor: Site, count: int, minutes: float = 3) -> None:
    """So many batches of two bags, one after the other."""
    for _ in range(count):
        floor.wait(minutes)
        floor.told("batch")
