"""Sound devices that exist only in memory."""

from __future__ import annotations

import threading
import time
from dataclasses import dataclass, field

import numpy as np

from assistant.sound.devices import Device, DeviceError, OnSound, OnWanted

HEADSET = Device(3, "Collar headset", 48_000, 1, is_default=True)
BUILT_IN = Device(0, "Built-in microphone", 44_100, 2)


@dataclass
class StandInStream:
    """A stream that does what the test tells it."""

    rate_hz: int
    channels: int
    on_sound: OnSound | None = None
    active: bool = True
    closed: bool = False

    def close(self) -> None:
        self.active = False
        self.closed = True

    def hear(self, sound: np.ndarray, lost: bool = False) -> None:
        """The device has heard mono sound: all channels alike."""
        assert self.on_sound is not None
        self.on_sound(np.repeat(sound[:, None], self.channels, axis=1), lost)


@dataclass
class StandInDevices:
    """A machine whose devices the test plugs in and pulls out."""

    present: list[Device] = field(default_factory=lambda: [BUILT_IN, HEADSET])
    refuses: dict[tuple[int, int], str] = field(default_factory=dict)
    """(rate, channels) -> the words it is refused with."""
    streams: list[StandInStream] = field(default_factory=list)
    played: list[np.ndarray] = field(default_factory=list)
    looked: int = 0

    def microphones(self) -> tuple[Device, ...]:
        return tuple(self.present)

    def loudspeakers(self) -> tuple[Device, ...]:
        return tuple(self.present)

    def look_again(self) -> bool:
        self.looked += 1
        return True

    def record(
        self, device: Device, rate_hz: int, channels: int, on_sound: OnSound
    ) -> StandInStream:
        if device not in self.present:
            raise DeviceError(f"The microphone “{device.name}” is not there any more.")
        if words := self.refuses.get((rate_hz, channels)):
            raise DeviceError(words)
        self.streams.append(StandInStream(rate_hz, channels, on_sound))
        return self.streams[-1]

    def play(self, device: Device, rate_hz: int, on_wanted: OnWanted) -> StandInStream:
        """Plays in real time from a thread, as a device does."""
        del device
        stream = StandInStream(rate_hz, 1)
        self.streams.append(stream)

        def run() -> None:
            block = rate_hz // 100
            while stream.active:
                wanted = np.zeros(block, np.float32)
                more = on_wanted(wanted)
                self.played.append(wanted)
                if not more:
                    stream.active = False
                time.sleep(0.01)

        threading.Thread(target=run, daemon=True).start()
        return stream
