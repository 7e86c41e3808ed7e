"""What if: the difference, with nothing recorded."""

from __future__ import annotations

import pytest

from tests.job.conftest import Site

FLOOR = (
    "room 6 by 4 metres", "grid 2 metres", "product example standard",
    "A1 -8", "B1 -6", "C1 -6", "A2 -4", "B2 -2", "C2 -4",
)  # fmt: skip


def test_a_finish_raised_in_thought(site: type[Site]) -> None:
    floor = site(*FLOOR)
    before = floor.job
    reply = floor.told("what if raise finish 3 millimetres")
    assert floor.job is before
    tallies = reply.data["before"], reply.data["after"]
    # 24 m² by 3 mm is 72 L more (exact arithmetic)
    assert tallies[1]["volume_m3"] - tallies[0]["volume_m3"] == pytest.approx(0.072)
    assert tallies[1]["depth_mm"]["mean"] - tallies[0]["depth_mm"]["mean"] == pytest.approx(3)
    assert reply.data["warnings_gone"] == ["under-minimum:B2"]
    assert reply.headline.startswith("raise finish 3 mm: mean depth 5 mm to 8 mm, bags")
    assert "Nothing is recorded." in reply.details


def test_warnings_that_would_come(site: type[Site]) -> None:
    floor = site(*FLOOR)
    reply = floor.told("what if raise finish 23 mm")
    assert set(reply.data["warnings_come"]) == {"over-maximum:A1", "weight"}
    assert [warning.id for warning in reply.warnings] == reply.data["warnings_come"]
    assert "Over the product's maximum." in reply.say


@pytest.mark.parametrize(
    ("line", "key", "then"),
    [
        ("what if B1 minus 25", "depth_mm", 25),
        ("what if correct A1 to minus 30", "depth_mm", 30),
        ("what if strike A1", "depth_mm", 6),
        ("what if take that back", "points", 5),
        ("what if waste 10 percent", "waste_percent", 10),
        ("what if product example gypsum", "product", "example gypsum"),
        ("what if room 5 by 4 metres", "area_m2", 20),
        ("what if aggregate 50 percent", "aggregate_percent", 50),
    ],
)
def test_anything_that_changes_the_job_may_be_tried(
    site: type[Site], line: str, key: str, then: int | str
) -> None:
    floor = site(*FLOOR)
    after = floor.told(line).data["after"]
    value = after["depth_mm"]["max"] if key == "depth_mm" else after[key]
    assert value == (pytest.approx(then) if isinstance(then, int) else then)
    assert len(floor.job.history) == len(FLOOR)


def test_what_is_never_asked_about_first(site: type[Site]) -> None:
    assert site(*FLOOR).at_once("what if grid 1 metre").data["after"]["points"] == 6


def test_what_cannot_be_done_cannot_be_tried(site: type[Site]) -> None:
    assert "no card" in site(*FLOOR).refused("what if product harbour grade")
    assert "has no reading" in site(*FLOOR[:4]).refused("what if strike B2")


def test_nothing_would_change(site: type[Site]) -> None:
    reply = site(*FLOOR).told("what if A1 minus 8")
    assert reply.headline.endswith("nothing in the tally would change.")
    assert reply.say == "Nothing would change."
