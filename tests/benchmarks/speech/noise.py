"""Noises of a site, made from numbers, and speech mixed into them at a known ratio.

Digital stand-ins: no recorded machine is in here, so they test the order of things, not
a site.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np

RATE_HZ = 16_000
NOISE_S = 30.0
"""Length of each noise; clips take different stretches of it."""
SPEECH_DB = -26.0
"""Level that speech is brought to while it is active, dB against full scale."""
ROOM_DB = -70.0
"""Level of what a quiet room and a microphone's own electronics leave in a "clean" clip."""
_ACTIVE_DB = 30.0
"""Frames no softer than this below the loudest count as active speech."""
_FRAME = 320


def level_db(sound: np.ndarray) -> float:
    """Level of (n,) samples, dB against full scale."""
    return float(10 * np.log10(np.mean(np.square(sound, dtype=np.float64)) + 1e-20))


def active_level_db(speech: np.ndarray) -> float:
    """Level of (n,) samples of clean speech while somebody speaks, pauses left out."""
    frames = speech[: len(speech) - len(speech) % _FRAME].reshape(-1, _FRAME).astype(np.float64)
    powers = np.mean(frames**2, axis=1)
    active = powers >= np.max(powers) * 10 ** (-_ACTIVE_DB / 10)
    return float(10 * np.log10(np.mean(powers[active]) + 1e-20))


def mixed(
    speech: np.ndarray,
    noise: np.ndarray | None,
    snr_db: float,
    *,
    lead_s: float = 0.8,
    tail_s: float = 1.0,
    seed: int = 0,
) -> np.ndarray:
    """
    Speech in noise, (n,) float32 at 16 kHz, with noise alone before and after it.

    The ratio is that of active speech to the noise over the clip. `noise` None gives the
    quiet room, whatever `snr_db`.
    """
    random = np.random.default_rng(seed)
    gain = 10 ** ((SPEECH_DB - active_level_db(speech)) / 20)
    clip = np.concatenate((np.zeros(round(lead_s * RATE_HZ)), speech * gain,
                           np.zeros(round(tail_s * RATE_HZ))))  # fmt: skip
    clip += random.normal(0, 10 ** (ROOM_DB / 20), len(clip))
    if noise is not None:
        start = int(random.integers(len(noise)))
        stretch = np.resize(np.roll(noise, -start), len(clip)).astype(np.float64)
        clip += stretch * 10 ** ((SPEECH_DB - snr_db - level_db(stretch)) / 20)
    peak = np.max(np.abs(clip))
    mixed: np.ndarray = (clip / max(1.0, peak / 0.98)).astype(np.float32)
    return mixed


# --- noises -------------------------------------------------------------------------


def white(seed: int = 1) -> np.ndarray:
    """As loud at every frequency."""
    return _unit(np.random.default_rng(seed).normal(size=round(NOISE_S * RATE_HZ)))


def pink(seed: int = 2) -> np.ndarray:
    """As loud in every octave, from 20 Hz up."""
    return _unit(_shaped(seed, lambda hz: 1 / np.sqrt(np.maximum(hz, 20))))


def mixer(seed: int = 3) -> np.ndarray:
    """
    Like a paddle mixer: a whining motor whose load changes, brushes, gears, and the mix.

    A motor of 11,000 turns a minute geared down to a paddle of 600, in a bucket.
    """
    random = np.random.default_rng(seed)
    count = round(NOISE_S * RATE_HZ)
    at = np.arange(count) / RATE_HZ
    load = 1 + 0.04 * _slow(random, count, 0.4) + 0.008 * np.sin(2 * np.pi * 10 * at)
    turns = 2 * np.pi * np.cumsum(183.0 * load) / RATE_HZ
    motor, gears = np.zeros(count), np.zeros(count)
    for harmonic in range(1, 24):
        size = random.uniform(0.5, 1.0) / harmonic**0.8
        motor += size * np.sin(harmonic * turns + random.uniform(0, 6.28))
    for step in (1, 2):
        gears += np.sin(11.0 * step * turns + random.uniform(0, 6.28)) / step
    brushes = _shaped(seed + 1, lambda hz: np.exp(-(((hz - 3_000) / 2_000) ** 2)), count)
    slosh = _shaped(seed + 2, lambda hz: 1 / (1 + (hz / 350) ** 2), count)
    paddle = 1 + 0.5 * np.sin(turns * 10 / 183) + 0.2 * np.sin(turns * 20 / 183 + 1)
    whole = _unit(motor) + 0.5 * _unit(gears) + (0.6 * _unit(brushes) + 0.7 * _unit(slosh)) * paddle
    return _unit(whole * (1 + 0.25 * _slow(random, count, 1.0)))


def babble(talkers: Sequence[np.ndarray], voices: int = 8, seed: int = 4) -> np.ndarray:
    """Several people talking at once: (n,) clips of speech, chained and laid over each other."""
    random = np.random.default_rng(seed)
    count = round(NOISE_S * RATE_HZ)
    whole = np.zeros(count)
    for _ in range(voices):
        chain: list[np.ndarray] = []
        while sum(map(len, chain)) < count:
            clip = talkers[int(random.integers(len(talkers)))]
            chain += [_unit(clip), np.zeros(int(random.integers(1_600, 8_000)))]
        line = np.roll(np.concatenate(chain)[:count], int(random.integers(count)))
        whole += line * 10 ** (random.uniform(-6, 0) / 20)
    return _unit(whole)


def _unit(sound: np.ndarray) -> np.ndarray:
    """The same at a level of 0 dB."""
    level = float(np.sqrt(np.mean(np.square(sound)) + 1e-20))
    unit: np.ndarray = sound / level
    return unit


def _shaped(
    seed: int, shape: Callable[[np.ndarray], np.ndarray], count: int | None = None
) -> np.ndarray:
    """Noise whose size at each frequency is `shape` of it."""
    count = count or round(NOISE_S * RATE_HZ)
    spectrum = np.fft.rfft(np.random.default_rng(seed).normal(size=count))
    return np.fft.irfft(spectrum * shape(np.fft.rfftfreq(count, 1 / RATE_HZ)), count)


def _slow(random: np.random.Generator, count: int, changes_hz: float) -> np.ndarray:
    """Something between -1 and 1 that wanders so many times a second."""
    knots = random.uniform(-1, 1, int(count / RATE_HZ * changes_hz) + 3)
    return np.interp(np.arange(count) * changes_hz / RATE_HZ, np.arange(len(knots)), knots)
