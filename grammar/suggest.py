"""Unfinished text to what can come next: completion and hints at the prompt."""

from __future__ import annotations

from collections.abc import Sequence

from grammar.errors import Impossible
from grammar.expected import expected_in_words, expected_terminals
from grammar.frozen import frozen
from grammar.language import words_of
from grammar.match import NoParse, parse
from grammar.phrases import PHRASES
from grammar.slots import OFFERED
from grammar.template import Literal
from grammar.words import END, Word, split_words

_END = Word(END, "", -1, -1)
"""A word in no phrase: put after a text, it makes the parser say what it would take there."""


@frozen
class Suggestion:
    """A word that can come next."""

    insert: str
    start: int
    """Where it begins, counted back from the cursor (zero or less)."""
    help: str = ""

    @property
    def display(self) -> str:
        """What is shown for it."""
        return self.insert


def next_expected(words: list[Word]) -> list[tuple[str, str]]:
    """(rule, terminal) pairs that may follow some words; empty where none fits."""
    try:
        parse([*words, _END])
    except NoParse as stop:
        return expected_terminals(stop.state) if stop.at == len(words) else []
    except Impossible:
        pass
    return []


def suggestions(before: str, names: Sequence[str] = ()) -> list[Suggestion]:
    """
    Words that can come next; ``names`` are offered where any name may stand.

    >>> [item.insert for item in suggestions("take that b")]
    ['back']
    """
    begun = "" if not before or before[-1].isspace() else before.split()[-1]
    words = split_words(before[: len(before) - len(begun)])
    helps = _openings() if not words else {}
    found = {}
    expected = next_expected(words)
    free = names if any(rule.startswith("_name_") for rule, _ in expected) else ()
    for word in (*_candidates(expected), *free):
        if word.startswith(begun.lower()) and word != begun.lower():
            found[word] = Suggestion(word, -len(begun), helps.get(word, ""))
    return list(found.values())


def hint(before: str) -> tuple[str, ...]:
    """What may follow, in an installer's words: "a point (like B3)", "below or above"."""
    return expected_in_words(next_expected(split_words(before)))


def _candidates(pairs: list[tuple[str, str]]) -> list[str]:
    rules = {rule for rule, _ in pairs}
    words = [word for role in OFFERED if f"r_{role}" in rules for word in OFFERED[role]]
    literals = [
        words_of()[terminal][0] for rule, terminal in pairs if rule.lstrip("_").startswith("ph_")
    ]
    return list(dict.fromkeys((*words, *literals)))


def _openings() -> dict[str, str]:
    """Help for the first word of each phrase."""
    helps: dict[str, str] = {}
    for phrase in PHRASES:
        first = phrase.nodes[0]
        if isinstance(first, Literal):
            helps.setdefault(first.word, phrase.help)
    return helps
