"""
The least change that keeps edges wet.

On a floor 8 m broad and 60 mm deep the narrowest strip, half a metre, takes 16.8 bags of 100/7 L,
and an edge waits 17 minutes: 59.3 bags an hour keep it wet. Exact arithmetic.
"""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from assistant.floor.pour import edge_saved
from assistant.floor.pour.edge_saved import Saving, savings_of
from assistant.floor.pour.plan import plan_of
from tests.job.conftest import Site

DEEP = ("room 4 by 8 metres", "grid 2 metres", "product example standard", "A1 -60")
MIXERS = ("mixers 2", "batches of 2 bags", "start at column A")


def saved(*lines: str) -> dict[str, float]:
    return {saving.kind: saving.size for saving in savings_of(Site(*DEEP, *lines).job)}


def test_the_least_faster_pump_that_does() -> None:
    for bags, needed in (
        (54, 59.4), (50, 60), (44, 59.4), (40, 60), (34, 59.5), (30, 60), (24, 60), (20, 60),
        (15, 60), (14, None), (59, 64.9), (60, None),
    ):  # fmt: skip
        found = saved(f"pump {bags} bags per hour", "start at column A").get("pump")
        assert found == (None if needed is None else pytest.approx(needed)), bags


def test_the_fewest_more_mixers_that_do_and_never_more_than_eight() -> None:
    """A mixer makes 2 bags in so many minutes: 0.988 bags a minute take as many over 2.02."""
    for minutes, mixers in ((5, 3), (6, 3), (7, 4), (14, 7), (16, 8), (17, None)):
        found = saved(*MIXERS, f"minutes per batch {minutes}")
        assert found.get("mixers") == mixers, minutes
        assert "pump" not in found


def test_bays_that_make_the_front_short_enough_up_to_six() -> None:
    """An edge's 16.8 bags at 20 an hour take 50.4 minutes: a third of it is in time."""
    for bags, bays in ((40, 2), (30, 2), (29, 3), (20, 3), (15, 4), (12, 5), (10, 6), (9, None)):
        found = saved(f"pump {bags} bags per hour", "start at column A")
        assert found.get("bays") == bays, bags


def test_a_bay_is_no_narrower_than_the_narrowest_strip() -> None:
    """A passage of 1 m can be parted in two, one of 0.9 m cannot."""
    for breadth, bays in (("1", 2), ("0.9", None)):
        floor = Site(f"room 12 by {breadth} metres", "grid 2 metres starting 0.4 metres",
                     *DEEP[2:], "start at column A", "pump 4 bags per hour")  # fmt: skip
        found = {saving.kind: saving.size for saving in savings_of(floor.job)}
        assert found.get("bays") == bays, breadth


def test_a_dam_at_each_edge_that_is_lost() -> None:
    floor = Site(*DEEP, "pump 20 bags per hour", "start at column A")
    assert saved("pump 20 bags per hour", "start at column A")["days"] == 7
    assert len(plan_of(floor.job).lost) == 7


def test_nothing_is_saved_where_nothing_is_lost() -> None:
    assert savings_of(Site(*DEEP, "pump 60 bags per hour", "start at column A").job) == ()
    assert savings_of(Site(*DEEP).job) == ()


def test_a_small_room_is_one_strip_where_batches_come_too_seldom_for_two() -> None:
    """1 by 2 m, 10 mm deep, is 1.4 bags; a batch takes 20 minutes, and an edge waits 17."""
    lines = ("room 1 by 2 metres", "grid 0.5 metres", "product example standard", "A1 -10",
             "mixers 1", "batches of 2 bags", "minutes per batch 20",
             "start at column A")  # fmt: skip
    floor = Site(*lines, "strips 0.5 metres wide")
    found = {saving.kind: saving.size for saving in savings_of(floor.job)}
    assert found == {"wider": pytest.approx(1.0), "mixers": 2, "days": 1}
    assert "strips 1 m wide" in floor.told("plan").details[0]
    assert savings_of(Site(*lines).job) == ()
    # wider strips than those that lose an edge by themselves save none
    assert "wider" not in saved(
        "strips 1 metres wide", "pump 20 bags per hour", "start at column A"
    )


def test_of_wider_strips_the_widest_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    strips = [SimpleNamespace(from_m=near, to_m=far) for near, far in ((0, 1), (1, 2.5), (2.5, 3))]
    wider = SimpleNamespace(lost=(), strips=strips)
    monkeypatch.setattr(edge_saved, "planned", lambda *_, **__: wider)
    job = Site(*DEEP, *MIXERS, "minutes per batch 5", "strips 0.5 metres wide").job
    assert edge_saved._wider(job) == Saving("wider", 1.5)
    wider.lost = (1,)
    assert edge_saved._wider(job) is None
