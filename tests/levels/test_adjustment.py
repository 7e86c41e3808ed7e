"""Heights by least squares: published networks, many set-ups, ties that lack.

Sources stand beside the values; "exact arithmetic" was worked out elsewhere from them.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pytest_benchmark.fixture import BenchmarkFixture

from assistant.errors import SurveyError
from assistant.levels.adjustment import (
    Known,
    Loose,
    PointObservations,
    Source,
    Steps,
    adjust,
)
from assistant.levels.arrays import FloatArray
from tests.benchmarks.yardstick import Clocked, within
from tests.levels.dense_fit import LeastSquaresFit, fit_least_squares

MM = 0.001


# --- published networks ------------------------------------------------------


def test_network_of_ghilani_and_wolf() -> None:
    # Ghilani and Wolf, Adjustment Computations, 4th ed. (2006), example 12.1, read in a public
    # text that quotes it. A 437.596 m; height differences and their standard deviations, m.
    a, b, c, d = range(4)
    result = adjust(
        4,
        0,
        known_points=Known([a], [437.596]),
        steps=Steps(
            [a, b, c, d, b, a],
            [b, c, d, a, d, c],
            [10.509, 5.360, -8.523, -7.348, -3.167, 15.881],
            [0.006, 0.004, 0.005, 0.003, 0.004, 0.012],
        ),
    )
    assert result.heights_m == pytest.approx([437.596, 448.1087, 453.4685, 444.9436], abs=5.1e-5)
    # Published 1.26976 is from rounded residuals. The book prints S0 0.6575, a misprint.
    assert result.sigma0**2 * 3 == pytest.approx(1.272123, abs=5.1e-7)
    assert result.sigma0 == pytest.approx(0.651184, abs=5.1e-7)
    assert result.test.dof == 3
    # Exact arithmetic: residuals and standard deviations, mm.
    assert result.residuals_m / MM == pytest.approx(
        [3.71, -0.24, -1.86, 0.39, 1.89, -8.53], abs=0.0051
    )
    assert result.sd_m / MM == pytest.approx([0, 3.525, 4.048, 2.704], abs=5.1e-4)
    assert result.sd_m * result.sigma0 / MM == pytest.approx([0, 2.295, 2.636, 1.761], abs=5.1e-4)
    assert result.suspects == ()


def test_network_of_strang_and_borre() -> None:
    # Strang and Borre, Linear Algebra, Geodesy and GPS (1997), levelling example, as posted in
    # a surveyors' forum with its statistics; 6 mm on a kilometre.
    a, b, c, e, f = range(5)
    km = np.array([0.970, 1.002, 1.070, 1.110, 0.890])
    result = adjust(
        5,
        0,
        known_points=Known([a, b, c], [10.021, 10.321, 11.002]),
        steps=Steps(
            [a, a, b, c, e],
            [e, f, e, f, f],
            [0.732, 1.978, 0.420, 0.988, 1.258],
            6 * MM * np.sqrt(km),
        ),
    )
    assert result.sigma0**2 * 3 == pytest.approx(4.636, abs=5.1e-4)
    assert result.sigma0 == pytest.approx(1.243, abs=5.1e-4)
    assert (result.test.low, result.test.high) == pytest.approx((0.268, 1.765), abs=5.1e-4)
    assert not result.test.too_large
    # Exact arithmetic.
    assert result.sigma0**2 * 3 == pytest.approx(4.63616, abs=5.1e-6)
    assert result.heights_m[[e, f]] == pytest.approx([10.744503, 11.997620], abs=5.1e-7)
    assert result.sd_m[[e, f]] / MM == pytest.approx([3.67, 3.71], abs=0.0051)


GW_12_3 = Steps(
    start=[0, 2, 1, 4, 2, 1, 3],
    end=[2, 1, 4, 0, 3, 3, 4],
    value_m=[5.10, 2.34, -1.25, -6.13, -0.68, -3.00, 1.70],
    sd_m=1.0,
)


def test_network_with_equal_and_other_weights() -> None:
    # Ghilani and Wolf, sections 12.3 and 12.5, data and answers from memory: X 100.00,
    # Y 107.50; A, B and C to find. Then by distance in miles, weights 12 / d.
    known = Known([0, 1], [100.00, 107.50])
    equal = adjust(5, 0, known_points=known, steps=GW_12_3)
    assert equal.heights_m[2:] == pytest.approx([105.141, 104.483, 106.188], abs=5.1e-4)
    assert equal.sigma0 == pytest.approx(0.0501, abs=5.1e-5)
    miles = np.array([4, 3, 2, 3, 2, 2, 2.0])
    for unit, sigma0, digits in ((12, 0.107, 5.1e-4), (1, 0.0310, 5.1e-5)):
        steps = Steps(GW_12_3.start, GW_12_3.end, GW_12_3.value_m, np.sqrt(miles / unit))
        result = adjust(5, 0, known_points=known, steps=steps)
        assert result.heights_m[2:] == pytest.approx([105.150, 104.489, 106.197], abs=5.1e-4)
        assert result.sigma0 == pytest.approx(sigma0, abs=digits)


def test_level_line_between_two_marks() -> None:
    # Level line of Universiti Sains Malaysia (read): five set-ups, staff readings, so minus.
    names = ["OBM1", "A", "B", "C", "D", "E", "CP", "F", "G", "OBM2"]
    book = [
        (0, "OBM1 1.717 A 1.432 B 1.716"),
        (1, "B 2.918 C 2.272 D 0.953"),
        (2, "D 0.816 E 3.005"),
        (3, "E 1.436 CP 1.391"),
        (4, "CP 1.246 F 1.353 G 1.462 OBM2 0.628"),
    ]
    rows = [
        (set_up, names.index(name), -float(staff))
        for set_up, line in book
        for name, staff in zip(line.split()[::2], line.split()[1::2], strict=True)
    ]
    set_up, point, value = zip(*rows, strict=True)
    known = Known([0, 9], [29.23, 29.66])
    result = adjust(10, 5, PointObservations(set_up, point, value), known_points=known)
    heights = dict(zip(names, result.heights_m.tolist(), strict=True))
    # Turning points take -2 mm for each set-up, as the published line has it (unrounded).
    published = {"B": 29.229, "D": 31.192, "E": 29.001, "CP": 29.044}
    assert {name: heights[name] for name in published} == pytest.approx(published, abs=1e-9)
    # A point seen from half-way takes half a set-up's share: least squares is finer here.
    assert heights["A"] == pytest.approx(29.515 - 0.001)
    # One misclosure of 10 mm over ten equal readings.
    assert result.test.dof == 1
    assert np.unique(np.abs(result.residuals_m / MM).round(9)).tolist() == [0.0, 1.0]


# --- one set-up, several, a hundred ------------------------------------------


def test_a_single_point() -> None:
    result = adjust(
        1, 1, PointObservations([0], [0], [-18 * MM], 1 * MM), known_zeros=Known([0], [0.0])
    )
    assert result.heights_m == pytest.approx([-18 * MM])
    assert result.sd_m == pytest.approx([1 * MM])
    assert result.test.dof == 0
    assert np.isnan(result.sigma0)
    assert not result.test.too_large
    assert np.isnan(result.w_test.w).all()
    assert np.isinf(result.w_test.detectable_m).all()
    assert result.suspects == ()


def test_nothing_at_all() -> None:
    result = adjust(0, 0)
    assert result.heights_m.size == 0
    assert result.loose == ()


def test_reservoir_moved_and_tied_on_a_point() -> None:
    # Zero 1 is the datum. C4 read at -22; the second set-up stands 5 mm lower, reads it at -17.
    c4, b3 = 0, 1
    result = adjust(
        2,
        2,
        PointObservations([0, 1, 1], [c4, c4, b3], np.array([-22, -17, -9]) * MM),
        known_zeros=Known([0], [0.0]),
    )
    assert result.heights_m / MM == pytest.approx([-22, -14])
    assert result.zeros_m / MM == pytest.approx([0, -5])
    # Three readings of 1 mm stand between the datum and B3: exact arithmetic.
    assert result.sd_m / MM == pytest.approx([1, np.sqrt(3)])
    assert result.zero_sd_m / MM == pytest.approx([0, np.sqrt(2)])
    # Both are moved alike by what C4's first reading is off.
    assert result.covariance_m2([0, 1])[0, 1] / MM**2 == pytest.approx(1)


def test_what_a_chain_of_set_ups_hands_on() -> None:
    # Set-ups 1 to 3, each tied to the one before on a point; D1 is read from the third alone.
    a1, b1, c1, d1 = range(4)
    result = adjust(
        4,
        3,
        PointObservations([0, 0, 1, 1, 2, 2], [a1, b1, b1, c1, c1, d1], np.zeros(6), MM),
        known_zeros=Known([0], [0.0]),
    )
    # Exact arithmetic, mm: a tie joins two readings of 1 mm, so each zero adds a variance of 2.
    # A point is read once (own 1 mm), but those read from both sides hang on either zero by half.
    assert result.own_sd_m([a1, b1, c1, d1]) / MM == pytest.approx([1, 0.5**0.5, 0.5**0.5, 1])
    root = 2**0.5
    expected = [[0, 0], [root / 2, 0], [root, root / 2], [root, root]]
    assert result.shared_m([a1, b1, c1, d1]) / MM == pytest.approx(np.array(expected))
    assert result.zeros_shared_m() / MM == pytest.approx(
        np.array([[0, 0], [root, 0], [root, root]])
    )


def test_a_further_set_up_leaves_what_the_others_share() -> None:
    # To the last digit but a few, so that a surface fitted before serves again.
    def shared(set_ups: int) -> FloatArray:
        set_up = np.repeat(np.arange(set_ups), 2)
        point = set_up + np.tile([0, 1], set_ups)
        known = Known([0], [0.0])
        readings = PointObservations(set_up, point, np.zeros(len(point)), MM)
        return adjust(set_ups + 1, set_ups, readings, known_zeros=known).shared_m([0, 1, 2])

    assert shared(5)[:, :2] == pytest.approx(shared(4)[:, :2], abs=1e-15)
    assert shared(5)[:2, 2:] == pytest.approx(np.zeros((2, 2)))


def test_benchmark_known_to_a_millimetre_can_be_doubted() -> None:
    readings = PointObservations([0, 0, 0], [0, 1, 2], np.array([0, 10, 30]) * MM, 0.5 * MM)
    known = Known([0, 1, 2], np.array([0, 10, 20]) * MM, 0.2 * MM)
    result = adjust(3, 1, readings, known_points=known)
    # Whether the third benchmark is wrong or was misread, nobody can tell from here.
    assert {suspect.source for suspect in result.suspects} == {
        Source("reading", 2),
        Source("known point", 2),
    }
    assert result.suspects[0].blunder_m / MM == pytest.approx(10)


def test_steps_and_readings_together() -> None:
    # Benchmark, a step of 50 mm to P (1 mm), then P and Q read from one set-up (1 mm each).
    bench, p, q = range(3)
    result = adjust(
        3,
        1,
        PointObservations([0, 0], [p, q], np.array([2, -3]) * MM, MM),
        known_points=Known([bench], [0.0]),
        steps=Steps([bench], [p], [50 * MM], MM),
    )
    assert result.heights_m / MM == pytest.approx([0, 50, 45])
    # Exact arithmetic: Q follows P's error whole, and has two readings of its own beside it.
    expected = [[0, 0, 0], [0, 1, 1], [0, 1, 3]]
    assert result.covariance_m2([bench, p, q]) / MM**2 == pytest.approx(np.array(expected))


def test_readings_and_steps_are_good_to_a_millimetre_unless_said() -> None:
    # Exact arithmetic: a reading from the zero held, and a step on from there.
    result = adjust(
        2,
        1,
        PointObservations([0], [0], [0.012]),
        known_zeros=Known([0], [0.0]),
        steps=Steps([0], [1], [0.005]),
    )
    assert result.heights_m == pytest.approx([0.012, 0.017])
    assert result.sd_m / MM == pytest.approx([1, np.sqrt(2)])


@pytest.mark.parametrize(("apart_m", "same"), [(0.9e-9, True), (1.2e-9, False)])
def test_two_exact_heights_of_one_mark_are_the_same_but_for_rounding(
    apart_m: float, same: bool
) -> None:
    known = Known([0, 0], [0.040, 0.040 + apart_m])
    if same:
        assert adjust(1, 0, known_points=known).heights_m == pytest.approx([0.040])
    else:
        with pytest.raises(SurveyError, match="two exact heights"):
            adjust(1, 0, known_points=known)


def dense_answer(
    points: int, set_ups: int, readings: PointObservations, known_zero: float
) -> LeastSquaresFit:
    """The same survey with every unknown in one table."""
    set_up, point = np.asarray(readings.set_up), np.asarray(readings.point)
    design = np.zeros((len(set_up) + 1, points + set_ups))
    rows = np.arange(len(set_up))
    design[rows, point] = 1
    design[rows, points + set_up] = -1
    design[-1, points] = 1
    sds = np.append(readings.sd_m, 1e-7)
    return fit_least_squares(design, np.append(readings.value_m, known_zero), sds)


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 10**6))
def test_elimination_agrees_with_one_table(seed: int) -> None:
    rng = np.random.default_rng(seed)
    points, set_ups = int(rng.integers(1, 8)), int(rng.integers(1, 5))
    # Point 0 is read from everywhere, so everything hangs together.
    extra = int(rng.integers(0, 15))
    set_up = np.concatenate([np.arange(set_ups), rng.integers(0, set_ups, points - 1 + extra)])
    point = np.concatenate(
        [np.zeros(set_ups, int), np.arange(1, points), rng.integers(0, points, extra)]
    )
    readings = PointObservations(
        set_up, point, rng.normal(0, 0.02, point.size), 10 ** rng.uniform(-4, -2, point.size)
    )
    ours = adjust(points, set_ups, readings, known_zeros=Known([0], [0.004]))
    dense = dense_answer(points, set_ups, readings, 0.004)
    assert ours.heights_m == pytest.approx(dense.unknowns[:points], abs=1e-9)
    assert ours.zeros_m == pytest.approx(dense.unknowns[points:], abs=1e-9)
    assert ours.residuals_m == pytest.approx(dense.residuals[:-1], abs=1e-9)
    assert ours.redundancy == pytest.approx(dense.redundancy[:-1], abs=1e-5)
    assert ours.redundancy.sum() == pytest.approx(ours.test.dof, abs=1e-6)
    covariance = ours.covariance_m2(np.arange(points))
    assert covariance == pytest.approx(dense.covariance[:points, :points], rel=1e-4, abs=1e-12)
    assert ours.sd_m == pytest.approx(np.sqrt(np.diag(covariance)))
    # Readings' own errors and those that points share are the whole of it.
    own, shared = ours.own_sd_m(np.arange(points)), ours.shared_m(np.arange(points))
    assert np.diag(own**2) + shared @ shared.T == pytest.approx(covariance, abs=1e-12)
    zeros = ours.zeros_shared_m()
    assert zeros @ zeros.T == pytest.approx(dense.covariance[points:, points:], rel=1e-4, abs=1e-12)
    assert zeros @ shared.T == pytest.approx(
        dense.covariance[points:, :points], rel=1e-4, abs=1e-12
    )
    # Raise the datum and every height rises with it; nothing else changes.
    raised = adjust(points, set_ups, readings, known_zeros=Known([0], [1.004]))
    assert raised.heights_m == pytest.approx(ours.heights_m + 1, abs=1e-9)
    assert raised.residuals_m == pytest.approx(ours.residuals_m, abs=1e-9)


def hundred_set_ups(each: int, shared: bool) -> tuple[int, FloatArray, PointObservations]:
    """Readings of a known floor from 100 set-ups: all the same points, or one in common."""
    rng = np.random.default_rng(11)
    set_up = np.repeat(np.arange(100), each)
    points = each if shared else 100 * (each - 1) + 1
    point = (
        np.tile(np.arange(each), 100)
        if shared
        else np.insert(np.arange(points - 1).reshape(100, -1) + 1, 0, 0, axis=1).ravel()
    )
    floor, zeros = rng.normal(0, 0.010, points), rng.normal(0, 0.050, 100)
    readings = PointObservations(
        set_up, point, floor[point] - zeros[set_up] + rng.normal(0, MM, point.size)
    )
    return points, floor, readings


@pytest.mark.parametrize("shared", [True, False])
def test_a_hundred_set_ups_recover_the_floor(shared: bool) -> None:
    points, floor, readings = hundred_set_ups(20, shared)
    result = adjust(points, 100, readings, known_points=Known([0], [floor[0]]))
    misses = (result.heights_m - floor)[1:] / result.sd_m[1:]
    assert np.abs(misses).max() < 5
    assert result.sd_m[1:] / MM == pytest.approx(
        np.full(points - 1, 0.141 if shared else 1.414), rel=0.02
    )
    if shared:
        assert result.test.low <= result.test.sigma0 <= result.test.high


def test_bench_a_hundred_set_ups_of_500_readings(benchmark: BenchmarkFixture) -> None:
    points, floor, readings = hundred_set_ups(500, shared=True)
    known = Known([0], [floor[0]])
    adjusted = Clocked(lambda: adjust(points, 100, readings, known_points=known))
    benchmark.pedantic(adjusted, rounds=3)
    within(1000, adjusted)


# --- what lacks a tie --------------------------------------------------------


def test_a_set_up_without_a_tie_is_named() -> None:
    # Set-up 2 reads only D1 and D2, which nobody else does.
    readings = PointObservations([0, 0, 1, 1], [0, 1, 2, 3], np.array([-5, -6, -7, -8]) * MM)
    result = adjust(5, 3, readings, known_zeros=Known([0], [0.0]))
    assert result.loose == (Loose((1,), (2, 3)), Loose((2,), ()))
    assert result.unread == (4,)
    assert np.isnan(result.heights_m[2:]).all()
    assert result.heights_m[:2] / MM == pytest.approx([-5, -6])


def test_one_tie_more_and_everything_is_determined() -> None:
    readings = PointObservations(
        [0, 0, 1, 1, 1], [0, 1, 2, 3, 0], np.array([-5, -6, -7, -8, -4]) * MM
    )
    result = adjust(4, 2, readings, known_zeros=Known([0], [0.0]))
    assert result.loose == ()
    assert result.heights_m / MM == pytest.approx([-5, -6, -8, -9])


def test_two_loose_set_ups_hang_together() -> None:
    readings = PointObservations([1, 1, 2, 2], [0, 1, 1, 2], [0.0] * 4)
    result = adjust(3, 3, readings, known_zeros=Known([0], [0.0]))
    assert result.loose == (Loose((1, 2), (0, 1, 2)),)


def test_without_any_known_height_nothing_is_determined() -> None:
    result = adjust(2, 1, PointObservations([0, 0], [0, 1], [0.0, 0.001]))
    assert result.loose == (Loose((0,), (0, 1)),)
    assert np.isnan(result.heights_m).all()
    assert result.test.dof == 0


def test_a_loop_of_steps_without_a_benchmark_is_loose() -> None:
    result = adjust(3, 0, steps=Steps([0, 1, 2], [1, 2, 0], [0.1, 0.1, -0.2]))
    assert result.loose == (Loose((), (0, 1, 2)),)


@pytest.mark.parametrize(
    ("build", "says"),
    [
        (lambda: adjust(1, 1, PointObservations([0], [1], [0.0])), "names point 1"),
        (lambda: adjust(1, 1, PointObservations([1], [0], [0.0])), "names set-up 1"),
        (lambda: adjust(1, 1, PointObservations([0], [0], [float("nan")])), "reading in row 1"),
        (
            lambda: adjust(1, 1, PointObservations([0], [0], [0.0], 0.0)),
            "standard deviation in row 1",
        ),
        (lambda: adjust(1, 1, PointObservations([0, 0], [0], [0.0])), "needs both its ends"),
        (lambda: adjust(2, 0, steps=Steps([0], [0], [0.1])), "starts where it ends"),
        (lambda: adjust(1, 0, known_points=Known([0, 0], [0.1, 0.2])), "two exact heights"),
        (lambda: adjust(1, 0, known_points=Known([0], [0.1], -1.0)), "zero or more"),
    ],
)
def test_senseless_surveys_are_refused(build: Callable[..., Any], says: str) -> None:
    with pytest.raises(SurveyError, match=says):
        build()
