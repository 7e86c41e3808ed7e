"""A parser that predicts only what the next word can begin.

Lark's Earley parser puts every rule of the language into its first column: a thousand items for
a reading of three words, nearly none of which begin with the word that comes. Only at the word
where a line leaves the grammar is all that could have come needed, for the hint.
"""

from __future__ import annotations

from collections.abc import Iterator
from threading import Lock
from typing import Any

from lark import Lark

from grammar.words import Word

_ALL = ""
"""Given in place of a terminal where nothing is to be left out."""


class Lookahead:
    """
    What a lark parser may predict, by the terminal that comes next.

    Parameters
    ----------
    lark : Lark
        Made with ``parser="earley"``. A lark without the tables that are narrowed here parses as
        it always does.
    """

    def __init__(self, lark: Lark) -> None:
        self._lark = lark
        self._earley: Any = getattr(lark.parser, "parser", None)
        self._all: dict[Any, list[Any]] | None = getattr(self._earley, "predictions", None)
        self._narrowed: dict[str, dict[Any, list[Any]]] = {_ALL: self._all or {}}
        self._lock = Lock()  # recognisers call from threads of their own

    def parse(self, words: list[Word], all_at: int | None = None) -> Any:
        """The tree of some words; before the word ``all_at`` nothing is left out."""
        with self._lock:
            try:
                return self._lark.parse(Line(words, all_at, self))
            finally:
                self.next_is(_ALL)

    def next_is(self, terminal: str) -> None:
        """From here on predict only what begins with a terminal."""
        if self._all is None:
            return
        if terminal not in self._narrowed:
            self._narrowed[terminal] = {
                origin: [rule for rule in rules if self._begins(rule.expansion, terminal)]
                for origin, rules in self._all.items()
            }
        self._earley.predictions = self._narrowed[terminal]

    def _begins(self, expansion: Any, terminal: str) -> bool:
        for symbol in expansion:
            if symbol.is_term:
                return bool(symbol.name == terminal)
            if any(first.name == terminal for first in self._earley.FIRST[symbol]):
                return True
            if symbol not in self._earley.NULLABLE:
                return False
        return True


class Line:
    """Words on their way through the parser."""

    def __init__(self, words: list[Word], all_at: int | None, ahead: Lookahead) -> None:
        self._words, self._all_at, self._ahead = words, all_at, ahead

    def words(self) -> Iterator[Word]:
        """The words one by one."""
        return iter(self._words)

    def expect(self, at: int, terminal: str) -> None:
        """The terminal of the word that comes next; nothing may be left out at the end."""
        self._ahead.next_is(_ALL if at == self._all_at else terminal)

    def end(self) -> None:
        """No more words come."""
        self._ahead.next_is(_ALL)
