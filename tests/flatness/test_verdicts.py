"""Three-way verdicts, and how often they are wrong."""

from __future__ import annotations

import math

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.flatness.f_numbers import line_f
from assistant.flatness.straightedge import gaps_under
from assistant.flatness.verdicts import (
    f_verdict,
    hidden_share,
    places_in_reach,
    settled_by,
    verdict,
)
from tests.benchmarks.verdicts import (
    FROM_MEMORY,
    Count,
    drawn,
    f_verdicts,
    gap_verdicts,
    intervals_hold,
)


def test_two_tenths_over_with_readings_of_a_millimetre_cannot_be_told() -> None:
    found = verdict(3.2, 3.0, 1.0 * math.sqrt(1.5))
    assert found.met is None
    # (1.645 · 1.2247 / 0.2)² = 101.5: exact arithmetic.
    assert found.readings_each == 102
    assert not settled_by(found)
    assert verdict(3.2, 3.0, 0.1).met is False


def test_how_often_to_read_settles_it() -> None:
    found = verdict(5.0, 3.0, 2.0)
    assert found.met is None
    assert settled_by(found)
    again = found.readings_each or 1
    assert verdict(5.0, 3.0, 2.0 / math.sqrt(again)).met is False
    assert verdict(5.0, 3.0, 2.0 / math.sqrt(again - 1)).met is None
    under = verdict(2.0, 3.0, 1.0)
    assert verdict(2.0, 3.0, 1.0 / math.sqrt(under.readings_each or 1)).met is True


def test_exactly_at_the_limit_is_within_it() -> None:
    assert verdict(3.0, 3.0, 0.0).met is True
    assert verdict(3.0, 3.0, 0.1).met is None


def test_a_shorter_edge_shows_only_what_is_not_met() -> None:
    assert verdict(0.0, 3.0, 0.1, whole=False).met is None
    assert verdict(9.0, 3.0, 0.1, whole=False).met is False
    assert verdict(0.0, 3.0, 0.1, whole=False).readings_each is None


def test_the_worst_of_many_places_has_to_be_further_over() -> None:
    assert verdict(5.0, 3.0, 1.0, choices=1).met is False
    assert verdict(5.0, 3.0, 1.0, choices=40).met is None


def test_what_lies_between_the_readings() -> None:
    """1 - cos(π s / L): exact arithmetic. From half the edge on nothing is seen."""
    assert hidden_share(0.3, 2.0) == pytest.approx(0.10899, abs=1e-5)
    assert hidden_share(0.5, 2.0) == pytest.approx(1 - math.sqrt(0.5))
    assert hidden_share(1.0, 2.0) == hidden_share(3.0, 2.0) == math.inf
    assert verdict(0.0, 3.0, 0.1, hidden_mm=math.inf).met is None
    assert verdict(0.0, 3.0, 0.1, hidden_mm=math.inf).readings_each is None


def test_what_is_no_number_is_refused() -> None:
    for value in (math.nan, math.inf):
        with pytest.raises(SurveyError):
            verdict(value, 3.0, 0.1)
    with pytest.raises(SurveyError):
        hidden_share(0.0, 2.0)


def test_places_that_may_be_at_the_limit() -> None:
    gaps = gaps_under(np.arange(9) * 0.5, [0, -4, 0, -3.5, 0, -1, 0, np.nan, 0], 1.0)
    assert places_in_reach(gaps, 4.0, 0.5) == 2
    assert places_in_reach(gaps, 40.0, 0.5) == 1


def test_a_reading_of_a_millimetre_cannot_show_a_flat_floor() -> None:
    """Noise alone gives a q of s√6, FF 116/(3·2.45) = 15.8: exact arithmetic."""
    random = np.random.default_rng(4)
    lines = [line_f(random.normal(0, 1.0, 40), FROM_MEMORY) for _ in range(8)]
    spreads = [line.q for line in lines]
    assert lines[0].ff < 25
    found, (low, high) = f_verdict(spreads, FROM_MEMORY.flatness_mm, 25, 1.0, flatness=True)
    assert found.met is None
    assert low < 25 < high
    # The same heights read to 0.1 mm are what they seem.
    sure, _ = f_verdict(spreads, FROM_MEMORY.flatness_mm, 25, 0.1, flatness=True)
    assert sure.met is False


