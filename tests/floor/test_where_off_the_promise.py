"""Where a floor is off what was promised: patches of a scan and stretches of lines, by hand."""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any

import numpy as np
import pytest

from assistant.floor import line_stretches
from assistant.floor.line_stretches import Stretch, stretches_off
from assistant.floor.scans import patches as scan_patches
from assistant.floor.scans.patches import Patch, patches_off
from assistant.job import Job

SIDE = 0.25
"""Metres: one cell is a sixteenth of a square metre."""


def patches(
    monkeypatch: pytest.MonkeyPatch, off: list[list[float]], most_mm: float = 3, side: float = SIDE
) -> tuple[Patch, ...]:
    """Those of a scan with its cells so many millimetres off, the first row nearest."""
    rows = np.array(off)
    y, x = np.indices(rows.shape)
    middles = np.stack(((x + 0.5) * side, (y + 0.5) * side), axis=-1)
    cells = SimpleNamespace(side_m=side, middles_m=middles)
    monkeypatch.setattr(scan_patches, "_off_mm", lambda _: rows)
    monkeypatch.setattr(scan_patches, "scan_of", lambda _: cells)
    monkeypatch.setattr(scan_patches, "scan_event", lambda _: SimpleNamespace())
    monkeypatch.setattr(scan_patches, "scan_sd_mm", lambda *_: 1.5)
    return patches_off(Job(), most_mm)


def test_cells_that_touch_by_a_side_or_a_corner_are_one_patch(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    nan = float("nan")
    low, high, other = patches(
        monkeypatch,
        [[0, 0, 0, 0, -4], [4, 0, 0, nan, 0], [0, 6, 0, 0, 0], [5, 0, 0, 3, 0], [0, 0, 0, 3.1, 0]],
    )
    # 4 + 6 + 5 mm over a sixteenth of a square metre each, in litres (exact arithmetic)
    assert (high.mm, high.sd_mm, high.place_m, high.side_m) == (6, 1.5, (0.375, 0.625), SIDE)
    assert (high.area_m2, high.litres) == pytest.approx((3 / 16, 15 / 16))
    assert high.places_m == ((0.125, 0.375), (0.375, 0.625), (0.125, 0.875))
    assert (low.mm, low.place_m, low.litres) == (-4, (1.125, 0.125), 0.25)
    assert (other.mm, other.area_m2) == pytest.approx((3.1, 1 / 16))


def test_high_and_low_beside_each_other_are_two_and_what_is_let_pass_is_none(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert [each.mm for each in patches(monkeypatch, [[9, -9, 3, -3]])] == [9, -9]
    assert patches(monkeypatch, [[3, -3, 0, float("nan")]]) == ()


@pytest.mark.parametrize(("side", "count"), [(0.2, 1), (0.224, 2), (0.223, 1)])
def test_no_patch_is_smaller_than_what_a_trowel_works_on(
    side: float, count: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    """0.05 m² is reported: 0.224 m each way is more, 0.223 less, two cells of 0.2 m enough."""
    assert len(patches(monkeypatch, [[9, 0, 5, 5]], side=side)) == count


def test_patches_go_row_by_row_over_the_floor(monkeypatch: pytest.MonkeyPatch) -> None:
    found = patches(monkeypatch, [[-5, 0, 4], [0, 0, 0], [9, 0, -6]])
    assert [each.mm for each in found] == [-5, 4, 9, -6]


def test_a_place_beside_a_patch_by_less_than_a_cell_is_on_it() -> None:
    patch = Patch(5, 1, (1, 2), 0.05, 1, ((1, 2), (1.25, 2)), SIDE)
    for place, there in (
        ((1, 2), True), ((0.63, 2), True), ((0.62, 2), False), ((1.62, 2), True),
        ((1.63, 2), False), ((1, 2.37), True), ((1, 2.38), False), ((1.1, 1.63), True),
        ((1.1, 1.62), False), ((1.62, 2.38), False),
    ):  # fmt: skip
        assert patch.is_at(place) is there, place


def stretches(
    monkeypatch: pytest.MonkeyPatch, above: list[float | None], most_mm: float = 3
) -> list[Stretch]:
    """Those of a line that runs along x, a value each half metre from 1 m on."""
    line: Any = SimpleNamespace(number=7, spacing_m=0.5, place_m=lambda at: (1 + at / 2, 2.0))
    each = SimpleNamespace(line=line, profile=SimpleNamespace(sd_mm=1.5), above_mm=tuple(above))
    monkeypatch.setattr(line_stretches, "lines_off", lambda _: (each,))
    return list(stretches_off(Job(), most_mm))


def test_values_off_to_the_same_side_are_one_stretch(monkeypatch: pytest.MonkeyPatch) -> None:
    first, second, third, fourth = stretches(
        monkeypatch, [3, 4, 5, -3.1, -9, -9, None, 4, 3, -3, 0, 8]
    )
    assert [(each.line, each.first, each.last, each.number, each.mm) for each in (
        first, second, third, fourth,
    )] == [(7, 2, 3, 3, 5), (7, 4, 6, 5, -9), (7, 8, 8, 8, 4), (7, 12, 12, 12, 8)]  # fmt: skip
    assert (second.place_m, second.sd_mm, second.spacing_m) == ((3.0, 2.0), 1.5, 0.5)
    assert second.places_m == ((2.5, 2.0), (3.0, 2.0), (3.5, 2.0))
    assert stretches(monkeypatch, [3, -3, 0, None]) == []
    finer = stretches(monkeypatch, [0.5, -0.5, 0.25], most_mm=0.3)
    assert [each.mm for each in finer] == [0.5, -0.5]


def test_a_place_no_further_than_the_next_value_is_on_the_stretch(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    (one,) = stretches(monkeypatch, [0, 5, 5, 0])  # at 1.5 and 2 m, by 2 m
    for place, there in (
        ((1.5, 2), True), ((1.0, 2), True), ((0.99, 2), False), ((2.5, 2), True),
        ((2.51, 2), False), ((1.5, 2.5), True), ((1.5, 1.5), True), ((1.5, 2.51), False),
        ((1.2, 2.4), True), ((1.1, 2.4), False),
    ):  # fmt: skip
        assert one.is_at(place) is there, place


@pytest.mark.parametrize(
    ("event", "lacks"),
    [
        (None, False), (SimpleNamespace(side=None, zero=None), False),
        (SimpleNamespace(side=1, zero=None), True), (SimpleNamespace(side=1, zero=0), False),
        (SimpleNamespace(side=None, zero=0), False),
    ],
)  # fmt: skip
def test_a_scan_whose_zero_nobody_said_lacks_it(
    event: Any, lacks: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(scan_patches, "scan_event", lambda _: event)
    assert scan_patches.lacks_zero(Job()) is lacks
