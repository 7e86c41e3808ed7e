"""The plan of a floor whose zones have a finish or a product of their own."""

from __future__ import annotations

from typing import Any

import pytest

from assistant.floor.pour.progress import progress_of
from assistant.floor.tally import tally_of
from tests.job.conftest import Site

ROOM = ("room 12 by 8 metres", "grid 2 metres", "product example standard",
        "A1 -6", "F1 -9", "A4 -6", "F4 -6", "C2 -9", "D3 -12", "B3 -7", "E2 -8")  # fmt: skip
CREW = ("crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6")
L_SHAPE = (
    "wall east 12 metres", "wall north 4 metres", "wall west 5 metres", "wall north 4 metres",
    "wall west 7 metres", "close room",
    *(line for line in ROOM[1:] if line != "F4 -6"),
)  # fmt: skip
COLUMNS = (
    "column 0.4 by 0.4 metres at 6 by 3 metres",
    "column 0.5 by 0.3 metres at 3.9 by 2 metres",
)
KITCHEN = ("zone kitchen columns A to B", "finish in kitchen 6 millimetres above zero")
HALL = ("zone hall columns E to F", "product in hall example deep fill",
        "finish in hall 8 millimetres above zero")  # fmt: skip


def planned(floor: Site) -> list[dict[str, Any]]:
    floor.told("plan")
    found: list[dict[str, Any]] = floor.data["strips"]
    return found


def test_strips_add_up_to_the_tally_whatever_stands_there_and_however_it_is_parted(
    site: type[Site],
) -> None:
    for room, lines in (
        (ROOM, COLUMNS),
        (ROOM, (*COLUMNS, *KITCHEN, *HALL, "dam at row 2", "dam at column C")),
        (L_SHAPE, (*COLUMNS, *HALL)),
        (L_SHAPE, ("zone kitchen columns A to B",)),
    ):
        floor = site(*room, *lines, *CREW)
        strips, tally = planned(floor), tally_of(floor.job)
        assert tally.volume_m3 is not None
        assert tally.material is not None
        assert tally.area_m2 is not None
        litres, area = (sum(each[key] for each in strips) for key in ("litres", "area_m2"))
        assert litres == pytest.approx(tally.volume_m3 * 1000, rel=1e-6), lines
        assert area == pytest.approx(tally.area_m2, rel=1e-6), lines
        assert sum(each["bags"] for each in strips) == tally.material.bags, lines


def test_a_zone_with_its_own_finish_is_a_bay_and_the_deeper_one_is_poured_first(
    site: type[Site],
) -> None:
    floor = site(*ROOM, *KITCHEN, *CREW)
    strips = planned(floor)
    zones = [strip["zones"][0] for strip in strips]
    assert zones == sorted(zones)
    assert set(zones) == {"kitchen", "rest"}
    last_of_kitchen = [strip for strip in strips if strip["zones"] == ["kitchen"]][-1]
    assert last_of_kitchen["to_m"] == pytest.approx(4)
    assert last_of_kitchen["edge_wait_min"] is None
    assert "kitchen, then rest" in " ".join(floor.reply.details)
    assert floor.reply.tables[0].columns[-1] == "Zone"


def test_the_zone_of_the_way_out_is_poured_last(site: type[Site]) -> None:
    floor = site(*ROOM, *KITCHEN, "door 1 at A2", "way out is door 1", *CREW)
    assert [strip["zones"] for strip in planned(floor)][-1] == ["kitchen"]
    assert "lies in strip" not in " ".join(floor.reply.details)


def test_each_product_has_its_bags_its_working_time_and_its_water(site: type[Site]) -> None:
    """Example deep fill: 25 minutes, less 3 mixed and 2 slaked; example standard 20 - 3."""
    floor = site(*ROOM, *HALL, *CREW)
    strips = planned(floor)
    limits = {strip["product"]: strip["edge_limit_min"] for strip in strips}
    assert limits == {"example deep fill": 20, "example standard": 17}
    told = " ".join(floor.reply.details)
    assert "An edge waits 17 or 20 min at most" in told
    bags = {name: sum(strip["bags"] for strip in strips if strip["product"] == name)
            for name in limits}  # fmt: skip
    assert f"Bags: example deep fill {bags['example deep fill']}" in told
    staged = floor.told("where do the bags go")
    assert "4.5 to 5 L of example deep fill" in " ".join(staged.details)
    assert "in the next bay" in str(staged.tables)


