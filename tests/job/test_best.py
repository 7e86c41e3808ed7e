"""The finish that takes least, what stands against it, grinding and lifts."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from assistant.floor.depths import depths_of
from tests.job.conftest import Site

FLOOR = ("room 6 by 4 metres", "grid 2 metres", "product example standard")
READ = ("A1 -18", "B1 -12", "C1 -15", "A2 -20", "B2 -14", "C2 -16")


def best(floor: Site, line: str = "best finish") -> dict[str, Any]:
    return floor.told(line).data


# --- best level finish ----------------------------------------------------------------------


def test_the_highest_point_and_the_least_depth_set_the_finish(site: type[Site]) -> None:
    """B1 is the highest at -12; the product wants 3 mm: -9. Exact arithmetic."""
    floor = site(*FLOOR, *READ)
    found = best(floor)
    assert found["finish_mm"] == -9
    assert found["binding"] == ["minimum:B1"]
    told = floor.told("what if finish 9 millimetres below zero").data["after"]
    assert found["volume_m3"] == pytest.approx(told["volume_m3"], rel=1e-9)
    assert found["bags"] == told["bags"]
    assert "finish 9 mm below zero" in floor.told("best finish").details[-1]


def test_it_can_be_taken_as_it_is_said(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ)
    line = floor.told("best finish").details[-1].removeprefix("To take it: ").rstrip(".")
    floor.told(line)
    assert min(depths_of(floor.job).values()) == 3
    assert best(floor)["finish_mm"] == -9


def test_an_exhaustive_search_finds_no_lower(site: type[Site]) -> None:
    """Every finish by tenths: the lowest at which all points have 3 to 30 mm."""
    floor = site(*FLOOR, *READ)
    heights = [-depth for depth in depths_of(floor.job).values()]
    fitting = [
        finish
        for finish in (Fraction(tenth, 10) for tenth in range(-400, 400))
        if all(3 <= finish - height <= 30 for height in heights)
    ]
    assert best(floor)["finish_mm"] == min(fitting)


def test_a_door_keeps_it_up(site: type[Site]) -> None:
    """The floor outside is at zero, and a step may be 6.4 mm."""
    floor = site(*FLOOR, *READ, "door 1 outside level")
    assert best(floor)["finish_mm"] == pytest.approx(-6.4)
    assert floor.data["binding"] == ["door:1"]


def test_a_fixed_height_is_met(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ, "fix C1 at plus 2")
    assert floor.data["fixed"] == {"point": "C1", "height_mm": 2, "off_mm": 2}
    found = best(floor)
    assert found["finish_mm"] == 2
    assert "fixed:C1" in found["binding"]


def test_aggregate_lets_it_be_deeper(site: type[Site]) -> None:
    lines = ("A1 -38", "B1 -5", *READ[2:])
    conflict = best(site(*FLOOR, *lines))
    assert conflict["finish_mm"] is None
    assert set(conflict["conflict"]) == {"minimum:B1", "maximum:A1"}
    assert best(site(*FLOOR, "aggregate 20 percent", *lines))["finish_mm"] == -2


def test_a_conflict_is_named_with_the_least_change(site: type[Site]) -> None:
    """-5 + 3 = -2 is the least, -38 + 30 = -8 the most: 6 mm apart, whoever gives way."""
    floor = site(*FLOOR, "A1 -38", "B1 -5", *READ[2:])
    found = best(floor)
    assert sum(change["amount_mm"] for change in found["changes"]) == pytest.approx(6, abs=1e-3)
    assert {change["wish"] for change in found["alone"]} == {"minimum:B1", "maximum:A1"}
    assert all(change["amount_mm"] == pytest.approx(6, abs=1e-3) for change in found["alone"])
    assert found["reconciled"]["finish_mm"] is not None
    assert "No level finish meets everything" in floor.reply.headline
    assert "wishes" in floor.reply.say
    # what it says would do, does
    floor.told("grind B1 by 6 mm")
    assert best(floor)["finish_mm"] == -8


def test_without_a_product_nothing_is_too_thin(site: type[Site]) -> None:
    floor = site(*FLOOR[:2], *READ)
    assert best(floor)["finish_mm"] == -12
    assert floor.data["bags"] is None


def test_a_finish_needs_a_floor(site: type[Site]) -> None:
    assert "The room first" in site("A1 -3").refused("best finish")
    assert "No point" in site(*FLOOR).refused("best finish")


def test_in_inches_the_said_finish_is_not_too_low(site: type[Site]) -> None:
    floor = site("readings in inches", "room 18 ft by 12 ft", "grid 6 ft",
                 "product example standard", "A1 -3/4", "B1 -1/2", "C1 -5/8")  # fmt: skip
    line = floor.told("best finish").details[-1].removeprefix("To take it: ").rstrip(".")
    floor.told(line)
    assert min(depths_of(floor.job).values()) >= 3


# --- best plane ------------------------------------------------------------------------------


def test_a_tilted_floor_takes_less_under_a_tilted_plane(site: type[Site]) -> None:
    """The floor falls 2 mm a metre along the letters: the plane follows, 3 mm above it."""
    floor = site(*FLOOR, *(f"{c}{r} -{10 + 4 * k}" for k, c in enumerate("ABC") for r in (1, 2)))
    found = best(floor, "best plane")
    assert found["plane"]["slope_x_mm_per_m"] == pytest.approx(-2, abs=1e-6)
    assert found["plane"]["slope_y_mm_per_m"] == pytest.approx(0, abs=1e-6)
    assert found["volume_m3"] == pytest.approx(24 * 0.003, rel=1e-6)
    assert found["volume_m3"] < best(floor)["volume_m3"]
    rows = {row[0]: row[2] for row in floor.told("best plane").tables[0].rows}
    assert rows["A1"] == "3 mm"  # not 2, for float dust


def test_a_plane_does_not_run_into_the_floor_that_was_not_read(site: type[Site]) -> None:
    """One row of an even floor: sloping away over the unread half would only seem to save."""
    floor = site("room 6 by 8 metres", "grid 2 metres", *FLOOR[2:], "A1 -15", "B1 -15", "C1 -15",
                 "A2 -15", "B2 -15", "C2 -15")  # fmt: skip
    plane = best(floor, "best plane within 0.1 percent")
    assert plane["volume_m3"] <= best(floor)["volume_m3"]
    x, y = plane["plane"]["slope_x_mm_per_m"], plane["plane"]["slope_y_mm_per_m"]
    corners = [plane["plane"]["height_mm"] + x * i + y * j for i in (0, 6) for j in (0, 8)]
    assert min(corners) >= -15 - 1e-6


def test_within_a_slope(site: type[Site]) -> None:
    floor = site(*FLOOR, *(f"{c}{r} -{10 + 4 * k}" for k, c in enumerate("ABC") for r in (1, 2)))
    found = best(floor, "best plane within 0.1 percent")
    assert found["plane"]["slope_percent"] == pytest.approx(0.1, abs=1e-6)
    assert "slope" in found["binding"]
    assert "from 0 to 10" in floor.refused("best plane within 20 percent")


def test_a_fall_towards_a_drain(site: type[Site]) -> None:
    floor = site(*FLOOR, *(f"{c}{r} -40" for c in "ABC" for r in (1, 2)),
                 "fall 0.5 percent towards C1")  # fmt: skip
    found = best(floor, "best plane")
    assert found["plane"]["slope_percent"] == pytest.approx(0.5)
    # C1 lies beyond the middle along the letters, and before it along the numbers
    assert found["plane"]["slope_x_mm_per_m"] < 0 < found["plane"]["slope_y_mm_per_m"]
    assert floor.told("fall 0 percent towards C1").headline.startswith("No fall")
    assert best(floor, "best plane")["plane"]["slope_percent"] == pytest.approx(0, abs=1e-6)


@pytest.mark.parametrize("line", ["fall 12 percent towards A1", "fall 1 percent towards Z9"])
def test_falls_that_cannot_be(site: type[Site], line: str) -> None:
    assert site(*FLOOR, *READ).refused(line)


def test_a_door_without_a_place_is_told_of(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ, "door 1 outside level")
    assert "Without a place, not counted: door 1." in floor.told("best plane").details
    floor.told("door 1 at A1")
    assert "door 1" not in " ".join(floor.told("best plane").details[1:])


# --- grinding -----------------------------------------------------------------------------------


def test_ground_the_point_is_deeper_and_the_cut_longer(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ, "grind B1 by 4 millimetres")
    assert depths_of(floor.job)["B1"] == 16
    assert floor.told("cut for B1").data["cuts"][0]["cut"] == "16 mm"
    assert floor.job.readings["B1"].mm == -12
    assert best(floor)["finish_mm"] == -11


def test_what_if_grinding(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ)
    before = floor.job
    data = floor.told("what if grind B1 by 4 millimetres").data
    assert floor.job is before
    assert data["after"]["depth_mm"]["min"] == 14


def test_grinding_is_said_once_and_ended_by_a_new_reading(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ, "grind B1 by 4 mm", "grind B1 by 6 mm")
    assert depths_of(floor.job)["B1"] == 18
    floor.told("correct B1 to -13")
    assert depths_of(floor.job)["B1"] == 19
    floor.told("B1 -17")
    assert depths_of(floor.job)["B1"] == 17
    assert "ground off" in " ".join(floor.reply.details)


def test_grinding_what_was_not_read(site: type[Site]) -> None:
    assert "no reading" in site(*FLOOR, "A1 -18").refused("grind B1 by 4 mm")
    assert site(*FLOOR, "A1 -18").refused("grind A1 by 0 mm")


def test_grinding_options_as_a_table_and_a_curve(site: type[Site]) -> None:
    floor = site(*FLOOR, *READ)
    reply = floor.told("grinding options")
    options = reply.data["grinding"]
    assert options[0]["grinds"] == []
    assert options[1]["grinds"] == [{"point": "B1", "by_mm": 2.0}]
    assert options[1]["finish_mm"] == -11
    saved = [option["saved_m3"] for option in options]
    assert saved == sorted(saved)
    assert options[1]["saved_m3"] == pytest.approx(24 * 0.002 - 4 * 0.002, rel=1e-6)
    assert reply.tables[0].title == "What grinding saves"
    assert "#" in reply.tables[1].rows[-1][1]
    assert reply.cautions


# --- lifts --------------------------------------------------------------------------------------


def test_one_lift_will_do(site: type[Site]) -> None:
    reply = site(*FLOOR, *READ).told("lifts")
    assert reply.data["lifts"]["ways"] == ["one lift"]


def test_deep_places_take_lifts_or_aggregate_bay_by_bay(site: type[Site]) -> None:
    floor = site(*FLOOR, "A1 -48", *READ[1:])
    reply = floor.told("lifts")
    assert reply.data["lifts"]["ways"] == ["aggregate", "lifts"]
    assert sum(lift["thickness_mm"] for lift in reply.data["lifts"]["lifts"]) == 48
    assert reply.data["bays"]["A"]["over_maximum"] == ["A1"]
    assert reply.data["bays"]["B"]["ways"] == ["one lift"]
    assert [row[0] for row in reply.tables[0].rows] == ["column A"]


def test_a_pit_is_no_pour(site: type[Site]) -> None:
    assert "more than 10 lifts" in site(*FLOOR, "A1 -48", "finish 280 mm above zero").refused(
        "lifts"
    )


def test_too_thin_for_any_lift(site: type[Site]) -> None:
    reply = site(*FLOOR, "A1 -1", "B1 -2").told("lifts")
    assert "less than the product's minimum" in reply.headline


def test_lifts_need_a_product(site: type[Site]) -> None:
    assert "product" in site(*FLOOR[:2], *READ).refused("lifts").lower()


def test_a_gentle_slope_is_not_said_to_be_level(site: type[Site]) -> None:
    """0.4 mm a metre is under half a millimetre, and still not level."""
    readings = [f"{column}{row} -{depth}" for column, depth in
                (("A", 10), ("B", 10.8), ("C", 11.6)) for row in (1, 2)]  # fmt: skip
    floor = site(
        "room 6 by 4 metres", "grid 2 metres starting 1 metre", "product example standard",
        *readings,
    )  # fmt: skip
    assert "zero point four millimetre a metre" in floor.told("best plane").say
