"""Rules of the floor one by one: places, tallies, warnings, depths laid. Exact arithmetic."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import ceil

import numpy as np
import pytest
import shapely

from assistant.events.finish import FinishSetOverHighest
from assistant.floor.depths import depths_of, untied_points, zone_of_point
from assistant.floor.finish_source import finish_data
from assistant.floor.geometry import (
    DIRECTIONS,
    area_m_of,
    area_of,
    gap_m,
    is_inside,
    legs_of,
    perimeter_m,
    zone_areas,
    zone_at,
)
from assistant.floor.obstacles import _ring, is_covered, obstacle_over, shape_of
from assistant.floor.order import (
    chance_short_percent,
    further_bags,
    interval_of,
    makes_m3,
    order_at,
)
from assistant.floor.places import (
    _cell,
    _cells_round,
    over_point,
    place_of_point,
    places_of,
    point_here,
)
from assistant.floor.places_in_words import point_at
from assistant.floor.pour.stop_at import halves_at
from assistant.floor.product_orders import product_orders
from assistant.floor.proof_lines import profile_of
from assistant.floor.surfaces import depth_mm_at, surface_of
from assistant.floor.tally import aggregate_of, tally_of
from assistant.floor.things_on_map import covered_spots, things_on_map
from assistant.floor.zones import (
    card_at,
    card_of,
    finish_steps,
    in_zone,
    mix_card,
    one_card,
)
from assistant.job import WalkedRoom, next_number, record
from assistant.reply.times import UNTIMED
from grammar.commands import Measure
from tests.job.conftest import Site
from tests.there import there

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
PRODUCT = "product example standard"
POINTS = [f"{c}{r}" for r in (1, 4) for c in "ABCDEF"]
EVEN = tuple(f"{name} -12" for name in POINTS)


# --- places ------------------------------------------------------------------------------------


def test_a_place_is_known_to_the_millimetre() -> None:
    assert _cell((1.2344, 0.5006)) == (1234, 501)
    assert _cell((12.0, 8.0)) == (12000, 8000)
    assert set(_cells_round((1.0, 2.0))) == {(x, y) for x in (999, 1000, 1001)
                                             for y in (1999, 2000, 2001)}  # fmt: skip


def test_walls_run_their_length_in_eight_directions() -> None:
    for name, (east, north) in DIRECTIONS.items():
        assert east**2 + north**2 == pytest.approx(1), name
        assert (north > 0, north < 0) == ("north" in name, "south" in name)
        assert (east > 0, east < 0) == ("east" in name, "west" in name)
    room = Site("wall east 3 m", "wall north east 2 m", "wall south 4 m").job.layout.room
    assert isinstance(room, WalkedRoom)
    half = 2 * 0.5**0.5
    assert legs_of(room.walls) == [(3, 0), pytest.approx((half, half)), pytest.approx((0, -4))]
    assert perimeter_m(room.walls) == 9
    assert gap_m(room.walls) == pytest.approx(((3 + half) ** 2 + (half - 4) ** 2) ** 0.5)


def test_points_of_ones_own_give_way_to_the_grid_and_to_each_other() -> None:
    floor = Site("room 12 by 8 metres", "point K1 at 3 by 3 m", "point K2 at 4 by 4 m",
                 "point B1 at 5 by 5.5 m", "grid 2 metres")  # fmt: skip
    places = places_of(floor.job.layout)
    assert places.gave_way == ("K1", "B1")
    assert places.xy("K2") == (4, 4)
    assert places.names[-1] == "K2"
    assert list(places.row) == list(places.names)
    assert places.inside.all()
    empty = places_of(Site("room 12 by 8 metres").job.layout)
    assert empty.inside.shape == (0,)
    assert empty.xy_m.shape == (0, 2)
    out = places_of(Site(*FLOOR, "point K1 at 11 by 7.5 m", "room 12 by 7 metres").job.layout)
    assert not out.inside[out.row["K1"]]
    bare = places_of(Site("point K1 at 99 by 99 m").job.layout)
    assert bare.inside.tolist() == [True]


def test_which_point_lies_at_a_place() -> None:
    layout = Site(*FLOOR).job.layout
    for x, point in ((1, "A1"), (1.0029, "A1"), (1.0031, None), (0.9971, "A1"), (2, None)):
        assert point_here(layout, x, 1) == point, x
    assert point_here(Site("room 12 by 8 metres").job.layout, 1, 1) is None
    job = Site(*FLOOR).job
    for x, point in ((1, "A1"), (1.0499, "A1"), (1.051, None)):
        assert point_at(job, x, 1) == point, x
    assert point_at(Site("room 12 by 8 metres").job, 1, 1) is None
    assert is_inside(layout, 12, 8)
    assert not is_inside(layout, 12.1, 8)
    assert is_inside(Site().job.layout, 99, 99)


def test_what_is_under_a_thing_has_a_place_and_is_no_point() -> None:
    job = Site(*FLOOR, "column 0.4 by 0.4 metres at B2", "A1 -9").job
    assert place_of_point(job.layout, "B2") == (3, 3)
    assert place_of_point(job.layout, "A1") == (1, 1)
    assert place_of_point(job.layout, "Z9") is None
    assert there(over_point(job.layout, "B2")).number == 1
    assert over_point(job.layout, "A1") is None
    assert [spot.point for spot in covered_spots(job.layout)] == ["B2"]
    edge = np.array([[3.2, 3], [3.2 - 2e-6, 3], [3.2 - 0.5e-6, 3], [3, 3], [9, 9]])
    assert is_covered(job.layout, edge).tolist() == [False, True, False, True, False]
    assert is_covered(Site(*FLOOR).job.layout, edge).tolist() == [False] * 5
    assert is_covered(job.layout, np.zeros((0, 2))).tolist() == []
    assert obstacle_over(job.layout, 9, 7) is None
    two = Site(*FLOOR, "column 0.4 by 0.4 metres at B2", "column 0.4 by 0.4 metres at D2").job
    assert there(obstacle_over(two.layout, 7, 3)).number == 2


def test_a_round_thing_has_the_area_of_its_circle_and_lies_even() -> None:
    ring = shapely.Polygon(_ring(0.5))
    assert ring.area == pytest.approx(np.pi / 4, rel=1e-12)
    x0, y0, x1, y1 = ring.bounds
    assert (x0, y0, x1) == pytest.approx((-x1, -y1, y1))  # a side, not a corner, towards each wall
    corners = shapely.get_coordinates(ring)
    assert np.hypot(*corners.T).max() > x1
    shape = shape_of(Site(*FLOOR, "column 0.5 metres round at 4 by 3 metres"
                          ).job.layout.things.obstacles[0])  # fmt: skip
    assert shape.area == pytest.approx(np.pi / 16)
    assert (shape.centroid.x, shape.centroid.y) == pytest.approx((4, 3))
    box = shape_of(Site(*FLOOR, "column 0.4 by 0.6 metres at 4 by 3 metres"
                        ).job.layout.things.obstacles[0])  # fmt: skip
    assert box.bounds == pytest.approx((3.8, 2.7, 4.2, 3.3))


def test_things_on_a_map_have_their_places_and_points() -> None:
    found = {thing.told: thing for thing in things_on_map(Site(
        *FLOOR, "column 0.4 by 0.4 metres at B2", "crack C1 to E1", "drain at F4 minus 20",
        "opening 0.2 by 0.2 metres at D3",
    ).job.layout)}  # fmt: skip
    by_kind = {thing.told.split()[0].lower(): thing for thing in found.values()}
    assert by_kind["column"].points == ("B2",)
    assert by_kind["column"].at_m == ((3, 3),)
    assert by_kind["crack"].points == ("C1", "D1", "E1")
    assert by_kind["crack"].at_m == ((5, 1), (9, 1))
    assert by_kind["drain"].points == ("F4",)
    assert by_kind["opening"].points == ("D3",)
    assert [by_kind[kind].stands for kind in ("column", "opening")] == [True, False]
    gone = Site("drain at Z9 minus 20", *FLOOR).job.layout
    assert things_on_map(gone) == ()


# --- zones, depths and tallies ------------------------------------------------------------------

TWO = (*FLOOR, PRODUCT, *EVEN, "zone kitchen columns A to C")


def test_a_place_is_in_its_zone_and_a_point_in_none_in_the_rest() -> None:
    job = Site(*TWO).job
    for x, zone in ((5.9, "kitchen"), (6, "kitchen"), (6.1, "rest")):
        assert zone_at(job.layout, x, 1) == zone
    assert [zone_of_point(job, name) for name in ("A1", "F1", "Z9", None)] == [
        "kitchen", "rest", "rest", "rest"
    ]  # fmt: skip
    assert zone_of_point(Site(*FLOOR).job, "A1") == "rest"
    assert {name: area.area for name, area in zone_areas(job.layout).items()} == pytest.approx(
        {"kitchen": 48, "rest": 48}
    )
    assert area_of(in_zone(job, "kitchen").layout) == pytest.approx(48)
    assert area_of(job.layout) == 96
    assert area_of(Site().job.layout) is None
    assert isinstance(area_m_of(job.layout), np.ndarray)


def test_depths_are_under_the_finish_of_their_zone() -> None:
    raised = Site(*TWO, "finish in kitchen +4 mm").job
    depths = depths_of(raised)
    assert [depths["A1"], depths["F1"]] == [16, 12]
    plain = depths_of(Site(*TWO).job)
    assert [plain["A1"], plain["F1"]] == [12, 12]
    surface = there(surface_of(raised))
    assert depth_mm_at(raised, surface, 1, 1) == pytest.approx(16)
    assert depth_mm_at(raised, surface, 11, 1) == pytest.approx(12)
    kitchen = in_zone(raised, "kitchen")
    assert depths_of(kitchen).keys() == {name for name in POINTS if name[0] in "ABC"}
    assert there(surface_of(kitchen)).depth_mm_at(1, 1) == pytest.approx(16)


def test_points_of_an_untied_set_up_are_none_of_another_zone() -> None:
    job = Site(*FLOOR, "A1 -9", "zone kitchen columns A to C", "new set up", "B1 -9", "F1 -9").job
    assert untied_points(job) == ("B1", "F1")
    assert untied_points(in_zone(job, "kitchen")) == ("B1",)
    assert untied_points(in_zone(job, "rest")) == ("F1",)
    assert tally_of(job).missing == 24 - 3 + 2
    assert tally_of(in_zone(job, "kitchen")).missing == 12 - 2 + 1


def test_a_zone_is_shown_with_its_own_finish_doors_and_product() -> None:
    doors = ("door 1 outside -4", "door 1 at A1", "door 2 outside -4", "door 2 at F1")
    own = ("finish in kitchen +4 mm", "product in kitchen example deep fill")
    job = Site(*TWO, *own, *doors).job
    kitchen, rest = in_zone(job, "kitchen"), in_zone(job, "rest")
    assert (list(kitchen.doors), list(rest.doors)) == ([1], [2])
    assert [kitchen.finish_mm, rest.finish_mm] == [4, 0]
    assert (kitchen.finish_said, rest.finish_said) == (True, False)
    assert (there(kitchen.card).name, there(rest.card).name) == (
        "example deep fill", "example standard"
    )  # fmt: skip
    assert there(card_of(job, "kitchen")).name == there(card_at(job, "A1")).name
    assert one_card(job) is None
    assert there(one_card(Site(*TWO).job)).name == "example standard"
    # a mix is held to the product that gives it least time: 20 minutes against 25
    assert there(mix_card(job)).name == "example standard"
    assert mix_card(Site(*FLOOR).job) is None


def test_a_step_between_finishes_is_from_the_lower_to_the_higher() -> None:
    for mm, low, high in (("+0.5", "rest", "kitchen"), ("-0.5", "kitchen", "rest"),
                          ("+4", "rest", "kitchen")):  # fmt: skip
        (step,) = finish_steps(Site(*FLOOR, "zone kitchen columns A to C",
                                    f"finish in kitchen {mm} mm").job)  # fmt: skip
        assert (step.lower, step.higher) == (low, high), mm
        assert step.step_mm == abs(Fraction(mm))
        assert step.edge_m == pytest.approx(8)
    assert finish_steps(Site(*TWO).job) == ()
    assert finish_steps(Site(*TWO, "finish in kitchen 0 mm").job) == ()


def test_products_are_ordered_for_what_lies_under_their_own_finish() -> None:
    """12 and 4 mm on 48 m² by example deep fill, 12 mm by standard; 5 % waste."""
    lines = (*TWO, "finish in kitchen +4 mm", "product in kitchen example deep fill")
    deep, standard = product_orders(Site(*lines).job, Decimal(50))
    makes = 29.75 / 2050
    assert deep.by_readings == ceil(0.016 * 48 * 1.05 / makes)
    assert standard.by_readings == ceil(0.012 * 48 * 1.05 / 0.015)
    assert abs(deep.bags - deep.by_readings) <= 1
    assert abs(standard.bags - standard.by_readings) <= 1


def test_by_hand_a_volume_is_the_mean_depth_on_the_area() -> None:
    tally = tally_of(Site(*FLOOR, PRODUCT, "A1 -12", "B1 -18").job)
    assert tally.mean_method_volume_m3 == pytest.approx(0.015 * 96)
    assert tally_of(Site(*FLOOR).job).mean_method_volume_m3 is None
    assert tally_of(Site("A1 -12").job).mean_method_volume_m3 is None


def test_a_finish_level_with_the_highest_is_nothing_over_it() -> None:
    job = Site(*FLOOR, "A1 -18", "B1 -12").job
    for over, mm in ((None, 0.0), (Measure(Decimal(3), "mm"), 3.0)):
        event = FinishSetOverHighest("B1", over, Measure(Decimal(-12), "mm"))
        told = finish_data(record(job, next_number(job), "so", (event,), UNTIMED))
        assert told["decided"]["over_mm"] == mm


def test_a_line_of_one_set_up_has_its_heights_though_nothing_ties_it() -> None:
    line = ("line 1 from 1 by 1 metres to 3 by 1 metres every 1 m", "values 0 -1 -2")
    for lines, heights in (
        (("A1 -9",), (0, -1, -2)), (("A1 -9", "new set up"), (0, -1, -2)),
        (("A1 -9", "new set up", "tie on A1 -19"), (10, 9, 8)),
        (("instrument offset plus 2 mm",), (-2, -3, -4)),
    ):  # fmt: skip
        job = Site(*FLOOR, *lines, *line).job
        found = there(profile_of(job, job.proof.lines[1]))
        assert found.heights_mm == pytest.approx(heights), lines


def test_a_zones_product_that_takes_no_aggregate_is_poured_neat() -> None:
    lines = (*FLOOR, "product example deep fill", *EVEN, "zone kitchen columns A to C")
    job = Site(*lines, "aggregate 50 percent", "product in kitchen example thin skim").job
    assert aggregate_of(in_zone(job, "kitchen")) == 0
    assert aggregate_of(in_zone(job, "rest")) == aggregate_of(job) == 50
    assert aggregate_of(Site(*FLOOR).job) == 0


def test_the_weight_at_the_deepest_is_of_what_is_poured() -> None:
    dry = Site(*FLOOR, PRODUCT, *(f"{name} +9" for name in POINTS)).job
    made = there(tally_of(dry).material)
    assert made.mass_kg_per_m2_at_deepest <= 0
    wet = there(tally_of(Site(*FLOOR, PRODUCT, *EVEN).job).material)
    assert wet.mass_kg_per_m2_at_deepest == pytest.approx(wet.mass_kg_per_m2)
    unread = Site(*FLOOR, PRODUCT, "zone kitchen columns A to C", "F1 -12", "F4 -12").job
    kitchen = there(tally_of(in_zone(unread, "kitchen")).material)
    assert kitchen.mass_kg_per_m2_at_deepest == 0


def test_bags_for_a_risk_are_the_fewest() -> None:
    rough = tuple(f"{name} -{12 + 5 * (n % 3)}" for n, name in enumerate(POINTS))
    job = Site(*FLOOR, PRODUCT, *rough).job
    for percent in (50, 10, 5, 1):
        order = order_at(job, Decimal(percent))
        assert order.risk_percent <= percent
        assert there(chance_short_percent(job, order.bags - 1)) > percent
        assert chance_short_percent(job, order.bags) == pytest.approx(order.risk_percent)
    assert makes_m3(job, 10) == pytest.approx(10 * 0.015 / 1.05)
    rows = further_bags(job, order.bags)
    assert order in rows
    assert [row.bags for row in rows] == sorted({row.bags for row in rows})
    assert rows[0].risk_percent > rows[-1].risk_percent
    found = there(interval_of(job))
    low, high = there(found.bags)
    assert low < high
    assert found.volume_m3[0] < found.mean_m3 < found.volume_m3[1]
    assert interval_of(Site(*FLOOR, PRODUCT, "A1 -9").job) is None
    assert chance_short_percent(Site(*FLOOR, PRODUCT, "A1 -9").job, 99) is None
    apart = Site(*TWO, "product in kitchen example deep fill").job
    assert there(interval_of(apart)).bags is None
    assert chance_short_percent(apart, 99) is None


def test_a_pour_that_stops_on_a_small_floor_has_two_halves_too() -> None:
    """A metre square with columns at 0.3 and 0.7 m: 0.3 and 0.7 m² (exact)."""
    job = Site("room 1 by 1 metres", "grid 0.4 metres", PRODUCT, "A1 -10").job
    stop = halves_at(job, "A", None)
    assert (stop.first.area_m2, stop.rest.area_m2) == pytest.approx((0.3, 0.7))
    assert (stop.first.volume_m3, stop.rest.volume_m3) == pytest.approx((0.003, 0.007))
    assert stop.edge_m == pytest.approx(1)
    assert stop.edge_depth_mm == pytest.approx((10, 10))
    wall = Site("room 1 by 1 metres", "grid 1 metre starting 0 m", PRODUCT, "A1 -10").job
    assert halves_at(wall, "A", None).edge_m == 0
    assert halves_at(wall, "A", None).edge_depth_mm == (0.0, 0.0)
