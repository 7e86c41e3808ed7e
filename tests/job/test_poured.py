"""Poured against planned: the second survey less the first, exactly, with what is known of it."""

from __future__ import annotations

from collections.abc import Callable
from itertools import product

import pytest

from assistant.floor.pour.parts import plan_known
from assistant.floor.pour.poured_depths import poured_of
from tests.job.conftest import Site
from tests.there import there

ROOM = ("room 8 by 6 metres", "grid 2 metres", "product example standard")
SLAB = (-18, -16, -17, -15, -14, -16, -18, -19, -17, -15, -16, -18)
READ = tuple(f"{mm:+} mm" for mm in SLAB)
# In walking order, to and fro: A1 B1 C1 D1 D2 C2 B2 A2 A3 B3 C3 D3.
FINISHED = (0, 1, -1, 0, 0, 1, 0, -1, 0, 0, -1, 1)
AFTER = tuple("level" if not mm else f"{mm:+} mm" for mm in FINISHED)


def poured(site: type[Site], *more: str) -> Site:
    return site(*ROOM, *more, *READ, "start pour", "batch 17 bags", "batch 18 bags",
                "batch 18 bags", "pour finished", *AFTER)  # fmt: skip


def test_the_depth_laid_is_the_second_survey_less_the_first(site: type[Site]) -> None:
    floor = poured(site)
    reply = floor.told("poured against planned")
    points = {each["point"]: each for each in floor.data["poured"]["points"]}
    names = ("A1", "B1", "C1", "D1", "D2", "C2", "B2", "A2", "A3", "B3", "C3", "D3")
    for name, before, after in zip(names, SLAB, FINISHED, strict=True):
        assert points[name]["planned_mm"] == -before  # the finish is the zero
        assert points[name]["laid_mm"] == after - before
        assert points[name]["against_finish_mm"] == after
    # Two readings of one kind: the root of two times one's deviation (exact arithmetic).
    one = there(floor.job.survey).resolution_mm
    assert one == 1
    assert points["A1"]["sd_mm"] == pytest.approx(2**0.5 * _sd(floor))
    assert reply.headline == "Poured 16.6 mm deep in the mean; planned 16.6 mm, at 12 points."
    assert floor.data["poured"]["bags_used"] == 53


def _sd(floor: Site) -> float:
    from assistant.floor.heights import reading_sd_mm

    return reading_sd_mm(floor.job)


def test_the_litres_hold_what_was_laid_everywhere_alike(site: type[Site]) -> None:
    """Ten millimetres on a flat floor of 48 m² are 480 litres (exact arithmetic)."""
    lines = ["minus 10 mm"] * 12
    floor = site(*ROOM, *lines, "pour finished", *(["level"] * 12), "poured against planned")
    told = floor.data["poured"]
    low, middle, high = told["litres_survey"]
    assert middle == pytest.approx(480, abs=1)
    assert told["mean_mm"] == pytest.approx(10, abs=0.05)
    assert there(poured_of(floor.job)).planned_mean_mm == pytest.approx(10, abs=0.005)
    # A millimetre of zero on 48 m² is 48 litres, and one look at it is no surer than a reading.
    assert high - middle == pytest.approx(middle - low, rel=0.2)
    assert 1.9 * 48 * _sd(floor) < middle - low < 3.5 * 48 * _sd(floor)


def test_a_few_points_at_the_plan_tell_of_a_floor_that_is_as_planned(site: type[Site]) -> None:
    """A row of points at the finish: what was laid is what the slab says was planned."""
    begun = (*ROOM, *READ, *["batch 18 bags"] * 3, "pour finished")
    for read in (1, 3, 4, 8):
        floor = site(*begun, *["level"] * read, "poured against planned")
        found, told = there(poured_of(floor.job)), floor.data["poured"]
        assert told["mean_mm"] == pytest.approx(found.planned_mean_mm, abs=0.02), read
        assert told["mean_mm"] == pytest.approx(16.6, abs=0.1), read
    # Two millimetres above it everywhere are two more, 96 litres over 48 m².
    floor = site(*begun, *["+2 mm"] * 8, "poured against planned")
    assert floor.data["poured"]["mean_mm"] - found.planned_mean_mm == pytest.approx(2, abs=0.02)


def test_what_a_bag_came_to_is_held_against_its_card(site: type[Site]) -> None:
    floor = poured(site)
    told = floor.told("poured against planned")
    assert any("53 bags used" in each and "lies within" in each for each in told.details)
    few = site(*ROOM, *READ, *["batch 20 bags"] * 6, "pour finished", *AFTER)
    told = few.told("poured against planned")
    assert any("less than the card's 15 L" in each for each in told.details)


