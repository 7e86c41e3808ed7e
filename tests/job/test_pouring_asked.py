"""While it is poured: what cannot well be so is asked about, and the answer decides."""

from __future__ import annotations

import pytest

from assistant.decide.questions import YesOrNo
from assistant.floor.pour.progress import progress_of
from tests.job.conftest import Site
from tests.job.pours_going_on import batches, pour, pouring


def test_a_hole_is_asked_about_and_the_answer_decides(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 5)
    floor.told("front at 3 metres")
    assert pour(floor)["asks"] is None
    batches(floor, 7)
    reply = floor.told("front at 6 metres")
    assert pour(floor)["asks"] == "hole"
    assert "Did it go down a hole?" in reply.say
    holed = floor.told("hole").data["pour"]
    assert holed["asks"] is None
    floor.told("take that back")
    deep = floor.told("no hole").data["pour"]
    assert deep["asks"] is None
    # the rest as planned, or deep as well
    assert holed["forecast_bags"][1] == pytest.approx(44.3, abs=0.5)
    assert deep["forecast_bags"][1] > holed["forecast_bags"][1] + 1
    assert deep["short_probability"] > holed["short_probability"]


def test_where_a_front_would_decide_it_is_asked_for(site: type[Site]) -> None:
    """Strips called done leave open how far the last batch came; a front read there says so, and is
    one part with the strip: 12 bags to 3 m are 19 % more than planned, to 3.55 m they are none."""
    floor = pouring(site, "bags left 40")
    batches(floor, 5)
    floor.told("strip 1 done")
    assert not pour(floor)["front_asked"]
    batches(floor, 6)
    reply = floor.told("strip 2 done")
    assert pour(floor)["front_asked"]
    assert "Front at?" in reply.say
    before = pour(floor)["short_probability"]
    assert 0.7 < before < 0.97
    floor.told("front at 6.55 metres")
    assert not pour(floor)["front_asked"]
    assert pour(floor)["short_probability"] < before - 0.1
    last = progress_of(floor.job).parts[-1]
    assert (last.from_m, last.to_m, last.used_bags) == (3, 6.55, 12)
    assert last.planned_bags == pytest.approx(3.55 * 3.36)
    floor.told("take that back", "front at 6.05 metres")
    assert pour(floor)["short_probability"] > before


def test_a_batch_told_twice_in_seconds_is_asked_about(site: type[Site]) -> None:
    floor = pouring(site)
    floor.wait(3)
    floor.told("batch")
    floor.wait(0.1)
    asked = floor.asked("batch")
    assert isinstance(asked, YesOrNo)
    assert "6 seconds" in asked.text
    floor.wait(1)
    floor.told("batch")
    assert progress_of(floor.job).used == 4


def test_a_pour_that_ends_with_far_too_few_bags_is_asked_about(site: type[Site]) -> None:
    """12 bags for the 30.24 after the first strip: the rest of the floor is still bare."""
    for bags, asked in ((6, True), (14, False)):
        floor = pouring(site)
        batches(floor, 5)
        floor.told("front at 3 metres")
        batches(floor, bags)
        lines = floor.told("pour finished").details
        assert any("is all of it poured?" in line for line in lines) is asked, bags


def test_far_less_than_planned_asks_for_a_batch_that_was_not_told(site: type[Site]) -> None:
    floor = pouring(site)
    batches(floor, 5)
    reply = floor.told("front at 3 metres")
    assert "was a batch not told" not in " ".join(reply.details)
    batches(floor, 3)
    reply = floor.told("front at 6 metres")
    assert "was a batch not told? Batch tells it now." in " ".join(reply.details)
    assert "was a batch not told?" in reply.say
    assert pour(floor)["asks"] is None
    # a strip that is a bag short of its plan lacks no batch of two
    floor = pouring(site)
    batches(floor, 5)
    floor.told("front at 2.6 metres")
    batches(floor, 1)
    floor.told("strip 1 done")
    assert "was a batch not told" not in " ".join(floor.reply.details)


def test_a_point_beyond_the_front_of_a_pour_that_stands_still_is_asked_about(
    site: type[Site],
) -> None:
    """F1 lies at 11 m, C2 at 5 m; the front was reported at 6 m."""
    floor = pouring(site)
    batches(floor, 10)
    floor.told("front at 6 metres", "stop pour")
    floor.told("A1 +1", "C2 level")
    asked = floor.asked("F1 -1")
    assert isinstance(asked, YesOrNo)
    assert "F1 lies 5 m beyond the front" in asked.text
    assert "5 m beyond" in floor.asked("F1 minus 1, 2, 1").text
    floor.told("F1 -1")  # confirmed
    assert set(floor.job.finished.readings) == {"A1", "C2", "F1"}  # type: ignore[union-attr]
    floor.told("pour on")
    batches(floor, 10)
    floor.told("pour finished", "F4 level")
    # without a plan nobody knows where the front stands
    bare = site("A1 -6", "batch 2 bags", "stop pour", "A1 level")
    assert set(bare.job.finished.readings) == {"A1"}  # type: ignore[union-attr]


def test_a_strip_out_of_order_or_a_front_too_far_is_asked_about(site: type[Site]) -> None:
    """Four batches are 8 bags, where 30.24 are planned for three strips."""
    floor = pouring(site)
    batches(floor, 4)
    for line in ("strip 3 done", "front at 9 metres"):
        asked = floor.asked(line)
        assert isinstance(asked, YesOrNo)
        assert "8 bags since the last front, of 30.2 planned up to 9 m" in asked.text
    floor.told("strip 1 done")
    assert "0 bags since the last front" in floor.asked("strip 2 done").text
    # a small floor that takes a bag less than planned is not
    near = pouring(site, "batch 2 bags")
    near.told("front at 1.5 metres")
    assert near.job.pour.fronts


def test_a_count_that_the_last_one_does_not_leave_is_told(site: type[Site]) -> None:
    floor = pouring(site, "bags left 41")
    batches(floor, 4)
    assert "last count" not in " ".join(floor.told("bags left 33").details)
    assert "27 bags more than the last count" in " ".join(floor.told("bags left 60").details)
    batches(floor, 1)
    assert "1 bag fewer than the last count" in " ".join(floor.told("bags left 57").details)


def test_another_product_while_it_is_poured_is_asked_about(site: type[Site]) -> None:
    floor = pouring(site)
    assert floor.job.card is not None
    floor.told("product example standard")
    batches(floor, 4)
    asked = floor.asked("product example deep fill")
    assert isinstance(asked, YesOrNo)
    assert "8 bags of example standard are poured" in asked.text
    floor.told("product example standard")  # the same again changes nothing
