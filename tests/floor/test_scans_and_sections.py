"""Scans in and out of their event, points against a room, and lines that carry an F-number."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from types import SimpleNamespace

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.events.flatness import ScanImported
from assistant.flatness.cells import CellGrid
from assistant.flatness.line_rules import Shortfall
from assistant.floor.f_section import FSection, _carrying, _missing, _told, section_of
from assistant.floor.profiles import COLUMNS, GRID, LINE, ROWS, SCAN, Lines, lines_of
from assistant.floor.scans.fit import Fit, fit_of
from assistant.floor.scans.scan import (
    packed_cells,
    scan_event,
    scan_of,
    scan_sd_mm,
    unpacked_cells,
)
from assistant.job import Job, being_read, next_number, record
from assistant.levels.arrays import FloatArray
from assistant.limits.specs import formula_row
from grammar.commands import Measure
from tests.job.conftest import Site
from tests.there import there

nan = np.nan
CELLS = CellGrid(
    (0.0, 0.0), 0.5,
    np.array([[-1.2345, nan, 3.0], [0.5, -20.0, 7.25], [1.0, 2.0, 3.0]]),
    np.array([[9, 0, 16], [25, 4, 9], [9, 9, 9]]),
    np.array([[0.3, nan, 0.8], [1.0, 0.2, 0.4], [0.3, 0.3, 0.3]]),
    np.array([[0, 1, 0], [0, 0, 0], [0, 0, 0]]),
)  # fmt: skip


def mm(number: str) -> Measure:
    return Measure(Decimal(number), "mm")


EVENT = ScanImported(
    "scan.csv", "abc", 90, side=Measure(Decimal("0.5"), "m"), columns=3, rows=3,
    cells=packed_cells(CELLS),
)  # fmt: skip


def with_scan(event: ScanImported, *lines: str) -> Job:
    floor = Site("room 1.5 by 1.5 metres", *lines)
    return record(floor.job, next_number(floor.job), "import scan.csv", (event,), floor.now)


def test_cells_come_out_as_they_went_in() -> None:
    out = unpacked_cells(EVENT)
    assert (out.corner_m, out.side_m) == ((0, 0), 0.5)
    # to a micrometre, halves to the even one
    np.testing.assert_allclose(out.median_mm, np.round(CELLS.median_mm, 3), atol=1e-12)
    np.testing.assert_array_equal(out.count, CELLS.count)
    np.testing.assert_allclose(out.spread_mm, CELLS.spread_mm)
    np.testing.assert_array_equal(out.kind, CELLS.kind)
    raised = unpacked_cells(replace(EVENT, zero=mm("-2.5")))
    np.testing.assert_allclose(raised.median_mm, out.median_mm + 2.5)
    for spoilt in ("", "nonsense!", EVENT.cells[:-8]):
        with pytest.raises(SurveyError, match="import the file again"):
            unpacked_cells(replace(EVENT, cells=spoilt))
    with pytest.raises(SurveyError, match="import the file again"):
        unpacked_cells(replace(EVENT, rows=4))


def test_a_cell_is_as_good_as_its_points_and_the_instrument() -> None:
    own = CELLS.sd_mm
    assert scan_sd_mm(EVENT, CELLS) == pytest.approx(own)
    assert scan_sd_mm(replace(EVENT, good_to=mm("3")), CELLS) == pytest.approx(np.hypot(own, 3))


def test_a_scan_is_of_the_floor_that_it_was_taken_of() -> None:
    job = with_scan(EVENT)
    assert scan_event(job) == EVENT
    assert there(scan_of(job)).median_mm[2, 2] == 3.0
    assert scan_event(with_scan(ScanImported(None))) is None
    assert scan_event(Site("room 1.5 by 1.5 metres").job) is None
    assert scan_of(with_scan(replace(EVENT, side=None))) is None
    assert lines_of(with_scan(replace(EVENT, side=None))) == ()
    assert scan_event(with_scan(replace(EVENT, finished=True))) is None
    poured = being_read(with_scan(replace(EVENT, finished=True), "pour finished"))
    assert there(scan_event(poured)).finished
    assert scan_event(being_read(with_scan(EVENT, "pour finished"))) is None


def test_lines_of_a_scan_run_both_ways_through_the_middles_of_cells() -> None:
    rows, columns = lines_of(with_scan(EVENT))
    assert (rows.kind, rows.direction) == (SCAN, f"scan {ROWS}")
    assert (columns.kind, columns.direction) == (SCAN, f"scan {COLUMNS}")
    assert rows.ids == columns.ids == ("scan line 1", "scan line 2", "scan line 3")
    assert rows.along_m.tolist() == columns.along_m.tolist() == [0, 0.5, 1]
    assert rows.heights_mm[1].tolist() == [0.5, -20, 7.25]
    assert columns.heights_mm[2].tolist() == [3, 7.25, 3]
    assert rows.places_m[2, 0].tolist() == [0.25, 1.25]
    assert columns.places_m[2, 0].tolist() == [1.25, 0.25]
    assert rows.names == ()
    wide = replace_cells(np.zeros((2, 3)))
    assert [each.direction for each in lines_of(with_scan(wide))] == [f"scan {ROWS}"]
    high = replace_cells(np.zeros((3, 2)))
    assert [each.direction for each in lines_of(with_scan(high))] == [f"scan {COLUMNS}"]
    assert [len(each.ids) for each in lines_of(with_scan(high))] == [2]


def replace_cells(median: np.ndarray) -> ScanImported:
    ones = np.ones_like(median)
    cells = CellGrid((0, 0), 0.5, median, ones.astype(int), ones, (0 * ones).astype(int))
    rows, columns = median.shape
    return replace(EVENT, rows=rows, columns=columns, cells=packed_cells(cells))


# --- points against a room ------------------------------------------------------------------

ROOM = np.array([[0, 0], [12, 0], [12, 8], [0, 8]], dtype=float)


def test_nearly_all_points_have_to_lie_in_the_room() -> None:
    for as_read, swapped, lies, turned in (
        (0.9, 0.5, True, False), (0.89, 0.9, False, True), (1, 1, True, True),
        (0, 0.89, False, False),
    ):  # fmt: skip
        fit = Fit(as_read, swapped, (1, 1), (0, 0))
        assert (fit.lies_as_read, fit.lies_swapped) == (lies, turned)


def test_how_much_of_a_file_lies_in_the_room() -> None:
    first, second = np.array([1, 11, 11, 13.0]), np.array([1, 7, 9, 1.0])
    fit = fit_of(ROOM, first, second)
    assert (fit.as_read, fit.swapped) == (0.5, 0.25)  # swapped, all but (1, 1) are out
    # nobody lays a room to 5 cm against a scan
    for out, share in ((0.04, 1.0), (0.06, 0.0)):
        assert fit_of(ROOM, np.array([-out]), np.array([4.0])).as_read == share
    with pytest.raises(SurveyError, match="There are no points"):
        fit_of(ROOM, np.array([]), np.array([]))


def test_the_extent_leaves_out_one_point_in_a_hundred_at_either_end() -> None:
    first, second = np.linspace(2, 4, 101), np.linspace(-1, 1, 101)
    fit = fit_of(ROOM, first, second)
    assert fit.starts_m == pytest.approx((2.02, -0.98))
    assert fit.spans_m == pytest.approx((1.96, 1.96))


def test_of_very_many_points_every_so_manyth_tells() -> None:
    """Of 40,000 every second; of 39,999 all. Those at odd places lie outside."""
    for count, share in ((40_000, 1.0), (39_998, 0.5)):
        first = np.where(np.arange(count) % 2, 99.0, 4.0)
        assert fit_of(ROOM, first, np.full(count, 4.0)).as_read == pytest.approx(share)


# --- lines that carry an F-number ------------------------------------------------------------


def line(
    count: int = 12, spacing: float = 0.3048, kind: str = LINE, heights: float = 0.0, sd: float = 1
) -> Lines:
    along: FloatArray = np.arange(count, dtype=np.float64) * spacing
    places = np.stack([np.stack([1 + along, np.full(count, 2.0)], axis=-1)])
    table = np.full((1, count), heights)
    return Lines(kind, "along", ("line 1",), along, table, places, (), sd)


def test_twelve_readings_at_the_right_spacing_carry_one() -> None:
    carrying, why = _carrying((line(12),), "mm")
    assert why == []
    ((name, heights, ends, sd),) = carrying
    assert (name, heights, sd) == ("line 1", [0.0] * 12, 1)
    assert ends[0] == [1, 2]
    assert ends[1] == pytest.approx([1 + 11 * 0.3048, 2])
    gap = line(14)
    gap.heights_mm[0, 3] = nan
    for found, unit, told in (
        (line(11), "mm", "Line 1 has 11 readings; an F-number wants 12 at least."),
        (line(20, 0.5), "mm", "Line 1 was read every 0.5 m; an F-number wants every 300 mm."),
        (line(20, 0.6096), "in", "Line 1 was read every 2 ft; an F-number wants every 12 in."),
        (gap, "mm", "Line 1 has a place without a usable height, or one that was mended since."),
    ):  # fmt: skip
        assert _carrying((found,), unit) == ([], [told])
    for kinds in ((), (line(30, kind=GRID),), (line(30, kind=SCAN),)):
        carrying, (told,) = _carrying(kinds, "mm")
        assert not carrying
        assert "never carries an F-number: it wants lines read every 300 mm" in told
    # one that does, beside others that do not
    carrying, why = _carrying((line(30, kind=GRID), line(12), line(8)), "mm")
    assert (len(carrying), len(why)) == (1, 1)


def test_what_is_missing_for_the_standard_is_told_in_the_jobs_unit() -> None:
    for missing, metric, feet in (
        (Shortfall("count", 14, 49.2), "give 14 differences", "35 more"),
        (Shortfall("edge", 0.4, 0.6), "comes to 0.4 m from a wall; 0.6 m", "1 ft"),
        (Shortfall("apart", 1.004, 1.2), "run 1 m apart; 1.2 m", "apart"),
        (Shortfall("slant", 0, 45), "narrower than 7.5 m", "narrower than 25 ft"),
        (Shortfall("corners", 0, 1.2), "from corner to corner", "from corner to corner"),
        (Shortfall("area", 24, 29.7), "A section has", "ft²"),
    ):
        assert metric in _told(missing, "mm"), _told(missing, "mm")
        assert feet in _told(missing, "in"), _told(missing, "in")
    area = _told(Shortfall("area", 24, 29.7), "mm")
    assert area == "A section has 29.7 m² at least (from memory); this floor has 24 m²."
    assert "wants 49 (from memory): 35 more" in _told(Shortfall("count", 14, 49.2), "mm")


def test_lines_whose_place_nobody_said_are_told_once() -> None:
    job = Site("room 12 by 9 metres").job
    placed, nowhere = [[2.0, 3.0], [10.0, 3.0]], [[nan, nan], [nan, nan]]
    unsaid = "Nobody said where every line lies, so not all of its rules could be tried."
    assert unsaid not in _missing(job, [placed], 99)
    assert _missing(job, [placed, nowhere], 99).count(unsaid) == 1
    near = [[2.0, 0.3], [10.0, 0.3]]
    other = [[2.0, 8.7], [10.0, 8.7]]
    assert len(_missing(job, [near, other], 99)) == 1  # the same of both, once


@pytest.mark.parametrize(
    ("q_noise", "z_noise", "told"),
    # Spreads of 0.5 and 4 mm, of which three tenths are 0.15 and 1.2.
    [(0.151, 1.19, True), (0.149, 1.21, True), (0.149, 1.19, False), (0.2, 2.0, True)],
)
def test_what_a_perfect_plane_would_have_is_told_from_a_tenth_of_the_variance_on(
    q_noise: float, z_noise: float, told: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Its F-numbers are the formula's constants over three deviations; exact arithmetic."""
    spreads = [SimpleNamespace(sd_mm=0.5, bottom_mm=2), SimpleNamespace(sd_mm=4.0, bottom_mm=8)]
    monkeypatch.setattr("assistant.floor.f_section.lines_of", lambda _: (line(20),))
    monkeypatch.setattr("assistant.flatness.f_numbers.noise_of", lambda _: (q_noise, z_noise))
    monkeypatch.setattr("assistant.flatness.f_numbers.pooled_spread", lambda _: spreads.pop(0))
    monkeypatch.setattr("assistant.flatness.f_numbers.own_interval", lambda *_, **__: None)
    found = section_of(Site("room 12 by 9 metres").job)
    row = formula_row()
    assert (found.ff, found.fl) == pytest.approx((row.ff_mm / 2, row.fl_mm / 8))
    by_errors = (row.ff_mm / (3 * q_noise), row.fl_mm / (3 * z_noise))
    assert found.by_errors == (pytest.approx(by_errors) if told else None)


def test_a_section_is_supported_where_nothing_is_missing() -> None:
    one = FSection((), 1.0, 30.0, 20.0, None, None, ())
    assert one.supported
    assert not replace(one, why=("something",)).supported
    assert not replace(one, ff=None).supported
    none = section_of(Site("room 12 by 9 metres").job)
    assert (none.ff, none.fl, none.sd_mm, none.lines) == (None, None, 0.0, ())