def test_where_it_flowed_is_named_with_strips_and_zones(site: type[Site]) -> None:
    floor = site(*ROOM, *READ, "zone kitchen columns A to B", "pour finished",
                 *AFTER[:-1], "plus 9 mm")  # fmt: skip
    told = floor.told("poured against planned")
    assert any(each.startswith("More than planned at D3 (9 mm)") for each in told.details)
    zones = {part["name"]: part for part in floor.data["poured"]["zones"]}
    assert zones["kitchen"]["points"] == 6
    assert zones["kitchen"]["planned_mm"] == pytest.approx((18 + 16 + 18 + 19 + 17 + 15) / 6)
    assert zones["rest"]["points"] == 6


def test_strips_have_each_of_their_points_once(site: type[Site]) -> None:
    """Those that lie in it, from whichever side the pour comes: four columns and three rows."""
    pace = ("crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6")
    for begin in ("column A", "column D", "row 1", "row 3"):
        floor = poured(site, *pace, f"start at {begin}")
        found = there(poured_of(floor.job))
        assert len(found.strips) > 1, begin
        assert sum(part.points for part in found.strips) == 12, begin
        laid = sum(part.points * part.laid_mm for part in found.strips)
        assert laid == pytest.approx(sum(float(each.laid_mm) for each in found.points)), begin
        # Each strip holds whole columns, or whole rows, and those nearest to the start first.
        letters = "column" in begin
        order = sorted(
            found.points,
            key=lambda each: each.name[0] if letters else each.name[1],
            reverse=begin in ("column D", "row 3"),
        )
        for part in found.strips:
            assert part.points % (3 if letters else 4) == 0, begin
            own, order = order[: part.points], order[part.points :]
            mean = sum(float(each.laid_mm) for each in own) / len(own)
            assert part.laid_mm == pytest.approx(mean), (begin, part.name)


def test_a_point_is_in_the_strip_that_it_was_poured_in(site: type[Site]) -> None:
    """Points at 1, 3, 5 and 7 m by 1, 3 and 5 m; one that lies on a cut is in the first strip."""
    crew = ("crew 3", "mixers 2", "batches of 2 bags", "minutes per batch 6")
    ways: dict[str, Callable[[float, float], float]] = {
        "start at column A": lambda x, _y: x, "start at column D": lambda x, _y: 8 - x,
        "start at row 1": lambda _x, y: y, "start at row 3": lambda _x, y: 6 - y,
    }  # fmt: skip
    kitchen = ("zone kitchen column A", "product in kitchen example deep fill")
    for start, parted, side in (
        ("start at column A", (), None), ("start at column D", ("dam at 3 metres",), None),
        ("start at row 1", (), None), ("start at row 3", ("dam at column B",), 0),
        ("start at column D", ("dam at row 2",), 1), ("start at column A", kitchen, None),
    ):  # fmt: skip
        floor, along = poured(site, *crew, start, *parted), ways[start]
        plan = there(plan_known(floor.job))
        counted = {int(part.name): part.points for part in there(poured_of(floor.job)).strips}
        expected: dict[int, int] = {}
        for at in product((1, 3, 5, 7), (1, 3, 5)):
            for strip in plan.strips:
                # Dams lie at 3 m; a bay beside one begins at the wall or at it.
                begins = 0.0 if side is None else plan.floor[strip.bay - 1].shape.bounds[side]
                beside = side is None or at[side] == 3 or (at[side] > 3) == (begins > 1)
                if beside and strip.from_m - 1e-6 <= along(*at) <= strip.to_m + 1e-6:
                    expected[strip.number] = expected.get(strip.number, 0) + 1
                    break
        assert counted == expected, (start, parted)


def test_a_finish_that_is_not_the_zero_is_what_was_planned(site: type[Site]) -> None:
    floor = site(*ROOM, "finish 4 mm above zero", *READ, "pour finished", "A1 +3")
    floor.told("poured against planned")
    (only,) = floor.data["poured"]["points"]
    assert (only["planned_mm"], only["laid_mm"], only["against_finish_mm"]) == (22, 21, -1)
    assert floor.data["poured"]["litres_survey"][0] is None


def test_before_there_is_anything_to_compare_it_says_what_would_be(site: type[Site]) -> None:
    assert "not poured on record" in site(*ROOM, "A1 -18").refused("poured against planned")
    assert "both before and after" in site(*ROOM, *READ, "pour finished").refused(
        "poured against planned"
    )
    inches = site("readings in inches", "room 24 by 18 ft", "grid 6 ft", "A1 minus 3/4",
                  "pour finished", "A1 plus 1/16")  # fmt: skip
    assert inches.told("poured against planned").headline.startswith("Poured 13/16 in deep")
