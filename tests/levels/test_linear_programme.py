"""The slope's round limit, met in every direction: exact on a disc, and as another solver does."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest
import scipy.optimize
import scipy.sparse
from scipy.optimize import OptimizeResult

from assistant.errors import SurveyError
from assistant.levels import linear_programme
from assistant.levels.arrays import FloatArray
from assistant.levels.linear_programme import Cone, Solution, minimise

FREE = np.array([0.0, -np.inf, -np.inf])
ANGLES = np.array([0, 0.001, np.pi / 64, np.pi / 32, 0.8, 2.0, np.pi, -np.pi / 2, -3.0])


def steepest(limit: float, angle: float) -> Solution:
    """The slope that goes furthest one way; the height alone is bounded by zero."""
    cost = np.array([1.0, -np.cos(angle), -np.sin(angle)])
    none = scipy.sparse.csr_array((0, 3))
    found = minimise(cost, none, np.zeros(0), FREE, Cone(limit))
    assert found is not None
    return found


@pytest.mark.parametrize("angle", ANGLES)
@pytest.mark.parametrize("limit", [0.5, 10.0, 1000.0])
def test_the_steepest_slope_lies_on_the_circle(limit: float, angle: float) -> None:
    # Of a linear function over a disc the least is at the rim, straight that way.
    found = steepest(limit, angle)
    height, *slope = found.unknowns
    assert height == pytest.approx(0, abs=1e-9)
    assert limit - 1e-9 <= np.hypot(*slope) <= limit + 1.1e-6
    gained = slope @ np.array([np.cos(angle), np.sin(angle)])
    assert gained == pytest.approx(limit, abs=1.1e-6)
    # One more of the limit is one more of what was wanted.
    assert found.cone_pushes == pytest.approx(1, rel=1e-6)


def test_no_slope_at_all_where_the_limit_is_zero() -> None:
    assert steepest(0.0, 0.8).unknowns == pytest.approx([0, 0, 0], abs=1e-6)


@pytest.mark.parametrize("angle", ANGLES)
def test_where_the_rounds_come_to_no_end_a_fine_polygon_inside_the_circle_settles_it(
    angle: float, monkeypatch: pytest.MonkeyPatch
) -> None:
    # Exact arithmetic: a polygon of 720 sides inside a circle keeps cos(pi / 720) of its radius.
    monkeypatch.setattr(linear_programme, "_ROUNDS", 0)
    for turn in (0, np.pi / 720, 0.004):
        slope = steepest(10.0, angle + turn).unknowns[1:]
        assert 10 * (1 - 1e-5) <= np.hypot(*slope) <= 10 + 1e-9


@pytest.mark.parametrize("extra", [None, 3])
def test_a_limit_that_may_give_way_does_so_where_that_is_cheap(extra: int | None) -> None:
    # A slope of at least 5 that way, the limit 3: two more of it, at the cost of one each.
    matrix = scipy.sparse.csr_array(np.array([[0.0, -0.6, -0.8, 0.0]]))
    least = np.array([0.0, -np.inf, -np.inf, 0.0])
    cost = np.array([1.0, 0.0, 0.0, 1.0])
    found = minimise(cost, matrix, np.array([-5.0]), least, Cone(3.0, extra))
    if extra is None:
        assert found is None  # not to be met together
        return
    assert found is not None
    assert found.unknowns == pytest.approx([0, 3, 4, 2], abs=1e-2)
    assert found.unknowns[3] == pytest.approx(2, abs=1e-5)
    # One more of the bound takes one less to give way.
    assert found.pushes == pytest.approx([1], rel=1e-5)
    assert found.cone_pushes == pytest.approx(1, rel=1e-5)


@pytest.mark.parametrize("seed", range(6))
def test_as_a_solver_for_round_limits_has_it(seed: int) -> None:
    """SLSQP, with the circle as it is: the lowest height in the middle over six points."""
    chance = np.random.default_rng(seed)
    away = chance.uniform(-1, 1, (6, 2))
    needs = chance.normal(0, 8, 6)
    limit = float(chance.uniform(1, 12))
    rows = np.column_stack([np.ones(6), away])
    cost = np.array([1.0, 0.0, 0.0])
    free = np.full(3, -np.inf)
    found = minimise(cost, scipy.sparse.csr_array(-rows), -needs, free, Cone(limit))
    assert found is not None

    def other(limit: float, needs: FloatArray) -> float:
        solver: Any = scipy.optimize.minimize  # its stubs know no function of a float alone
        result = solver(
            lambda x: x[0],
            [needs.max() + 20, 0.0, 0.0],
            method="SLSQP",
            options={"ftol": 1e-12, "maxiter": 300},
            constraints=[
                {"type": "ineq", "fun": lambda x: rows @ x - needs},
                {"type": "ineq", "fun": lambda x: limit**2 - x[1] ** 2 - x[2] ** 2},
            ],
        )
        return float(result.x[0])

    least = other(limit, needs)
    assert found.unknowns[0] == pytest.approx(least, abs=2e-5)
    # What pushes is what the cost gains for one of each bound.
    moved = [other(limit, needs + 0.01 * (np.arange(6) == row)) - least for row in range(6)]
    assert found.pushes == pytest.approx(np.array(moved) / 0.01, abs=0.03)
    gained = (least - other(limit + 0.01, needs)) / 0.01
    assert found.cone_pushes == pytest.approx(gained, abs=0.03)


def test_without_a_limit_one_programme_is_enough(monkeypatch: pytest.MonkeyPatch) -> None:
    calls = _count(monkeypatch)
    rows = scipy.sparse.csr_array(np.array([[-1.0]]))
    found = minimise(np.ones(1), rows, np.array([-7.0]), np.full(1, -np.inf), None)
    assert found is not None
    assert found.unknowns == pytest.approx([7])
    assert (found.pushes.tolist(), found.cone_pushes) == ([1.0], 0.0)
    assert len(calls) == 1


def test_each_round_comes_some_250_times_nearer(monkeypatch: pytest.MonkeyPatch) -> None:
    # Exact arithmetic: 32 sides stand out by 5 of 1000; three rounds more leave a millionth.
    calls = _count(monkeypatch)
    steepest(1000.0, 0.8)
    assert len(calls) <= 4


def test_wishes_that_cannot_be_met_have_no_answer() -> None:
    rows = scipy.sparse.csr_array(np.array([[1.0], [-1.0]]))
    assert minimise(np.ones(1), rows, np.array([1.0, -2.0]), np.full(1, -np.inf), None) is None


def test_what_has_no_end_is_an_error() -> None:
    rows = scipy.sparse.csr_array(np.array([[-1.0]]))
    with pytest.raises(SurveyError, match="could not be worked out"):
        minimise(-np.ones(1), rows, np.zeros(1), np.zeros(1), None)


@pytest.mark.parametrize(("stuck", "ways"), [(("highs",), 2), (("highs", "highs-ipm"), 2)])
def test_a_solver_that_gets_stuck_is_followed_by_another(
    stuck: tuple[str, ...], ways: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    calls = _count(monkeypatch, stuck)
    rows = scipy.sparse.csr_array(np.array([[-1.0]]))
    asked: tuple[Any, ...] = (np.ones(1), rows, np.array([-7.0]), np.full(1, -np.inf), None)
    if len(stuck) == ways:
        with pytest.raises(SurveyError, match="numbers went wrong"):
            minimise(*asked)
    else:
        found = minimise(*asked)
        assert found is not None
        assert found.unknowns == pytest.approx([7])
    assert calls == ["highs", "highs-ipm"]


def _count(monkeypatch: pytest.MonkeyPatch, stuck: tuple[str, ...] = ()) -> list[str]:
    """Methods that were asked; those that are stuck say so, as scipy's text has it: status 4."""
    calls: list[str] = []
    real: Any = scipy.optimize.linprog

    def linprog(*arguments: Any, method: str, **named: Any) -> OptimizeResult:
        calls.append(method)
        if method in stuck:
            return OptimizeResult({"status": 4, "message": "numbers went wrong"})  # type: ignore[call-arg]
        found: OptimizeResult = real(*arguments, method=method, **named)
        return found

    monkeypatch.setattr(scipy.optimize, "linprog", linprog)
    return calls
