"""Parts of the floor with a name: where they end, what they take, and the steps between them.

Check values: exact arithmetic on a tilted plane (a plane's volume over an area is the area times
its depth at the centroid) and shapely's areas; steps by the 2010 ADA Standards 303.2 and 303.3.
"""

from __future__ import annotations

import itertools
from fractions import Fraction
from typing import Any

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from assistant.decide import Question
from assistant.errors import Refusal
from assistant.floor.depths import depths_of
from assistant.floor.geometry import area_to_pour, zone_areas
from assistant.floor.interval import volume_of
from assistant.floor.places import places_of, zone_of_points
from assistant.floor.tally import tally_of
from assistant.floor.zones import finish_steps, in_zone, parts_of
from assistant.job import fold
from assistant.reply.replies import Reply
from tests.job.conftest import Site

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
PRODUCT = "product example standard"


def plane(columns: str = "ABCDEF", rows: int = 4) -> tuple[str, ...]:
    """Depth 10 mm at the corner, 1 mm a metre along the letters and 0.5 mm along the numbers."""
    return tuple(
        f"{letter}{row + 1} -{10 + (1 + 2 * column) + 0.5 * (1 + 2 * row)}"
        for row, (column, letter) in itertools.product(range(rows), enumerate(columns))
    )


def depth_at(x: float, y: float) -> float:
    return 0.010 + 0.001 * x + 0.0005 * y


READ = (*FLOOR, PRODUCT, *plane())


def shown(reply: Reply) -> str:
    return " ".join((reply.headline, *reply.details, *(one.message for one in reply.warnings)))


def volume_over(area: Any) -> float:
    x, y = area.centroid.coords[0]
    return float(area.area * depth_at(x, y))


# --- where zones lie ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("line", "shape", "points"),
    [
        ("zone kitchen A1 to C3", shapely.box(0, 0, 6, 6), 9),
        ("zone kitchen C3 to A1", shapely.box(0, 0, 6, 6), 9),
        ("zone kitchen A3 to C1", shapely.box(0, 0, 6, 6), 9),
        ("zone kitchen B2 to B2", shapely.box(2, 2, 4, 4), 1),
        ("zone kitchen rows 1 to 3", shapely.box(0, 0, 12, 6), 18),
        ("zone kitchen row 4", shapely.box(0, 6, 12, 8), 6),
        ("zone kitchen columns B to D", shapely.box(2, 0, 8, 8), 12),
        ("zone kitchen column F", shapely.box(10, 0, 12, 8), 4),
        ("zone kitchen left of B1 to B4", shapely.box(0, 0, 3, 8), 8),
        ("zone kitchen left of B4 to B1", shapely.box(0, 0, 3, 8), 8),
        ("zone kitchen right of B1 to B4", shapely.box(3, 0, 12, 8), 20),
        ("zone kitchen above A2 to F2", shapely.box(0, 3, 12, 8), 18),
        ("zone kitchen below F2 to A2", shapely.box(0, 0, 12, 3), 12),
        ("zone kitchen left of A1 to D4", shapely.Polygon([(0, 0), (8, 8), (0, 8)]), 10),
        ("zone kitchen below A1 to D4", shapely.Polygon([(0, 0), (12, 0), (12, 8), (8, 8)]), 18),
    ],
)
def test_a_zone_has_the_area_the_points_and_the_volume_of_its_shape(
    line: str, shape: Any, points: int
) -> None:
    floor = Site(*READ, line)
    area = zone_areas(floor.job.layout)["kitchen"]
    assert area.symmetric_difference(shape).area == pytest.approx(0, abs=1e-6)
    tally = tally_of(in_zone(floor.job, "kitchen"))
    assert tally.points == points
    assert tally.area_m2 == pytest.approx(shape.area, abs=1e-7)
    assert tally.volume_m3 == pytest.approx(volume_over(shape), abs=1e-7)
    rest = tally_of(in_zone(floor.job, "rest"))
    whole = tally_of(Site(*READ).job)
    together = (tally.volume_m3 or 0) + (rest.volume_m3 or 0)
    assert together == pytest.approx(whole.volume_m3, abs=1e-9)
    assert floor.tally.volume_m3 == pytest.approx(whole.volume_m3, abs=1e-9)


L_ROOM = (
    "wall east 6 metres", "wall north 2.5 metres", "wall west 2 metres", "wall north 1.5 metres",
    "wall west 4 metres", "wall south 4 metres", "close room", "grid 1 metre",
)  # fmt: skip


