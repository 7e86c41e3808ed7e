"""Speech without the silence that voices put round it, which would keep the listener waiting."""

from __future__ import annotations

from itertools import pairwise

import numpy as np

_FRAME_S = 0.01
_SILENT = 10 ** (-36 / 20)
"""Part of the loudest frame. Higher cuts off a soft "f" or "th", lower keeps the breath."""
_BEFORE_S, _AFTER_S = 0.02, 0.02
"""Silence left before the first sound and after the last."""
_PAUSE_S = 0.06
"""Longest pause left within: a comma still sounds like one, and our recogniser gets as many
words right as with 0.1 s. Shorter loses some."""


def trim_pauses(samples: np.ndarray, rate_hz: int) -> np.ndarray:
    """The same words, (n,) float32, with pauses cut short; nothing that sounds is changed."""
    size = round(_FRAME_S * rate_hz)
    frames = samples[: len(samples) - len(samples) % size].reshape(-1, size)
    levels = np.sqrt(np.mean(np.square(frames, dtype=np.float64), axis=1))
    sounding = np.flatnonzero(levels > _SILENT * levels.max(initial=0.0))
    if not len(sounding):
        return samples
    first = max(0, int(sounding[0]) - round(_BEFORE_S / _FRAME_S))
    last = int(sounding[-1]) + round(_AFTER_S / _FRAME_S)
    keep = np.zeros(len(frames), bool)
    keep[first : last + 1] = True
    pause = round(_PAUSE_S / _FRAME_S)
    for end, begin in pairwise(sounding):
        if begin - end - 1 > pause:
            # Cut from its middle, so that sounds still fade out and in.
            spare = begin - end - 1 - pause
            keep[end + 1 + pause // 2 : end + 1 + pause // 2 + spare] = False
    return frames[keep].reshape(-1)
