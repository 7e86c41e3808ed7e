"""Makes text that was typed, named or pasted safe to show: on a terminal, a page, a drawing.

Imports nothing on top, as errors before anything else is loaded go through it too.
"""


def visible(text: str) -> str:
    """
    The text with signs that nobody sees, but that do something, made visible.

    Those are control signs, which could move the cursor or change colours; signs that turn the
    direction of what follows, so that a number reads backwards; signs without width; halves of
    characters, which no file takes. A blank of any width is a blank.

    >>> visible("B3\\x1b[2J\\t18")
    'B3\\\\x1b[2J 18'
    >>> visible("B3\\u00a0\\u202e81-")
    'B3 \\\\u202e81-'
    """
    if text.isprintable():
        return text
    return "".join(c if c.isprintable() else _shown(c) for c in text)


def _shown(sign: str) -> str:
    import unicodedata

    if sign == "\t" or unicodedata.category(sign) == "Zs":
        return " "
    return sign.encode("unicode_escape").decode("ascii")
