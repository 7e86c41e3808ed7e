"""An orderly end when the terminal is closed or the machine shuts down."""

from __future__ import annotations

import signal
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from typing import NoReturn

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


def _end(number: int, _frame: object) -> NoReturn:
    for each in SIGNALS:
        signal.signal(each, signal.SIG_IGN)  # once is enough: closing must not be cut short
    raise SystemExit(128 + number)
