"""Pours for tests: begun, batch after batch."""

from __future__ import annotations

from typing import Any

from tests.job.conftest import Site

LEVEL = (
    "room 12 by 8 metres", "grid 2 metres", "product example standard",
    "A1 -6", "F1 -6", "A4 -6", "F4 -6", "C2 -6", "D3 -6",
    "crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6", "start at column A",
)  # fmt: skip
"""576 L, 40.32 bags, 40 bags an hour; four strips of 3 m and 10.08 bags."""


def pouring(site: type[Site], *lines: str) -> Site:
    floor = site(*LEVEL)
    floor.told("start pour anyway because this is a test", *lines)
    return floor


def batches(floor: Site, count: int, minutes: float = 3) -> None:
    for _ in range(count):
        floor.wait(minutes)
        floor.told("batch")


def pour(floor: Site) -> dict[str, Any]:
    found: dict[str, Any] = floor.data["pour"]
    return found


def words(text: str) -> int:
    return len(text.split())
