"""An orderly end when the terminal is closed or the machine shuts down."""

from __future__ import annotations

import signal
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager

SIGNALS = tuple(
    getattr(signal, name) for name in ("SIGTERM", "SIGHUP") if hasattr(signal, name)
)  # Windows has no terminal that hangs up.


@contextmanager
def ends_in_order() -> Iterator[None]:
    """
    Within this, a signal to end unwinds the program like an exception: the job is closed.

    What was answered is on disk even after a kill; closing also restores the terminal. The
    exit code is a shell's for the signal, 128 plus its number. Signals that the parent ignores
    (`nohup`) stay ignored.
    """
    if threading.current_thread() is not threading.main_thread():
        yield
        return
    before = {each: signal.getsignal(each) for each in SIGNALS}
    for each, handler in before.items():
        if handler == signal.SIG_DFL:
            signal.signal(each, _end)
    try:
        yield
    finally:
        for each, handler in before.items():
            if handler is not None:
                signal.signal(each, handler)


_takers: list[Callable[[SystemExit], None]] = []
"""The last of them takes the signal to end; with none, it is raised wherever we are."""


@contextmanager
def ends_through(take: Callable[[SystemExit], None]) -> Iterator[None]:
    """
    While this lasts, a signal to end goes to `take`, and is raised afterwards.

    An event loop in which it was raised just anywhere would lay it to the task that happened to
    run, and might hand back the terminal as it was while a line was typed.
    """
    told: list[SystemExit] = []

    def taken(end: SystemExit) -> None:
        told.append(end)
        take(end)

    _takers.append(taken)
    try:
        yield
    finally:
        _takers.remove(taken)
        if told:
            raise told[0]


def _end(number: int, _frame: object) -> None:
    for each in SIGNALS:
        signal.signal(each, signal.SIG_IGN)  # once is enough: closing must not be cut short
    end = SystemExit(128 + number)
    if not _takers:
        raise end
    _takers[-1](end)
