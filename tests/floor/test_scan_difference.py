"""What was laid by a scan of the slab and one of the finished floor. Exact arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

import numpy as np
import pytest

from assistant.answers import answer
from assistant.decide import World, decide
from assistant.errors import Refusal
from assistant.events.flatness import ScanImported
from assistant.flatness.cells import CellGrid
from assistant.floor.along import FINISH, MEDIAN, ZERO, heights_along
from assistant.floor.punch import punch_of, whole_bags
from assistant.floor.scans.difference import LaidSpot, laid_by_scans, scans_lack
from assistant.floor.scans.scan import packed_cells
from assistant.job import Job, being_read, next_number, record
from grammar.commands import Measure
from grammar.commands.proof import AskPoured, AskPunch, Mend
from tests.job.conftest import Site
from tests.there import there

ROOM = ("room 2 by 2 metres", "finish +1 mm")


def mm(number: str) -> Measure:
    return Measure(Decimal(number), "mm")


def scan(
    heights: Sequence[Sequence[float]], *, finished: bool, zero: str | None = "0"
) -> ScanImported:
    """CellGrid over a room of 2 by 2 m; those not a number were not seen."""
    median = np.array(heights, dtype=float)
    ones = np.ones(median.shape, dtype=int)
    side = 2 / len(median)
    kind = np.isnan(median).astype(int)
    cells = CellGrid((0, 0), side, median, 9 * ones, 0.0 * ones, kind)
    return ScanImported(
        "scan.csv", "abc", 90, side=Measure(Decimal(str(side)), "m"), columns=len(median),
        rows=len(median), cells=packed_cells(cells), zero=None if zero is None else mm(zero),
        good_to=mm("0.5"), finished=finished,
    )  # fmt: skip


def floor(*events: ScanImported, lines: Sequence[str] = ROOM) -> Job:
    site = Site(*lines, "verify")
    job = site.job
    for event in events:
        job = record(job, next_number(job), "import scan.csv", (event,), site.now)
    return job


# Four cells of a square metre 10 mm down, and sixteen of a quarter at the zero but for a few.
SLAB = [[-10, -10], [-10, -14]]
POURED = np.zeros((4, 4))
POURED[0, 3], POURED[3, 0] = 2, -11
nan = np.nan


def test_what_was_laid_is_the_one_less_the_other_where_both_saw_it() -> None:
    job = floor(scan(SLAB, finished=False), scan(POURED.tolist(), finished=True))
    found = there(laid_by_scans(job))
    # 12 quarters of 10 and 4 of 14, 2 more and 11 less in one of the first each
    assert found.mean_mm == pytest.approx((12 * 10 + 4 * 14 + 2 - 11) / 16)
    assert found.litres == pytest.approx(4 * found.mean_mm)
    # 11 and 15 mm to the finish
    assert found.planned_mm == pytest.approx((3 * 11 + 15) / 4)
    assert (found.area_m2, found.seen_m2) == pytest.approx((4, 4))
    assert found.sd_mm == pytest.approx(0.5**0.5)
    # half a millimetre of four cells, and of sixteen: 1/4 + 1/16 of its square in the mean
    assert found.sd_l == pytest.approx(4 * 0.5 * (1 / 4 + 1 / 16) ** 0.5)
    assert found.least == LaidSpot(-1, 0.25, 1.75)
    assert found.most == LaidSpot(14, 1.25, 1.25)
    # 1 mm under the slab is less than twice 0.71 mm
    assert found.under_slab_m2 == 0
    POURED[3, 0] = -12
    lower = floor(scan(SLAB, finished=False), scan(POURED.tolist(), finished=True))
    assert there(laid_by_scans(lower)).under_slab_m2 == pytest.approx(0.25)
    POURED[3, 0] = -11


def test_the_finer_one_may_be_the_slabs_and_a_zero_moves_all_of_it() -> None:
    fine = [[-10.0] * 4] * 4
    for zero, laid in (("0", 10), ("3", 7), ("-2", 12)):
        job = floor(scan(fine, finished=False), scan([[0, 0], [0, 0]], finished=True, zero=zero))
        found = there(laid_by_scans(job))
        assert (found.mean_mm, found.litres) == pytest.approx((laid, 4 * laid)), zero
    half = [[-10, nan], [-10, nan]]
    seen = there(laid_by_scans(floor(scan(half, finished=False), scan(fine, finished=True))))
    assert (seen.seen_m2, seen.litres) == pytest.approx((2, 0))
    quarter = floor(scan([[-10, nan], [nan, nan]], finished=False), scan(fine, finished=True))
    assert laid_by_scans(quarter) is None
    assert "less than half" in scans_lack(quarter)


def test_without_both_zeros_it_is_said_which_is_missing() -> None:
    slab, poured = scan(SLAB, finished=False), scan(POURED.tolist(), finished=True)
    for events, lack in (
        ((), ""), ((slab,), ""), ((poured,), ""), ((slab, poured), ""),
        ((scan(SLAB, finished=False, zero=None), poured), "of the slab: import"),
        ((slab, scan(SLAB, finished=True, zero=None)), "of the finished floor: import"),
        ((scan(SLAB, finished=False, zero=None), scan(SLAB, finished=True, zero=None)),
         "of the slab and of the finished floor: import"),
    ):  # fmt: skip
        job = floor(*events)
        assert (lack in scans_lack(job)) if lack else (scans_lack(job) == ""), lack
        assert (laid_by_scans(job) is None) is (len(events) < 2 or bool(lack))
    assert laid_by_scans(Site(*ROOM).job) is None


def test_poured_against_planned_tells_it_beside_the_points_or_alone() -> None:
    both = (scan(SLAB, finished=False), scan(POURED.tolist(), finished=True))
    world = World({})

    def told(*lines: str, events: Sequence[ScanImported] = both) -> tuple[str, str, object]:
        job = floor(*events, lines=(*ROOM, *lines))
        reply = answer(job, job, AskPoured(), (), world)
        return reply.headline, " ".join(reply.details), reply.data["poured"]["by_scans"]

    alone, details, data = told()
    assert alone == "Poured 10.4 mm deep in the mean by both scans; planned 12 mm."
    assert "A millimetre in either zero is 4 L" in details
    assert isinstance(data, dict)
    assert data["litres"] == pytest.approx(41.75)
    grid = ("grid 1 metre starting 0.5 metres", "A1 -10", "B1 -10", "A2 -10")
    job = Site(*ROOM, *grid, "verify", "A1 level", "B1 level", "A2 level").job
    for event in both:
        job = record(job, next_number(job), "import", (event,), Site(*ROOM).now)
    reply = answer(job, job, AskPoured(), (), world)
    assert "at 3 points" in reply.headline
    assert any(each.startswith("By both scans 42 L") for each in reply.details)
    with pytest.raises(Refusal, match=r"of the slab: import it with --zero"):
        told(events=(scan(SLAB, finished=False, zero=None), both[1]))


def test_a_profile_goes_by_the_scan_of_the_floor_that_is_shown() -> None:
    places = [(0.1, 0.1), (1.9, 0.1), (1.1, 1.9), (0.1, 1.9), (2.1, 1.0)]
    job = floor(scan(SLAB, finished=False), scan(POURED.tolist(), finished=True))
    of_slab = there(heights_along(job, places))
    assert (of_slab.above, of_slab.by_scan) == (ZERO, True)
    assert of_slab.heights_mm == (-10, -10, -14, -10, None)
    # the finish lies 1 mm above the zero
    of_floor = there(heights_along(being_read(job), places))
    assert (of_floor.above, of_floor.heights_mm) == (FINISH, (-1, 1, -1, -12, None))
    shape = floor(scan([[5, 5], [nan, 9]], finished=True, zero=None))
    found = there(heights_along(being_read(shape), places))
    assert (found.above, found.heights_mm) == (MEDIAN, (0, 0, 4, None, None))
    post = floor(scan(SLAB, finished=False), lines=(*ROOM, "column 0.4 by 0.4 metres at 1 by 1 m"))
    assert there(heights_along(post, [(1, 1), (0.1, 0.1)])).heights_mm == (None, -10)
    assert heights_along(floor(), places) is None


@pytest.mark.parametrize(
    ("place", "height"),
    [
        ((0.55, 0.25), -1), ((0.85, 0.25), -4), ((0.55, 0.55), -13), ((0.85, 0.55), -16),
        # a tenth and 0.3 m are cells of their own, whatever floats make of them
        ((0.6, 0.25), -2), ((0.8, 0.25), -4), ((0.7, 0.4), -11),
        # beside it on every side
        ((0.45, 0.25), None), ((0.95, 0.25), None), ((0.9, 0.25), None), ((0.55, 0.15), None),
        ((0.55, 0.65), None), ((0.55, 0.6), None),
    ],
)  # fmt: skip
def test_a_place_has_the_height_of_the_cell_it_lies_in(
    place: tuple[float, float], height: float | None
) -> None:
    """Four cells of a tenth of a metre each way, from half a metre along and a fifth across."""
    event = replace(
        scan((-np.arange(1.0, 17).reshape(4, 4)).tolist(), finished=False),
        side=Measure(Decimal("0.1"), "m"),
        corner=(Measure(Decimal("0.5"), "m"), Measure(Decimal("0.2"), "m")),
    )
    assert there(heights_along(floor(event), [place])).heights_mm == (height,)


def test_a_profile_of_a_floor_without_a_scan_goes_by_the_surface_through_its_points() -> None:
    grid = ("grid 1 metre starting 0.5 metres", "A1 -10", "B1 -12", "A2 -10", "B2 -12")
    places = [(0.5, 0.5), (1.0, 1.0), (2.1, 1.0)]
    job = Site(*ROOM, *grid).job
    slab = there(heights_along(job, places))
    assert (slab.above, slab.by_scan) == (ZERO, False)
    assert slab.heights_mm == pytest.approx((-10, -11, None))
    # the finish lies 1 mm above the zero
    read = ("verify", "A1 level", "B1 level", "A2 +4", "B2 +4")
    poured = there(heights_along(being_read(Site(*ROOM, *grid, *read).job), places))
    assert (poured.above, poured.by_scan) == (FINISH, False)
    assert poured.heights_mm == pytest.approx((-1, 1, None))


def punched(job: Job) -> list[tuple[str, float, float | None, int | None]]:
    found = punch_of(being_read(job))
    return [(each.do, each.mm, each.area_m2, each.passes) for each in found]


def test_patches_of_the_scan_are_on_the_punch_list() -> None:
    """Cells of a quarter of a square metre, the finish 1 mm up: two low by 6, one high by 8."""
    heights = np.ones((4, 4))
    heights[0, 0], heights[0, 1], heights[3, 3], heights[1, 3] = -5, -3, 9, 4
    after = scan(heights.tolist(), finished=True)
    product = ("product example standard",)
    job = floor(after, lines=(*ROOM, *product, "promised level"))
    # 3 mm at one is let pass
    assert punched(job) == [("fill", 6, 0.5, None), ("grind", 8, 0.25, 8)]
    fill, grind = punch_of(being_read(job))
    assert (fill.x_m, fill.y_m, fill.seen_by) == (0.25, 0.25, "by the scan")
    assert (grind.x_m, grind.y_m) == (1.75, 1.75)
    # 6 and 4 mm over a quarter each, 5 % waste, 15 L a bag; all of it is one bag
    assert fill.bags == pytest.approx(0.25 * (6 + 4) * 1.05 / 15)
    assert whole_bags((fill, grind)) == 1
    assert fill.clear
    assert fill.sd_mm == pytest.approx(0.5)
    # A point that is listed itself stands for the patch it lies on, of the same kind.
    grid = ("grid 1 metre starting 0.25 metres",)
    both = Site(*ROOM, *grid, "A1 -9", "verify", "promised level", "A1 -5", "B2 level")
    job = record(both.job, next_number(both.job), "import", (after,), both.now)
    assert [each.seen_by for each in punch_of(being_read(job))] == ["", "by the scan"]
    # Of one that was to be flat alone, the zero is no matter, nor a fall.
    fall = heights + 10 * np.arange(4)[:, None]
    tilted = scan(fall.tolist(), finished=True, zero=None)
    flat = floor(tilted, lines=(*ROOM, *product, "promised flat"))
    assert [each[0] for each in punched(flat)] == ["fill", "grind"]
    level = floor(tilted, lines=(*ROOM, *product, "promised level"))
    assert punched(level) == []
    shown = being_read(level)
    reply = answer(shown, shown, AskPunch(), (), World({}))
    assert any("Nobody said the zero of the scan" in each for each in reply.details)


def test_a_speck_of_a_scan_is_no_place_to_mend() -> None:
    fine = np.ones((10, 10))  # of 0.2 m: 0.04 m² a cell
    fine[2, 2] = fine[7, 7] = fine[7, 8] = -9
    job = floor(scan(fine.tolist(), finished=True), lines=(*ROOM, "promised level"))
    ((do, mm, area, passes),) = punched(job)
    assert (do, mm, passes) == ("fill", 10, None)
    assert area == pytest.approx(0.08)
    with pytest.raises(Refusal, match="import a scan of it as it is then"):
        decide(job, Mend(), World({}))
