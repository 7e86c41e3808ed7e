"""The tally against numbers from outside: areas, volumes, means."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from decimal import Decimal
from fractions import Fraction

import pytest

from grammar.commands import Reading
from grammar.commands.readings import TakeReading
from tests.job.conftest import Site
from tests.there import there

GRID_3_BY_2 = {
    # depths in mm, rows of a 2 m grid over 6 m x 4 m
    "A1": 12, "B1": 15, "C1": 18, "D1": 20,
    "A2": 10, "B2": 14, "C2": 16, "D2": 19,
    "A3": 8, "B3": 11, "C3": 13, "D3": 17,
}  # fmt: skip


def read(floor: Site, depths: Mapping[str, float]) -> None:
    for point, depth in depths.items():
        floor.done(TakeReading(point, Reading(-Decimal(str(depth)), "mm")))


def read_by(floor: Site, depth_mm: Callable[[float, float], float]) -> None:
    """A depth at every point of the grid from its place."""
    from assistant.floor.places import places_of

    places = places_of(floor.job.layout)
    read(floor, {name: depth_mm(*places.xy(name)) for name in places.names})


def test_an_empty_job_has_a_tally_of_nothing(site: type[Site]) -> None:
    data = site().told("tally").data["tally"]
    assert data["points"] == 0
    assert data["depth_mm"] == {"min": None, "mean": None, "max": None}
    assert (data["area_m2"], data["volume_m3"], data["bags"], data["water_l"]) == (None,) * 4


def test_the_four_corner_volume_of_a_grid(site: type[Site]) -> None:
    # 0.349 m³ and mean 14.5417 mm over 24 m² (check values: unit-area method, exact case)
    floor = site("room 6 by 4 metres", "grid 2 metres starting 0 metres")
    read(floor, GRID_3_BY_2)
    tally = floor.tally
    assert tally.area_m2 == pytest.approx(24)
    assert tally.volume_m3 == pytest.approx(0.349, abs=1e-9)
    # plain mean of the twelve: 173/12 mm (exact arithmetic); by hand over 24 m²: 0.346 m³
    assert there(tally.depths).mean == Fraction(173, 12)
    assert tally.mean_method_volume_m3 == pytest.approx(0.346, abs=1e-9)
    assert there(tally.depths).least == 8
    assert there(tally.depths).most == 20


@pytest.mark.parametrize("grid", ["grid 2 metres", "grid 1 metre", "grid 2 by 1.5 metres"])
def test_a_tilted_floor_comes_out_exactly_on_any_grid(site: type[Site], grid: str) -> None:
    # 5 + 2x + 3y mm on 6 m x 4 m: 0.408 m³ (check values, exact case)
    floor = site("room 6 by 4 metres", grid)
    read_by(floor, lambda x, y: round(5 + 2 * x + 3 * y, 6))
    assert floor.tally.volume_m3 == pytest.approx(0.408, abs=1e-7)


def test_what_stands_above_the_finish_takes_nothing_off_the_pour(site: type[Site]) -> None:
    # -10 + 5x mm over 4 m x 3 m: pour 0.030, above the finish 0.030 m³ (check values)
    floor = site("room 4 by 3 metres", "grid 2 by 3 metres starting 0 metres")
    read_by(floor, lambda x, _y: -10 + 5 * x)
    assert floor.tally.volume_m3 == pytest.approx(0.030, abs=1e-9)
    assert floor.tally.high_volume_m3 == pytest.approx(0.030, abs=1e-9)
    assert floor.tally.mean_method_volume_m3 == pytest.approx(0, abs=1e-9)


def test_an_l_shaped_room_of_one_depth(site: type[Site]) -> None:
    # 21 m² of 8 mm is 168 L (check values, exact case)
    floor = site(
        "wall east 6 metres", "wall north 2.5 metres", "wall west 2 metres",
        "wall north 1.5 metres", "wall west 4 metres", "wall south 4 metres", "close room",
        "grid 1 metre",
    )  # fmt: skip
    read_by(floor, lambda _x, _y: 8)
    assert floor.tally.area_m2 == pytest.approx(21)
    assert floor.tally.volume_m3 == pytest.approx(0.168, abs=1e-9)


def test_half_an_inch_over_two_hundred_square_feet(site: type[Site]) -> None:
    # 8.3333 ft³ (check values); 1 ft³ is 0.028316846592 m³ by definition
    floor = site("readings in inches", "room 20 by 10 feet", "grid 5 feet", "A1 -1/2")
    assert floor.tally.volume_m3 == pytest.approx(25 / 3 * 0.028316846592, rel=1e-9)
    assert "8.3 ft³" in floor.told("tally").headline


def test_one_reading_counts_for_the_whole_floor(site: type[Site]) -> None:
    floor = site("room 12 by 8 metres", "grid 2 metres", "B3 -18")
    assert floor.tally.volume_m3 == pytest.approx(96 * 0.018)


def test_a_point_outside_the_room_never_counts_in_the_volume(site: type[Site]) -> None:
    lines = ("room 12 by 8 metres", "point K1 at 11 by 7 metres", "K1 -90", "room 6 by 4 metres",
             "point K2 at 3 by 2 metres", "K2 -10")  # fmt: skip
    floor = site(*lines)
    assert floor.tally.volume_m3 == pytest.approx(24 * 0.010)
    assert there(floor.tally.depths).mean == 50


def test_a_room_without_readings_has_an_area_only(site: type[Site]) -> None:
    tally = site("room 12 by 8 metres", "grid 2 metres").tally
    assert tally.area_m2 == pytest.approx(96)
    assert tally.volume_m3 is None
    assert tally.missing == 24


def test_the_tally_is_worked_out_once_for_a_job(site: type[Site]) -> None:
    from assistant.floor.tally import tally_of

    floor = site("room 12 by 8 metres", "grid 2 metres", "B3 -18")
    assert tally_of(floor.job) is tally_of(floor.job)


def test_the_tally_told(site: type[Site]) -> None:
    floor = site("room 12 by 8 metres", "grid 2 metres", "product example standard")
    floor.told("A1 -18", "B1 plus 2", "tally")
    reply = floor.reply
    assert reply.headline.startswith("2 of 24 points read. Depth 2 mm high to 18 mm, mean 8 mm.")
    assert reply.say.startswith("Two points. Mean eight millimetres.")
    assert set(floor.ids) == {"high-spot:B1", "points-missing"}
    assert reply.data["tally"]["waste_assumed"] is True
    assert any("(assumed)" in line for line in reply.details)
