"""The sound devices of this machine, behind a small interface that tests can replace."""

from __future__ import annotations

import threading
from collections.abc import Callable
from dataclasses import dataclass
from functools import cache
from typing import Any, Protocol

import numpy as np

from assistant.errors import LeadsmanError
from assistant.sound.voice_parts import voice_part

OnSound = Callable[[np.ndarray, bool], None]
"""Called from the device's own thread with (n, channels) float32, to be copied, and whether
sound was lost before it."""
OnWanted = Callable[[np.ndarray], bool]
"""Called from the device's own thread with (n,) float32 to fill; False when no more comes."""


class DeviceError(LeadsmanError):
    """A sound device that is not there, is taken, or went away; the text says what to do."""


@dataclass(frozen=True, slots=True)
class Device:
    """A microphone or a loudspeaker as the system lists it."""

    number: int
    name: str
    rate_hz: int
    """Its own sample rate."""
    channels: int
    is_default: bool = False


class Stream(Protocol):
    """A running device."""

    @property
    def active(self) -> bool:
        """Whether it still runs; it may stop without notice."""

    def close(self) -> None:
        """Stop at once and release the device; what was not played yet is dropped."""


class SoundDevices(Protocol):
    """The microphones and loudspeakers of a machine."""

    def microphones(self) -> tuple[Device, ...]:
        """All of them."""

    def loudspeakers(self) -> tuple[Device, ...]:
        """All of them."""

    def record(self, device: Device, rate_hz: int, channels: int, on_sound: OnSound) -> Stream:
        """Begin to record. Raises :class:`DeviceError`."""

    def play(self, device: Device, rate_hz: int, on_wanted: OnWanted) -> Stream:
        """Begin to play. Raises :class:`DeviceError`."""

    def look_again(self) -> bool:
        """Notice devices that came or went; False where that cannot be done just now."""


def device_named(devices: tuple[Device, ...], wanted: str | int | None, what: str) -> Device:
    """
    The default device, or the one of that number or whose name has that word in it.

    Raises :class:`DeviceError` where there is none, naming those there are.
    """
    if not devices:
        raise DeviceError(f"No {what} was found. Plug one in, or choose it in the system's sound.")
    if wanted is None:
        return next((device for device in devices if device.is_default), devices[0])
    said = str(wanted).strip().lower()
    tests: tuple[Callable[[Device], bool], ...] = (
        lambda device: said == device.name.lower(),
        lambda device: said == str(device.number),
        lambda device: bool(said) and said in device.name.lower(),
    )
    found = [device for test in tests for device in devices if test(device)]
    if found:
        return found[0]
    listed = "; ".join(f"{device.number} {device.name}" for device in devices)
    raise DeviceError(f"There is no {what} “{wanted}”. There are: {listed}.")


_CLOSE_WAIT_S = 2.0
"""Longest wait for a close: on a device that was pulled out the library may hang for ever."""


@cache
def this_machine() -> PortAudio:
    """
    The real devices, one object for input and output: look_again must know of both.

    Raises :class:`VoicePartMissing` where the package or the library under it is not there.
    """
    return PortAudio()


class PortAudio:
    """Real devices, through the package sounddevice."""

    def __init__(self) -> None:
        self._sounddevice = voice_part("sounddevice")
        self._lock = threading.RLock()
        self._open = 0

    def microphones(self) -> tuple[Device, ...]:
        """All devices, the system's default among them."""
        return self._devices("input")

    def loudspeakers(self) -> tuple[Device, ...]:
        """All devices, the system's default among them."""
        return self._devices("output")

    def _devices(self, way: str) -> tuple[Device, ...]:
        fault = self._sounddevice.PortAudioError
        with self._lock:
            try:
                listed = self._sounddevice.query_devices()
                default = self._sounddevice.query_hostapis(
                    self._sounddevice.default.hostapi
                )[f"default_{way}_device"]  # fmt: skip
            except fault as trouble:
                raise DeviceError(f"The sound devices cannot be listed: {trouble}.") from trouble
        return tuple(
            Device(
                number=number,
                name=str(device["name"]),
                rate_hz=round(device["default_samplerate"]),
                channels=int(device[f"max_{way}_channels"]),
                is_default=number == default,
            )
            for number, device in enumerate(listed)
            if device[f"max_{way}_channels"] > 0
        )

    def record(self, device: Device, rate_hz: int, channels: int, on_sound: OnSound) -> Stream:
        """Begin to record; `on_sound` is called from a thread of the device's own."""

        def callback(heard: np.ndarray, _frames: int, _time: Any, status: Any) -> None:
            on_sound(heard, bool(status.input_overflow))

        return self._stream(
            "InputStream",
            f"The microphone “{device.name}”",
            device=device.number,
            samplerate=rate_hz,
            channels=channels,
            dtype="float32",
            callback=callback,
        )

    def play(self, device: Device, rate_hz: int, on_wanted: OnWanted) -> Stream:
        """Begin to play; `on_wanted` is called from a thread of the device's own."""
        stop = self._sounddevice.CallbackStop

        def callback(wanted: np.ndarray, _frames: int, _time: Any, _status: Any) -> None:
            if not on_wanted(wanted[:, 0]):
                raise stop

        return self._stream(
            "OutputStream",
            f"The loudspeaker “{device.name}”",
            device=device.number,
            samplerate=rate_hz,
            channels=1,
            dtype="float32",
            latency="low",
            callback=callback,
        )

    def _stream(self, kind: str, what: str, **settings: Any) -> Stream:
        with self._lock:
            try:
                stream = getattr(self._sounddevice, kind)(**settings)
                stream.start()
            except (self._sounddevice.PortAudioError, ValueError) as trouble:
                raise DeviceError(_refused(what, str(trouble))) from trouble
            self._open += 1
        return _PortAudioStream(stream, self._closed)

    def _closed(self) -> None:
        with self._lock:
            self._open -= 1

    def look_again(self) -> bool:
        """
        Notice devices that came or went.

        PortAudio lists them once, when it starts, and stopping it takes every open stream
        with it: so only while none is open.
        """
        with self._lock:
            if self._open:
                return False
            self._sounddevice._terminate()
            self._sounddevice._initialize()
            return True


def _refused(what: str, trouble: str) -> str:
    """PortAudio's own words, and what they mean where that is known."""
    low = trouble.lower()
    if "unavailable" in low or "busy" in low:
        return f"{what} is taken by another program. Close that, or choose another ({trouble})."
    if "invalid device" in low or "querying device" in low:
        return f"{what} is not there any more ({trouble})."
    return f"{what} cannot be opened: {trouble}."


class _PortAudioStream:
    """One open stream, given back once."""

    def __init__(self, stream: Any, closed: Callable[[], None]) -> None:
        self._stream = stream
        self._closed: Callable[[], None] | None = closed

    @property
    def active(self) -> bool:
        """Whether the device still asks for or gives sound."""
        try:
            return bool(self._stream.active)
        except Exception:
            return False

    def close(self) -> None:
        """
        Give the device back.

        In a thread that is left behind if it hangs; the device then counts as open, so
        that :meth:`PortAudio.look_again` leaves it alone.
        """
        closed, self._closed = self._closed, None
        if closed is None:
            return
        done = threading.Event()

        def close() -> None:
            try:
                self._stream.abort(ignore_errors=True)
                self._stream.close(ignore_errors=True)
            finally:
                closed()
                done.set()

        threading.Thread(target=close, name="closing a sound device", daemon=True).start()
        done.wait(_CLOSE_WAIT_S)
