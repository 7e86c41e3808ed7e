"""Gaps under a straightedge, against exact figures and an edge that is let down on the floor."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.flatness.straightedge import crest_mm, gaps_under, noise_of_gap, worst_gap
from assistant.levels.arrays import FloatArray

PROFILE = np.arange(7) * 0.5, np.array([0.0, -2, -5, -3, -1, -4, 0])


@pytest.mark.parametrize(("length", "gap", "ends"), [(2.0, 4.5, (0, 2)), (3.0, 5.0, (0, 3))])
def test_a_profile_worked_by_hand(length: float, gap: float, ends: tuple[float, float]) -> None:
    """Exact arithmetic."""
    found = worst_gap(*PROFILE, length)
    assert found.mm == pytest.approx(gap)
    assert (found.at_m, found.between_m) == (1.0, ends)


@pytest.mark.parametrize(("wave", "gap"), [(4.0, 3.0), (2.0, 6.0), (1.0, 6.0)])
def test_a_sine_of_3_mm_under_2_metres(wave: float, gap: float) -> None:
    """a(1 - cos(πL/w)) for an edge up to a wave long, then 2a: exact arithmetic."""
    along = np.arange(0, 8.001, 0.025)
    sine = 3 * np.sin(2 * np.pi * along / wave)
    assert worst_gap(along, sine, 2.0).mm == pytest.approx(gap, abs=0.01)


def test_at_300_mm_the_edge_ends_between_two_readings() -> None:
    """Whole points would make the edge 1.8 m long, and the gap 2.53 instead of 3.00 mm."""
    along = np.arange(0, 12.001, 0.3)
    sine = 3 * np.sin(2 * np.pi * (along - 0.15) / 4)
    assert worst_gap(along, sine, 2.0).mm == pytest.approx(3.0, abs=0.03)
    # At a reading in the trough: what an edge of six spacings would show.
    through = 3 * (1 - np.cos(np.pi * 1.8 / 4))
    assert through == pytest.approx(1.531 + 1, abs=0.01)
    assert worst_gap(along, sine, 1.8).mm == pytest.approx(through, abs=0.03)


def test_a_dish_a_step_and_a_slope() -> None:
    """Sagitta L²/8R with R = 100 m is 5 mm; a step of 3 mm under an edge of 1 m to each side,
    read every 100 mm, 3 · 1.0 / 1.1: exact arithmetic."""
    along = np.arange(0, 4.001, 0.1)
    assert worst_gap(along, along**2 / 0.2, 2.0).mm == pytest.approx(5.0, abs=0.01)
    step = np.where(np.arange(21) < 10, 3.0, 0.0)
    assert worst_gap(np.arange(21) * 0.1, step, 2.0).mm == pytest.approx(3 * 1.0 / 1.1)
    assert worst_gap(along, 7 * along, 2.0).mm == 0.0


def test_a_crest_reads_nothing_and_is_told_apart() -> None:
    """Exact: an edge on a crest touches it once."""
    along = np.arange(0, 4.001, 0.25)
    crest = -((along - 2) ** 2) * 5
    assert worst_gap(along, crest, 2.0).mm == 0.0
    assert crest_mm(along, crest, 2.0) == pytest.approx(5.0)
    assert crest_mm(along, -crest, 2.0) == 0.0
    assert crest_mm([0, 1], [0, 3], 2.0) == 0.0
    # What was not read beyond the edge's end takes no height from it, on either side.
    for unread in ([4, 4, 0, 4, np.nan], [np.nan, 4, 0, 4, 4]):
        assert crest_mm([0, 1, 2, 3, 4], [-each for each in unread], 2.0) == 4.0


_NOTHING = -1e6
"""Where there is no floor."""


def _let_down(along: FloatArray, heights: FloatArray, length: float, places: int) -> float:
    """The largest gap between the two contacts of an edge laid at many places, by its weight.

    It comes to lie on the two points, one on either side of its middle, that bear it highest. It
    may stand out over the line's ends by less than half of it.
    """
    along = np.concatenate(([along[0] - length, along[0] - 1e-9], along, [along[-1] + 1e-9]))
    along = np.append(along, along[-1] + length)
    heights = np.concatenate(([_NOTHING] * 2, heights, [_NOTHING] * 2))
    worst = 0.0
    for start in np.linspace(along[0] + length / 2, along[-1] - 3 * length / 2, places):
        middle = start + length / 2
        inner = along[(along > start) & (along < start + length)]
        at = np.concatenate(([start], inner, [start + length]))
        up = np.interp(at, along, heights)
        near, far = np.flatnonzero(at < middle), np.flatnonzero(at > middle)
        one, other = np.meshgrid(near, far, indexing="ij")
        way = (middle - at[one]) / (at[other] - at[one])
        borne = up[one] + (up[other] - up[one]) * way
        best = np.unravel_index(int(np.argmax(borne)), borne.shape)
        a, b = int(one[best]), int(other[best])
        if min(up[a], up[b]) <= _NOTHING / 2:
            continue
        chord = up[a] + (up[b] - up[a]) * (at[a : b + 1] - at[a]) / (at[b] - at[a])
        worst = max(worst, float((chord - up[a : b + 1]).max()))
    return worst


def test_hull_and_an_edge_let_down_agree_on_drawn_profiles() -> None:
    random = np.random.default_rng(11)
    for _ in range(12):
        along = np.cumsum(random.uniform(0.1, 0.6, random.integers(6, 18)))
        heights = np.cumsum(random.normal(0, 1, len(along)))
        length = min(2.0, 0.7 * float(np.ptp(along)))
        found = worst_gap(along, heights, length).mm
        let_down = _let_down(along, heights, length, 400)
        # It is laid at a few hundred places; the hull looks at all.
        assert let_down - 1e-9 <= found <= let_down + 0.02, (along, heights)


def test_truths_of_gaps() -> None:
    """Exact: a plane changes nothing, twice the heights are twice the gap."""
    random = np.random.default_rng(5)
    along = np.arange(20) * 0.3
    heights = random.normal(0, 2, (3, 20))
    mm = gaps_under(along, heights, 2.0).mm
    assert gaps_under(along, heights + 4 * along + 9, 2.0).mm == pytest.approx(mm, abs=1e-9)
    assert gaps_under(along, 2 * heights, 2.0).mm == pytest.approx(2 * mm)
    assert gaps_under(along, heights[:, ::-1], 2.0).mm == pytest.approx(mm[:, ::-1], abs=1e-9)
    # A longer edge lies no lower, and one of several lines is as by itself.
    assert (gaps_under(along, heights, 3.0).mm >= mm - 1e-9).all()
    assert gaps_under(along, heights[1], 2.0).mm == pytest.approx(mm[1])


def test_no_edge_lies_across_what_was_not_read() -> None:
    along = np.arange(9) * 0.5
    heights = np.array([0.0, -4, 0, 0, np.nan, 0, 0, -6, 0])
    gaps = gaps_under(along, heights, 4.0)
    assert gaps.mm[[1, 7]] == pytest.approx([4.0, 6.0])
    assert np.isnan(gaps.mm[4])
    both = gaps_under(along, np.array([0.0, -1, -2, -3, np.nan, -3, -2, -1, 0]), 4.0)
    assert np.nanmax(both.mm) == 0.0


def test_an_edge_longer_than_the_line_is_as_long_as_it() -> None:
    found = worst_gap([0, 0.5, 1.0], [0, -2, 0], 2.0)
    assert (found.mm, found.edge_m) == (2.0, 1.0)


def test_the_gap_is_as_uncertain_as_its_readings_make_it() -> None:
    """√1.5 halfway (exact); drawn errors agree."""
    along = np.arange(7) * 0.3
    hole = np.array([-9.0, 0, -9, -20, -9, 0, -9])
    found = worst_gap(along, hole, 1.5)
    random = np.random.default_rng(2)
    drawn = [worst_gap(along, hole + random.normal(0, 0.05, 7), 1.5).mm for _ in range(400)]
    assert found.noise == pytest.approx(np.std(drawn) / 0.05, rel=0.15)
    assert noise_of_gap(np.array([0.0, 1, 2]), 1, (0.0, 2.0)) == pytest.approx(1.5**0.5)


@pytest.mark.parametrize(
    ("along", "heights", "length", "told"),
    [
        ([0, 1, 2], [0, 1, 2], 0.0, "longer than nothing"),
        ([0, 1, 1], [0, 1, 2], 2.0, "number 3"),
        ([0, 1, 2], [0, 1], 2.0, "as many heights"),
        ([0, 1, 2], [0, np.inf, 0], 2.0, "inf"),
        ([0, 1, 2], [np.nan] * 3, 2.0, "Nothing was read"),
    ],
)
def test_what_is_no_profile(along: object, heights: object, length: float, told: str) -> None:
    with pytest.raises(SurveyError, match=told):
        worst_gap(np.array(along), np.array(heights), length)