@pytest.mark.slow
@settings(max_examples=25, deadline=None)
@given(st.data())
def test_zones_and_the_rest_add_up_to_the_room(data: st.DataObject) -> None:
    room = data.draw(st.sampled_from([L_ROOM, FLOOR, (*FLOOR, "column 1 by 1 m at 6 by 3 m")]))
    lines = data.draw(
        st.lists(
            st.sampled_from(
                ["columns A to B", "column C", "row 1", "rows 2 to 3", "D1 to E2", "A1 to B2",
                 "left of A1 to C3", "right of C1 to D3", "above A2 to C3", "below A1 to C2"]
            ),
            min_size=1, max_size=4, unique=True,
        )
    )  # fmt: skip
    floor = Site(*room, PRODUCT)
    heights = data.draw(st.lists(st.integers(-40, 6), min_size=8, max_size=8))
    for name, mm in zip(places_of(floor.job.layout).names[::2], heights, strict=False):
        floor.told(f"{name} {mm:+d} mm".replace("+0", "-0"))
    taken = 0
    for number, line in enumerate(lines, start=1):
        try:
            floor.told(f"zone {number} {line}")
            taken += 1
        except Refusal:  # overlaps and such, of which nothing is recorded
            continue
    before = tally_of(Site(*room, PRODUCT, *[u.said for u in floor.job.history[len(room) + 1 :]
                                            if not u.said.startswith("zone")]).job)  # fmt: skip
    parts = [tally_of(part) for part in parts_of(floor.job).values()]
    if not taken:
        assert parts == []
        return
    for name in ("area_m2", "volume_m3", "high_volume_m3"):
        together = sum(getattr(each, name) for each in parts)
        assert together == pytest.approx(getattr(before, name), abs=1e-6), name
        assert getattr(floor.tally, name) == pytest.approx(getattr(before, name), abs=1e-6), name
    assert sum(each.points for each in parts) == before.points
    assert sum(each.missing for each in parts) == before.missing
    bags = sum(each.material.bags for each in parts if each.material)
    assert before.material is not None
    assert before.material.bags <= bags <= before.material.bags + len(parts) - 1


def test_a_zone_stays_where_it_is_when_the_grid_is_laid_anew() -> None:
    floor = Site(*FLOOR, "zone kitchen columns A to C", "grid 1 metre")
    assert zone_areas(floor.job.layout)["kitchen"].area == pytest.approx(48)
    assert set(zone_of_points(floor.job.layout)) == {
        f"{letter}{row}" for letter in "ABCDEF" for row in range(1, 8 + 1)
    }


def test_what_stands_on_the_floor_is_off_its_zone_too() -> None:
    floor = Site(*READ, "zone kitchen columns A to C", "column 1 by 2 m at 6 by 4 m")
    areas = zone_areas(floor.job.layout)
    assert areas["kitchen"].area == pytest.approx(48 - 1)
    assert areas["rest"].area == pytest.approx(48 - 1)
    whole = area_to_pour(floor.job.layout)
    assert whole is not None
    assert sum(area.area for area in areas.values()) == pytest.approx(whole.area, abs=1e-9)


def test_a_zone_that_the_room_no_longer_has_is_empty_and_the_rest_is_all() -> None:
    floor = Site(*FLOOR, "zone kitchen columns E to F", "room 6 by 8 metres")
    areas = zone_areas(floor.job.layout)
    assert areas["kitchen"].area == 0
    assert areas["rest"].area == pytest.approx(48)
    assert floor.told("zones").data["zones"][0]["area_m2"] in (0, None)


def test_many_zones_side_by_side_and_the_rest_are_the_floor() -> None:
    """Where borders only touch, an overlay leaves lines, which are no floor."""
    floor = Site("room 22 by 23 metres", "grid 1 metre starting 0.5 metres", PRODUCT, "A1 -10")
    corners = [
        (f"{first}{row}", f"{last}{end}")
        for row, end in ((1, 11), (12, 23))
        for first, last in ("AE", "FJ", "KO", "PT")
    ]
    for number, (first, last) in enumerate(corners, start=1):
        floor.told(f"zone {number} {first} to {last}")
    areas = zone_areas(floor.job.layout)
    assert [round(area.area, 6) for area in areas.values()] == [55] * 4 + [60] * 4 + [46]
    assert floor.tally.volume_m3 == pytest.approx(0.010 * 22 * 23, abs=1e-9)


