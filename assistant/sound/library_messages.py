"""Keeps messages that sound libraries print by themselves off the screen.

PortAudio and ALSA are written in C and print to file descriptor 2, whatever Python's
``sys.stderr`` is: in the middle of a line that is being typed, from threads of their own.
"""

from __future__ import annotations

import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import TextIO

FILE = "sound.log"
"""Log in the data folder: what the libraries printed since sound was last opened."""
MOST_BYTES = 1_000_000
"""Longest log. A device that is gone is tried again every second, and each try prints."""
LOOK_S = 10.0
"""Between checks of the log's length."""
_SCREEN = 2
"""The file descriptor that C calls standard error."""


@contextmanager
def library_messages_into(log: Path) -> Iterator[None]:
    """
    While sound is open, what C code writes to standard error goes into a file.

    Python's own ``sys.stderr`` still reaches the screen. The file begins anew each time; where
    it cannot be written, the messages are dropped: no sound is worth a broken screen.
    """
    try:
        screen = os.dup(_SCREEN)
    except OSError:  # started without a standard error: nothing can appear on it
        yield
        return
    pythons = sys.stderr
    ours = _on(screen, pythons)
    kept = _opened(log)
    over = threading.Event()
    watching = threading.Thread(target=_keep_short, args=(kept, over), daemon=True)
    try:
        os.dup2(kept, _SCREEN)
        if ours is not None:
            sys.stderr = ours
        watching.start()
        yield
    finally:
        if ours is not None:
            sys.stderr = pythons
            with suppress(OSError):
                ours.close()
        os.dup2(screen, _SCREEN)
        over.set()
        watching.join()
        os.close(screen)
        os.close(kept)


def messages_in(log: Path) -> bool:
    """Whether the libraries have printed anything."""
    try:
        return log.stat().st_size > 0
    except OSError:
        return False


def _on(screen: int, pythons: TextIO | None) -> TextIO | None:
    """Python's standard error, on the descriptor `screen`; None where it goes elsewhere."""
    try:
        if pythons is None or pythons.fileno() != _SCREEN:
            return None
        pythons.flush()
    except (OSError, ValueError):  # somebody has replaced it
        return None
    return open(
        screen, "w", buffering=1, encoding=pythons.encoding, errors="replace", closefd=False
    )


def _opened(log: Path) -> int:
    # Appending: once the log is emptied, the next message must stand at its beginning.
    flags = os.O_WRONLY | os.O_CREAT | os.O_TRUNC | os.O_APPEND
    try:
        log.parent.mkdir(parents=True, exist_ok=True)
        return os.open(log, flags, 0o600)
    except OSError:
        return os.open(os.devnull, os.O_WRONLY)


def _keep_short(kept: int, over: threading.Event) -> None:
    """Empty the log when it grows long: a full disk would harm the job."""
    while not over.wait(LOOK_S):
        with suppress(OSError):
            if os.fstat(kept).st_size > MOST_BYTES:
                os.ftruncate(kept, 0)
