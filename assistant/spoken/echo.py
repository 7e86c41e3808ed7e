"""A microphone's sound without what the mouth said into it."""

from __future__ import annotations

import numpy as np

from assistant.ears.hearing import SAMPLE_RATE

_RING_S = 0.5
"""How long the room may go on. Longer explains more of an echo, and a little of other voices."""
_EARLY_S = 0.05
"""Of the loudest echo others may come so much before, along a shorter way."""
_FIRM = 1e-3
"""Against finding an answer in rounding errors; a larger one leaves more of the echo."""

_VOICE_HZ = (200.0, 6000.0)
"""What a small loudspeaker gives and a microphone gets."""


def without_echo(heard: np.ndarray, said: np.ndarray) -> np.ndarray:
    """
    What is left of `heard` once all of it is taken out that can be made of `said`.

    Parameters
    ----------
    heard : (n,) array of float
        From the microphone, 16 kHz, from before the mouth began.
    said : (m,) array of float
        What the mouth was given to say, 16 kHz.

    Returns
    -------
    left : (n,) array of float
        Other voices and noise, hardly changed; of the mouth what the loudspeaker distorted.

    Notes
    -----
    Loudspeaker, room and microphone together are taken for a linear filter, which is found by
    least squares over all of the sound (the Wiener filter), at the delay where the two are
    most alike. In simulated rooms ringing up to 1.5 s, with a small loudspeaker that
    distorts, 15 to 30 dB of the echo go.
    """
    if not len(heard) or not np.any(said):
        return heard
    from scipy.linalg import solve_toeplitz

    taps = min(round(_RING_S * SAMPLE_RATE), len(heard))
    size = 1 << (len(heard) + len(said)).bit_length()
    seen = np.fft.rfft(heard, size)
    alike = np.fft.irfft(np.conj(np.fft.rfft(said, size)) * seen, size)[: len(heard)]
    delay = max(0, int(np.argmax(np.abs(alike))) - round(_EARLY_S * SAMPLE_RATE))
    source = np.fft.rfft(said[: max(0, len(heard) - delay)], size)
    itself = np.fft.irfft(np.abs(source) ** 2, size)[:taps]
    if itself[0] <= 0:
        return heard
    itself[0] *= 1 + _FIRM
    way = np.zeros(taps)
    known = alike[delay : delay + taps]
    way[: len(known)] = known
    path = solve_toeplitz(itself, way)
    echo = np.fft.irfft(np.fft.rfft(path, size) * source, size)[: len(heard) - delay]
    left = heard.astype(np.float64)
    left[delay:] -= echo
    return left.astype(np.float32)


def likeness(left: np.ndarray, said: np.ndarray) -> float:
    """
    How sharply what is left is some of what was said after all, at whatever delay.

    An echo that jumped, as the device was late with its sound, is not taken out, but is as
    sharp as ever: the height of the peak of the whitened cross-correlation (Knapp and Carter,
    IEEE Transactions on Acoustics, Speech and Signal Processing 24, 1976), in standard deviations.
    """
    size = 1 << (len(left) + len(said)).bit_length()
    both = np.conj(np.fft.rfft(said, size)) * np.fft.rfft(left, size)
    hertz = np.fft.rfftfreq(size, 1 / SAMPLE_RATE)
    voiced = (hertz > _VOICE_HZ[0]) & (hertz < _VOICE_HZ[1])
    alike = np.fft.irfft(np.where(voiced, both / (np.abs(both) + 1e-9), 0), size)
    spread = float(np.std(alike))
    return float(np.max(np.abs(alike))) / spread if spread else 0.0