def test_a_room_without_a_product_is_planned_where_every_zone_has_its_own(
    site: type[Site],
) -> None:
    lines = [line for line in ROOM if not line.startswith("product")]
    floor = site(*lines, "zone hall columns D to F", "product in hall example deep fill", *CREW)
    assert floor.refused("plan").startswith("The product first for rest")
    floor.told("zone yard columns A to C", "product in yard example standard")
    assert {strip["product"] for strip in planned(floor)} == {
        "example standard", "example deep fill",
    }  # fmt: skip


def test_it_is_poured_bay_by_bay_with_front_forecast_and_depths(site: type[Site]) -> None:
    floor = site(*ROOM, *KITCHEN, *CREW, "start at column A",
                 "start pour anyway because this is a test")  # fmt: skip
    strips = planned(floor)
    kitchen = [strip for strip in strips if strip["zones"] == ["kitchen"]]
    for strip in kitchen:
        for _ in range(strip["batches"]):
            floor.wait(3)
            floor.told("batch")
        floor.told(f"strip {strip['id']} done")
    floor.wait(3)
    floor.told("batch")
    progress = progress_of(floor.job)
    assert progress.strip == len(kitchen) + 1
    assert progress.front_m is not None
    assert progress.front_m > 4
    # a front in the second bay, 6 m from the start of the pour, 2 m into the bay
    floor.told("front at 6 metres")
    last = progress_of(floor.job).parts[-1]
    assert last.bay == 2
    assert [last.from_m, last.to_m] == pytest.approx([4, 6])
    assert last.area_m2 == pytest.approx(16)
    assert "was at 6 m already" in floor.refused("front at 5 metres")
    assert floor.told("pour finished").data["poured"]["parts"][0]["mean_depth_mm"] is not None


def test_lower_is_of_what_is_left_in_the_bays_to_come(site: type[Site]) -> None:
    """Two bays of 4 by 8 m and 8 by 8 m, 12 and 6 mm: 384 L each, 26.88 bags. Once the first is
    poured and 20 bags are there, 20/26.88 of 6 mm is 4.46 mm, so 2 mm lower. Exact arithmetic."""
    level = ("room 12 by 8 metres", "grid 2 metres", "product example standard", "A1 -6")
    floor = site(*level, *KITCHEN, *CREW, "start at column A",
                 "start pour anyway because this is a test", "batch 9 bags", "strip 1 done",
                 "batch 9 bags", "strip 2 done", "batch 9 bags", "front at 4 metres",
                 "bags left 20", "short")  # fmt: skip
    found = floor.data["short"]
    assert found["from_m"] == pytest.approx(4)
    assert found["lower_mm"] == 2
    # all points but A1 are unread: none of the rest has a depth of its own
    assert found["least_left_mm"] is None


def test_a_dam_lies_at_a_column_that_is_wholly_covered(site: type[Site]) -> None:
    """Column C at 5 m, under a counter that runs from wall to wall."""
    floor = site(*ROOM, "cabinet 1 by 8 m corner at 4.5 by 0 metres", *CREW,
                 "start at column A", "dam at column C")  # fmt: skip
    strips = planned(floor)
    ends = [strip["to_m"] for strip in strips if strip["edge_wait_min"] is None]
    assert ends[0] == pytest.approx(5)
    assert sum(strip["area_m2"] for strip in strips) == pytest.approx(88)


