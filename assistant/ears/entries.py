"""Sentences that a search found, grouped by the command they ask for."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

import numpy as np

from assistant.ears.beam_search import Beam, DecodedSentence
from grammar.commands import Command
from grammar.figures import in_figures


@dataclass(slots=True)
class Hypothesis:
    """Sentences that say the same, compared in figures."""

    words: str
    """The words of the likeliest sentence."""
    best: DecodedSentence
    score: float
    """The score of all its sentences together."""
    commands: tuple[Command, ...] | None = None
    """What it asks for, once it has been parsed."""
    phones: Mapping[str, float] = field(default_factory=dict)
    """How well its phones fit, and how far they put it ahead of its confusables, once compared."""
    confusable: str = ""
    """Its confusable, where the phones hardly decide between the two."""


class Entries:
    """
    Sentences as they are found, grouped by what they say.

    Parsing takes some milliseconds, so only those that lead are parsed.
    """

    def __init__(self, breadth: Beam, meanings: Callable[[str], tuple[Command, ...]]) -> None:
        self._breadth = breadth
        self._meanings = meanings
        self._entries: dict[str, Hypothesis] = {}
        self._seen: set[tuple[int, ...]] = set()

    def add(
        self, sentences: Iterable[DecodedSentence], text_of: Callable[[tuple[int, ...]], str]
    ) -> None:
        """Add what a search found."""
        for sentence in sentences:
            if sentence.pieces not in self._seen:
                self._seen.add(sentence.pieces)
                self._add(text_of(sentence.pieces), sentence)

    def _add(self, words: str, sentence: DecodedSentence) -> None:
        said = in_figures(words)
        score = sentence.score(self._breadth)
        entry = self._entries.get(said)
        if entry is None:
            self._entries[said] = Hypothesis(words, sentence, score)
            return
        entry.score = float(np.logaddexp(entry.score, score))
        if score > entry.best.score(self._breadth):
            entry.best, entry.words = sentence, words

    def holds(self, words: str) -> bool:
        """Whether a sentence that says the same has been found already."""
        return in_figures(words) in self._entries

    def ranked(self, parsed: int) -> list[Hypothesis]:
        """
        The groups, likeliest first, each command once, the first ``parsed`` of them parsed.

        Equal ones always come in the same order.
        """
        waiting = sorted(self._entries.values(), key=lambda entry: (-entry.score, entry.words))
        leading: dict[str, Hypothesis] = {}
        while waiting and len(leading) < parsed:
            entry = waiting.pop(0)
            if entry.commands is None:
                entry.commands = self._meanings(entry.words)
            if not entry.commands:
                continue
            same = leading.setdefault(repr(entry.commands[0]), entry)
            if same is not entry:
                same.score = float(np.logaddexp(same.score, entry.score))
        first = sorted(leading.values(), key=lambda entry: (-entry.score, entry.words))
        return [*first, *waiting]
