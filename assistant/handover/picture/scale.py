"""Colours for depths: told apart without seeing colours, and in black and white.

From shallow to deep they only get darker, so that a copy in grey keeps their order; what is too
high is hatched, which needs no colour at all.
"""

from __future__ import annotations

from collections.abc import Sequence

_SHALLOW_TO_DEEP = (
    (247, 240, 222), (214, 205, 160), (140, 176, 148), (70, 130, 140), (38, 74, 110), (22, 34, 66),
)  # fmt: skip
"""Sand to night, each darker than the one before; between them it is blended."""
INK, PAPER = "#000000", "#ffffff"
LEAST_CONTRAST = 4.5
"""Of text to what lies beneath: WCAG 2.2, success criterion 1.4.3, level AA."""


def colours(count: int) -> list[str]:
    """
    So many colours, from shallow to deep.

    >>> colours(1), colours(3)[-1]
    (['#f7f0de'], '#162242')
    """
    stops = len(_SHALLOW_TO_DEEP) - 1
    found = []
    for number in range(count):
        at = number / max(count - 1, 1) * stops
        low = min(int(at), stops - 1)
        pair = zip(_SHALLOW_TO_DEEP[low], _SHALLOW_TO_DEEP[low + 1], strict=True)
        found.append("#" + "".join(f"{round(a + (b - a) * (at - low)):02x}" for a, b in pair))
    return found


def luminance(colour: str) -> float:
    """
    How light a colour is, from 0 to 1: WCAG 2.2, "relative luminance".

    >>> luminance("#000000"), luminance("#ffffff")
    (0.0, 1.0)
    """
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts
    ]
    return sum(share * part for share, part in zip((0.2126, 0.7152, 0.0722), linear, strict=True))


def contrast(one: str, other: str) -> float:
    """
    Contrast of two colours, from 1 to 21: WCAG 2.2, "contrast ratio".

    >>> round(contrast("#000000", "#ffffff"), 6), contrast("#8cb094", "#8cb094")
    (21.0, 1.0)
    """
    light, dark = sorted((luminance(one), luminance(other)), reverse=True)
    return (light + 0.05) / (dark + 0.05)


def text_on(colour: str) -> str:
    """
    The colour of text that is read best on another; of black and white one always does.

    >>> text_on("#f7f0de"), text_on("#162242")
    ('#000000', '#ffffff')
    """
    return max((INK, PAPER), key=lambda text: contrast(text, colour))


def colour_at(value: float, levels: Sequence[float], shades: Sequence[str]) -> str:
    """
    The colour of the band that a value lies in, the nearest one where it is outside all.

    >>> colour_at(7, [0, 5, 10], ["#ffffff", "#000000"]), colour_at(-3, [0, 5], ["#ffffff"])
    ('#000000', '#ffffff')
    """
    row = sum(value >= level for level in levels[1:-1])
    return shades[row]