def test_water_and_times_are_those_of_the_product_that_is_poured(site: type[Site]) -> None:
    """Deep fill in the hall: 4.5 to 5 L; the room's 4.75 to 5.25 L. Its bay comes first here."""
    floor = site(*ROOM, *HALL, *CREW, "start pour anyway because this is a test")
    assert floor.told("batch 5.2 litres a bag").warnings[0].id == "water-over"
    assert "example deep fill" in floor.reply.warnings[0].source
    for strip in planned(floor):
        if strip["product"] == "example deep fill":
            floor.told(f"batch {strip['bags']} bags", f"strip {strip['id']} done")
    assert not floor.told("batch 5.2 litres a bag").warnings
    # a mix is held to the shorter time of the two, 20 of 20 and 25 minutes, whichever it is
    thin = site(*ROOM[:2], "product example gypsum", *ROOM[3:], "zone hall columns E to F",
                "product in hall example standard")  # fmt: skip
    assert "20 minutes" in thin.told("water in").headline


def test_bags_of_one_product_are_no_help_to_another(site: type[Site]) -> None:
    """Deep fill in the hall first: 36.6 bags by the card, and as many of the other for the rest."""
    floor = site(*ROOM, *HALL, *CREW, "start at column A",
                 "start pour anyway because this is a test")  # fmt: skip
    planned_bags = {"example deep fill": 0, "example standard": 0}
    for strip in planned(floor):
        planned_bags[strip["product"]] += strip["bags"]
    deep, rest = planned_bags.values()
    # a count is of the product that is poured then
    counted = floor.told("bags left 22")
    assert counted.headline.startswith(f"22 bags of example deep fill left; SHORT by {deep - 22}")
    assert floor.data["pour"]["product"] == "example deep fill"
    for number in (1, 2, 3):
        floor.told("batch 12 bags", f"strip {number} done")
        floor.wait(12)
    found = {each["product"]: each for each in floor.data["pour"]["products"]}
    assert floor.data["pour"]["product"] == "example standard"
    assert found["example deep fill"]["bags_used"] == 36
    assert found["example deep fill"]["bags_at_hand"] == 22
    assert found["example standard"]["bags_used"] == 0
    assert found["example standard"]["bags_at_hand"] == rest
    assert floor.data["pour"]["forecast_bags"][1] == pytest.approx(rest, abs=2)
    assert [part.product for part in progress_of(floor.job).parts] == 3 * ["example deep fill"]
    assert progress_of(floor.job).parts[0].from_m == pytest.approx(8)
    floor.wait(3)
    assert floor.told("batch").headline.startswith(f"2 of {rest};")
    assert floor.told("bags left 40").data["pour"]["short_probability"] < 0.1
    told = floor.told("how goes the pour").details
    assert any(line.startswith(f"example standard: 2 of {rest} bags") for line in told)
    assert floor.told("short").headline.startswith("Not short")
    over = floor.told("pour finished").data["poured"]["left_over"]
    assert over["by_product"]["example standard"] == 40


def test_a_hole_in_the_last_strip_of_a_product_is_asked_about(site: type[Site]) -> None:
    floor = site(*ROOM, *HALL, *CREW, "start at column A",
                 "start pour anyway because this is a test")  # fmt: skip
    for number, bags in ((1, 12), (2, 12), (3, 20)):
        floor.told(f"batch {bags - 2} bags", "batch 2 bags", f"strip {number} done")
        floor.wait(12)
    assert floor.data["pour"]["asks"] == "hole"
    assert floor.told("hole").data["pour"]["asks"] is None


def test_a_part_over_two_products_is_cut_between_them(site: type[Site]) -> None:
    """Nobody said where the hall ended: 60 bags to strip 4 of 48.5 planned, 36.6 in the hall."""
    floor = site(*ROOM, *HALL, *CREW, "start at column A",
                 "start pour anyway because this is a test", "batch 20 bags")  # fmt: skip
    for _ in range(2):
        floor.wait(9)
        floor.told("batch 20 bags")
    floor.told("strip 4 done")
    first, second = progress_of(floor.job).parts
    assert (first.product, second.product) == ("example deep fill", "example standard")
    assert first.used_bags + second.used_bags == 60
    share = first.planned_bags / (first.planned_bags + second.planned_bags)
    assert first.used_bags == round(60 * share)
    assert first.area_m2 == pytest.approx(32)
    assert (second.from_m, second.to_m) == pytest.approx((0, planned(floor)[3]["to_m"]))
