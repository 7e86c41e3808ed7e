"""How a recogniser that writes may write what was said: "Bravo 3 minus thirty-five millimeters."

Such a recogniser has a hand of its own: figures for numbers, capitals, American
units. Held to our plain words it is made to write what it finds unlikely, and its
scores say less about the sound. So each word of the spoken language may also be
written as here. A word that begins with ``+`` is joined to the one before it.
"""

from __future__ import annotations

from grammar.points import ALPHABET

SPELLINGS: dict[str, tuple[str, ...]] = {
    "alfa": ("alpha",),
    "juliett": ("juliet",),
    "whiskey": ("whisky",),
    "xray": ("x-ray",),
    "nine": ("niner",),
    "millimetres": ("millimeters", "millimetre", "millimeter", "mm"),
    "centimetres": ("centimeters", "centimetre", "centimeter", "cm"),
    "metres": ("meters", "metre", "meter", "m"),
    "inches": ("inch",),
    "feet": ("foot",),
    "levelling": ("leveling",),
    "ph": ("pH", "PH"),
}
"""Other ways to write a word of the spoken language, or that word said of one."""

PLAIN = {other: word for word, others in SPELLINGS.items() for other in others} | {"%": "percent"}
"""And back: how the spoken language spells it."""

_FIGURE = "(1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9)"
_NEXT = "(+0 | +1 | +2 | +3 | +4 | +5 | +6 | +7 | +8 | +9)"
_APART = "(0 | 1 | 2 | 3 | 4 | 5 | 6 | 7 | 8 | 9)"
_TIED = "(+one | +two | +three | +four | +five | +six | +seven | +eight | +nine)"

FIGURES: dict[str, str] = {
    "under_twelve": f"{_FIGURE} | 1 (+0 | +1)",
    "under_hundred": f"{_FIGURE} [{_NEXT}]",
    "hundred": "1 +0 +0",
    "under_thousand": f"{_FIGURE} [{_NEXT} [{_NEXT}]]",
    "under_ten_thousand": f"{_FIGURE} [{_NEXT} [{_NEXT} [{_NEXT}]]]",
    "tenths": f"({_FIGURE} [{_NEXT}] | 0) +. {_NEXT}",
    "metre_number": f"({_FIGURE} [{_NEXT}] | 0) +. {_NEXT} [{_NEXT}]",
    "percent": "(<under_hundred> | <hundred> | <tenths>) +%",
    "inches": f"[{_FIGURE} [{_NEXT}] [and]] <part_figures> inches",
    "part_figures": "1 +/ (+2 | +4 | +8 | +1 +6) | 3 +/ (+4 | +8 | +1 +6)"
    " | (5 | 7) +/ (+8 | +1 +6) | 9 +/ +1 +6 | 1 (+1 | +3 | +5) +/ +1 +6",
}
"""A slot in figures, besides its words."""

APART: dict[str, str] = {
    "under_twelve": "1 (0 | 1)",
    "under_hundred": f"{_FIGURE} {_APART}",
    "hundred": "1 0 0",
    "under_thousand": f"{_FIGURE} {_APART} [{_APART}]",
}
"""Digits that were said one by one, written so."""

TIED: dict[str, str] = {"under_hundred": f"<tens> +- {_TIED}"}
"""Thirty-five."""

_NAMES = frozenset(ALPHABET)


def ways_to_write(word: str, first: bool) -> tuple[str, ...]:
    """
    A word and all other ways to write it; ``first`` where a sentence begins with it.

    >>> ways_to_write("alfa", first=False)
    ('alfa', 'alpha', 'Alfa', 'Alpha')
    """
    ways = (word, *SPELLINGS.get(word, ()))
    if first or word in _NAMES:
        ways += tuple(dict.fromkeys(w.capitalize() for w in ways if w == w.lower()))
    return ways