@pytest.mark.parametrize(
    ("errors_mm", "limit", "met"),
    [
        # Errors of 1 mm alone look like FF 15.8. What seems flatter than they are is so by chance,
        (0.4, 25, None),
        # nor is what is little rougher than they are told apart from a limit they never show;
        (1.6, 25, None),
        # and what is rougher by far is, as is a limit that such readings can show.
        (3.0, 25, False),
        (0.4, 12, True),
        (3.0, 12, False),
    ],
)
def test_a_limit_beyond_the_instrument_is_told_only_of_what_is_rougher_by_far(
    errors_mm: float, limit: float, met: bool | None
) -> None:
    random = np.random.default_rng(6)
    spreads = [line_f(random.normal(0, errors_mm, 40), FROM_MEMORY).q for _ in range(60)]
    found, (low, high) = f_verdict(spreads, FROM_MEMORY.flatness_mm, limit, 1.0, flatness=True)
    assert found.met is met
    # Their bounds alone would have decided all of them.
    assert low >= limit or high < limit


def test_a_level_floor_has_no_bound_to_its_f_number() -> None:
    spreads = [line_f([0.0] * 14, FROM_MEMORY).q]
    found, (low, high) = f_verdict(spreads, FROM_MEMORY.flatness_mm, 50, 0.0, flatness=True)
    assert (found.met, low, high) == (True, math.inf, math.inf)


def test_verdicts_on_drawn_floors_are_seldom_wrong_and_often_told() -> None:
    """A small run of what ``python -m tests.benchmarks.verdicts`` tries at length."""
    random = np.random.default_rng(7)
    gaps = gap_verdicts(random, 0.3, 0.2, 15)
    flatness = f_verdicts(random, 0.1, 120, flatness=True)
    levelness = f_verdicts(random, 0.3, 120, flatness=False)
    for count, least_told in ((gaps, 4), (flatness, 60), (levelness, 60)):
        assert count.met_wrong <= 0.05 * count.met + 1, count
        assert count.not_met_wrong <= 0.05 * count.not_met + 1, count
        assert count.met + count.not_met >= least_told, count


def test_the_drawn_floors_can_tell_wrong_from_right() -> None:
    """Held to with no regard to errors, a good part of the verdicts is wrong."""
    random = np.random.default_rng(8)
    wrong = Count()
    for _ in range(60):
        floor = drawn(random)[:, ::6]
        truth = [line_f(heights, FROM_MEMORY).q for heights in floor]
        noisy = [line_f(h + random.normal(0, 0.5, h.size), FROM_MEMORY).q for h in floor]
        bottom = max(each.bottom_mm for each in truth)
        limit = FROM_MEMORY.flatness_mm / bottom * 0.95
        said, _ = f_verdict(noisy, FROM_MEMORY.flatness_mm, limit, 0.0, flatness=True)
        wrong.add(said.met, bottom <= FROM_MEMORY.flatness_mm / limit)
    assert wrong.not_met_wrong > 20


def test_our_own_interval_holds_about_as_often_as_it_says() -> None:
    """9 in 10; of 150 floors 0.82 to 0.99 is within what chance does to that."""
    random = np.random.default_rng(12)
    for flatness in (True, False):
        held = intervals_hold(random, 2.0, 4, 150, flatness=flatness)
        assert 0.82 <= held <= 0.99, (flatness, held)


def test_verdicts_just_at_the_limit_are_wrong_in_no_more_than_one_of_twenty() -> None:
    """Where they are wrong most: a trough a hair past 3 mm, sharp or round, and one a hair less.

    600 floors each; 5 % and three of its deviations.
    """
    random = np.random.default_rng(21)
    along, sd = np.arange(21) * 0.1, 0.3
    off = np.abs(along - 1.0)
    for trough in (off - 1, off**2 - 1):
        for deep, wrong in ((3.001, True), (2.999, False)):
            gaps = gaps_under(along, deep * trough + random.normal(0, sd, (600, 21)), 2.0)
            of_gap = sd * math.sqrt(1.5)
            near = np.maximum((gaps.mm > 3.0 - 2 * of_gap).sum(axis=1), 1)
            said = [
                verdict(worst, 3.0, of_gap, choices=count).met
                for worst, count in zip(gaps.mm.max(axis=1).tolist(), near.tolist(), strict=True)
            ]
            assert said.count(wrong) <= 600 * 0.05 + 3 * math.sqrt(600 * 0.05 * 0.95), (deep, said)
            assert None in said
