"""Signals of a program that a test starts."""

from __future__ import annotations

import signal


def heed_endings() -> None:
    """
    In the child, before it starts: one begun by nohup inherits that hang-ups are ignored, and one
    begun beside a shell's own work (``&``) that Ctrl-C is.
    """
    for name in ("SIGHUP", "SIGTERM", "SIGINT"):
        signal.signal(getattr(signal, name), signal.SIG_DFL)
