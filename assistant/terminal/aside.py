"""A word beside the answers, on standard error: answers have standard output to themselves.

Fetched with the program's first line, so it imports nothing slow before it is needed.
"""

from __future__ import annotations

import sys


def aside(text: str) -> None:
    """
    Tell it, behind the program's name.

    On a terminal lines are no wider than it is and break between words only, so that a path
    can be copied. Anywhere else each line stays whole, for whatever reads it.
    """
    from assistant.terminal.visible import visible

    told = "\n".join(visible(line) for line in f"leadsman: {text}".splitlines())
    if sys.stderr is None:  # started without one: nobody is there to be told
        return
    if sys.stderr.isatty():
        from assistant.terminal.screen import make_console, wrapped

        # Not left to rich: it breaks a long word, or it breaks nothing.
        width = make_console(file=sys.stderr).width
        told = "\n".join(wrapped(told, width, then="", whole_words=True))
    print(told, file=sys.stderr, flush=True)
