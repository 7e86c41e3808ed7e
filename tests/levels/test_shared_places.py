"""Readings of one place without any noise of their own still make a surface."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.levels.kriging import fit_surface


@pytest.mark.parametrize("count", [2, 5])
def test_the_same_reading_twice_at_one_place_is_no_contradiction(count: int) -> None:
    # A covariance of points that are one has no inverse, but for a little on its diagonal.
    points = np.array([[1.0, 1.0]] * count + [[4.0, 1.0], [4.0, 3.0], [1.0, 3.0], [2.5, 2.0]])
    heights = np.array([0.003] * count + [0.001, 0.002, 0.004, 0.002])
    found = fit_surface(points, heights, 0.0, texture_part=0.0, size_m=5.0).predict(points)
    assert found.mean == pytest.approx(heights, abs=1e-5)
