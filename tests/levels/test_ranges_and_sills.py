"""Ranges and sills that a surface is averaged over: against the posterior written out whole.

The other side is worked out as the books have it, without the program's own parts: the restricted
likelihood of contrasts (Patterson and Thompson 1971), log-normal priors, and the average over both
by a fine table of values instead of a few chosen pairs (from memory).
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from itertools import pairwise
from typing import Any

import numpy as np
import pytest
from scipy.optimize import minimize
from scipy.stats import norm

from assistant.levels.arrays import FloatArray
from assistant.levels.kriged import likelihood
from assistant.levels.kriged.covariance import STEP_SD_M, drift_of, spread_of
from assistant.levels.kriged.likelihood import (
    LikelihoodData,
    choose_pairs,
    log_prior,
)
from assistant.levels.kriging import fit_surface

MM = 0.001
NO_STEPS = np.zeros((0, 2, 2))
PLACES = np.array([[1.3, 2.2], [3.0, 3.9], [5.9, 0.4], [7.0, 5.0]])
SIZE_M = 7.2


def read(count: int, number: int = 1) -> tuple[FloatArray, FloatArray]:
    chance = np.random.default_rng(number)
    points = chance.uniform(0, 1, (count, 2)) * [6, 4]
    x, y = points.T
    heights = 4 * np.sin(1.3 * x) * np.cos(y) + 2 * x - y + chance.normal(0, 1, count)
    return points, heights.round() * MM


def correlation(some: FloatArray, others: FloatArray, reach: float) -> FloatArray:
    scaled = np.sqrt(3) * np.hypot(*(some[:, None] - others).transpose(2, 0, 1)) / reach
    found: FloatArray = (1 + scaled) * np.exp(-scaled)
    return found


def data(count: int, size_m: float = SIZE_M, noise: float = MM) -> LikelihoodData:
    points, heights = read(count)
    drift = drift_of(points, NO_STEPS)
    return LikelihoodData(points, heights, np.full(count, noise), drift, size_m, 0.1)


def posterior_of(readings: LikelihoodData) -> Callable[[float, float], float]:
    """Logarithm of the weight of a range and a sill, by their logarithms, up to a constant."""
    points = readings.points_m
    plane = np.column_stack([np.ones(len(points)), points])
    contrasts = np.linalg.svd(plane, full_matrices=True)[0][:, 3:]
    seen = contrasts.T @ readings.heights_m

    def posterior(log_range: float, log_sill: float) -> float:
        sill = np.exp(log_sill)
        covariance = sill**2 * correlation(points, points, np.exp(log_range))
        covariance += np.diag(readings.noise_m**2 + (0.1 * sill) ** 2)
        covariance = contrasts.T @ covariance @ contrasts
        _, log_det = np.linalg.slogdet(covariance)
        fits = -0.5 * (log_det + seen @ np.linalg.solve(covariance, seen))
        # Before any reading: a fifth of the floor's size, 0.7 mm a metre, either within a factor e.
        prior = norm.logpdf(log_range, np.log(readings.size_m / 5), 1)
        prior += norm.logpdf(log_sill, np.log(0.7 * MM * readings.size_m), 1)
        return float(fits + prior)

    return cache(posterior)


def logs_of(readings: LikelihoodData) -> FloatArray:
    pairs = choose_pairs(readings)
    return np.log(np.column_stack([pairs.ranges_m, pairs.sills_m]))


def test_what_is_thought_likely_before_any_reading() -> None:
    # Log-normal; the logarithm of its density, against scipy's, up to a constant.
    def theirs(reach: float, sill: float, size: float) -> float:
        away = norm.logpdf(np.log([reach, sill]), np.log([0.2 * size, 0.0007 * size]), 1.0)
        return float(np.sum(away))

    values = [(0.3, 0.001, 5.0), (1.0, 0.0035, 5.0), (7.0, 0.02, 5.0), (2.0, 0.004, 12.0)]
    ours = [log_prior(np.log(reach), np.log(sill), size) for reach, sill, size in values]
    assert np.diff(ours) == pytest.approx(np.diff([theirs(*one) for one in values]), abs=1e-12)
    assert ours[1] == pytest.approx(0, abs=1e-12)


@pytest.mark.parametrize("count", [6, 20, 60, 61, 90])
def test_pairs_stand_where_the_weight_is(count: int) -> None:
    readings = data(count)
    posterior, logs = posterior_of(readings), logs_of(readings)
    weights = np.array([posterior(*one) for one in logs.tolist()])
    best = logs[weights.argmax()]
    search: Any = minimize  # its stubs know no function of floats
    table = search(lambda one: -posterior(*one), best, method="Nelder-Mead")
    # The best of them is the likeliest pair, and none has less than a thirtieth of its weight.
    assert weights.max() == pytest.approx(-table.fun, abs=0.03)
    assert weights.min() > weights.max() - 3.6


@pytest.mark.parametrize(("count", "apart"), [(20, 1.0), (60, 1.0), (61, 1.4), (90, 1.4)])
def test_pairs_stand_a_standard_deviation_apart(count: int, apart: float) -> None:
    readings = data(count)
    posterior, logs = posterior_of(readings), logs_of(readings)
    weights = [posterior(*one) for one in logs.tolist()]
    best = logs[int(np.argmax(weights))]
    h = 0.15
    bend = np.zeros((2, 2))
    for row in range(2):
        for column in range(2):
            one, other = np.eye(2)[row] * h, np.eye(2)[column] * h
            bend[row, column] = -(
                posterior(*(best + one + other))
                - posterior(*(best + one - other))
                - posterior(*(best - one + other))
                + posterior(*(best - one - other))
            ) / (4 * h**2)
    steps = apart * np.linalg.cholesky(np.linalg.inv(bend))
    away = np.linalg.solve(steps, (logs - best).T).T
    # A lattice, every place of it nearest to one pair, as far as the thirtieth.
    assert np.abs(away - away.round()).max() < 0.3
    cells = {tuple(one) for one in away.round().astype(int).tolist()}
    assert len(cells) == len(logs)
    exact = np.linalg.lstsq(away.round(), logs - best, rcond=None)[0]
    for one in cells:
        for step in ((0, 1), (0, -1), (1, 0), (-1, 0)):
            beside = (one[0] + step[0], one[1] + step[1])
            if beside not in cells:
                assert posterior(*(best + np.array(beside) @ exact)) < max(weights) - 3.4


def test_pairs_of_one_range_follow_each_other_and_differ_in_their_sill() -> None:
    pairs = choose_pairs(data(40))
    assert (np.diff(pairs.ranges_m) >= -1e-12).all()
    ranges = np.unique(pairs.ranges_m.round(9))
    assert len(ranges) < len(pairs.ranges_m)
    for reach in ranges:
        sills = pairs.sills_m[np.abs(pairs.ranges_m - reach) < 1e-8]
        # Steps of a factor.
        assert np.ptp([after / before for before, after in pairwise(sills)] or [1]) < 1e-9


@pytest.mark.parametrize(("count", "near"), [(6, 0.12), (20, 0.05), (70, 0.05)])
def test_heights_are_averaged_over_all_ranges_and_sills(count: int, near: float) -> None:
    """A table of 41 ranges by 41 sills, out to where nothing has any weight."""
    points, heights = read(count)
    readings = data(count)
    posterior = posterior_of(readings)
    ranges = np.log(SIZE_M / 5) + np.linspace(-4, 4, 33)
    sills = np.log(0.7 * MM * SIZE_M) + np.linspace(-4, 4, 33)
    logs = [(one, other) for one in ranges for other in sills]
    weights = np.array([posterior(*one) for one in logs])
    weights = np.exp(weights - weights.max())
    kept = weights > 1e-4
    weights = weights[kept] / weights[kept].sum()
    means, variances = zip(
        *(
            kriged(points, heights, reach, sill)
            for (reach, sill), yes in zip(np.exp(logs).tolist(), kept.tolist(), strict=True)
            if yes
        ),
        strict=True,
    )
    mean = weights @ np.array(means)
    sd = np.sqrt(weights @ (np.array(variances) + (np.array(means) - mean) ** 2))
    found = fit_surface(points, heights, MM, size_m=SIZE_M).predict(PLACES)
    assert np.abs(found.mean - mean).max() < (near * sd).max()
    assert found.sd == pytest.approx(sd, rel=near)


def kriged(
    points: FloatArray, heights: FloatArray, reach: float, sill: float
) -> tuple[FloatArray, FloatArray]:
    """Universal kriging by its system with Lagrange multipliers: means, variances."""
    count = len(points)
    system = np.zeros((count + 3, count + 3))
    system[:count, :count] = sill**2 * correlation(points, points, reach)
    system[:count, :count] += np.eye(count) * (MM**2 + (0.1 * sill) ** 2)
    system[:count, count:] = np.column_stack([np.ones(count), points]) * MM
    system[count:, :count] = system[:count, count:].T
    right = np.vstack(
        [
            sill**2 * correlation(points, PLACES, reach),
            np.vstack([np.ones(len(PLACES)), PLACES.T]) * MM,
        ]
    )
    solved = np.linalg.solve(system, right)
    return solved[:count].T @ heights, sill**2 - (solved * right).sum(axis=0)


def test_a_step_not_yet_seen_on_both_sides_is_three_centimetres_unsure() -> None:
    # A jump whose standard deviation is 30 mm, between two sides: half of it either way.
    points, heights = read(20)
    points = points[points[:, 0] < 3.5]
    heights = heights[: len(points)]
    line = np.array([[[4.0, 0.0], [4.0, 4.0]]])
    near, beyond = (
        fit_surface(points, heights, MM, size_m=SIZE_M, steps_m=list(line)).predict([place])
        for place in ([3.9, 2.0], [4.1, 2.0])
    )
    assert STEP_SD_M == 0.030
    assert beyond.sd[0] ** 2 - near.sd[0] ** 2 == pytest.approx(0.030**2, rel=0.2)


@pytest.mark.parametrize(
    ("points", "diagonal"),
    [
        # Exact arithmetic: the variance of a uniform side is its square by 12, both added up.
        ([[0, 0], [1, 0]], np.sqrt(12 * 0.25)),
        ([[0, 0], [3, 0], [3, 4], [0, 4]], np.sqrt(12 * (2.25 + 4))),
        ([[5, 5]], 0.0),
    ],
)
def test_how_large_a_rectangle_points_spread_over(
    points: list[list[float]], diagonal: float
) -> None:
    assert spread_of(np.array(points, float)) == pytest.approx(diagonal)


def test_many_even_points_spread_over_their_own_rectangle() -> None:
    x, y = np.meshgrid(np.linspace(0, 6, 400), np.linspace(0, 4, 400))
    assert spread_of(np.column_stack([x.ravel(), y.ravel()])) == pytest.approx(
        np.hypot(6, 4), rel=0.01
    )


@pytest.mark.parametrize(
    ("points", "along", "across"),
    [
        # Two rows, 10 m long: 49 cm apart is less than a twentieth of that, 51 cm is more.
        ([[x, y] for x in (0, 3, 7, 10) for y in (0, 0.49)], True, False),
        ([[x, y] for x in (0, 3, 7, 10) for y in (0, 0.51)], True, True),
        # Three fit any plane, and so tell nothing of the slopes.
        ([[0, 0], [4, 0], [4, 3], [0, 3]], True, True),
        ([[0, 0], [4, 0], [4, 3]], False, False),
        ([[2, 1]] * 5, False, False),
    ],
)
def test_a_slope_is_left_to_the_readings_where_points_spread_that_way(
    points: list[list[float]], along: bool, across: bool
) -> None:
    held = drift_of(np.array(points, float), NO_STEPS).precisions
    assert list(held == 0) == [True, along, across]
    # Otherwise the slope is somewhere round zero, within a centimetre a metre.
    assert held[held > 0] == pytest.approx(0.010**-2)


# --- the lattice, on posteriors that are known ----------------------------------------------------


class Bell:
    """A normal posterior with a bend (its Hessian, negative) round a best place."""

    def __init__(self, bend: list[list[float]], best: tuple[float, float] = (0.3, -5.7)) -> None:
        self.bend, self.best, self.asked = np.array(bend), np.array(best), 0

    def __call__(self, log_range: float, log_sill: float) -> float:
        self.asked += 1
        away = np.array([log_range, log_sill]) - self.best
        return float(7 - 0.5 * away @ self.bend @ away)


@pytest.mark.parametrize(
    ("bend", "taken"),
    [
        ([[4, 1], [1, 9]], [[4, 1], [1, 9]]),
        ([[4, -3], [-3, 9]], [[4, -3], [-3, 9]]),
        # Flatter than the prior (1 and 1), or bent the wrong way: the prior's.
        ([[0.5, 0.1], [0.1, 9]], [[1, 0.1], [0.1, 9]]),
        ([[4, 0.1], [0.1, -3]], [[4, 0.1], [0.1, 1]]),
        # Mixed up to nine tenths of what two directions can be.
        ([[4, 5.9], [5.9, 9]], [[4, 5.4], [5.4, 9]]),
        ([[4, -7], [-7, 9]], [[4, -5.4], [-5.4, 9]]),
    ],
)
def test_steps_are_standard_deviations_of_the_posterior(
    bend: list[list[float]], taken: list[list[float]]
) -> None:
    bell: Any = Bell(bend)
    steps = likelihood._steps_round(bell, bell.best)
    assert steps @ steps.T == pytest.approx(np.linalg.inv(np.array(taken, float)), rel=1e-9)
    # Steps in the second direction leave the range as it is.
    assert steps[0, 1] == 0


def test_pairs_fill_the_lattice_down_to_a_thirtieth_of_the_weight() -> None:
    # Exact arithmetic: exp(-r²/2) is over exp(-3.5) where r² is less than 7.
    bell: Any = Bell([[1, 0], [0, 1]])
    found = likelihood._fill(bell, bell.best, np.eye(2))
    inside = {(i, j) for i in range(-3, 4) for j in range(-3, 4) if i * i + j * j < 7}
    assert set(found) == inside
    for (i, j), weight in found.items():
        assert weight == pytest.approx(7 - (i * i + j * j) / 2)


def test_pairs_are_some_thirty_at_most() -> None:
    flat: Any = Bell([[1e-6, 0], [0, 1e-6]])
    found = likelihood._fill(flat, flat.best, np.eye(2))
    assert 32 <= len(found) < 36
    # The nearest to the best one.
    assert max(i * i + j * j for i, j in found) <= 16


@pytest.mark.parametrize("best", [(0.3, -5.7), (1.5, -4.5), (-1.2, -7.0)])
def test_the_likeliest_pair_is_found_from_where_floors_usually_are(
    best: tuple[float, float],
) -> None:
    bell: Any = Bell([[4, 1], [1, 9]], best)
    found = likelihood._best(bell, SIZE_M)
    assert bell(*found) == pytest.approx(7, abs=0.02)
    assert bell.asked <= 90  # the search is most of what a fit takes
