"""Ears on a microphone that exists only in memory."""

from __future__ import annotations

import queue
import threading
import time
from collections.abc import Callable, Iterator

import numpy as np

from assistant.ears.hearing import Heard
from assistant.ears.script import ScriptEngine
from assistant.listening.open_ears import Arrival, HeardOne, Inbox, OpenEars
from assistant.sound.chunks import MissingSound


class Level:
    """Takes what is loud for speech."""

    def __call__(self, frame: np.ndarray) -> float:
        return float(np.max(np.abs(frame)) > 0.01)

    def reset(self) -> None:
        pass


class Microphone:
    """Gives what the test puts in, until the test says that it is over."""

    def __init__(self) -> None:
        self.waiting: queue.SimpleQueue[np.ndarray | MissingSound | Exception | None] = (
            queue.SimpleQueue()
        )
        self.closed = False
        self.overhear: Callable[[np.ndarray], None] | None = None
        self.mouth_says: Callable[[np.ndarray | None], None] | None = None
        self.opened_now = 0

    def open_now(self) -> None:
        self.opened_now += 1

    def __enter__(self) -> Iterator[np.ndarray | MissingSound]:
        return self._chunks()

    def __exit__(self, *_: object) -> None:
        self.closed = True
        self.waiting.put(None)

    def _chunks(self) -> Iterator[np.ndarray | MissingSound]:
        while (item := self.waiting.get(timeout=10)) is not None:
            if isinstance(item, Exception):
                raise item
            yield item

    def speak(self, seconds: float = 0.5, pause: float = 0.8) -> None:
        """Somebody speaks; it goes in as a device gives it, 32 ms at a time."""
        at = np.arange(int(16_000 * seconds)) / 16_000
        sound = np.concatenate(
            (np.sin(2 * np.pi * 200 * at).astype(np.float32) / 4, np.zeros(int(16_000 * pause)))
        ).astype(np.float32)
        for start in range(0, len(sound), 512):
            self.waiting.put(sound[start : start + 512])


class Listener:
    """Open ears, and what they brought."""

    def __init__(self, lines: list[str | Heard], hands_free: bool = False) -> None:
        self.microphone, self.inbox = Microphone(), Inbox()
        self.woken = threading.Event()
        self.inbox.wake = self.woken.set
        self.engine = ScriptEngine(lines)
        self.ears = OpenEars(
            self.engine, self.microphone, self.inbox, hands_free=hands_free, detector=Level()
        )
        self.ears.start()

    def next(self, kind: type[Arrival], wait_s: float = 5.0) -> Arrival | None:
        until = time.monotonic() + wait_s
        while time.monotonic() < until:
            self.woken.clear()
            item = self.inbox.take()
            if isinstance(item, kind):
                return item
            if item is None:
                self.woken.wait(0.05)
        return None

    def heard(self, wait_s: float = 5.0) -> HeardOne | None:
        found = self.next(HeardOne, wait_s)
        assert found is None or isinstance(found, HeardOne)
        return found
