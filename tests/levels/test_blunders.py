"""Readings that are wrong: tested, named, and left out; sources stand beside the values."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from assistant.errors import SurveyError
from assistant.levels.adjustment import Known, PointObservations, Source, adjust, without_blunders
from assistant.levels.arrays import FloatArray
from assistant.levels.blunders import global_test, w_test

MM = 0.001


def test_w_test_on_three_readings_of_a_point() -> None:
    # Exact arithmetic: of three equal readings, one 9 mm high is off by 9 from the mean of the
    # other two; its residual is two thirds of it, its redundancy two thirds.
    readings = PointObservations([0, 0, 0], [0, 0, 0], np.array([0, 0, 9]) * MM, 1 * MM)
    result = adjust(1, 1, readings, known_zeros=Known([0], [0.0]))
    assert result.residuals_m / MM == pytest.approx([3, 3, -6])
    assert result.redundancy == pytest.approx([2 / 3] * 3)
    assert result.w_test.w == pytest.approx([3.674, 3.674, -7.348], abs=5.1e-4)
    (suspect,) = result.suspects
    assert suspect.source == Source("reading", 2)
    assert suspect.blunder_m / MM == pytest.approx(9)
    assert result.test.too_large


def test_critical_value_and_detectable_blunder() -> None:
    # Normal points 3.29 for 0.001 two-sided and 4.13 with power 0.80: from memory (Baarda).
    result = w_test(np.zeros(2), np.array([1.0, 0.25]), np.array([MM, MM]))
    assert result.critical == pytest.approx(3.29, abs=0.001)
    assert result.detectable_m / MM == pytest.approx([4.13, 8.26], abs=0.005)
    with pytest.raises(SurveyError, match="between 0 and 1"):
        w_test(np.zeros(1), np.ones(1), np.ones(1), alpha=0)


def test_sd_bounds_of_ten_readings() -> None:
    # 95 % interval of a standard deviation, n = 10, s = 1: 0.6878 to 1.8256 (printed tables;
    # from memory). The test's bounds are the same points, the other way up.
    bounds = global_test(9.0, 9)
    assert (1 / bounds.high, 1 / bounds.low) == pytest.approx((0.6878, 1.8256), abs=5.1e-5)


def crossed_survey(
    rng: np.random.Generator, blunders: list[tuple[int, float]] | tuple[()] = ()
) -> tuple[FloatArray, PointObservations]:
    """Twelve points read from three set-ups, three times each; some readings are wrong."""
    set_up = np.repeat(np.arange(3), 12)
    point = np.tile(np.arange(12), 3)
    floor, zeros = rng.normal(0, 0.01, 12), np.array([0.0, 0.02, -0.03])
    value = floor[point] - zeros[set_up] + rng.normal(0, MM, 36)
    for row, size in blunders:
        value[row] += size
    return floor, PointObservations(set_up, point, value, MM)


def test_a_blunder_is_named_and_the_floor_recovered_without_it() -> None:
    rng = np.random.default_rng(5)
    for row in range(36):
        floor, readings = crossed_survey(rng, [(row, 0.020)])
        found = without_blunders(12, 3, readings, known_zeros=Known([0], [0.0]))
        assert Source("reading", row) in found.left_out
        assert np.abs(found.heights_m - floor).max() < 4 * MM
        first = adjust(12, 3, readings, known_zeros=Known([0], [0.0])).suspects
        assert [suspect.source.row for suspect in first] == [row]
        assert first[0].blunder_m == pytest.approx(0.020, abs=5 * MM)


def test_two_blunders_go_one_by_one() -> None:
    floor, readings = crossed_survey(np.random.default_rng(6), [(3, 0.030), (20, -0.015)])
    found = without_blunders(12, 3, readings, known_zeros=Known([0], [0.0]))
    assert found.left_out == (Source("reading", 3), Source("reading", 20))
    assert found.suspects == ()
    assert np.abs(found.heights_m - floor).max() < 4 * MM
    # What was left out is still compared: it was so much too high.
    assert found.residuals_m[3] / MM == pytest.approx(-30, abs=4)
    assert np.isnan(found.redundancy[3])
    assert found.test.dof == 36 - 2 - 14
    stopped = without_blunders(12, 3, readings, known_zeros=Known([0], [0.0]), most=1)
    assert stopped.left_out == (Source("reading", 3),)


def test_two_readings_that_disagree_cannot_be_told_apart() -> None:
    readings = PointObservations([0, 0], [0, 0], [0.0, 0.010], MM)
    found = without_blunders(1, 1, readings, known_zeros=Known([0], [0.0]))
    assert [suspect.source.row for suspect in found.suspects] == [0, 1]
    assert found.left_out == ()


def test_good_surveys_are_seldom_suspected() -> None:
    rng = np.random.default_rng(7)
    surveys = [crossed_survey(rng)[1] for _ in range(150)]
    results = [adjust(12, 3, readings, known_zeros=Known([0], [0.0])) for readings in surveys]
    # 36 tests at 0.001 each, and 0.05 for the test of all together.
    assert sum(bool(result.suspects) for result in results) <= 12
    passed = sum(r.test.low <= r.test.sigma0 <= r.test.high for r in results)
    assert stats.binom.cdf(passed, 150, 0.95) > 0.001
    ours = np.array([result.sigma0**2 for result in results])
    assert ours.mean() == pytest.approx(1, abs=0.08)


@pytest.mark.parametrize("chance", [0.0, 1.0, 1.5, -0.1])
def test_a_chance_lies_between_nothing_and_one(chance: float) -> None:
    one = np.array([0.001])
    with pytest.raises(SurveyError, match="between 0 and 1"):
        w_test(one, np.array([0.5]), one, alpha=chance)
    with pytest.raises(SurveyError, match="between 0 and 1"):
        w_test(one, np.array([0.5]), one, power=chance)
    with pytest.raises(SurveyError, match="between 0 and 1"):
        global_test(1.0, 1, alpha=chance)
