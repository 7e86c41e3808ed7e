"""A parser that predicts only what the next word can begin, and works out only what lines need.

Lark's Earley parser works out beforehand what each rule can begin with, and puts every rule of the
language into its first column: a thousand items for a reading of three words, nearly none of which
begin with the word that comes. Only at the word where a line leaves the grammar is all that could
have come needed, for the hint.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from threading import Lock
from typing import Any

from lark import Token, Tree
from lark.common import LexerConf, ParserConf
from lark.grammar import NonTerminal, Rule, Symbol, Terminal
from lark.parse_tree_builder import ParseTreeBuilder
from lark.parsers import earley

from grammar.rule_table import RuleTable

_START = "start"


class Lookahead(earley.Parser):
    """
    Lark's Earley parser, its tables filled as lines ask for them.

    Parameters
    ----------
    rules : RuleTable
        The grammar; ``start`` is the rule of whole lines. None of them is empty, so that a rule
        begins as its first symbol does.
    """

    def __init__(self, rules: RuleTable) -> None:
        # Given one rule only: of all, lark would work out beforehand what is worked out below.
        alone = [Rule(NonTerminal(_START), [Terminal("")])]
        super().__init__(
            LexerConf([], re), ParserConf(alone, {}, [_START]), _matches, resolve_ambiguity=False
        )
        self._rules = rules
        self.TERMINALS: Any = _Symbols(are_terminals=True)
        self.NON_TERMINALS: Any = _Symbols(are_terminals=False)
        self.callbacks: Any = _TreeMakers()
        self.predictions: Any = {}
        self._narrowed: dict[str | None, _Predictions] = {}
        self._firsts = _Firsts(rules)
        self._openings: dict[str, frozenset[str]] = {}
        self._lock = Lock()  # recognisers call from threads of their own

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

    def ways_to_begin(self, origin: NonTerminal, terminal: str | None) -> list[Rule]:
        """
        Its rules that can begin with the terminal; with None, all of them.

        Not those of what they begin with, as lark itself lists: each is predicted from where it is
        met, and would only be made, and thrown away, once for every rule that leads there.
        """
        return [
            rule
            for rule in self._rules.made_of(origin)
            if terminal is None or terminal in self.openings(rule.expansion[0])
        ]

    def openings(self, symbol: Symbol) -> frozenset[str]:
        """The terminals that something of this kind can begin with."""
        if symbol.is_term:
            return frozenset((symbol.name,))
        if symbol.name not in self._openings:
            found, waiting = set[str](), [symbol.name]
            seen = set(waiting)
            while waiting:
                terminals, others = self._firsts[waiting.pop()]
                found |= terminals
                new = others - seen
                seen |= new
                waiting += new
            self._openings[symbol.name] = frozenset(found)
        return self._openings[symbol.name]


class _Firsts(dict[str, tuple[frozenset[str], frozenset[str]]]):
    """The terminals, and the other kinds, that the rules of a kind begin with."""

    def __init__(self, rules: RuleTable) -> None:
        super().__init__()
        self._rules = rules

    def __missing__(self, name: str) -> tuple[frozenset[str], frozenset[str]]:
        firsts = self._rules.firsts(NonTerminal(name))
        terminals = frozenset([symbol.name for symbol in firsts if symbol.is_term])
        others = frozenset([symbol.name for symbol in firsts if not symbol.is_term])
        return self.setdefault(name, (terminals, others))


class _Symbols:
    """All terminals there are, or all that is no terminal: lark asks which a symbol is."""

    def __init__(self, *, are_terminals: bool) -> None:
        self._are_terminals = are_terminals

    def __contains__(self, symbol: Symbol | None) -> bool:
        return symbol is not None and symbol.is_term is self._are_terminals


class _Predictions(dict[NonTerminal, list[Rule]]):
    """What to predict for each kind before a terminal, worked out when first asked for."""

    def __init__(self, parser: Lookahead, terminal: str | None) -> None:
        super().__init__()
        self._parser, self._terminal = parser, terminal

    def __missing__(self, origin: NonTerminal) -> list[Rule]:
        return self.setdefault(origin, self._parser.ways_to_begin(origin, self._terminal))


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
