"""A parser that predicts only what the next word can begin, and works out only what lines need.

Lark's Earley parser works out beforehand what each rule can begin with, and puts every rule of the
language into its first column: a thousand items for a reading of three words, nearly none of which
begin with the word that comes. Only at the word where a line leaves the grammar is all that could
have come needed, for the hint.
"""

from __future__ import annotations

import re
from collections import defaultdict, deque
from collections.abc import Callable, Iterator, Sequence
from threading import Lock
from typing import Any

from lark import Token, Tree
from lark.common import LexerConf, ParserConf
from lark.grammar import NonTerminal, Rule, Symbol, Terminal
from lark.parse_tree_builder import ParseTreeBuilder
from lark.parsers import earley

_START = "start"


class Lookahead(earley.Parser):
    """
    Lark's Earley parser, its tables filled as lines ask for them.

    Parameters
    ----------
    rules : sequence of Rule
        The grammar; ``start`` is the rule of whole lines. None of them is empty, so that a rule
        begins as its first symbol does.

    Raises
    ------
    ValueError
        Where a rule is made of another that is not there, or of nothing.
    """

    def __init__(self, rules: Sequence[Rule]) -> None:
        # Given one rule only: of all, lark would work out beforehand what is worked out below.
        alone = [Rule(NonTerminal(_START), [Terminal("")])]
        super().__init__(
            LexerConf([], re), ParserConf(alone, {}, [_START]), _matches, resolve_ambiguity=False
        )
        symbols = {symbol for rule in rules for symbol in rule.expansion}
        self._rules = _by_origin(rules)
        self.TERMINALS = {symbol for symbol in symbols if symbol.is_term}
        self.NON_TERMINALS = symbols - self.TERMINALS
        self._check()
        self.callbacks: Any = _TreeMakers()
        self.predictions: Any = {}
        self._narrowed: dict[str | None, _Predictions] = {}
        self._openings: dict[Symbol, frozenset[str]] = {}
        self._lock = Lock()  # recognisers call from threads of their own

    def _check(self) -> None:
        missing = sorted(symbol.name for symbol in self.NON_TERMINALS - self._rules.keys())
        empty = [name for name, rules in self._rules.items() for r in rules if not r.expansion]
        if missing or empty:
            raise ValueError(f"rules that are not there: {missing}; empty ones: {empty}")

    def tree(self, tokens: Sequence[Token], all_at: int | None = None) -> Any:
        """The tree of some tokens; before the one at ``all_at`` nothing is left out."""
        before = [None if at == all_at else token.type for at, token in enumerate(tokens)]
        with self._lock:
            self.next_is(before[0] if before else None)
            return self.parse(_Line(tokens, before, self), _START)  # type: ignore[no-untyped-call]

    def next_is(self, terminal: str | None) -> None:
        """From here on predict only what begins with a terminal; with None, everything."""
        if terminal not in self._narrowed:
            self._narrowed[terminal] = _Predictions(self, terminal)
        self.predictions = self._narrowed[terminal]

    def left_corners(self, origin: NonTerminal) -> list[Rule]:
        """The rules that something of this kind can begin with, its own first."""
        found: list[Rule] = []
        waiting, seen = deque([origin]), {origin}
        while waiting:
            for rule in self._rules[waiting.popleft()]:
                found.append(rule)
                first = rule.expansion[0]
                if isinstance(first, NonTerminal) and first not in seen:
                    seen.add(first)
                    waiting.append(first)
        return found

    def openings(self, symbol: Symbol) -> frozenset[str]:
        """The terminals that something of this kind can begin with."""
        if symbol not in self._openings:
            if isinstance(symbol, NonTerminal):
                firsts = [rule.expansion[0] for rule in self.left_corners(symbol)]
            else:
                firsts = [symbol]
            self._openings[symbol] = frozenset(first.name for first in firsts if first.is_term)
        return self._openings[symbol]


class _Predictions(dict[NonTerminal, list[Rule]]):
    """What to predict for each kind before a terminal, worked out when first asked for."""

    def __init__(self, parser: Lookahead, terminal: str | None) -> None:
        super().__init__()
        self._parser, self._terminal = parser, terminal

    def __missing__(self, origin: NonTerminal) -> list[Rule]:
        rules = self._parser.left_corners(origin)
        if self._terminal is not None:
            openings = self._parser.openings
            rules = [rule for rule in rules if self._terminal in openings(rule.expansion[0])]
        return self.setdefault(origin, rules)


class _TreeMakers(dict[Rule, Callable[[list[Any]], Any]]):
    """What makes a tree of a rule's parts, every way to read it kept; made when first asked for."""

    def __missing__(self, rule: Rule) -> Callable[[list[Any]], Any]:
        self.update(ParseTreeBuilder([rule], Tree, ambiguous=True).create_callback())
        return self[rule]


class _Line:
    """Tokens on their way to the parser, which is given before each the ones that follow it."""

    def __init__(
        self, tokens: Sequence[Token], before: Sequence[str | None], parser: Lookahead
    ) -> None:
        self._tokens, self._before, self._parser = tokens, before, parser

    def lex(self, _expects: object) -> Iterator[Token]:
        """One by one; nothing may be left out at the end."""
        for token, terminal in zip(self._tokens, self._before, strict=True):
            self._parser.next_is(terminal)
            yield token
        self._parser.next_is(None)


def _matches(terminal: Terminal, token: Token) -> bool:
    return bool(terminal.name == token.type)


def _by_origin(rules: Sequence[Rule]) -> dict[NonTerminal, list[Rule]]:
    found: dict[NonTerminal, list[Rule]] = defaultdict(list)
    for rule in rules:
        found[rule.origin].append(rule)
    return dict(found)
