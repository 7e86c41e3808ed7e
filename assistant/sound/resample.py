"""From the rate sound was recorded at to the rate it is needed at, a chunk at a time."""

from __future__ import annotations

from typing import Any

import numpy as np

from assistant.sound.chunks import SAMPLE_RATE
from assistant.sound.voice_parts import voice_part

_QUALITY = "MQ"
"""soxr's name for a quality: flat to 7.5 kHz, 15 ms late from 48 kHz (measured). Higher keeps more,
comes later (HQ: 21 ms from 48 kHz, 86 ms from 8 kHz); LQ loses 13 dB at 7 kHz, where "s" lives."""


class Resampler:
    """
    A running conversion of mono sound; chunk borders cannot be heard in it.

    Equal rates pass through untouched and need no package.
    """

    def __init__(self, rate_in: float, rate_out: float = SAMPLE_RATE) -> None:
        self._stream: Any = None
        if rate_in != rate_out:
            self._stream = voice_part("soxr").ResampleStream(
                rate_in, rate_out, 1, dtype="float32", quality=_QUALITY
            )

    def feed(self, chunk: np.ndarray) -> np.ndarray:
        """Take more sound, (n,) float32; returns what is ready, (m,) float32, perhaps empty."""
        if self._stream is None:
            return chunk
        return np.asarray(self._stream.resample_chunk(np.ascontiguousarray(chunk, np.float32)))

    def finish(self) -> np.ndarray:
        """The rest of the sound, at its end; nothing may be fed after it."""
        nothing = np.zeros(0, np.float32)
        if self._stream is None:
            return nothing
        return np.asarray(self._stream.resample_chunk(nothing, last=True))


def resample_all(sound: np.ndarray, rate_in: float, rate_out: float = SAMPLE_RATE) -> np.ndarray:
    """All of a sound at once, (n,) float32 in, (n × rate_out / rate_in,) float32 out."""
    resampler = Resampler(rate_in, rate_out)
    return np.concatenate((resampler.feed(sound), resampler.finish()))
