"""Speech in less time, at its own pitch."""

from __future__ import annotations

import numpy as np

from assistant.voice.trim import trim_pauses

_PIECE_S = 0.03
"""Length of a piece, two or three periods of a voice. Longer stutters, shorter growls."""
_LOOK_S = 0.008
"""How far the next piece may be moved to fit; a period of a deep voice."""
_MOST = 1.25
"""Most further speed-up, where that keeps it in time. More is understood less well."""
_SPARE_S = 0.06
"""Reserve of time: the pauses that are left in are not squeezed."""


def stretch_to_fit(samples: np.ndarray, rate_hz: int, factor: float, seconds: float) -> np.ndarray:
    """
    The speech, (n,) float32, `factor` times as quick and without needless pauses.

    If it is then only just longer than `seconds` it is made quick enough to fit; anything still
    longer is a list or a question, not a read-back, and keeps its pace. It is squeezed in one
    step, as squeezing twice makes it harder to understand.
    """
    made = trim_pauses(time_stretched(samples, rate_hz, factor), rate_hz)
    took_s = len(made) / rate_hz
    more = took_s / (seconds - _SPARE_S)
    if took_s < seconds or more > _MOST:
        return made
    return trim_pauses(time_stretched(samples, rate_hz, factor * more), rate_hz)


def time_stretched(samples: np.ndarray, rate_hz: int, factor: float) -> np.ndarray:
    """
    Speech squeezed to ``1 / factor`` of its length, (n,) float32 in and out.

    Overlapped pieces, each taken from where it fits best on the one before (waveform
    similarity overlap-add: Verhelst and Roelands, ICASSP 1993). A voice that is asked to
    hurry drops sounds; this drops none, only the time they take.
    """
    half = round(_PIECE_S * rate_hz / 2)
    piece, look = 2 * half, round(_LOOK_S * rate_hz)
    if factor == 1.0 or len(samples) < 4 * piece:
        return samples
    window = np.hanning(piece + 1)[:piece].astype(np.float32)
    before, behind = np.zeros(look + half), np.zeros(2 * piece + look)
    sound = np.concatenate((before, samples, behind)).astype(np.float32)
    count = int((len(sound) - piece - half - 2 * look) / (half * factor))
    made = np.zeros((count + 1) * half, np.float32)
    at = look
    for number in range(count):
        if number:
            meant = look + round(number * half * factor)
            at = meant - look + _best_fit(
                sound[meant - look : meant + look + piece], sound[at + half : at + half + piece]
            )  # fmt: skip
        made[number * half : number * half + piece] += sound[at : at + piece] * window
    return made[half : half + round(len(samples) / factor)]


def _best_fit(around: np.ndarray, wanted: np.ndarray) -> int:
    """Where in `around` a piece is most like `wanted`."""
    alike = np.correlate(around, wanted, "valid")
    ends = np.concatenate(([0.0], np.cumsum(np.square(around, dtype=np.float64))))
    energy = ends[len(wanted) :] - ends[: -len(wanted)]
    return int(np.argmax(alike / np.sqrt(energy + 1e-9)))
