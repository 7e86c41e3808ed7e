"""Rules of the floor one by one: warnings, wishes and depths laid. Exact arithmetic."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from types import SimpleNamespace
from typing import Any

import pytest

from assistant.floor.constraints import wanted_of, wish_words
from assistant.floor.depths import depths_of
from assistant.floor.finish_source import doorway_mm
from assistant.floor.places import (
    places_of,
)
from assistant.floor.pour.plan import plan_of, while_unchanged
from assistant.floor.pour.poured_depths import (
    Poured,
    _is_in,
    _laid_as_job,
    _litres,
    _zero_sd_mm,
    poured_of,
)
from assistant.floor.pour.stock import ratio_of_rest
from assistant.floor.warnings import (
    all_warnings,
    door_matters,
    door_sizes,
    over_depth,
    warning_kind,
    warnings_about,
)
from assistant.job import Job, being_read, finished_floor
from assistant.levels.constraints import Constraint
from assistant.reply.replies import LimitWarning
from tests.floor.plans import LEVEL, ONE_BAY
from tests.job.conftest import Site
from tests.there import there

FLOOR = ("room 12 by 8 metres", "grid 2 metres")
PRODUCT = "product example standard"
POINTS = [f"{c}{r}" for r in (1, 4) for c in "ABCDEF"]
EVEN = tuple(f"{name} -12" for name in POINTS)


# --- warnings ----------------------------------------------------------------------------------


def test_warnings_are_found_by_kind_and_by_what_they_are_about() -> None:
    all_of_them = tuple(
        LimitWarning(id, "note", "so") for id in ("weight", "high-spot:B3", "crack:1")
    )
    for subjects, ids in (
        (("B3",), ["high-spot:B3"]), (("weight",), ["weight"]), (("high-spot",), ["high-spot:B3"]),
        (("crack", "weight"), ["weight", "crack:1"]), (("A1",), []), ((), []),
    ):  # fmt: skip
        assert [each.id for each in warnings_about(all_of_them, *subjects)] == ids, subjects


def test_sizes_at_a_door() -> None:
    for lines, across, low, step, outside in (
        (("door 1 left -4 right -9",), 5, "right", None, None),
        (("door 1 left -9 right -4",), 5, "left", None, None),
        (("door 1 left -4 right -4",), 0, None, None, None),
        (("door 1 outside +6",), None, None, 6, "higher"),
        (("door 1 outside -6",), None, None, 6, "lower"),
        (("door 1 outside 0",), None, None, 0, None),
        (("door 1 outside +6", "covering 8 mm"), None, None, 2, "lower"),
        (("A1 -9", "new set up", "door 1 outside +6"), None, None, None, None),
    ):  # fmt: skip
        job = Site(*FLOOR, *lines).job
        found = door_sizes(job, job.doors[1])
        assert (found.across_mm, found.low_side) == (across, low), lines
        assert (found.step_mm, found.outside_is) == (step, outside), lines


def test_what_a_leaf_clears() -> None:
    """Its clearance over the slab, less what is poured between the jambs, and the covering."""
    lines = (*FLOOR, "door 1 left -14 right -10", "door 1 clearance 20 mm")
    for more, clear in (((), 20 - 12), (("covering 8 mm",), 0), (("finish +4 mm",), 4)):
        job = Site(*lines, *more).job
        assert door_sizes(job, job.doors[1]).clear_mm == clear, more
    unread = Site(*FLOOR, "door 1 clearance 20 mm").job
    assert door_sizes(unread, unread.doors[1]).clear_mm is None
    half = Site(
        *FLOOR, "A1 -9", "new set up", "door 1 left -14 right -10", "door 1 clearance 20 mm"
    ).job
    assert door_sizes(half, half.doors[1]).clear_mm is None
    assert doorway_mm(half, 1) is None


def test_matters_of_one_door_are_its_own() -> None:
    job = Site(*FLOOR, "door 1 left 0 right -30", "door 12 left 0 right -30").job
    assert {each.id for each in door_matters(job)} == {"door-across:1", "door-across:12"}
    assert {each.id for each in door_matters(job, 1)} == {"door-across:1"}
    assert door_matters(job, 2) == ()
    step = Site(*FLOOR, "door 1 outside +30").job
    assert {each.id for each in door_matters(step)} == {"door-step:1"}


def test_how_the_map_marks_a_depth() -> None:
    card = Site(*FLOOR, PRODUCT).job.card  # 3 to 30 mm
    for depth, mark in ((-1, "high"), (2, "shallow"), (3, ""), (30, ""), (31, "deep")):
        assert over_depth(card, Fraction(depth), Fraction(0)) == mark, depth


def test_warnings_before_and_after_the_pour() -> None:
    lines = (*FLOOR, PRODUCT, "A1 -45", "skip B1 because pallets")

    def kinds(job: Job) -> set[str]:
        return {warning_kind(warning) for warning in all_warnings(job)}

    told = {"points-missing", "points-skipped", "over-maximum"}
    assert told <= kinds(Site(*lines).job)
    assert not told & kinds(being_read(Site(*lines, "pour finished").job))
    wide = Site("room 40 by 40 metres", "grid 12 metres", PRODUCT)
    assert "pin-spacing" in kinds(wide.job)
    roomless = Site(*FLOOR, PRODUCT, "wall east 5 metres")
    assert "pin-spacing" not in kinds(roomless.job)
    empty = Site(*FLOOR, PRODUCT)
    assert "points-missing" not in kinds(empty.job)


# --- wishes ------------------------------------------------------------------------------------


def test_a_door_wants_the_bare_finish_lower_by_the_covering() -> None:
    lines = (*FLOOR, PRODUCT, "A1 -18", "door 1 outside -5", "door 1 at A1")
    for more, bare in (((), -5), (("covering 8 mm",), -13)):
        (door,) = wanted_of(Site(*lines, *more).job, level=True).held
        assert (door.lowest_m + door.highest_m) / 2 == pytest.approx(bare / 1000), more
        assert door.highest_m - door.lowest_m == pytest.approx(2 * 0.0064)
    nowhere = Site("door 1 outside -5", "door 1 at Z9", *FLOOR, PRODUCT, "A1 -18").job
    (door,) = wanted_of(nowhere, level=True).held
    assert door.place_m == (0.0, 0.0)


def test_wishes_of_deep_products_are_told_to_the_tenth() -> None:
    """Example deep fill: 10 to 60 mm."""
    job = Site(*FLOOR, "product example deep fill", "A1 -18").job
    wanted = wanted_of(job, level=True)
    assert wish_words(job, wanted, Constraint("minimum", 0)) == "A1 wants 10 mm of material"
    assert wish_words(job, wanted, Constraint("maximum", 0)) == "A1 takes 60 mm at most"
    fine = replace(wanted, min_m=0.1, max_m=0.5)
    assert wish_words(job, fine, Constraint("minimum", 0)) == "A1 wants 100 mm of material"
    assert wish_words(job, fine, Constraint("maximum", 0)) == "A1 takes 500 mm at most"


# --- what was laid -----------------------------------------------------------------------------

LAID = (*FLOOR, *EVEN, "pour finished", *(f"{name} +{n % 2}" for n, name in enumerate(POINTS)))


def test_what_was_laid_is_a_floor_so_deep_and_twice_as_unsure() -> None:
    job = Site(*LAID).job
    after = there(finished_floor(job))
    found: Poured = there(poured_of(job))
    laid = _laid_as_job(after, found.points)
    depths = depths_of(laid)
    assert {depths["A1"], depths["B1"]} == {12, 13}
    assert laid.finish_mm == 0
    for name in ("resolution_mm", "repeatability_mm"):
        assert float(getattr(laid.survey, name)) == pytest.approx(2**0.5)
    litres = there(found.litres)
    assert litres[1] == pytest.approx(12.5 * 96, rel=1e-2)
    assert found.mean_mm == pytest.approx(litres[1] / 96)
    assert found.planned_mean_mm == pytest.approx(12, abs=0.02)
    assert [point.sd_mm for point in found.points[:2]] == pytest.approx([(2 * 13 / 12) ** 0.5] * 2)
    assert there(found.litres_by_triangles) == pytest.approx(12.5 * 96, rel=0.02)
    common = 1.96 * 96 * (13 / 12) ** 0.5
    assert litres[2] - litres[1] > common
    assert _zero_sd_mm(job) == 0


def test_too_few_points_are_laid_as_triangles_have_it() -> None:
    few = Site(*FLOOR, "A1 -12", "B1 -12", "pour finished", "A1 level", "B1 +2").job
    found = there(poured_of(few))
    assert found.litres is None
    by_triangles = there(found.litres_by_triangles)
    assert found.mean_mm == pytest.approx(by_triangles / 96)
    assert found.planned_mean_mm == 12
    bare = there(poured_of(Site("A1 -12", "B1 -12", "pour finished", "A1 level", "B1 +2").job))
    assert (bare.litres, bare.litres_by_triangles, bare.bag_l) == (None, None, None)
    assert bare.mean_mm == 13
    assert [each.name for each in bare.points] == ["A1", "B1"]
    assert poured_of(Site(*FLOOR, "A1 -12", "pour finished", "B1 level").job) is None
    assert poured_of(Site(*FLOOR, "A1 -12").job) is None
    # above the slab's own finish it is taken off again
    ground = there(poured_of(Site(*FLOOR, "A1 -12", "pour finished", "A1 -20").job))
    assert ground.litres_by_triangles == pytest.approx(-8 * 96)
    made = there(poured_of(Site(*FLOOR, PRODUCT, "A1 -12", "pour finished", "A1 level").job))
    assert made.bag_l == pytest.approx(15)


def test_points_are_of_the_strip_that_they_lie_in_from_either_end() -> None:
    """Four strips of 3 m: a place on a cut is in both."""
    for start, strips in (
        ("start at column A", {"A1": [1], "B1": [1, 2], "B4": [1, 2], "C1": [2], "F1": [4]}),
        ("start at column F", {"A1": [4], "E1": [1, 2], "F1": [1], "D1": [2], "C1": [3]}),
    ):
        job = Site(*LEVEL[:-1], start).job
        plan = plan_of(job)
        places = places_of(job.layout)
        for point, numbers in strips.items():
            at_m = places.xy(point)
            found = [each.number for each in plan.strips if _is_in(plan, each, at_m)]
            assert found == numbers, (start, point)
    plan = plan_of(Site(*LEVEL).job)
    for along, numbers in ((0, [1]), (3, [1, 2]), (3.1, [2]), (12, [4]), (-0.1, []), (12.1, [])):
        found = [each.number for each in plan.strips if _is_in(plan, each, (along, 1))]
        assert found == numbers, along


def test_the_least_that_was_laid_is_nothing() -> None:
    job = Site(*FLOOR, *(f"{name} -1" for name in POINTS), "pour finished",
               *(f"{name} -1" for name in POINTS)).job  # fmt: skip
    after = there(finished_floor(job))
    found = there(poured_of(job))
    low, middle, high = there(_litres(job, after, _laid_as_job(after, found.points)))
    assert low == 0
    assert 0 <= middle < high


# --- kept while nothing changes ------------------------------------------------------------------


def test_what_was_worked_out_is_kept_until_what_it_comes_from_changes() -> None:
    job, calls = Site(*FLOOR, "A1 -9").job, []

    def work_out() -> int:
        calls.append(1)
        return len(calls)

    assert [while_unchanged(job, "a test's", work_out) for _ in range(3)] == [1, 1, 1]
    raised = replace(job, finish_mm=Fraction(3))
    assert [while_unchanged(raised, "a test's", work_out) for _ in range(2)] == [2, 2]
    assert while_unchanged(job, "a test's", work_out) == 3


def test_what_one_planned_bag_comes_to_with_a_little_left() -> None:
    seen: Any = SimpleNamespace(ratio=0.9)
    part: Any = SimpleNamespace(planned_bags=10.0)
    for bags, ratio in ((10.5, 0.9), (10.0, 1.0), (9.0, 1.0)):
        assert ratio_of_rest(seen, (part,), bags - 10.0) == ratio, bags
    assert ONE_BAY.bags == 16
