"""Speech that stands out from a mixer: stronger high frequencies at the same level."""

from __future__ import annotations

import numpy as np

_TILT = 0.7
"""Part of each sample subtracted from the next. More is thin and hisses, less drowns sooner."""


def high_passed(samples: np.ndarray) -> np.ndarray:
    """
    The speech with its low frequencies turned down, (n,) float32 within -1 and 1, as loud.

    Most of a voice's power lies below 1 kHz, most of what makes words clear above, where motors
    are weaker. The benefit in noise is known (Niederjohn and Grotelueschen, IEEE
    Transactions on Acoustics, Speech and Signal Processing 24, 1976, from memory); what it is
    here is measured by ``tests/benchmarks/speech/read_back.py``.
    """
    before = np.sqrt(np.mean(np.square(samples, dtype=np.float64))) if len(samples) else 0.0
    if not before:
        return samples
    tilted = samples - _TILT * np.concatenate((samples[:1], samples[:-1]))
    after = np.sqrt(np.mean(np.square(tilted, dtype=np.float64)))
    loudest = float(np.max(np.abs(tilted)))
    louder = min(float(before / after), 1 / loudest)
    return np.asarray(tilted * louder, np.float32)
