"""Names of points: a letter or two for the column, a number to 99 for the row."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from grammar.errors import Impossible
from grammar.numbers import in_words

ALPHABET = (
    "alfa bravo charlie delta echo foxtrot golf hotel india juliett kilo lima mike november "
    "oscar papa quebec romeo sierra tango uniform victor whiskey xray yankee zulu"
).split()
"""The ICAO alphabet; source: ICAO Annex 10, volume II, figure 5-1."""
_ALSO_SPELT = {"alpha": "A", "juliet": "J", "juliette": "J", "whisky": "W", "x-ray": "X"}

ROLES: dict[str, dict[str, Any]] = {
    "letter": {
        **{word[0]: word[0].upper() for word in ALPHABET},
        **{word: word[0].upper() for word in ALPHABET},
        **_ALSO_SPELT,
    },
    "ex": {"x": "X"},
    "ray": {"ray": None},
}

RULES = """
point: LABEL | p_column p_row
p_column: p_letter | p_letter p_letter | LETTERS
p_letter: r_letter | p_xray
p_xray: r_ex r_ray
p_row: NUMERAL | r_digit | p_two_digits | n_below
p_two_digits: r_digit n_any_digit
whole: NUMERAL | r_digit | p_two_digits | n_below
line: point | p_column | whole
direction: r_north | r_east | r_south | r_west | r_north r_east | r_north r_west
    | r_south r_east | r_south r_west | r_between
"""
"""``LABEL`` is a name written together, ``LETTERS`` two letters on their own."""

_WINDS = ("north", "east", "south", "west")
ROLES.update({wind: {wind: wind} for wind in _WINDS})
ROLES["between"] = {
    north + east: f"{north} {east}" for north in ("north", "south") for east in ("east", "west")
}


def _row(said: Any) -> int:
    return _to_99(said, "points and doors are numbered from 1 to 99")


def _whole(said: Any) -> int:
    return _to_99(said, "doors, benchmarks and things to undo are counted from 1 to 99")


def _to_99(said: Any, rule: str) -> int:
    number = int(said) if str(said).isdigit() else 0
    if not 1 <= number <= 99:
        raise Impossible(rule)
    return number


def _label(said: str) -> str:
    letters = said.rstrip("0123456789")
    return f"{letters.upper()}{_row(said[len(letters) :])}"


def _point(*said: Any) -> str:
    return _label(said[0]) if len(said) == 1 else f"{said[0]}{said[1]}"


BUILDERS: dict[str, Callable[..., Any]] = {
    "point": _point,
    "p_column": lambda *letters: "".join(letters).upper(),
    "p_letter": lambda letter: letter,
    "p_xray": lambda ex, _ray: ex,
    "p_row": _row,
    "p_two_digits": lambda tens, ones: tens * 10 + ones,
    "whole": _whole,
    "line": str,
    "direction": lambda *winds: " ".join(winds),
}


def spoken_point(name: str) -> str:
    """
    A point's name to be read out by the ICAO alphabet.

    >>> spoken_point("B3"), spoken_point("AA12")
    ('bravo three', 'alfa alfa one two')
    """
    letters = [ALPHABET[ord(sign) - ord("A")] for sign in name if sign.isalpha()]
    digits = [in_words(int(sign)) for sign in name if sign.isdigit()]
    return " ".join(letters + digits)