# --- what is not taken --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("lines", "line", "why"),
    [
        ((), "zone kitchen A1 to C3", "room first"),
        (FLOOR[:1], "zone kitchen A1 to C3", "grid comes first"),
        (FLOOR, "zone kitchen A1 to H3", "no column H; the grid has columns A to F"),
        (FLOOR, "zone kitchen rows 1 to 9", "no row 9; the grid has rows 1 to 4"),
        (FLOOR, "zone kitchen A1 to F4", "whole room"),
        (FLOOR, "zone kitchen columns A to F", "whole room"),
        (FLOOR, "zone rest A1 to B2", "in no zone"),
        (FLOOR, "zone kitchen left of A2 to F2", "above or below"),
        (FLOOR, "zone kitchen above B1 to B4", "left or right"),
        (FLOOR, "zone kitchen left of B1 to B1", "two points"),
        (FLOOR, "zone kitchen left of B1 to Q9", "Q9 has no place"),
        (FLOOR, "drop zone kitchen", "no zone yet"),
        (FLOOR, "tally kitchen", "no zone yet"),
        (FLOOR, "finish in kitchen +4 mm", "no zone yet"),
        ((*FLOOR, "zone hall A1 to B2"), "tally kitchen", "there is hall and the rest"),
        ((*FLOOR, "zone hall A1 to B2"), "zone hall C1 to D2", "hall already: A1 to B2"),
        ((*FLOOR, "zone hall A1 to B2"), "zone kitchen B2 to C3", "overlap hall (A1 to B2) by 4"),
        ((*FLOOR, "zone hall A1 to B2"), "drop zone rest", "cannot be dropped"),
        ((*FLOOR, "zone hall A1 to B2"), "finish in rest +4 mm", "finish +4 mm"),
        ((*FLOOR, "zone hall A1 to B2"), "product in rest example standard", "product NAME"),
        ((*FLOOR, "zone hall A1 to B2"), "product in hall nothing such", "nothing such"),
        (
            ("room 12 by 8 metres", "point K1 at 2 by 2 m", "point K2 at 2 by 6 m",
             "point K3 at 9 by 4 m", "zone hall right of K1 to K2"),
            "zone kitchen left of K1 to K2", "No point lies in",
        ),
    ],
)  # fmt: skip
def test_what_is_no_zone_is_refused_with_what_would_be_one(
    lines: tuple[str, ...], line: str, why: str
) -> None:
    assert why in Site(*lines).refused(line)


def test_points_on_a_line_belong_to_the_zone_that_was_named_first() -> None:
    floor = Site(*READ, "zone hall left of B1 to B4", "zone kitchen right of B1 to B4")
    zones = zone_of_points(floor.job.layout)
    assert {zones[f"B{row}"] for row in range(1, 5)} == {"hall"}
    assert "rest" not in zone_areas(floor.job.layout)


# --- finish and product --------------------------------------------------------------------------

TWO = (*READ, "zone kitchen columns A to C")


def test_a_zone_has_its_own_finish_and_its_pins_and_volume_follow() -> None:
    before = Site(*TWO)
    floor = Site(*TWO, "finish in kitchen +4 mm")
    was, now = depths_of(before.job), depths_of(floor.job)
    for point, depth in now.items():
        assert depth - was[point] == (4 if point[0] in "ABC" else 0), point
    assert before.tally.volume_m3 is not None
    assert floor.tally.volume_m3 == pytest.approx(before.tally.volume_m3 + 0.004 * 48, abs=1e-9)
    cuts = {cut["point"]: cut["depth_mm"] for cut in floor.told("cut list").data["cuts"]}
    assert cuts["C1"] == 10 + 5 + 0.5 + 4
    assert cuts["D1"] == 10 + 7 + 0.5
    assert floor.told("how deep at 5 by 1 metres").data["depth_mm"] == pytest.approx(
        1000 * depth_at(5, 1) + 4
    )
    assert floor.told("how deep at 8 by 2 metres").data["depth_mm"] == pytest.approx(
        1000 * depth_at(8, 2)
    )


def test_what_a_zones_finish_was_set_to_is_not_told_as_assumed() -> None:
    floor = Site(*TWO, "finish in kitchen +4 mm")
    assert "assumed: nobody" in shown(floor.told("tally rest"))
    reply = floor.told("tally kitchen")
    assert "Finish 4 mm above the zero." in reply.details
    assert not [line for line in reply.details if "from the zero" in line]


