"""The forecast against the normal distribution of all parts at once, written out.

What each explanation expects of the parts is one multivariate normal: round what was planned and
lost, with what the ratio shares and what parts differ by. Its density is scipy's, and what it says
of the ratio and of the last part comes by the formula for conditioned normals.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.stats import multivariate_normal, norm

from assistant.errors import SurveyError
from assistant.pours.forecast import Expected, Forecast, forecast, ratio_sd

EXPECTED = Expected(0.08, part_sd=0.05, hole_chance=0.2, lost_share=0.04)


def written_out(
    plan: Sequence[float],
    used: Sequence[float],
    left: float,
    said: Sequence[float],
    part: float,
) -> tuple[list[float], list[float], list[float], float]:
    """Weights, means and standard deviations of each explanation; and the last part's surprise."""
    x, y = np.array(plan, dtype=float), np.array(used, dtype=float)
    total, size = x.sum() + left, EXPECTED.lost_share * (x.sum() + left)
    noise = np.diag(EXPECTED.part_sd**2 * x * part)
    told = np.array(said) > 0
    chances = EXPECTED.hole_chance * x / total
    ways = [(told, 1 - chances.sum())]
    for row in range(len(x)):
        there = told.copy()
        there[row] = True
        ways.append((there, chances[row] if said[row] == 0 else 0.0))
    weights, means, sds = [], [], []
    for lost, prior in ways:
        around = x + lost * size
        cov = EXPECTED.ratio_sd**2 * np.outer(x, x) + noise + np.diag(lost * size**2)
        weights.append(prior * multivariate_normal(around, cov).pdf(y))
        gain = EXPECTED.ratio_sd**2 * x @ np.linalg.inv(cov)
        means.append(y.sum() + left * (1 + gain @ (y - around)))
        of_ratio = EXPECTED.ratio_sd**2 - EXPECTED.ratio_sd**2 * gain @ x
        spread = of_ratio * left**2 + EXPECTED.part_sd**2 * left * part
        sds.append(spread**0.5)
    before = noise[:-1, :-1] + np.diag(told[:-1] * size**2)
    cov = EXPECTED.ratio_sd**2 * np.outer(x[:-1], x[:-1]) + before
    gain = EXPECTED.ratio_sd**2 * x[-1] * x[:-1] @ np.linalg.inv(cov)
    more = y[-1] - x[-1] - gain @ (y[:-1] - x[:-1] - told[:-1] * size)
    variance = EXPECTED.ratio_sd**2 * x[-1] ** 2 - EXPECTED.ratio_sd**2 * x[-1] * gain @ x[:-1]
    surprise = more / (variance + noise[-1, -1]) ** 0.5 if said[-1] == 0 else 0.0
    return [each / sum(weights) for each in weights], means, sds, surprise


PLAN = [4.0, 5.0, 3.0]


def test_each_explanation_is_the_normal_of_all_parts_at_once() -> None:
    for used, said in (
        ([4.2, 5.1, 3.3], [0, 0, 0]), ([4.2, 7.9, 3.3], [0, 0, 0]), ([3.9, 5.0, 5.5], [0, 0, 0]),
        ([4.2, 7.9, 3.3], [0, 1, 0]), ([4.2, 7.9, 3.3], [0, -1, 0]),
        ([6.9, 5.0, 5.2], [1, 0, -1]), ([3.5, 4.4, 2.6], [-1, -1, 1]),
    ):  # fmt: skip
        found = forecast(PLAN, used, 20.0, EXPECTED, lost=said, part=4.5)
        weights, means, sds, surprise = written_out(PLAN, used, 20.0, said, 4.5)
        assert found.weights == pytest.approx(weights, abs=1e-9), (used, said)
        assert found.means == pytest.approx(means)
        assert found.sds == pytest.approx(sds)
        assert float(found.surprise_sd) == pytest.approx(surprise)
        assert float(found.hole_chance) == pytest.approx(weights[-1])
        mean = sum(w * m for w, m in zip(weights, means, strict=True))
        square = sum(w * (s**2 + m**2) for w, m, s in zip(weights, means, sds, strict=True))
        assert float(found.mean) == pytest.approx(mean)
        assert float(found.sd) == pytest.approx((square - mean**2) ** 0.5)
        for bags in (30, 34.5, 40):
            over = sum(w * norm(m, s).sf(bags) for w, m, s in zip(weights, means, sds, strict=True))
            assert float(found.chance_over(bags)) == pytest.approx(over)
        low, high = (float(bags) for bags in found.interval)
        assert low == pytest.approx(enough_for(found, 0.95), abs=1e-6)
        assert high == pytest.approx(enough_for(found, 0.05), abs=1e-6)


def test_what_nothing_explains_is_explained_by_the_least_unlikely() -> None:
    """All explanations are less likely than floats go; their shares of each other are not."""
    found = forecast([4, 4], [4, 900], 20, EXPECTED)
    assert float(found.weights.sum()) == pytest.approx(1)
    assert float(found.hole_chance) > 0.99


