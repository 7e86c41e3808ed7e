"""The short answers that may be said while a question waits: "one five", "bravo"."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from grammar.aloud import written_ways
from grammar.commands import Command
from grammar.figures import in_figures
from grammar.numbers import DIGITS, ZEROS
from grammar.spoken import plain_words
from grammar.template import Node, read_template


class Answers:
    """
    Words that answer a question, and the command that each of them asks for.

    >>> from grammar import understand
    >>> answers = Answers({"one five": understand("B3 -15")[0]})
    >>> answers.holds("1 5"), answers.holds("five"), Answers({}).holds("five")
    (True, False, False)
    """

    def __init__(self, commands: Mapping[str, Command]) -> None:
        self.commands = dict(commands)
        self._by_figures = {in_figures(words): command for words, command in commands.items()}

    def holds(self, words: str) -> bool:
        """Whether these words are one of the answers, however they are written."""
        return bool(self.meanings(words))

    def choose(self, command: Command) -> bool:
        """Whether one of the answers asks for this command, however it was said."""
        return command in self.commands.values()

    def meanings(self, words: str) -> tuple[Command, ...]:
        """The commands that words ask for as an answer; empty where they are none."""
        answer = self._by_figures.get(in_figures(words)) if self.commands else None
        return () if answer is None else (answer,)

    def sentences(self) -> list[tuple[Node, ...]]:
        """The answers, in all ways of writing them."""
        return [_nodes(written_ways(words)) for words in self.commands]


def digits_apart(words: str) -> bool:
    """
    Whether some words are only digits, one by one.

    >>> digits_apart("one five"), digits_apart("1 5."), digits_apart("15"), digits_apart("fifty")
    (True, True, False, False)
    """
    digits = plain_words(words)
    return len(digits) > 1 and all(word in _DIGITS for word in digits)


_DIGITS = frozenset([*DIGITS, *ZEROS, "point", *"0123456789"])

_nodes = cache(read_template)
"""Gives the same answer always the same nodes, by which an automaton recognises it."""

NONE = Answers({})
"""The answers while no question waits."""
