"""A microphone as a stream of 16 kHz mono chunks, and of gaps where sound was lost."""

from __future__ import annotations

import math
import queue
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass

import numpy as np

from assistant.sound.chunks import SAMPLE_RATE, MissingSound
from assistant.sound.devices import (
    Device,
    DeviceError,
    SoundDevices,
    Stream,
    device_named,
    this_machine,
)
from assistant.sound.microphone_check import MicrophoneCheck, microphone_levels
from assistant.sound.resample import Resampler

_FALLBACK_RATES = (48_000, 44_100, 16_000)
"""Rates tried in turn where a device refuses its own declared rate."""
_SILENT_S = 2.0
"""A running device calls 30 times a second or more; after this long a silent one is gone."""
_FIRST_S = 6.0
"""The first call may take longer: a sound server, or a radio headset, wakes up."""
_RETRY_S = 1.0
_SETTLING_S = 0.5
"""Many devices report lost sound while they start, before anybody speaks."""
_MOST_WAITING_S = 30.0
"""Most sound that may wait for the engine; past that it hangs and memory would fill."""
_AFTER_MOUTH_S = 0.06
"""Ears stay closed this long after a reply, for the sound that devices still hold. How long the
room rings after that is measured from the sound: see :class:`BargeInWatch`."""

Clock = Callable[[], float]
Overhear = Callable[[np.ndarray], None]
"""Given what the microphone hears while the ears are closed, (n,) float32, 16 kHz mono."""


@dataclass(frozen=True, slots=True, eq=False)
class _Overheard:
    """Sound that came while the ears were closed."""

    samples: np.ndarray


@dataclass(frozen=True, slots=True, eq=False)
class _Mouth:
    """A reply begins here; put in the queue in its place, as the reader may be behind."""

    said: np.ndarray | None


