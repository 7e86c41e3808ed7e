"""Messages beside the answers, on standard error: standard output is for answers only.

Loaded at the program's very start, so it imports nothing slow before it is needed.
"""

from __future__ import annotations

import sys


def aside(text: str) -> None:
    """
    Write a message after the program's name.

    On a terminal lines are wrapped to its width between words only, so that a path can be
    copied. Anywhere else each line stays whole, for whatever program reads it.
    """
    from assistant.reply.visible import visible

    told = "\n".join(visible(line) for line in f"leadsman: {text}".splitlines())
    if sys.stderr is None:  # started without one: nobody would read it
        return
    if sys.stderr.isatty():
        from assistant.terminal.output import terminal_width
        from assistant.terminal.screen import wrap_lines

        told = "\n".join(wrap_lines(told, terminal_width(), then="", whole_words=True))
    print(told, file=sys.stderr, flush=True)
