"""A pour that stops at a column or row: what each side takes, and the dam between them.

Check values: exact arithmetic on a tilted plane (a plane's volume over an area is the area times
its depth at the centroid) and shapely's areas.
"""

from __future__ import annotations

from typing import Any

import pytest
import shapely

from tests.job.conftest import Site
from tests.job.test_zones import FLOOR, L_ROOM, PRODUCT, READ, TWO, volume_over


@pytest.mark.parametrize(
    ("line", "shape", "edge"),
    [
        ("what if stop at column C", shapely.box(0, 0, 5, 8), 8),
        ("stop at row 2", shapely.box(0, 0, 12, 3), 12),
        ("what if I stop at column E", shapely.box(0, 0, 9, 8), 8),
    ],
)
def test_a_pour_that_stops_takes_what_lies_before_the_line(
    line: str, shape: Any, edge: float
) -> None:
    floor = Site(*READ)
    before = floor.job
    stop = floor.told(line).data["stop"]
    assert floor.job is before
    whole = floor.tally
    assert whole.material is not None
    assert whole.volume_m3 is not None
    assert stop["volume_m3"] == pytest.approx(volume_over(shape), abs=1e-8)
    assert stop["area_m2"] == pytest.approx(shape.area)
    assert stop["edge_m"] == pytest.approx(edge)
    assert stop["volume_m3"] + stop["rest"]["volume_m3"] == pytest.approx(whole.volume_m3)
    assert whole.material.bags <= stop["bags"] + stop["rest"]["bags"] <= whole.material.bags + 1


def test_the_dam_is_as_long_as_the_floor_is_there() -> None:
    floor = Site(*L_ROOM, PRODUCT, *(f"{name} -10" for name in ("A1", "B2", "C1", "A4")))
    assert floor.told("stop at column F").data["stop"]["edge_m"] == pytest.approx(2.5)
    assert floor.told("stop at column B").data["stop"]["edge_m"] == pytest.approx(4)
    beside = Site(*READ, "column 1 by 1 m at C2")
    assert beside.told("stop at column C").data["stop"]["edge_m"] == pytest.approx(7)


def test_a_stop_with_zones_counts_each_finish() -> None:
    floor = Site(*TWO, "finish in kitchen +4 mm")
    stop = floor.told("stop at column D").data["stop"]  # at 7 m, the kitchen ends at 6 m
    plain = volume_over(shapely.box(0, 0, 7, 8))
    assert stop["volume_m3"] == pytest.approx(plain + 0.004 * 48, abs=1e-8)


def test_as_many_bags_as_go_up_to_a_column_reach_there() -> None:
    floor = Site(*READ)
    stop = floor.told("stop at column C").data["stop"]
    share = floor.told(f"how far do {stop['bags']} bags go").data["answer"]["value"]
    assert share * floor.tally.volume_m3 >= stop["volume_m3"]
    fewer = floor.told(f"how far do {stop['bags'] - 1} bags go").data["answer"]["value"]
    assert fewer * floor.tally.volume_m3 < stop["volume_m3"]


def test_what_cannot_stop_there_is_refused() -> None:
    for line in ("how much for the left half", "how many bags for half the room"):
        assert "Where does it stop?" in Site(*READ).refused(line)
    assert "columns A to F" in Site(*READ).refused("stop at column K")
    assert "rows 1 to 4" in Site(*READ).refused("stop at row 7")
    assert "grid first" in Site("room 4 by 4 metres").refused("stop at row 1")
    assert "readings" in Site(*FLOOR).refused("stop at row 1")
    along = Site("room 4 by 4 metres", "grid 2 metres starting 0 metres", "A1 -10")
    assert "along a wall" in along.refused("stop at column A")
