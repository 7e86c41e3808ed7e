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


def visible_part(text: str, most: int) -> str:
    """
    The first signs of a text made visible, with the number of signs that are left out.

    No line that is said is as long as what this is asked for with, but a file may hold any text,
    and megabytes of one would take a screen, or a page, minutes.

    >>> visible_part("crack", 8), visible_part("=1+1" * 500_000, 8)
    ('crack', '=1+1=1+1 … (1,999,992 characters more)')
    """
    more = len(text) - most
    return visible(text) if more <= 0 else f"{visible(text[:most])} … ({more:,} characters more)"


def _shown(sign: str) -> str:
    import unicodedata

    if sign == "\t" or unicodedata.category(sign) == "Zs":
        return " "
    return sign.encode("unicode_escape").decode("ascii")
