"""The volume by a scan, and values of a line against the floor around. Exact arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from assistant.events.flatness import ScanImported
from assistant.flatness.cells import CellGrid
from assistant.floor import line_doubt
from assistant.floor.line_doubt import LineDoubt, _off_plan, doubts_about
from assistant.floor.scans.scan import packed_cells, scan_event, scan_of, scan_sd_mm
from assistant.floor.scans.volume import (
    ScanVolume,
    bags_by_scan,
    scan_volume_data,
    scan_volume_of,
)
from assistant.job import Job, being_read, next_number, record
from assistant.job.proof import ProofLine
from assistant.job.set_ups import Height
from grammar.commands import Measure
from tests.job.conftest import Site
from tests.there import there

ROOM = ("room 1.5 by 1.5 metres",)


def mm(number: str) -> Measure:
    return Measure(Decimal(number), "mm")


def scanned(*lines: str, unseen: int = 0, zero: Measure | None = None) -> Job:
    """Nine cells of half a metre 10 mm down, but the last one 4 mm up; the first so many unseen."""
    median = np.full(9, -10.0)
    median[8] = 4.0
    kind = (np.arange(9) < unseen).astype(int)
    ones = np.ones((3, 3))
    cells = CellGrid(
        (0, 0), 0.5, median.reshape(3, 3), 4 * ones.astype(int), ones, kind.reshape(3, 3)
    )
    event = ScanImported(
        "scan.csv", "abc", 90, side=Measure(Decimal("0.5"), "m"), columns=3, rows=3,
        cells=packed_cells(cells), zero=zero, good_to=mm("2"),
    )  # fmt: skip
    floor = Site(*(lines or ROOM))
    return record(floor.job, next_number(floor.job), "import scan.csv", (event,), floor.now)


def test_a_scan_is_filled_up_to_the_finish_and_what_is_above_stays() -> None:
    for lines, fill, above in (
        (ROOM, 8 * 10, 4), ((*ROOM, "finish +4 mm"), 8 * 14, 0),
        ((*ROOM, "finish -12 mm"), 0, 8 * 2 + 16),
    ):  # fmt: skip
        found = there(scan_volume_of(scanned(*lines, zero=mm("0"))))
        assert found.fill_m3 == pytest.approx(fill * 0.25 / 1000), lines
        assert found.above_m3 == pytest.approx(above * 0.25 / 1000)
        assert (found.area_m2, found.seen_m2) == pytest.approx((2.25, 2.25))
        assert found.seen == pytest.approx(1)
        assert found.a_millimetre_m3 == pytest.approx(2.25 / 1000)
    raised = there(scan_volume_of(scanned(zero=mm("-3"))))
    assert raised.fill_m3 == pytest.approx(8 * 7 * 0.25 / 1000)


def test_what_was_not_seen_is_taken_to_be_as_the_rest() -> None:
    """At least half of the floor has to be seen: five cells of nine."""
    for unseen, seen in ((1, True), (4, True), (5, False), (9, False)):
        job = scanned(unseen=unseen, zero=mm("0"))
        found = scan_volume_of(job)
        assert (found is not None) is seen, unseen
        if found is None:
            continue
        cells = 9 - unseen
        assert found.seen_m2 == pytest.approx(cells * 0.25)
        assert found.area_m2 == pytest.approx(2.25)
        assert found.fill_m3 == pytest.approx((cells - 1) * 10 * 2.25 / cells / 1000)
        one = scan_sd_mm(there(scan_event(job)), there(scan_of(job)))
        assert found.sd_m3 == pytest.approx(one * cells**0.5 * 0.25 * 9 / cells / 1000)
    assert ScanVolume(1.0, 0.25, 8.0, 6.0, 0.1).seen == 0.75


def test_there_is_no_volume_without_a_zero_a_room_or_a_scan() -> None:
    assert scan_volume_of(scanned()) is None
    assert scan_volume_of(Site(*ROOM).job) is None
    assert scan_volume_of(replace(scanned(zero=mm("0")), layout=Site().job.layout)) is None
    assert scan_volume_data(Site(*ROOM).job) is None


def test_bags_by_a_scan_are_rounded_up() -> None:
    """20 L and 5 % are 1.4 bags of 15 L."""
    job = scanned(*ROOM, "product example standard", zero=mm("0"))
    assert bags_by_scan(job, there(scan_volume_of(job))) == 2
    assert bags_by_scan(job, ScanVolume(0.015 / 1.05, 0, 1, 1, 0)) == 1
    assert bags_by_scan(scanned(zero=mm("0")), ScanVolume(1, 0, 1, 1, 0)) is None
    assert there(scan_volume_data(job))["bags"] == 2
    assert there(scan_volume_data(scanned(zero=mm("0"))))["bags"] is None


# --- values of a line -----------------------------------------------------------------------------

FLOOR = ("room 8 by 6 metres", "grid 2 metres")


def heights(*values: float, set_up: int = 0) -> list[Height]:
    return [Height(mm(str(each)), Fraction(str(each)), set_up) for each in values]


def line(*values: float, from_x: str = "1") -> ProofLine:
    at = tuple(Measure(Decimal(each), "m") for each in (from_x, "1", "5", "1"))
    return ProofLine(1, mm("500"), at, values=tuple(heights(*values)))


def doubted(of: ProofLine, said: Sequence[Height], first: int, *lines: str) -> list[int]:
    return [each.number for each in doubts_about(Site(*FLOOR, *lines).job, of, said, first)]


def test_a_line_is_doubted_where_it_departs_from_the_floor(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whatever lies more than five down is doubted."""

    def doubt(
        _job: Job, _place: Any, _height: Any, above: Fraction, number: int
    ) -> LineDoubt | None:
        return LineDoubt(number, float(above), 0.0, 1.0) if above < -5 else None

    monkeypatch.setattr(line_doubt, "_doubt", doubt)
    for values, said, first, numbers in (
        ((), (0, -9, -9, 0, -9), 0, [2, 5]), ((), (-9, -9), 0, [1]),
        ((0, 0), (-9, 0, -9), 2, [3, 5]),
        ((0, -9), (-9, -9), 2, []), ((0, -9), (0, -9), 2, [4]), ((0, -9, 0), (-9,), 1, [2]),
        ((-9, 0, 0), (-9,), 1, []),
    ):  # fmt: skip
        assert doubted(line(*values), heights(*said), first) == numbers, (values, said)
    # nothing is said of what has no place, lies off the floor, or is tied to nothing
    assert doubted(ProofLine(1, mm("500")), heights(-9), 0) == []
    assert doubted(line(from_x="9"), heights(-9), 0) == []
    assert doubted(line(), heights(-9, set_up=1), 0, "A1 -9", "new set up") == []
    assert doubted(line(), heights(-9, set_up=1), 0, "A1 -9", "new set up", "tie on A1 -9") == [1]


