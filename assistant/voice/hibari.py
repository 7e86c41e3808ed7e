"""The voice that comes with the voice parts: small, quick, works without a network."""

from __future__ import annotations

import threading
from collections.abc import Iterator
from typing import Any

import numpy as np

from assistant.voice.pace import quicker
from assistant.voice.speaker import Speech, VoiceError
from assistant.voice_parts import voice_part

SLOWEST = 0.5
"""The model can do, against its own pace. Asked to be quicker than that it drops sounds: at 1.5 our
recogniser heard 27 of 31 readings right in quiet and 19 in mixer noise at 10 dB. Squeezed by as
much afterwards it heard all 31, in both."""


class HibariVoice:
    """
    Speech by the package hibari-tts.

    Loading takes half a second and the first sentence as long again, so both happen in a
    thread as soon as it is made. Raises :class:`VoicePartMissing` at once where the package
    is not there, :class:`VoiceError` for a voice it does not have.
    """

    def __init__(self, speed: float = 1.0, voice: str = "heart") -> None:
        self._package = voice_part("hibari")
        known = voice_part("hibari.voices").VOICES
        if voice not in known:
            raise VoiceError(f"There is no voice “{voice}”. There are: {', '.join(sorted(known))}.")
        self._voice = voice
        self._speed = min(max(speed, SLOWEST), 1.0)
        self._squeeze = max(speed, 1.0)
        self._model: Any = None
        self._fault: Exception | None = None
        self._loading = threading.Thread(target=self._load, name="loading a voice", daemon=True)
        self._loading.start()

    def _load(self) -> None:
        try:
            model = self._package.Hibari(voice=self._voice)
            # The first sentence builds the pronouncing word list; nobody should wait for it.
            model("one", seed=0)
            self._model = model
        except Exception as fault:
            self._fault = fault

    def speech(self, text: str) -> Iterator[Speech]:
        """The words, sentence by sentence; the same words give the same sound."""
        self._loading.join()
        if self._model is None:
            raise VoiceError(
                f"The voice “{self._voice}” cannot be loaded ({self._fault}). "
                "“heart” needs no network."
            )
        for samples in self._model.stream(text, speed=self._speed, seed=0):
            rate_hz = int(self._model.sample_rate)
            sound = quicker(np.asarray(samples, np.float32), rate_hz, self._squeeze)
            yield Speech(sound, rate_hz)
