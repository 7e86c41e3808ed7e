"""A height drawn with signs alone, so that it is seen without colour."""

from __future__ import annotations

HALF_WIDTH = 10
"""Places on either side of the middle of a drawing."""
MIDDLE, MARK = "|", "*"


def height_bar(mm: float, most: float) -> str:
    """
    One height as a mark to the left or right of a bar.

    >>> height_bar(-5, 10), height_bar(10, 10), height_bar(0, 10)
    ('.....*....|..........', '..........|.........*', '..........*..........')
    """
    off = round(mm / most * HALF_WIDTH) if most else 0
    if mm and not off:
        off = 1 if mm > 0 else -1
    places = ["."] * HALF_WIDTH + [MIDDLE] + ["."] * HALF_WIDTH
    places[HALF_WIDTH + off] = MARK
    return "".join(places)
