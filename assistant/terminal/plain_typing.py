"""Lines typed at a terminal that only takes plain text."""

from __future__ import annotations

import select
import sys
from collections.abc import Callable, Iterator

SETTLES_S = 0.005
"""What is pasted comes in one piece; a terminal far away may break it in two."""


def sent_at_once(prompt: Callable[[], str]) -> Iterator[str]:
    """
    What was sent at once: a line, or several where more were there before anybody could see an
    answer. Ctrl-C drops it, Ctrl-D ends.

    Parameters
    ----------
    prompt : callable
        What stands before the line.
    """
    while True:
        lines: list[str] = []
        try:
            lines.append(input(prompt()))
            while _another_waits():
                lines.append(input())
        except KeyboardInterrupt:
            print()
            continue
        except EOFError:
            print()
            if lines:
                yield "\n".join(lines)
            return
        yield "\n".join(lines)


def _another_waits() -> bool:
    """Whether another line was sent already. Windows cannot be asked, nor what is no terminal."""
    if sys.platform == "win32" or not sys.stdin.isatty():
        return False
    return bool(select.select([sys.stdin], [], [], SETTLES_S)[0])
