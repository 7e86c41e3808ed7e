"""Small rules about parts of a floor, its progress and its walk, one by one."""

from __future__ import annotations

from decimal import Decimal

from assistant.floor.finish_source import finish_data, moved_since_mm, source_moved_mm
from assistant.floor.product_orders import product_orders
from assistant.floor.progress import progress_words
from assistant.floor.walk import next_point, points_missing, points_skipped, skipped_words
from assistant.floor.warnings import (
    all_warnings,
    cautions_of,
    own_limits_passed,
    warning_kind,
    warning_subject,
    warnings_about,
)
from assistant.floor.zone_warnings import zone_warnings
from assistant.job import being_read
from tests.job.conftest import Site

ROOM = ("room 12 by 8 metres", "grid 2 metres")


def test_how_far_the_reading_has_come() -> None:
    for lines, words in (
        ((), "nothing read"), (("B1 -4",), "1 read"), (ROOM, "0 of 24 read"),
        ((*ROOM, "A1 -4", "B1 -4"), "2 of 24 read"), ((*ROOM, "A1 -4", "skip B1"), "2 of 24 read"),
        ((*ROOM, "A1 -4", "pour finished"), "poured, 0 of 24 read since"),
        ((*ROOM, "A1 -4", "pour finished", "A1 +1"), "poured, 1 of 24 read since"),
        (("B1 -4", "pour finished"), "poured"),
    ):  # fmt: skip
        assert progress_words(Site(*lines).job) == words, lines


def test_where_the_walk_goes() -> None:
    """On from the last point, round to the start; past what was read or skipped."""
    for lines, point in (
        (ROOM, "A1"), ((*ROOM, "A1 -4"), "B1"), ((*ROOM, "A1 -4", "skip B1"), "C1"),
        ((*ROOM, "F4 -4"), "E4"), ((*ROOM, "A4 -4"), "A1"), ((*ROOM, "A1 -4", "go to D3"), "D3"),
        ((*ROOM, "C1 -4", "strike C1"), "C1"), ((), None),
    ):  # fmt: skip
        assert next_point(Site(*lines).job) == point, lines
    everything = [f"{c}{r} -4" for r in (1, 2, 3, 4) for c in "ABCDEF"]
    assert next_point(Site(*ROOM, *everything).job) is None


def test_which_points_are_missing_and_which_were_skipped() -> None:
    floor = Site("room 4 by 4 metres", "grid 2 metres", "A1 -4", "skip B2 because pallets")
    assert points_missing(floor.job) == ("B1", "A2")
    assert points_skipped(floor.job) == {"B2": "pallets"}
    assert skipped_words(floor.job) == "Not read, as said: B2 (“pallets”). The surface bridges it."
    floor.told("skip B1")
    assert skipped_words(floor.job).endswith("The surface bridges them.")
    assert skipped_words(Site(*ROOM).job) == ""
    many = Site(*ROOM, *(f"skip {point}" for point in ("A1", "B1", "C1", "D1", "E1", "F1")))
    assert "more" not in skipped_words(many.job)
    assert "and 1 more" in skipped_words(Site(*ROOM, *(
        f"skip {point}" for point in ("A1", "B1", "C1", "D1", "E1", "F1", "A2"))).job)  # fmt: skip


def test_warnings_of_a_zone_are_those_about_it() -> None:
    floor = Site(*ROOM, "product example standard", "zone kitchen columns A to C",
                 "zone hall column F", "finish in kitchen +4 mm", "A1 +9", "F1 +9", "D1 +9",
                 "door 1 left 0 right -9", "door 1 at F2")  # fmt: skip
    for zone, highs in (("kitchen", {"A1"}), ("hall", {"F1"}), ("rest", {"D1"})):
        about = zone_warnings(floor.job, zone)
        assert {warning_subject(one) for one in about if warning_kind(one) == "high-spot"} == highs
        kinds = {warning_kind(one) for one in about}
        assert ("zone-step" in kinds) is (zone != "hall"), zone
        assert ("door-across" in kinds) is (zone == "hall"), zone
        assert not kinds & {"points-missing", "points-skipped"}
    everywhere = {warning_kind(one) for one in all_warnings(floor.job)}
    assert "points-missing" in everywhere


def test_bags_of_each_product_with_the_zones_it_is_for() -> None:
    read = [f"{c}{r} -12" for c in "ABCDEF" for r in (1, 2, 3, 4)]
    floor = Site(*ROOM, "product example standard", "zone kitchen columns A to C",
                 "zone hall column F", "product in kitchen example deep fill", *read)  # fmt: skip
    orders = product_orders(floor.job, Decimal(50))
    assert [(order.product, order.zones) for order in orders] == [
        ("example deep fill", ("kitchen",)), ("example standard", ("hall", "rest"))
    ]  # fmt: skip
    # 12 mm on 48 m², and 5 %: 604.8 L by 14.512 and by 15 L
    assert [order.by_readings for order in orders] == [42, 41]
    assert [abs(order.bags - order.by_readings) <= 1 for order in orders] == [True, True]
    sure = product_orders(floor.job, Decimal("0.1"))
    assert all(more.bags >= order.bags for more, order in zip(sure, orders, strict=True))


def test_what_a_finish_is_set_from_and_how_far_it_moved() -> None:
    lines = (*ROOM, "A1 -18", "B1 -12")
    floor = Site(*lines, "finish 3 mm above highest")
    assert floor.job.finish_mm == -9
    assert finish_data(floor.job)["decided"] == {
        "by": "highest-point", "point": "B1", "over_mm": 3.0, "height_mm": -9.0,
        "moved_since_mm": 0.0,
    }  # fmt: skip
    floor.told("raise finish 2 mm", "C1 -10")
    assert moved_since_mm(floor.job) == 2
    assert source_moved_mm(floor.job) == 2  # the highest is 2 mm higher than then
    assert moved_since_mm(Site(*lines, "raise finish 2 mm").job) == 2
    assert source_moved_mm(Site(*lines, "finish +2 mm").job) == 0
    door = Site(*lines, "door 1 outside -5", "finish level with door 1")
    assert finish_data(door.job)["decided"]["by"] == "outside-door"
    door.told("door 1 outside -3")
    assert source_moved_mm(door.job) == 2
    assert finish_data(Site(*lines).job)["decided"] == {"by": "zero", "moved_since_mm": 0.0}


def test_the_depths_a_finished_floor_has_no_more() -> None:
    floor = Site(*ROOM, "product example standard", "A1 -25", "B1 +5", "at most 20 mm")
    kinds = {warning_kind(one) for one in all_warnings(floor.job)}
    assert {"high-spot", "over-own-most"} <= kinds
    assert [warning_subject(one) for one in own_limits_passed(floor.job, "most")] == ["A1"]
    assert own_limits_passed(floor.job, "least") == ()
    assert warnings_about(all_warnings(floor.job), "A1")
    assert {caution.id for caution in cautions_of(floor.job)}
    floor.told("pour finished")
    poured = being_read(floor.job)
    assert poured.slab is not None
    kinds = {warning_kind(one) for one in all_warnings(poured)}
    assert not kinds & {"high-spot", "over-own-most", "pin-spacing", "points-missing", "weight"}
