"""Text that somebody typed, named or pasted, made fit for a terminal.

Imports nothing, as errors that are met before anything is fetched go through it too.
"""


def visible(text: str) -> str:
    """
    The same with signs that could move the cursor or change colours shown, not sent.

    >>> visible("B3\\x1b[2J\\t18")
    'B3\\\\x1b[2J 18'
    """
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else _shown(c) for c in text)


def _shown(sign: str) -> str:
    return " " if sign == "\t" else sign.encode("unicode_escape").decode("ascii")
