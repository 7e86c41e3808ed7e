"""What points can tell of a plane and of steps: both sides of each bound, and columns by hand."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.errors import SurveyError
from assistant.levels.kriged.covariance import (
    drift_of,
    matern,
    pairwise_distances,
    spread_of,
)

NO_STEPS = np.zeros((0, 2, 2))
HELD = 0.010**-2
"""A slope of a centimetre in a metre, where the points cannot tell."""


def test_from_four_points_on_slopes_are_left_to_the_readings() -> None:
    """Three fit any plane; and points must spread across by more than a twentieth of along."""
    for points, slopes in (
        ([[0, 0]], [HELD, HELD]),
        ([[0, 0], [5, 0], [0, 5]], [HELD, HELD]),
        ([[0, 0], [5, 0], [0, 5], [5, 5]], [0, 0]),
        ([[0, 0], [5, 0], [0, 5], [5, 5], [2, 2]], [0, 0]),
        ([[0, 0], [10, 0], [0, 0.4], [10, 0.4]], [0, HELD]),
        ([[0, 0], [10, 0], [0, 0.6], [10, 0.6]], [0, 0]),
        ([[0, 0], [1, 0], [2, 0], [9, 0]], [0, HELD]),
        # of their own length along, however short that is
        ([[0, 0], [0.6, 0], [0, 0.04], [0.6, 0.04]], [0, 0]),
    ):
        found = drift_of(np.array(points, dtype=float), NO_STEPS)
        assert found.precisions == pytest.approx(np.array([0, *slopes])), points
        assert found.count == 3


def test_a_step_is_held_by_three_centimetres_and_has_two_sides() -> None:
    """Its line runs along x = 2; what lies on it, or a micrometre to its right, is on its left."""
    points = np.array([[0.0, 0], [4, 0], [0, 4], [4, 4]])
    step = np.array([[[2.0, 0], [2, 3]]])
    found = drift_of(points, step)
    assert found.precisions == pytest.approx(np.array([0, 0, 0, 0.030**-2]))
    assert found.centre_m == pytest.approx(np.array([2, 2]))
    places = np.array([[1.0, 1], [3, 1], [2, 9], [2 + 0.5e-6, 1], [2 + 2e-6, 1]])
    columns = found.columns(places)
    assert columns[:, 0] == pytest.approx(np.ones(5))
    assert columns[:, 3].tolist() == [0.5, -0.5, 0.5, 0.5, -0.5]
    # metres along and across, whichever way round the two axes come
    assert np.hypot(columns[:, 1], columns[:, 2]) == pytest.approx(
        np.hypot(*(places - np.array([2, 2])).T)
    )
    with pytest.raises(SurveyError):
        drift_of(points, np.array([[[2.0, 0], [2, 0]]]))


def test_correlations_distances_and_spreads() -> None:
    """(1 + a) exp(-a), a = √3 d / range: 0.4834 at the range and 0.1397 at twice it."""
    assert matern(np.array([0.0, 3.0, 6.0]), 3.0) == pytest.approx([1, 0.48336, 0.13973], abs=5e-6)
    assert pairwise_distances(np.array([[0.0, 0], [3, 0]]), np.array([[0.0, 4], [3, 0]])) == (
        pytest.approx(np.array([[4, 3], [5, 0]]))
    )
    # Evenly over a rectangle of 6 by 8 m, the mean square is (36 + 64) / 12.
    x, y = np.meshgrid((np.arange(200) + 0.5) * 0.03, (np.arange(200) + 0.5) * 0.04)
    assert spread_of(np.column_stack([x.ravel(), y.ravel()])) == pytest.approx(10, rel=1e-4)
