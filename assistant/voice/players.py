"""Where speech goes: a loudspeaker, or a wav file."""

from __future__ import annotations

import threading
import time
import wave
from pathlib import Path

import numpy as np

from assistant.sound.devices import DeviceError, SoundDevices, device_named, this_machine
from assistant.sound.resample import resample_all
from assistant.voice.speaker import Speech, VoiceError

_LOOK_S = 0.01
_PATIENCE_S = 4.0
"""A loudspeaker that takes this much longer than the speech is not playing at all."""


class Loudspeaker:
    """Plays on a device of this machine, at the device's own rate."""

    def __init__(self, wanted: str | int | None = None, devices: SoundDevices | None = None):
        self._wanted = wanted
        self._devices = devices or this_machine()

    def play(self, speech: Speech, stop: threading.Event) -> None:
        """
        Return when it is played or `stop` is set, which is noticed within 20 ms.

        Raises :class:`DeviceError` where there is no loudspeaker or it went away.
        """
        device = device_named(self._devices.loudspeakers(), self._wanted, "loudspeaker")
        sound = resample_all(speech.samples, speech.rate_hz, device.rate_hz)
        playing = _Playing(sound, stop)
        stream = self._devices.play(device, device.rate_hz, playing.fill)
        try:
            if not playing.over.wait(len(sound) / device.rate_hz + _PATIENCE_S):
                raise DeviceError(f"The loudspeaker “{device.name}” stopped playing.")
            # The device still holds the last sound it was given; it runs on until that is played.
            until = time.monotonic() + _PATIENCE_S
            while stream.active and time.monotonic() < until:
                if stop.wait(_LOOK_S):
                    break
        finally:
            stream.close()


class _Playing:
    """Hands sound to the device piece by piece."""

    def __init__(self, sound: np.ndarray, stop: threading.Event) -> None:
        self.sound = sound
        self.over = threading.Event()
        self._stop = stop
        self._at = 0

    def fill(self, wanted: np.ndarray) -> bool:
        """The next samples into `wanted`, and silence after the last."""
        piece = self.sound[self._at : self._at + len(wanted)]
        if self._stop.is_set():
            piece = piece[:0]
        wanted[: len(piece)] = piece
        wanted[len(piece) :] = 0
        self._at += len(piece)
        if len(piece) == len(wanted):
            return True
        self.over.set()
        return False


class WavFile:
    """Writes all that is said to one wav file, without waiting; for tests and demonstrations."""

    def __init__(self, path: str | Path) -> None:
        self._path = Path(path)
        self._pieces: list[np.ndarray] = []
        self._rate_hz: int | None = None

    def play(self, speech: Speech, stop: threading.Event) -> None:
        """Add it to the file. Raises :class:`VoiceError` where that cannot be written."""
        if stop.is_set():
            return
        rate_hz = self._rate_hz = self._rate_hz or speech.rate_hz
        self._pieces.append(resample_all(speech.samples, speech.rate_hz, rate_hz))
        sound = np.clip(np.concatenate(self._pieces), -1, 1)
        try:
            with self._path.open("wb") as opened, wave.open(opened, "wb") as file:
                file.setnchannels(1)
                file.setsampwidth(2)
                file.setframerate(rate_hz)
                file.writeframes((sound * 32767).astype("<i2").tobytes())
        except OSError as fault:
            raise VoiceError(f"{self._path} cannot be written: {fault.strerror}.") from fault
