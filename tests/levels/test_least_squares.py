"""The solver on certified fits; sources stand beside the values, "exact arithmetic" was worked
out elsewhere.
"""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from tests.levels.dense_fit import fit_least_squares

NORRIS_Y = """0.1 338.8 118.1 888.0 9.2 228.1 668.5 998.5 449.1 778.9 559.2 0.3 0.1 778.1 668.8
339.3 448.9 10.8 557.7 228.3 998.0 888.8 119.6 0.3 0.6 557.6 339.3 888.0 998.5 778.9 10.2 117.6
228.9 668.4 449.2 0.2"""
NORRIS_X = """0.2 337.4 118.2 884.6 10.1 226.5 666.3 996.3 448.6 777.0 558.2 0.4 0.6 775.5 666.9
338.0 447.5 11.6 556.0 228.1 995.8 887.6 120.2 0.3 0.3 556.8 339.1 887.2 999.0 779.0 11.1 118.3
229.2 669.1 448.9 0.5"""
LONGLEY = """60323 83.0 234289 2356 1590 107608 1947  61122 88.5 259426 2325 1456 108632 1948
60171 88.2 258054 3682 1616 109773 1949  61187 89.5 284599 3351 1650 110929 1950
63221 96.2 328975 2099 3099 112075 1951  63639 98.1 346999 1932 3594 113270 1952
64989 99.0 365385 1870 3547 115094 1953  63761 100.0 363112 3578 3350 116219 1954
66019 101.2 397469 2904 3048 117388 1955  67857 104.6 419180 2822 2857 118734 1956
68169 108.4 442769 2936 2798 120445 1957  66513 110.8 444546 4681 2637 121950 1958
68655 112.6 482704 3813 2552 123366 1959  69564 114.2 502601 3931 2514 125368 1960
69331 115.7 518173 4806 2572 127852 1961  70551 116.9 554894 4007 2827 130081 1962"""


def test_nist_norris() -> None:
    x, y = (np.array(text.split(), dtype=float) for text in (NORRIS_X, NORRIS_Y))
    line = fit_least_squares(np.column_stack([np.ones(36), x]), y)
    assert line.unknowns == pytest.approx([-0.262323073774029, 1.00211681802045], rel=1e-12)
    sds = np.sqrt(np.diag(line.covariance)) * line.sigma0
    assert sds == pytest.approx([0.232818234301152, 0.429796848199937e-3], rel=1e-12)
    assert line.sigma0 == pytest.approx(0.884796396144373, rel=1e-12)
    assert line.weighted_squares == pytest.approx(26.6173985294224, rel=1e-12)
    r2 = 1 - line.weighted_squares / ((y - y.mean()) ** 2).sum()
    assert r2 == pytest.approx(0.999993745883712, rel=1e-12)


def test_nist_longley() -> None:
    # Normal equations keep some 7 digits here; 9 are asked.
    table = np.array(LONGLEY.split(), dtype=float).reshape(16, 7)
    found = fit_least_squares(np.column_stack([np.ones(16), table[:, 1:]]), table[:, 0])
    certified = [
        -3482258.63459582,
        15.0618722713733,
        -0.0358191792925910,
        -2.02022980381683,
        -1.03322686717359,
        -0.0511041056535807,
        1829.15146461355,
    ]
    assert found.unknowns == pytest.approx(certified, rel=1e-9)
    sds = np.sqrt(np.diag(found.covariance)) * found.sigma0
    certified_sds = [
        890420.383607373,
        84.9149257747669,
        0.0334910077722432,
        0.488399681651699,
        0.214274163161675,
        0.226073200069370,
        455.478499142212,
    ]
    assert sds == pytest.approx(certified_sds, rel=1e-9)
    assert found.sigma0 == pytest.approx(304.854073561965, rel=1e-9)


def test_nist_wampler1() -> None:
    x = np.arange(21.0)
    powers = x[:, None] ** np.arange(6)
    assert fit_least_squares(powers, powers.sum(axis=1)).unknowns == pytest.approx(
        np.ones(6), rel=1e-9
    )


def test_plane_through_five_points() -> None:
    # Exact arithmetic: 10.11 + 0.5 x + 0.966667 y, rms 0.0916515, s0 0.1449138.
    places = np.array([[0, 0], [4, 0], [0, 3], [4, 3], [2, 1.5]])
    plane = fit_least_squares(np.column_stack([np.ones(5), places]), [10, 12.2, 13.1, 14.9, 12.6])
    assert plane.unknowns == pytest.approx([10.11, 0.5, 0.966667], abs=5.1e-7)
    assert np.sqrt((plane.residuals**2).mean()) == pytest.approx(0.0916515, abs=5.1e-8)
    assert plane.sigma0 == pytest.approx(0.1449138, abs=5.1e-8)
    assert plane.redundancy.sum() == pytest.approx(plane.dof)


def test_a_column_too_many_is_named() -> None:
    with pytest.raises(SurveyError, match="not fixed"):
        fit_least_squares([[1, 2], [2, 4], [3, 6]], [1, 2, 3])
    with pytest.raises(SurveyError, match="not fixed: 2"):
        fit_least_squares([[1, 0]], [1])
    with pytest.raises(SurveyError, match="row 2"):
        fit_least_squares([[1], [1]], [1, 2], [1, 0])
