"""Voices that are noise: what a stand-in detector takes for one, and the quiet between."""

from __future__ import annotations

import numpy as np

MOUTH, USER = 0.1, 0.4
"""Peaks of the mouth as the microphone gets it, and of whoever speaks to it."""
RANDOM = np.random.default_rng(5)


def voice(seconds: float, size: float = USER) -> np.ndarray:
    """What the stand-in detector takes for one; never the same twice, as nobody says it so."""
    return RANDOM.uniform(-size, size, round(16_000 * seconds)).astype(np.float32)


def quiet(seconds: float) -> np.ndarray:
    return np.zeros(round(16_000 * seconds), np.float32)
