"""Speech made louder or softer than a voice makes it."""

from __future__ import annotations

import numpy as np


def with_loudness(samples: np.ndarray, loudness: float) -> np.ndarray:
    """
    Speech (n,) float32 within -1 and 1, times `loudness`; what would go past the ends is rounded
    off, not cut, as a cut is heard as a crackle.

    >>> float(with_loudness(np.array([0.5], np.float32), 0.5)[0])
    0.25
    """
    if loudness == 1.0:
        return samples
    if loudness < 1.0:
        return (samples * np.float32(loudness)).astype(np.float32)
    return np.tanh(samples * np.float32(loudness)).astype(np.float32)