def test_the_first_values_of_a_poured_floor_are_held_against_its_plan() -> None:
    """Three times √(25 + 13/12) = 5.107 mm are 15.32."""
    poured = (*FLOOR, "A1 -18", "pour finished")
    for lines, above, doubtful in (
        ((), 15, False), ((), 16, True), ((), -16, True), (("finish +4 mm",), 19, False),
        (("finish +4 mm",), 20, True), (("B1 +30",), 16, False), (("B1 +30",), 14, False),
        (("B1 +30",), -16, True), (("B1 +30",), 46, True),
    ):  # fmt: skip
        job = being_read(Site(*poured, *lines).job)
        (height,) = heights(above + 3)
        found = _off_plan(job, (1.0, 1.0), height, Fraction(above), 7)
        assert (found is not None) is doubtful, (lines, above)
        if found is not None:
            expected = 4.0 if "finish +4 mm" in lines else 0.0
            assert (found.number, found.value_mm, found.by_plan) == (7, above + 3, True)
            assert found.expected_mm == expected + 3  # as it would be read from that zero
            assert found.sd_mm == pytest.approx((25 + 13 / 12) ** 0.5)
    slab = Site(*FLOOR, "A1 -18").job
    assert _off_plan(slab, (1.0, 1.0), heights(99)[0], Fraction(99), 7) is None
