"""What a place in a line would take next, in an installer's words."""

from __future__ import annotations

from collections.abc import Iterable

from grammar.language import words_of

POINT, NUMBER, NAME = "a point (like B3)", "a number", "a name"
UNIT = "a unit: mm, cm, m, in or ft"
_TOLD = {
    "point": POINT, "r_letter": POINT, "p_column": POINT, "r_ex": POINT,
    "p_row": NUMBER, "whole": NUMBER, "n_typed": NUMBER, "n_fraction_typed": NUMBER,
    "r_digit": NUMBER, "r_zero": NUMBER, "r_teen": NUMBER, "r_tens": NUMBER,
    "r_sign": "minus or plus", "r_side": "below or above", "r_level": "level",
    "r_metric_unit": UNIT, "r_inch": UNIT, "r_foot": UNIT,
    "r_by": "by", "r_percent_mark": "percent", "r_reading_unit": "inches or millimetres",
    "r_north": "a direction: north, south east …", "r_degree": "degrees",
    "r_one_word_floor": "what the floor is: concrete, screed, timber, tile, old adhesive …",
}  # fmt: skip
"""How a gap is named, by the rule that would fill it."""


def expectations(state: Iterable[tuple[object, int]]) -> list[tuple[str, str]]:
    """(rule, terminal) pairs that a parser state would take next, in a fixed order."""
    pairs = {
        (str(rule.origin.name), str(rule.expansion[place].name))  # type: ignore[attr-defined]
        for rule, place in state
    }
    return sorted(pairs)


def expected_in_words(pairs: Iterable[tuple[str, str]]) -> tuple[str, ...]:
    """What would have been accepted, in an installer's words, each once."""
    names: dict[str, None] = {}
    for rule, terminal in pairs:
        if rule in _TOLD:
            names[_TOLD[rule]] = None
        elif rule.startswith(("__name", "__sentence")):
            names[NAME] = None
        elif rule.lstrip("_").startswith("ph_"):
            names[words_of()[terminal][0]] = None
    if POINT in names:
        # The word may only stand before one: "a point (like B3) or point" would puzzle.
        names.pop("point", None)
    # Values before the bare words: what was probably meant is seldom another keyword.
    return tuple(sorted(names, key=lambda name: (name not in (*_TOLD.values(), NAME), name)))
