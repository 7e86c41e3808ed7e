"""How far a fitted range and sill may be off, by the curvature of what they are fitted to."""

from __future__ import annotations

import numpy as np
import pytest

from assistant.levels.kriged.likelihood import _steps_round


def test_the_steps_are_those_of_a_normal_distribution() -> None:
    """Of a quadratic the curvature is exact: its matrix is the inverse of the covariance."""
    curved = np.array([[9.0, 2.5], [2.5, 4.0]])
    best = np.array([0.4, -1.1])

    def posterior(one: float, other: float) -> float:
        away = np.array([one, other]) - best
        return float(-0.5 * away @ curved @ away)

    steps = _steps_round(posterior, best)  # type: ignore[arg-type]
    assert steps[0, 1] == 0
    assert steps @ steps.T == pytest.approx(np.linalg.inv(curved), rel=1e-9)
