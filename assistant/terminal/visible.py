"""Makes text that was typed, named or pasted safe for a terminal.

Imports nothing, as errors before anything else is loaded go through it too.
"""


def visible(text: str) -> str:
    """
    The text with control signs, which could move the cursor or change colours, made visible.

    >>> visible("B3\\x1b[2J\\t18")
    'B3\\\\x1b[2J 18'
    """
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else _shown(c) for c in text)


def _shown(sign: str) -> str:
    return " " if sign == "\t" else sign.encode("unicode_escape").decode("ascii")