def test_what_is_expected_where_nothing_else_is_known() -> None:
    """The strips' own scatter and a hole's chance and size: common practice, our own choice."""
    assert Expected(0.08) == Expected(0.08, part_sd=0.06, hole_chance=0.05, lost_share=0.05)


def enough_for(found: Forecast, chance_over: float) -> float:
    """Bags that are passed with a chance, by a solver of its own."""
    return float(brentq(lambda at: float(found.chance_over(at)) - chance_over, 0, 99))


def test_what_a_usual_strip_is_where_nobody_says() -> None:
    """The mean of the parts; before the first an eighth of the pour. Exact arithmetic."""
    for plan, used, usual in (([], [], 3.0), ([4.0, 5.0, 3.0], [4.0, 5.0, 3.0], 4.0)):
        found = forecast(plan, used, 24.0, Expected(0.08, hole_chance=0.0))
        told = forecast(plan, used, 24.0, Expected(0.08, hole_chance=0.0), part=usual)
        assert float(found.sd) == pytest.approx(float(told.sd))
    before = forecast([], [], 24.0, Expected(0.08, part_sd=0.06, hole_chance=0.0))
    assert float(before.sd) == pytest.approx((0.08**2 * 24**2 + 0.06**2 * 24 * 3) ** 0.5)


def one(mean: float, sd: float, surprise: float = 0.0) -> Forecast:
    return Forecast(
        np.array([1.0]), np.array([mean]), np.array([sd]), np.array(0.0), np.array(surprise),
        np.array(1.0),
    )  # fmt: skip


def test_when_short_is_told_of_a_hundred_bags() -> None:
    """
    Over by 3 % and by 0.6 standard deviations, or with a chance of 90 %.

    The chance of more than 100 bags is 0.758 at 0.7, 0.867 at 1.11 and 0.923 at 1.43 standard
    deviations: the normal distribution, from any table.
    """
    for mean, sd, told in (
        (103.5, 5.0, True), (103.5, 6.0, False), (102.9, 4.0, False), (103.1, 4.0, True),
        (101.0, 0.7, True), (101.0, 0.9, False), (99.0, 1.0, False), (130.0, 49.0, True),
        (103.0, 4.0, False), (106.0, 10.0, False),  # at the bounds themselves
        (130.0, 51.0, False),
    ):  # fmt: skip
        assert bool(one(mean, sd).short(100)) is told, (mean, sd)


def test_a_hole_is_asked_about_from_two_and_a_half_standard_deviations_on() -> None:
    for surprise, asks, far_less in (
        (2.6, True, False), (2.4, False, False), (2.5, False, False), (3.4, True, False),
        (-2.6, False, True), (-2.4, False, False), (-2.5, False, False), (-9.0, False, True),
    ):  # fmt: skip
        assert bool(one(100, 1, surprise).asks) is asks, surprise
        assert bool(one(100, 1, surprise).far_less) is far_less, surprise


def test_the_interval_of_one_normal_is_ninety_percent_of_it() -> None:
    """1.6449 standard deviations on both sides, from any table."""
    low, high = one(100, 10).interval
    assert (float(low), float(high)) == pytest.approx((83.551, 116.449), abs=5e-4)
    for chance, bags in ((0.5, 100), (0.8413447, 110), (0.0013499, 70), (0.99996832876, 140)):
        assert float(one(100, 10).quantile(chance)) == pytest.approx(bags, abs=2e-3)


def test_what_is_spread_by_nothing_is_sure() -> None:
    sure = one(64, 0)
    assert [float(bags) for bags in sure.interval] == pytest.approx([64, 64])
    assert float(sure.chance_over(63.999)) == 1
    assert float(sure.chance_over(64.001)) == 0
    assert ratio_sd(1.0, 0.0, 0.0, 0.0) == 0


def test_what_a_forecast_cannot_be_made_of() -> None:
    for planned, used, left, lost in (
        ([4], [4, 5], 3, None), ([[4]], [4], 3, None), ([4], [4], 3, [0, 0]), ([0], [1], 3, None),
        ([-1], [1], 3, None), ([np.inf], [1], 3, None), ([4], [-1], 3, None), ([4], [4], -1, None),
        ([4], [np.nan], 3, None), ([4], [4], np.nan, None),
    ):  # fmt: skip
        with pytest.raises(SurveyError):
            forecast(planned, used, left, EXPECTED, lost=lost)
    # a part that took nothing, and nothing left, are numbers
    assert float(forecast([4, 4], [0, 8], 0, EXPECTED).mean) == pytest.approx(8)
    for sds in ((-1, 0, 0), (0, -1, 0), (0, 0, -1)):
        with pytest.raises(SurveyError):
            ratio_sd(1.0, *sds)
    with pytest.raises(SurveyError):
        ratio_sd(0.0, 0.0, 0.0, 0.0)
