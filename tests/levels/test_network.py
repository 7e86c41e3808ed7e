"""Differences of height as a net: what hangs on the ground, and what its residuals come to."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.levels.adjustment import Known, PointObservations, Steps, adjust
from assistant.levels.network import GROUND, Differences, solve_network

MM = 0.001


def test_a_height_given_with_its_own_uncertainty_is_an_observation_like_any_other() -> None:
    # Exact arithmetic: 10 mm given and 13 mm read, both to 1 mm, meet half-way at 11.5; the last
    # set-up's zero lies half a metre up and has no part in it.
    readings = PointObservations([0, 1], [0, 1], np.array([13, -500]) * MM, 1 * MM)
    result = adjust(
        2,
        2,
        readings,
        known_points=Known([0], [10 * MM], [1 * MM]),
        known_zeros=Known([0, 1], [0.0, 0.5]),
    )
    assert result.heights_m / MM == pytest.approx([11.5, 0])
    assert [source.kind for source in result.sources] == ["reading", "reading", "known point"]
    assert result.residuals_m / MM == pytest.approx([-1.5, 0, 1.5])
    assert result.redundancy == pytest.approx([0.5, 0, 0.5])
    assert result.sd_m / MM == pytest.approx([0.5**0.5, 1])
    assert result.test.dof == 1


def test_a_net_is_that_of_a_plain_least_squares_solution() -> None:
    """Against numpy's own solver, every unknown in one matrix."""
    rng = np.random.default_rng(5)
    start = np.array([GROUND, 0, 1, 2, 3, 0, GROUND, 4, 1])
    end = np.array([0, 1, 2, 3, 4, 2, 3, 0, 4])
    value, sd = rng.normal(0, 0.1, 9), rng.uniform(0.5, 2, 9) * MM
    design = np.zeros((9, 5))
    design[np.arange(9), end] = 1
    design[np.flatnonzero(start != GROUND), start[start != GROUND]] -= 1
    heights, *_ = np.linalg.lstsq(design / sd[:, None], value / sd, rcond=None)
    covariance = np.linalg.inv((design / sd[:, None]).T @ (design / sd[:, None]))
    for one_by_one in (np.zeros(5, dtype=bool), np.array([True, False, False, False, False])):
        net = solve_network(Differences(start, end, value, sd), 5, {}, one_by_one)
        assert net.heights_m == pytest.approx(heights)
        assert net.residuals_m == pytest.approx(design @ heights - value)
        assert net.sd_m == pytest.approx(np.sqrt(np.diag(covariance)))
        everywhere = np.arange(5)
        assert net.covariance_m2(everywhere) == pytest.approx(covariance, rel=1e-9, abs=1e-18)
        shared, own = net.shared_m(everywhere), net.own_sd_m(everywhere)
        assert shared @ shared.T + np.diag(own**2) == pytest.approx(covariance, rel=1e-9, abs=1e-18)
        hat = (design / sd[:, None]) @ covariance @ (design / sd[:, None]).T
        assert net.redundancy == pytest.approx(1 - np.diag(hat))
        assert net.dof == 4
        assert net.weighted_squares == pytest.approx((((design @ heights - value) / sd) ** 2).sum())


def test_what_nothing_ties_to_the_ground_has_no_height() -> None:
    differences = Differences(
        np.array([GROUND, 2]), np.array([0, 3]), np.array([1.0, 2.0]), np.array([MM, MM])
    )
    net = solve_network(differences, 4, {}, np.zeros(4, dtype=bool))
    assert net.heights_m[0] == pytest.approx(1)
    assert np.isnan(net.heights_m[1:]).all()
    assert np.isnan(net.sd_m[1:]).all()
    assert np.isnan(net.covariance_m2(np.array([0, 2]))).tolist() == [[False, True], [True, True]]
    assert net.parts[2] == net.parts[3] != 0
    assert len({int(net.parts[0]), int(net.parts[1]), int(net.parts[2])}) == 3
    assert np.isnan(net.redundancy).tolist() == [False, True]


@pytest.mark.parametrize(
    ("start", "end", "told"),
    [
        (0, 0, "starts where it ends"),
        (0, 2, "not there"),
        (2, 0, "not there"),
        (GROUND - 1, 0, "not there"),
    ],
)
def test_differences_that_cannot_be_are_refused(start: int, end: int, told: str) -> None:
    one = Differences(np.array([start]), np.array([end]), np.array([0.1]), np.array([MM]))
    with pytest.raises(SurveyError, match=told):
        solve_network(one, 2, {0: 0.0}, np.zeros(2, dtype=bool))


@pytest.mark.parametrize(("apart_m", "taken"), [(0.0, True), (1e-10, True), (1e-8, False)])
def test_a_mark_has_one_exact_height(apart_m: float, taken: bool) -> None:
    known = Known([0, 0], [0.01, 0.01 + apart_m])
    steps = Steps([0], [1], [0.002], 1 * MM)
    if taken:
        result = adjust(2, 0, PointObservations(), steps=steps, known_points=known)
        assert result.heights_m == pytest.approx([0.01, 0.012])
    else:
        with pytest.raises(SurveyError, match="two exact heights"):
            adjust(2, 0, PointObservations(), steps=steps, known_points=known)
