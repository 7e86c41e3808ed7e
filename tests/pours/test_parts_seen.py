"""A strip called done after the batch that passes its edge, against scipy's truncated normal."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.stats import norm, truncnorm

from assistant.pours import parts_seen
from assistant.pours.forecast import Expected, Forecast, forecast


def test_a_normal_between_two_places() -> None:
    """In its middle, on either side, in a narrow part and far out."""
    for first, last in ((-1, 1), (-0.5, 2), (0.1, 0.2), (-0.2, -0.1), (1, 4), (-4, -1), (5, 6),
                        (-6, -5), (0, 1), (-1, 0), (-9, 9)):  # fmt: skip
        log, mean, variance = parts_seen._between(np.array(float(first)), np.array(float(last)))
        known = truncnorm(first, last)
        part = norm.cdf(last) - norm.cdf(first) if first < 0 else norm.sf(first) - norm.sf(last)
        case = first, last
        assert float(log) == pytest.approx(np.log(part), abs=1e-9), case
        assert float(mean) == pytest.approx(known.mean(), abs=1e-8), case
        assert float(variance) == pytest.approx(known.var(), abs=1e-8), case
    # a place is a part of no width
    log, mean, variance = parts_seen._between(np.array(2.0), np.array(2.0))
    assert np.isfinite(float(log))
    assert float(mean) == pytest.approx(2.0)
    assert 0 < float(variance) <= 1


def test_before_the_first_bag_nothing_was_seen() -> None:
    seen = parts_seen.begun_with(0.08, (3,))
    assert seen.ratio.tolist() == [1, 1, 1]
    assert seen.ratio_variance == pytest.approx([0.0064] * 3)
    for none in (seen.taken, seen.taken_variance, seen.together, seen.evidence, seen.surprise):
        assert none.tolist() == [0, 0, 0]
    mean, variance = seen.end(np.array(10.0))
    assert mean == pytest.approx([10] * 3)
    assert variance == pytest.approx([0.64] * 3)
    empty = forecast([], [], 20.0, Expected(0.08))
    assert np.shape(empty.past) == (0,)
    assert float(np.asarray(empty.batch)) == 0


def test_the_end_counts_what_ratio_and_taken_share() -> None:
    """Variance of taken + left · ratio, with their covariance twice. Exact arithmetic."""
    one = np.ones(2)
    seen = parts_seen.SeenParts(
        1.1 * one, 0.01 * one, 5 * one, 0.25 * one, 0.03 * one, np.array([-2.0, -1.0]), one
    )
    mean, variance = seen.end(np.array(10.0))
    assert mean == pytest.approx([16, 16])
    assert variance == pytest.approx([0.25 + 2 * 10 * 0.03 + 100 * 0.01] * 2)
    apart = parts_seen.SeenParts(
        one, one, np.array([5.0, 7.0]), one, one, np.array([-2.0, -1.0]), one
    )
    assert float(apart.likeliest_taken) == 7


def test_a_front_is_asked_for_between_two_chances_of_running_short() -> None:
    """Where it was read, nothing is to be asked. Chances of more than 100 bags: any table."""
    for mean, batch, tells in (
        (100 + 0.53, 2.0, True), (100 + 0.52, 2.0, False), (100 + 1.88, 2.0, True),
        (100 + 1.89, 2.0, False), (101.0, 0.0, False), (101.0, 0.5, True), (99.0, 2.0, False),
    ):  # fmt: skip
        one = Forecast(
            np.array([1.0]), np.array([mean]), np.array([1.0]), np.array(0.0), np.array(0.0),
            np.array(1.0), batch=batch,
        )  # fmt: skip
        assert bool(one.front_tells(100)) is tells, (mean, batch)


def test_a_front_is_asked_for_where_it_would_tell_of_a_hole_or_the_count_is_coarse() -> None:
    """Of 7.5 planned bags: 12 counted by fours may be a hole of four or the end of a batch."""
    for used, beyond, tells in (
        ([8], [4], False), ([12], [4], True), ([12], [0], False), ([8], [2], False),
        ([10], [2], False), ([10.5], [2], True), ([16], [4], False),  # asked about as a hole
        ([8, 12], [4, 4], True), ([12, 4], [4, 4], False),
    ):  # fmt: skip
        seen = forecast([7.5] * len(used), used, 45, Expected(0.058), beyond=beyond, part=7.5)
        assert bool(seen.front_tells(np.inf)) is tells, (used, beyond)
    said = forecast([7.5], [12], 45, Expected(0.058), beyond=[4], part=7.5, lost=[-1])
    assert not said.front_tells(np.inf)
    nothing_lost = Expected(0.058, hole_chance=0)
    for batch, left, coarse in ((3.75, 29, False), (3.76, 29, True), (3.76, 31, False)):
        seen = forecast([7.5], [8], left, nothing_lost, beyond=[batch], part=7.5)
        assert bool(seen.coarse) is coarse, (batch, left)
        bags = float(seen.quantile(0.5)) - seen.begun
        assert float(seen.chance_short(bags)) == pytest.approx(0.5)
        assert bool(seen.front_tells(bags)) is coarse, batch


def test_how_far_out_a_batch_is_is_told_by_its_middle_chance() -> None:
    for first, last in ((2.0, 2.0), (-2.0, -2.0), (-1.0, 1.0), (1.0, 3.0), (-3.0, -1.0), (-0.5, 2),
                        (9.0, 11.0), (-11.0, -9.0)):  # fmt: skip
        known = norm.isf((norm.sf(first) + norm.sf(last)) / 2)
        if last < 0:  # where its upper tail is all but one
            known = norm.ppf((norm.cdf(first) + norm.cdf(last)) / 2)
        found = parts_seen._sd_of(np.array([first]), np.array([last]))
        assert found == pytest.approx([known], abs=1e-9), (first, last)


def test_one_part_more_is_weighed_as_the_plane_of_both_numbers_says() -> None:
    """Ratio and what was taken as one normal of two numbers, summed over a fine grid of both."""
    for beyond, lost in ((0.0, 0.0), (2.0, 0.0), (2.0, 1.0), (0.0, 1.0)):
        before = (1.05, 0.0049, 8.0, 0.2, 0.012, -1.5, 0.0)
        seen = parts_seen.SeenParts(*(np.array([each]) for each in before))
        found = parts_seen.with_part(
            seen, np.array([4.0]), np.array([13.4]), np.array([0.06]), np.array([lost]),
            np.array([1.5]), np.array([beyond]),
        )  # fmt: skip
        # before: both, and what the part takes
        both = np.array([[0.0049, 0.012], [0.012, 0.2]])
        on = np.array([[1.0, 0.0], [4.0, 1.0]])
        cov = on @ both @ on.T + np.diag([0.0, 0.06 + 1.5**2 * lost])
        mean = np.array([1.05, 8.0 + 4.0 * 1.05 + 1.5 * lost])
        sd = cov[1, 1] ** 0.5
        slope = cov[0, 1] / cov[1, 1]
        rest = cov[0, 0] - slope * cov[0, 1]
        if beyond:
            taken = np.linspace(13.4 - beyond, 13.4, 20001)
            weight = norm(mean[1], sd).pdf(taken)
            evidence = np.log(weight.mean() * beyond)
            weight /= weight.sum()
        else:
            taken, weight = np.array([13.4]), np.array([1.0])
            evidence = norm(mean[1], sd).logpdf(13.4) + 0.5 * np.log(2 * np.pi)
        ratios = mean[0] + slope * (taken - mean[1])
        middle, ratio = weight @ taken, weight @ ratios
        known = (
            ratio, rest + weight @ (ratios - ratio) ** 2, middle, weight @ (taken - middle) ** 2,
            weight @ ((ratios - ratio) * (taken - middle)), -1.5 + evidence,
        )  # fmt: skip
        got = (
            found.ratio, found.ratio_variance, found.taken, found.taken_variance, found.together,
            found.evidence,
        )  # fmt: skip
        assert [float(each[0]) for each in got] == pytest.approx(known, abs=2e-4), (beyond, lost)


def test_pours_beside_each_other_are_seen_each_by_itself() -> None:
    """One whose front was read, one that ends in a batch, and one in half a bag of it."""
    before = (1.05, 0.0049, 8.0, 0.2, 0.012, -1.5, 0.0)

    def seen_with(*beyond: float) -> list[list[float]]:
        count = len(beyond)
        seen = parts_seen.SeenParts(*(np.full((count, 1), each) for each in before))
        found = parts_seen.with_part(
            seen, np.array([4.0]), np.full((count, 1), 13.4), np.array([0.06]), np.array([0.0]),
            np.array([1.5]), np.array(beyond)[:, None],
        )  # fmt: skip
        rows = (found.ratio, found.ratio_variance, found.taken, found.taken_variance,
                found.together, found.evidence, found.surprise)  # fmt: skip
        by_pour: list[list[float]] = np.concatenate(rows, axis=1).tolist()
        return by_pour

    together = seen_with(0.0, 2.0, 0.5)
    assert together == [*seen_with(0.0), *seen_with(2.0), *seen_with(0.5)]
    assert together[2][3] < 0.5**2 / 12 + 1e-3 < together[1][3]
