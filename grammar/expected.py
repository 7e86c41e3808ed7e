"""What a place in a line would take next, in an installer's words."""

from __future__ import annotations

from collections.abc import Iterable

from grammar.language import words_of
from grammar.slots import ANY_WORDS, EXPECTED


def expected_terminals(state: Iterable[tuple[object, int]]) -> list[tuple[str, str]]:
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
        if rule in EXPECTED:
            names[EXPECTED[rule]] = None
        elif slot := _any_words(rule):
            names[EXPECTED[slot]] = None
        elif rule.lstrip("_").startswith("ph_"):
            names[words_of()[terminal][0]] = None
    if EXPECTED["point"] in names:
        # This word only introduces a point: "a point (like B3) or point" would puzzle.
        names.pop("point", None)
    # Values before the bare words: what was probably meant is seldom another keyword.
    return tuple(sorted(names, key=lambda name: (name not in EXPECTED.values(), name)))


def _any_words(rule: str) -> str:
    """The slot that takes word after word by this rule of its own; "" for another rule."""
    return next((slot for slot in ANY_WORDS if rule.startswith(f"_{slot}_")), "")