def test_the_interval_of_the_room_counts_each_zones_finish() -> None:
    before, floor = volume_of(Site(*TWO).job), volume_of(Site(*TWO, "finish in kitchen +4 mm").job)
    assert before is not None
    assert floor is not None
    assert floor.mean_m3 - before.mean_m3 == pytest.approx(0.004 * 48, abs=1e-9)


@pytest.mark.parametrize(
    ("mm", "severity", "told"),
    [(4, "note", "may be gone"), (10, "caution", "1 in 2"), (13, "caution", "ramp")],
)
def test_a_step_between_zones_is_told_in_the_reply_the_tally_and_before_the_pour(
    mm: int, severity: str, told: str
) -> None:
    floor = Site(*TWO)
    reply = floor.told(f"finish in kitchen +{mm} mm")
    (step,) = [each for each in reply.warnings if each.id == "zone-step:rest/kitchen"]
    assert step.severity == severity
    assert told in step.message
    assert f"stand {mm} mm above rest along 8 m" in step.message
    assert "step" in reply.say.lower()
    for line in ("tally", "tally kitchen", "warnings", "ready to pour"):
        again = floor.told(line)
        assert f"stand {mm} mm above rest" in shown(again), line


def test_zones_that_do_not_meet_have_no_step() -> None:
    floor = Site(*READ, "zone kitchen column A", "zone hall column F", "finish in kitchen +4 mm",
                 "finish in hall +4 mm")  # fmt: skip
    assert {(step.lower, step.higher) for step in finish_steps(floor.job)} == {
        ("rest", "kitchen"), ("rest", "hall"),
    }  # fmt: skip
    assert all(step.edge_m == pytest.approx(8) for step in finish_steps(floor.job))
    flush = floor.told("finish +4 mm")
    assert finish_steps(floor.job) == ()
    assert "Kitchen stays 4 mm above" in shown(flush)


def test_a_door_belongs_to_the_finish_of_its_zone() -> None:
    floor = Site(*TWO, "door 1 left 0 right 0 outside +4", "door 1 at A1", "door 2 outside +4",
                 "door 2 at F1")  # fmt: skip
    floor.told("finish in kitchen +4 mm")
    doors = {door["id"]: door for door in floor.told("doors").data["doors"]}
    assert doors[1]["step_mm"] == 0
    assert doors[2]["step_mm"] == 4


def test_a_zone_is_held_to_the_limits_of_its_own_product() -> None:
    floor = Site(*TWO, "product in kitchen example deep fill")
    ids = {warning.id for warning in floor.told("warnings").warnings}
    assert not {one for one in ids if one.startswith("under-minimum")}
    floor.told("finish -6 mm")
    ids = {warning.id for warning in floor.told("warnings").warnings}
    # At A1 5.5 mm: too thin for deep fill, which wants 10; at F1 15.5, and standard wants 3.
    assert "under-minimum:A1" in ids
    assert not {one for one in ids if one.partition(":")[2][:1] in "DEF" and "minimum" in one}


def test_bags_of_two_products_are_counted_each_by_itself() -> None:
    floor = Site(*TWO, "product in kitchen example deep fill")
    kitchen, rest = (tally_of(part) for part in parts_of(floor.job).values())
    assert kitchen.material is not None
    assert rest.material is not None
    assert floor.tally.material is not None
    assert floor.tally.material.bags == kitchen.material.bags + rest.material.bags
    assert floor.tally.material.mass_kg == pytest.approx(
        kitchen.material.mass_kg + rest.material.mass_kg
    )
    order = floor.told("order").data["order"]
    assert [each["product"] for each in order["products"]] == [
        "example deep fill", "example standard",
    ]  # fmt: skip
    assert order["bags"] == sum(each["bags"] for each in order["products"])
    assert "zone" in floor.refused("are 25 bags enough").lower()


def test_the_product_of_a_zone_is_said_in_two_ways() -> None:
    one = Site(*TWO, "product in kitchen example deep fill")
    other = Site(*TWO, "in kitchen product example deep fill")
    assert one.job == other.job
    assert one.job.card is not None
    assert one.job.card.name == "example standard"


def test_a_side_is_never_guessed() -> None:
    floor = Site(*TWO)
    assert isinstance(floor.unconfirmed("finish in kitchen 4 mm"), Question)
    floor.sided("finish in kitchen 4 mm", "above")
    assert floor.job.zones.pour_in("kitchen").finish_mm == 4


# --- described, undone, kept ----------------------------------------------------------------------


