"""How a recogniser that writes may write what was said: "Bravo 3 minus thirty-five millimeters."

Such a recogniser has its own style: figures for numbers, capitals, American units.
Held to our plain words it must write what it finds unlikely, and its scores say
less about the sound. So each word of the spoken language may also be written as
here. A word that begins with ``+`` is joined to the one before it.
"""

from __future__ import annotations

from grammar.slots import KINDS
from grammar.slots.point import ALPHABET

SPELLINGS: dict[str, tuple[str, ...]] = {
    **{word: others for kind in KINDS for word, others in kind.spellings.items()},
    "litres": ("liters",),
    "ph": ("pH", "PH"),
}
"""Other ways to write a word of the spoken language, or its singular."""

PLAIN = {other: word for word, others in SPELLINGS.items() for other in others} | {"%": "percent"}
"""The reverse: how the spoken language spells each of them."""

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
