"""Plans of a pour written down by hand, so that every number of a test can be checked by eye."""

from __future__ import annotations

from itertools import accumulate
from types import SimpleNamespace
from typing import Any

from assistant.floor.pour.bays import Bay
from assistant.floor.pour.plan import PourPlan
from assistant.floor.pour.way import ALONG_X, PourDirection
from assistant.pours.fill_along import fill_along, joined
from tests.job.conftest import Site

LEVEL = (
    "room 12 by 8 metres", "grid 2 metres", "product example standard",
    "A1 -6", "F1 -6", "A4 -6", "F4 -6", "C2 -6", "D3 -6",
    "crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6", "start at column A",
)  # fmt: skip
"""576 L, 40.32 bags, 40 bags an hour; four strips of 3 m and 10.08 bags; an edge waits 17 min."""


def a_plan(*bays: tuple[tuple[float, float], ...]) -> PourPlan:
    """A plan of bays of strips, each of its length and bags; of one metre's front and 1 m³ bags."""
    strips: list[Any] = []
    floor: list[Bay] = []
    for number, bay in enumerate(bays, start=1):
        ends = [0.0, *accumulate(length for length, _ in bay)]
        triangles, depths = [], []
        for near, far, (length, bags) in zip(ends, ends[1:], bay, strict=False):
            triangles += [[(near, 0), (far, 0), (far, 1)], [(near, 0), (far, 1), (near, 1)]]
            depths += 2 * [3 * [bags / length]]
            strips.append(SimpleNamespace(number=len(strips) + 1, bay=number, from_m=near, to_m=far,
                                          planned_bags=bags, product="one"))  # fmt: skip
        alike: Any = SimpleNamespace(bag_m3=1.0, card=SimpleNamespace(name="one"))
        floor.append(Bay(number, alike, None, fill_along(triangles, depths, ALONG_X), 0.0))
    way = PourDirection(ALONG_X, "column A", True)
    return PourPlan(
        way, tuple(strips), tuple(floor), None, joined([bay.fill for bay in floor]), 1.0
    )


ONE_BAY = a_plan(((3, 6), (2, 4), (3, 6)))
TWO_BAYS = a_plan(((3, 6), (2, 4)), ((5, 10),))


def pouring(*lines: str) -> Site:
    """The level floor, begun to be poured."""
    return Site(*LEVEL, "start pour anyway because this is a test", *lines)


def batches(floor: Site, count: int, minutes: float = 3) -> None:
    """So many batches of two bags, one after the other."""
    for _ in range(count):
        floor.wait(minutes)
        floor.told("batch")
