"""Judges a microphone by its levels, for ``leadsman voice check``."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from assistant.sound.chunks import SAMPLE_RATE
from assistant.sound.devices import Device
from assistant.sound.loudness import clipped_part, decibels, level_db, power


@dataclass(frozen=True, slots=True)
class MicrophoneCheck:
    """The levels of a microphone, in quiet or while somebody spoke."""

    device: str
    rate_hz: int
    channels: int
    heard_s: float
    level_db: float
    """Mean level, dB against full scale."""
    peak_db: float
    noise_db: float
    """Level of the quietest fifth of the time."""
    clipped: float
    """Part of the samples at full scale, 0 to 1."""
    advice: str = ""
    """What to change, where something is clearly wrong."""


def microphone_levels(
    sound: np.ndarray, device: Device, rate_hz: int, channels: int
) -> MicrophoneCheck:
    """Levels of (n,) float32 at 16 kHz, and what they say about the microphone."""
    frames = [power(frame) for frame in np.array_split(sound, max(1, len(sound) // 512))]
    quieter = sorted(frames)[: max(1, len(frames) // 5)]
    noise_db = decibels(sum(quieter) / len(quieter))
    clipped = clipped_part(sound)
    return MicrophoneCheck(
        device=device.name,
        rate_hz=rate_hz,
        channels=channels,
        heard_s=len(sound) / SAMPLE_RATE,
        level_db=level_db(sound),
        peak_db=decibels(float(np.max(np.abs(sound))) ** 2),
        noise_db=noise_db,
        clipped=clipped,
        advice=_advice(level_db(sound), noise_db, clipped),
    )


def _advice(level: float, noise: float, clipped: float) -> str:
    if level <= -100:
        return "It gives digital silence: it is muted, or the wrong one is chosen."
    if clipped > 0.001:
        return "It is too loud and clips: turn its level down."
    if level < -60:
        return "It is very soft: turn its level up, or speak closer to it."
    if noise > -30:
        return "It is loud around it: speak close to it, or use one on the collar."
    return ""
