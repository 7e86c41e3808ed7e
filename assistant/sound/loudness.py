"""Loudness: levels in decibels below full scale, the noise floor, speech over noise."""

from __future__ import annotations

from collections import deque
from collections.abc import Sequence

import numpy as np

SILENCE_DB = -120.0
"""Level reported for digital silence, whose logarithm is infinite."""
CLIPPED = 0.99
"""Samples beyond this part of full scale count as clipped."""
_HIGHEST_SNR_DB, _LOWEST_SNR_DB = 60.0, -10.0
"""Limits of a useful ratio: 16 bits above, guesses below."""


def power(sound: np.ndarray) -> float:
    """Mean square of (n,) samples; 0 of none."""
    return float(np.mean(np.square(sound, dtype=np.float64))) if len(sound) else 0.0


def decibels(mean_square: float) -> float:
    """
    A mean square as dB against full scale, 1.0.

    >>> decibels(0.01), decibels(0.0)
    (-20.0, -120.0)
    """
    return max(SILENCE_DB, 10 * float(np.log10(mean_square))) if mean_square > 0 else SILENCE_DB


def level_db(sound: np.ndarray) -> float:
    """Level of (n,) samples, dB against full scale."""
    return decibels(power(sound))


def clipped_part(sound: np.ndarray) -> float:
    """The part of (n,) samples that stands at full scale, 0 to 1."""
    return float(np.mean(np.abs(sound) >= CLIPPED)) if len(sound) else 0.0


def above_pauses_db(sound: np.ndarray) -> float:
    """
    How far the speech in (n,) samples at 16 kHz stands above its own pauses, dB.

    The loudest tenth of its hundredths of a second against the quietest; about four more than
    speech over noise in noise, 60 at most.
    """
    frames = sound[: len(sound) - len(sound) % _HUNDREDTH].reshape(-1, _HUNDREDTH)
    if not len(frames):
        return 0.0
    powers = np.mean(np.square(frames, dtype=np.float64), axis=1)
    low, high = np.percentile(powers, (10, 90))
    return float(np.clip(decibels(high) - decibels(low), 0.0, _HIGHEST_SNR_DB))


_HUNDREDTH = 160


class NoiseFloor:
    """
    The noise between utterances, measured on the latest frames in which nobody spoke.

    A mean of powers, so that a mixer that throbs counts as loud as it is; the loudest
    tenth is left out, so that a dropped trowel does not.
    """

    def __init__(self, frames: int = 100, enough: int = 8) -> None:
        self._latest: deque[float] = deque(maxlen=frames)
        self._enough = enough

    def add(self, frame_power: float) -> None:
        """One more frame without speech."""
        self._latest.append(frame_power)

    def forget(self) -> None:
        """Forget all frames, as for another microphone."""
        self._latest.clear()

    @property
    def power(self) -> float | None:
        """Mean square; None until there were enough frames."""
        if len(self._latest) < self._enough:
            return None
        quieter = sorted(self._latest)[: max(1, round(len(self._latest) * 0.9))]
        return sum(quieter) / len(quieter)

    @property
    def level_db(self) -> float | None:
        """Level against full scale; None until there were enough frames."""
        found = self.power
        return None if found is None else decibels(found)


class Crowd:
    """
    Separates a voice from background voices, which a speech detector takes for speech too.

    Acts only where it never gets quiet within an utterance: there a frame counts as speech if
    it is nearer to the loud frames than to the soft ones. In a quiet room even the softest
    last syllable counts.
    """

    _NEVER_QUIET_DB = 18.0
    """With the softest tenth less than this below the loud ones, noise or voices fill the pauses.
    Lower leaves it to the detector alone more often, higher risks soft endings."""
    _SOFTER_DB = 6.0
    """Background is softer than the loud frames by at least this, so no steady voice is cut."""
    _ENOUGH = 25
    """Frames, 0.8 s: before that it is not known what is loud here."""

    def __init__(self) -> None:
        self._powers: list[float] = []

    def forget(self) -> None:
        """Forget all frames, for another utterance."""
        self._powers.clear()

    def is_behind(self, frame_power: float) -> bool:
        """Whether this frame of an utterance, and the one before it, are only background."""
        before = self._powers[-1] if self._powers else frame_power
        self._powers.append(frame_power)
        if len(self._powers) < self._ENOUGH:
            return False
        soft, loud = (decibels(float(p)) for p in np.percentile(self._powers, (10, 85)))
        if loud - soft > self._NEVER_QUIET_DB:
            return False
        return decibels(max(before, frame_power)) < min((soft + loud) / 2, loud - self._SOFTER_DB)


def quietest_power(frame_powers: Sequence[float]) -> float:
    """Mean of the quietest tenth: a stand-in for the noise where no pause came before."""
    if not frame_powers:
        return 0.0
    quieter = sorted(frame_powers)[: max(1, len(frame_powers) // 10)]
    return sum(quieter) / len(quieter)


def snr_db(speech_powers: Sequence[float], noise_power: float) -> float | None:
    """
    Speech over noise, dB, from the powers of the frames that hold speech and noise together.

    None where there was no speech. Kept within -10 and 60.

    >>> round(snr_db([0.011], 0.001), 1)
    10.0
    """
    if not speech_powers:
        return None
    mixed = sum(speech_powers) / len(speech_powers)
    if noise_power <= 0:
        return _HIGHEST_SNR_DB
    speech = max(mixed - noise_power, noise_power * 0.01)
    return float(np.clip(decibels(speech) - decibels(noise_power), _LOWEST_SNR_DB, _HIGHEST_SNR_DB))