class Microphone:
    """
    One microphone, opened by ``with``.

    ``for chunk in microphone`` gives (n,) float32 arrays, 16 kHz mono, and a
    :class:`MissingSound` wherever sound is missing: while the ears were closed, when the device
    went and when it, or another, is there again. Ends when the microphone is closed, from
    whatever thread. One thread may read; `overhear` is called in it, in the right order.
    """

    def __init__(
        self,
        wanted: str | int | None = None,
        devices: SoundDevices | None = None,
        clock: Clock = time.monotonic,
    ) -> None:
        self._wanted = wanted
        self._devices = devices or this_machine()
        self._clock = clock
        self.overhear: Overhear | None = None
        """Called with sound from during a reply, only to notice a voice in it."""
        self.mouth_says: Callable[[np.ndarray | None], None] | None = None
        """Called before that with the reply's sound, where it is known."""
        self._waiting: queue.SimpleQueue[np.ndarray | MissingSound | _Overheard | _Mouth | None]
        self._waiting = queue.SimpleQueue()
        self._lock = threading.Lock()
        self._over = threading.Event()
        self._stream: Stream | None = None
        self._resampler: Resampler | None = None
        self._resamples_closed = False
        self._waiting_samples = 0
        self._behind_s = 0.0
        self._closings: set[object] = set()
        self._mouth: _Mouth | None = None
        self._closed_s = 0.0
        self._open_again_at = -math.inf
        self._called_at = self._started_at = 0.0
        self._turn = 0
        self.device: Device | None = None
        """The device in use, or last in use."""

    def __enter__(self) -> Microphone:
        self._open()
        return self

    def __exit__(self, *_: object) -> None:
        self.close()

    def close(self) -> None:
        """End the stream; what waits can still be read."""
        self._over.set()
        self._give_back()
        self._waiting.put(None)

    # --- ears closed -----------------------------------------------------------------

    @contextmanager
    def ears_closed(self, said: np.ndarray | None = None) -> Iterator[None]:
        """
        Hear nothing within this and for a moment after, as a reply is played. For any thread.

        `said` is what it says, (n,) float32 at 16 kHz, where that is known.
        """
        mouth = object()
        with self._lock:
            self._closings.add(mouth)
            self._mouth = _Mouth(said)
        try:
            yield
        finally:
            with self._lock:
                # No longer there where the talk key opened the ears meanwhile.
                if mouth in self._closings:
                    self._closings.remove(mouth)
                    self._open_again_at = self._clock() + _AFTER_MOUTH_S

    def open_now(self) -> None:
        """
        The talk key was pressed: the reply was stopped, and somebody is about to speak.

        Only what the loudspeaker still holds is waited for.
        """
        with self._lock:
            if not self._ears_open():
                self._closings.clear()
                self._open_again_at = self._clock() + _AFTER_MOUTH_S

    @property
    def hears(self) -> bool:
        """Whether the ears are open."""
        with self._lock:
            return self._ears_open()

    def _ears_open(self) -> bool:
        return not self._closings and self._clock() >= self._open_again_at

    # --- the device's own thread -------------------------------------------------------

    def _heard(self, turn: int, chunk: np.ndarray, lost_before: bool, rate_hz: int) -> None:
        """Take sound from the device; only copies it, since making a device wait loses sound."""
        seconds = len(chunk) / rate_hz
        mono = chunk.mean(axis=1) if chunk.shape[1] > 1 else chunk[:, 0].copy()
        with self._lock:
            if turn != self._turn:
                return  # of a stream that was given up
            self._called_at = self._clock()
            if not self._ears_open():
                self._closed_for(seconds)
                if self.overhear is not None and self._has_room(rate_hz):
                    self._waiting_samples += len(mono)
                    self._waiting.put(_Overheard(mono))
                return
            if self._closed_s:
                self._put(MissingSound("closed", self._closed_s))
                self._closed_s = 0.0
            if lost_before and self._called_at - self._started_at > _SETTLING_S:
                self._put(MissingSound("overflow", 0.0, "The microphone dropped some sound."))
            if not self._has_room(rate_hz):
                self._behind_s += seconds
                return
            if self._behind_s:
                lost = f"{self._behind_s:.1f} s of sound came faster than it could be heard."
                self._put(MissingSound("behind", self._behind_s, lost))
                self._behind_s = 0.0
            self._waiting_samples += len(mono)
            self._waiting.put(mono)

    def _closed_for(self, seconds: float) -> None:
        if self._mouth is not None or not self._closed_s:
            if self._closed_s:  # one answer was broken off by the next
                self._put(MissingSound("closed", self._closed_s))
                self._closed_s = 0.0
            self._waiting.put(self._mouth or _Mouth(None))
            # Reported at once, so that an utterance under way is not held up.
            self._put(MissingSound("closed"))
            self._mouth = None
        self._closed_s += seconds

    def _has_room(self, rate_hz: int) -> bool:
        return self._waiting_samples <= _MOST_WAITING_S * rate_hz

    def _put(self, gap: MissingSound) -> None:
        self._waiting.put(gap)

    # --- the reader's thread --------------------------------------------------------------

    def __iter__(self) -> Iterator[np.ndarray | MissingSound]:
        while True:
            try:
                item = self._waiting.get(timeout=_SILENT_S / 4)
            except queue.Empty:
                if self._over.is_set():
                    return
                if self._is_lost():
                    yield from self._reconnected()
                continue
            if item is None:
                yield from self._rest()
                return
            if isinstance(item, _Mouth):
                if self.mouth_says is not None:
                    self.mouth_says(item.said)
                continue
            if isinstance(item, MissingSound):
                yield from self._rest()
                yield item
                continue
            closed = isinstance(item, _Overheard)
            samples = item.samples if isinstance(item, _Overheard) else item
            with self._lock:
                self._waiting_samples -= len(samples)
            if self._resampler is None:
                # A gap lies between open and closed ears, so no resampler serves both.
                self._resampler, self._resamples_closed = Resampler(self._rate_hz), closed
            yield from self._given(self._resampler.feed(samples))

    def _given(self, sound: np.ndarray) -> Iterator[np.ndarray]:
        """Sound to be recognised, or only handed to `overhear`."""
        if not len(sound):
            return
        if not self._resamples_closed:
            yield sound
        elif self.overhear is not None:
            self.overhear(sound)

    def _rest(self) -> Iterator[np.ndarray]:
        """What the resampler still holds of the sound before a gap."""
        resampler, self._resampler = self._resampler, None
        if resampler is not None:
            yield from self._given(resampler.finish())

    def _is_lost(self) -> bool:
        stream = self._stream
        with self._lock:
            silent_s = self._clock() - self._called_at
            patience_s = _SILENT_S if self._called_at > self._started_at else _FIRST_S
        return stream is None or not stream.active or silent_s > patience_s

    def _reconnected(self) -> Iterator[np.ndarray | MissingSound]:
        """Reports the loss at once, then tries until there is a microphone again."""
        before = self.device
        name = before.name if before else "microphone"
        with self._lock:
            lost_at = self._called_at
            self._turn += 1
        self._give_back()
        yield from self._rest()
        yield MissingSound("lost", 0.0, f"The microphone “{name}” went away. Nothing is heard.")
        while not self._over.is_set():
            try:
                self._devices.look_again()
                self._open(any_device=True)
            except DeviceError:
                self._over.wait(_RETRY_S)
                continue
            missed_s = max(0.0, self._clock() - lost_at)
            now = self.device.name if self.device else name
            told = "is back" if now == name else f"is gone; listening to “{now}” now"
            yield MissingSound(
                "back",
                missed_s,
                f"The microphone “{name}” {told}. Nothing was heard for {missed_s:.0f} s.",
            )
            return

    # --- opening and closing ------------------------------------------------------------------

    def _open(self, any_device: bool = False) -> None:
        """
        Open the chosen device, at its own rate or another.

        Raises :class:`DeviceError`. With `any_device` the default one stands in.
        """
        microphones = self._devices.microphones()
        # By name when it comes back, as its number may have changed.
        wanted = self.device.name if any_device and self.device else self._wanted
        try:
            device = device_named(microphones, wanted, "microphone")
        except DeviceError:
            if not any_device:
                raise
            device = device_named(microphones, None, "microphone")
        rates = [device.rate_hz, *(rate for rate in _FALLBACK_RATES if rate != device.rate_hz)]
        tries = [(rate, count) for rate in rates for count in dict.fromkeys((1, device.channels))]
        first_fault: DeviceError | None = None
        for rate_hz, channels in tries:
            try:
                self._start(device, rate_hz, channels)
            except DeviceError as fault:
                first_fault = first_fault or fault
            else:
                return
        raise first_fault or DeviceError(f"The microphone “{device.name}” cannot be opened.")

    def _start(self, device: Device, rate_hz: int, channels: int) -> None:
        with self._lock:
            self._turn += 1
            turn = self._turn
            self._called_at = self._started_at = self._clock()
        self._rate_hz = rate_hz
        self._channels = channels
        self._stream = self._devices.record(
            device,
            rate_hz,
            channels,
            lambda chunk, lost: self._heard(turn, chunk, lost, rate_hz),
        )
        self.device = device

    def _give_back(self) -> None:
        stream, self._stream = self._stream, None
        if stream is not None:
            stream.close()

    # --- voice check ------------------------------------------------------------------------------

    def check(self, seconds: float = 2.0) -> MicrophoneCheck:
        """
        Listen for some seconds and report device, rate and levels.

        Raises :class:`DeviceError` where nothing arrives.
        """
        heard: list[np.ndarray] = []
        until = self._clock() + 2 * seconds + _FIRST_S
        for item in self:
            if isinstance(item, MissingSound) and item.reason == "lost":
                break
            if isinstance(item, np.ndarray):
                heard.append(item)
            if sum(map(len, heard)) >= seconds * SAMPLE_RATE or self._clock() > until:
                break
        device = self.device
        if not heard or device is None:
            name = device.name if device else "microphone"
            raise DeviceError(f"Nothing arrives from the microphone “{name}”.")
        return microphone_levels(np.concatenate(heard), device, self._rate_hz, self._channels)
