"""Floors that are no plane, the same every time, for tests of the surface with its uncertainty."""

from __future__ import annotations

import numpy as np

from assistant.levels.arrays import FloatArray

MM = 0.001
PLACES = np.array([[0.0, 0.0], [1.3, 2.2], [3.0, 3.9], [5.9, 0.4], [7.0, 5.0]])


def scattered(count: int, number: int = 1) -> FloatArray:
    return np.random.default_rng(number).uniform(0, 1, (count, 2)) * [6, 4]


def lumpy(points: FloatArray, number: int = 2) -> FloatArray:
    x, y = points.T
    noise = np.random.default_rng(number).normal(0, 1, len(points))
    heights: FloatArray = (4 * np.sin(1.3 * x) * np.cos(y) + 2 * x - y + noise).round() * MM
    return heights