def test_tally_and_order_name_the_zones_and_their_numbers_add_up() -> None:
    floor = Site(*TWO, "zone hall D1 to F2")
    for line, key in (("tally", "tally"), ("order", "order")):
        reply = floor.told(line)
        zones = reply.data[key]["zones"]
        assert [zone["name"] for zone in zones] == ["kitchen", "hall", "rest"]
        assert {"name", "area_m2", "volume_m3", "bags"} <= zones[0].keys()
        assert sum(zone["volume_m3"] for zone in zones) == pytest.approx(floor.tally.volume_m3)
        assert sum(zone["area_m2"] for zone in zones) == pytest.approx(96)
        assert any(table.title == "Zone by zone" for table in reply.tables)
    bags = sum(zone["bags"] for zone in floor.told("tally").data["tally"]["zones"])
    assert floor.tally.material is not None
    more = bags - floor.tally.material.bags
    assert ("each is rounded up" in shown(floor.told("tally"))) == (more > 0)
    assert floor.told("tally kitchen").data["tally"]["zone"] == "kitchen"
    assert floor.told("order kitchen").data["order"]["zone"] == "kitchen"


def test_a_zone_is_also_meant_with_a_word_more() -> None:
    floor = Site(*TWO)
    assert floor.told("how much for the kitchen half").data["tally"]["zone"] == "kitchen"
    assert "living half" in floor.refused("tally living half")


def test_a_job_without_zones_says_nothing_of_them() -> None:
    floor = Site(*READ)
    assert "zones" not in floor.told("tally").data["tally"]
    assert "zones" not in floor.told("order").data["order"]
    assert floor.told("zones").data == {"zones": []}


def test_zones_are_undone_and_brought_back_and_come_again_from_the_record() -> None:
    floor = Site(*TWO, "finish in kitchen +4 mm", "product in kitchen example deep fill")
    full = floor.job
    assert fold((u.number, u.said, u.events, u.time) for u in full.history) == full
    floor.told("drop zone kitchen")
    assert "finish and product went with it" in shown(floor.reply)
    assert not floor.job.layout.zones
    assert not floor.job.zones.pours
    floor.told("undo")
    assert floor.job == full
    floor.told("undo 3")
    assert not floor.job.layout.zones


def test_a_zone_of_the_same_name_starts_without_what_the_first_one_had() -> None:
    floor = Site(*TWO, "finish in kitchen +4 mm", "drop zone kitchen", "zone kitchen rows 1 to 2")
    assert floor.job.zones.pour_in("kitchen").finish_mm is None


def test_what_if_looks_at_a_zone_and_records_nothing() -> None:
    floor = Site(*TWO)
    before = floor.job
    reply = floor.told("what if finish in kitchen +4 mm")
    assert floor.job is before
    more = reply.data["after"]["volume_m3"] - reply.data["before"]["volume_m3"]
    assert more == pytest.approx(0.004 * 48)
    assert "zone-step:rest/kitchen" in reply.data["warnings_come"]


def test_best_finish_says_that_it_is_for_one_finish_all_over() -> None:
    plain = Site(*TWO).told("best finish")
    floor = Site(*TWO, "finish in kitchen +4 mm")
    reply = floor.told("best finish")
    assert reply.data["volume_m3"] == pytest.approx(plain.data["volume_m3"])
    assert "without what zones have of their own: kitchen" in shown(reply)


def test_after_the_pour_a_zones_finish_is_asked_about() -> None:
    floor = Site(*TWO, "pour finished")
    assert isinstance(floor.unconfirmed("finish in kitchen +4 mm"), Question)


def test_a_finish_in_parts_of_a_millimetre_stays_exact() -> None:
    floor = Site(*TWO, "finish in kitchen +1/8 in")
    assert floor.job.zones.pour_in("kitchen").finish_mm == Fraction(254, 80)


def test_a_room_told_anew_wall_by_wall_has_zones_that_wait_for_it(site: type[Site]) -> None:
    floor = site("room 6 by 8 m", "grid 1 m starting 0.5 m", "zone kitchen A1 to C3")
    assert floor.told("wall north 3.4 m").headline == "Wall 1 north, 3.4 m."
    assert "zones" not in floor.told("tally").data
    floor.told("wall east 6 m", "wall south 3.4 m", "close room")
    zones = {zone["name"]: zone["area_m2"] for zone in floor.told("zones").data["zones"]}
    assert sum(zones.values()) == pytest.approx(6 * 3.4)
    assert zones["kitchen"] == pytest.approx(9)
