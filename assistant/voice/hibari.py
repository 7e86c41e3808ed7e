"""The voice that comes with the voice parts: small, quick, works without a network."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from typing import Any

import numpy as np

from assistant.sound.voice_parts import voice_part
from assistant.voice.speaker import Speech, VoiceError
from assistant.voice.time_stretch import stretch_to_fit

SLOWEST = 0.5
"""Slowest pace asked of the model, against its own. Asked to be quicker it drops sounds: at 1.5
our recogniser heard 27 of 31 readings right in quiet and 19 in mixer noise at 10 dB. Of speech
squeezed by as much afterwards, it heard all 31 in both."""
READ_BACK_S = 3.0
"""Longest read-back at a plain pace; two seconds at the usual pace of one and a half times. What
takes only just longer is said a little quicker still where a quicker pace was asked for."""


class HibariVoice:
    """
    Speech by the package hibari-tts.

    Loading takes half a second and the first sentence as long again, so both happen in a
    thread as soon as it is made. Raises :class:`VoicePartMissing` at once where the package
    is not there, :class:`VoiceError` for a voice it does not have or whose file is not on this
    machine.
    """

    def __init__(self, speed: float = 1.0, voice: str = "heart") -> None:
        self._package = voice_part("hibari")
        self._file = _file_of(voice)
        self._voice = voice
        self._speed = min(max(speed, SLOWEST), 1.0)
        self._squeeze = max(speed, 1.0)
        self._model: Any = None
        self._fault: Exception | None = None
        # No daemon: a program that ends while the library under it loads would be aborted.
        self._loading = threading.Thread(target=self._load, name="loading a voice")
        self._loading.start()

    def _load(self) -> None:
        try:
            model = self._package.Hibari(voice=self._voice, model=self._file)
            # The first sentence loads the pronouncing dictionary; nobody should wait for that.
            model("one", seed=0)
            self._model = model
        except Exception as fault:
            self._fault = fault

    def speech(self, text: str) -> Iterator[Speech]:
        """The words, all at once; the same words give the same sound."""
        self._loading.join()
        if self._model is None:
            raise VoiceError(
                f"The voice “{self._voice}” cannot be loaded ({self._fault}). "
                "“heart” came with the package."
            )
        rate_hz = int(self._model.sample_rate)
        made = np.asarray(self._model(text, speed=self._speed, seed=0), np.float32)
        if self._squeeze > 1.0:
            made = stretch_to_fit(made, rate_hz, self._squeeze, READ_BACK_S / self._squeeze)
        if len(made):
            yield Speech(made, rate_hz)


def _file_of(voice: str) -> str:
    """
    The file of a voice's model.

    Without it the package would try to download one that is missing.
    """
    voices = voice_part("hibari.voices")
    if voice not in voices.VOICES:
        known = ", ".join(sorted(voices.VOICES))
        raise VoiceError(f"There is no voice “{voice}”. There are: {known}.")
    try:
        return str(voices.voice_path(voice, download_missing=False))
    except FileNotFoundError as fault:
        raise VoiceError(
            f"The voice “{voice}” is not on this machine, and the program fetches none by itself. "
            f"“heart” is, it came with the package. To have “{voice}”, put its file here: {fault}"
        ) from fault
