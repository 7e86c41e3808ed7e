"""The words of a line that fill a gap which takes one of few: a unit, a kind of floor, a thing."""

from __future__ import annotations

from collections.abc import Sequence

from grammar.frames import root
from grammar.slots import ROLES
from grammar.words import Word

_UNIT_WORDS = {
    "inch": "inches",
    "imperial": "inches",
    "millimetr": "millimetres",
    "milimetr": "millimetres",
    "millimet": "millimetres",
    "metric": "millimetres",
}
_FLOORS = {
    "wood": "timber",
    "wooden": "timber",
    "timber": "timber",
    "board": "timber",
    "plywood": "timber",
    "floorboard": "timber",
    "concret": "concrete",
    "cement": "concrete",
    "screed": "screed",
    "til": "tile",
    "tile": "tile",
    "glu": "old adhesive",
    "adhesiv": "old adhesive",
}


def word_for(slot: str, words: Sequence[Word]) -> str | None:
    """The word of a line that fills a gap which takes one of few words."""
    table = {
        "reading_unit": _UNIT_WORDS,
        "substrate": _FLOORS,
        "obstacle": {word: word for word in ROLES["obstacle"]},
        "thing": {word: word for word in (*ROLES["obstacle"], *ROLES["line_thing"])},
    }.get(slot)
    if table is None:
        return None
    found = [table[key] for word in words for key in (word.text, root(word.text)) if key in table]
    return found[0] if len(set(found)) == 1 else None
