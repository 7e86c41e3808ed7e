"""Subtracts a reply's sound from what a microphone recorded during it."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from assistant.sound.chunks import SAMPLE_RATE
from assistant.sound.toeplitz import toeplitz_solution

_RING_S = 0.5
"""Longest echo of a room. Longer removes more of an echo, and a little of other voices."""
_EARLY_S = 0.05
"""How far before the loudest echo others may come, along a shorter way."""
_FIRM = 1e-3
"""Keeps the solution from rounding errors; a larger one leaves more of the echo."""

_VOICE_HZ = (200.0, 6000.0)
"""Frequencies that a small loudspeaker plays and a microphone records."""
_STRETCH = SAMPLE_RATE // 2
"""Samples of a stretch; in less an echo is not clear, in more two dropouts look like one."""
_LATEST = SAMPLE_RATE
"""Most samples that an echo may be late, all dropouts together; more takes longer."""
_STEADY = 32
"""Samples, 2 ms: the clocks of two devices drift by less than this in one answer."""
_PLAIN = 20.0
"""Least height of a peak, in standard deviations. Lower takes other voices for jumps of the echo;
higher misses the jumps in rooms that ring."""


def without_echo(heard: np.ndarray, said: np.ndarray) -> np.ndarray:
    """
    The rest of `heard` once all is subtracted that can be explained by `said`.

    Parameters
    ----------
    heard : (n,) array of float
        From the microphone, 16 kHz, from before the reply began.
    said : (m,) array of float
        The reply's sound, 16 kHz.

    Returns
    -------
    left : (n,) array of float
        Other voices and noise, hardly changed, and what the loudspeaker distorted of the reply.

    Notes
    -----
    Loudspeaker, room and microphone together are taken for a linear filter, which is found by
    least squares over all of the sound (the Wiener filter), at the delay where the two are
    most alike. In simulated rooms ringing up to 1.5 s, with a small loudspeaker that
    distorts, 15 to 30 dB of the echo go.
    """
    if not len(heard) or not np.any(said):
        return heard
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
    path = toeplitz_solution(itself, way)
    echo = np.fft.irfft(np.fft.rfft(path, size) * source, size)[: len(heard) - delay]
    left = heard.astype(np.float64)
    left[delay:] -= echo
    return left.astype(np.float32)


def as_it_came(heard: np.ndarray, said: np.ndarray) -> tuple[np.ndarray, list[int]]:
    """
    The reply as the microphone got it: late or cut short from where a device dropped sound.

    Parameters
    ----------
    heard, said : arrays of float
        As for :func:`without_echo`.

    Returns
    -------
    came : (k,) array of float
        `said`, moved where its echo jumps.
    jumps : list of int
        Samples of `heard` where it does, good to a quarter of a second; none where nothing was
        dropped, or no echo is plain enough to tell.
    """
    came, jumps = said, list[int]()
    first = before = None
    for start, delay in _delays(heard, said):
        if first is None or before is None:
            first = before = delay
        late = delay - before
        if abs(late) > _STEADY:
            # A stretch has the new delay once more than half of it does.
            jump = start + _STRETCH // 2
            at = max(0, jump - first)
            came = np.concatenate((came[:at], np.zeros(max(late, 0)), came[at + max(-late, 0) :]))
            before = delay
            jumps.append(jump)
    return came, jumps


def _delays(heard: np.ndarray, said: np.ndarray) -> Iterator[tuple[int, int]]:
    """
    Where stretches of `heard` begin that have a plain echo, and how late it is, in samples.

    By the peak of the whitened cross-correlation (Knapp and Carter, IEEE Transactions on
    Acoustics, Speech and Signal Processing 24, 1976).
    """
    size = 1 << (2 * _STRETCH + _LATEST).bit_length()
    hertz = np.fft.rfftfreq(size, 1 / SAMPLE_RATE)
    voiced = (hertz > _VOICE_HZ[0]) & (hertz < _VOICE_HZ[1])
    for start in range(0, len(heard) - _STRETCH + 1, _STRETCH // 5):
        begin = max(0, start - _LATEST)
        source = np.conj(np.fft.rfft(said[begin : start + _STRETCH], size))
        both = source * np.fft.rfft(heard[start : start + _STRETCH], size)
        alike = np.abs(np.fft.irfft(np.where(voiced, both / (np.abs(both) + 1e-9), 0), size))
        peak = int(np.argmax(alike))
        if alike[peak] > _PLAIN * np.std(alike):
            yield start, start - begin + (peak if peak < _STRETCH else peak - size)
