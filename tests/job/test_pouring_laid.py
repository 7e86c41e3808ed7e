"""What was poured, part by part: litres, depths and bags left over."""

from __future__ import annotations

import pytest

from assistant.floor.pour.litres import measured_yield
from tests.job.conftest import Site
from tests.job.pours_going_on import LEVEL, batches, pouring


def test_what_was_really_poured_part_by_part(site: type[Site]) -> None:
    """3 m with 12 bags instead of 10.08: 6 mm · 12 / 10.08 = 7.143 mm. Exact arithmetic."""
    floor = pouring(site)
    batches(floor, 6)
    floor.told("front at 3 metres")
    batches(floor, 15)
    floor.told("front at 12 metres", "bags left 2")
    reply = floor.told("pour finished")
    parts = reply.data["poured"]["parts"]
    assert [part["mean_depth_mm"] for part in parts] == pytest.approx(
        [7.143, 30 / 30.24 * 6], abs=0.001
    )
    assert [part["litres"] for part in parts] == pytest.approx([12 / 0.07, 30 / 0.07])
    assert reply.data["poured"]["bags_used"] == 42
    assert "2 bags left over, as counted." in reply.details
    assert reply.tables[-1].title == "Poured"


def test_water_makes_a_bag_larger_by_its_own_volume(site: type[Site]) -> None:
    """15 L at 5 L of water, 5 % of them waste: 5.2 L make 15.2 L. Exact arithmetic."""
    floor = pouring(site, "water 5.1 litres a bag", "batch 5.2 litres a bag")
    batches(floor, 4)
    parts = floor.told("front at 3 metres", "stop pour").data["poured"]["parts"]
    assert parts[0]["litres"] == pytest.approx((2 * 15.2 + 8 * 15.1) / 1.05)
    assert parts[0]["mean_depth_mm"] == pytest.approx((2 * 15.2 + 8 * 15.1) / 1.05 / 24)


def test_what_lies_beyond_a_strip_is_laid_in_the_next(site: type[Site]) -> None:
    """Of 12 bags for 10.08 the strip has between 10 and 12; none of them is counted twice."""
    floor = pouring(site)
    batches(floor, 6)
    floor.told("strip 1 done")
    batches(floor, 4)
    parts = floor.told("front at 6 metres", "stop pour").data["poured"]["parts"]
    litres = [part["litres"] for part in parts]
    assert 10 / 0.07 < litres[0] < 12 / 0.07
    assert sum(litres) == pytest.approx(20 / 0.07)
    assert [part["bags_used"] for part in parts] == [12, 8]


def test_depths_go_by_the_two_surveys_once_they_tell_what_a_bag_came_to(site: type[Site]) -> None:
    """96 m² laid 6 mm deep are 576 L, of 48 bags that should have made 685.7 L: 84 %."""
    lines = ["minus 6 mm"] * 24
    floor = site("room 12 by 8 metres", "grid 2 metres", "product example standard", *lines,
                 *LEVEL[9:], "start pour anyway because this is a test")  # fmt: skip
    for at in ("3", "6", "9"):
        floor.told("batch 12 bags", f"front at {at} metres")
        floor.wait(9)
    floor.told("batch 12 bags", "pour finished", *(["level"] * 24))
    reply = floor.told("how goes the pour")
    assert any("came to 84 % of its yield" in line for line in reply.details)
    assert [row[4] for row in reply.tables[0].rows] == ["6 mm"] * 4


def test_what_a_bag_came_to_is_not_told_where_some_were_lost_or_are_of_another(
    site: type[Site],
) -> None:
    lines = ["minus 6 mm"] * 24
    kitchen = ("zone kitchen columns A to C", "product in kitchen example deep fill")
    for more, told, known in (((), (), True), ((), ("hole",), False), (kitchen, (), False)):
        floor = site("room 12 by 8 metres", "grid 2 metres", "product example standard", *lines,
                     *more, *LEVEL[9:], "start pour anyway because this is a test",
                     "batch 20 bags", "front at 5 metres", *told, "batch 20 bags",
                     "pour finished", *(["level"] * 24))  # fmt: skip
        assert (measured_yield(floor.job) is not None) is known, (more, told)
        assert "its yield" in str(floor.told("how goes the pour").details) or not known


def test_bags_that_are_there_are_left_over_only_at_the_end(site: type[Site]) -> None:
    floor = pouring(site, "batch 4 bags", "bags left 37")
    assert "37 bags there, as counted." in floor.told("stop pour").details
    assert "37 bags left over, as counted." in floor.told("pour finished").details
