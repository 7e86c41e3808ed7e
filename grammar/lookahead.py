"""A parser that predicts only what the next word can begin, and works out only what lines need.

Putting every rule of the language into the first column was a thousand items for a reading of
three words, nearly none of which begin with the word that comes. Only at the word where a line
leaves the grammar is all that could have come needed, for the hint.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from threading import Lock
from typing import Any

from lark import Token, Tree
from lark.grammar import NonTerminal, Rule, Symbol
from lark.parse_tree_builder import ParseTreeBuilder
from lark.parsers.earley_forest import ForestToParseTree

from grammar.chart import NOTHING, Chart, DottedRule, Predictions, beginning_of
from grammar.errors import GrammarError
from grammar.rule_table import RuleTable

_START = "start"


class NoLine(GrammarError):
    """
    Tokens that are no line of the language.

    Parameters
    ----------
    at : int
        Index of the first token that does not fit; the number of tokens where they end too early.
    state : frozenset of (Rule, int)
        Rules, and the places in them, that were possible there with what was predicted.
    """

    def __init__(self, at: int, state: frozenset[tuple[Rule, int]]) -> None:
        super().__init__(at)
        self.at, self.state = at, state


class Lookahead:
    """
    An Earley parser, its tables filled as lines ask for them.

    Parameters
    ----------
    rules : RuleTable
        The grammar; ``start`` is the rule of whole lines. None of them is empty, so that a rule
        begins as its first symbol does.
    """

    def __init__(self, rules: RuleTable) -> None:
        self._rules = rules
        self._tree_makers = _TreeMakers()
        self._places: dict[Rule, DottedRule] = {}
        self._narrowed: dict[str | None, _Narrowed] = {}
        self._firsts = _Firsts(rules)
        self._openings: dict[str, frozenset[str]] = {}
        self._lock = Lock()  # recognisers call from threads of their own

    def tree(self, tokens: Sequence[Token], all_at: int | None = None) -> Any:
        """
        The tree of some tokens; before the one at ``all_at`` nothing is left out.

        Raises :class:`NoLine` where they are no line.
        """
        with self._lock:
            before = [None if at == all_at else token.type for at, token in enumerate(tokens)]
            chart = Chart(self.before(before[0] if before else None)[_START])
            for at, (token, terminal) in enumerate(zip(tokens, before, strict=True)):
                chart.advance(self.before(terminal))
                if not chart.take(token):
                    raise NoLine(at, chart.wanted)
            # What could go on is of no use to a line that is whole.
            chart.advance(NOTHING)
            found = chart.whole(_START)
            if found is None:
                chart.predict_all(self.before(None))
                raise NoLine(len(tokens), chart.wanted)
            return ForestToParseTree(
                Tree, self._tree_makers, None, resolve_ambiguity=False
            ).transform(found)

    def before(self, terminal: str | None) -> Predictions:
        """What to predict before a terminal: what begins with it; with None, everything."""
        if terminal not in self._narrowed:
            self._narrowed[terminal] = _Narrowed(self, terminal)
        return self._narrowed[terminal]

    def ways_to_begin(self, kind: str, terminal: str | None) -> list[DottedRule]:
        """
        The beginnings of its rules that can begin with the terminal; with None, of all of them.

        Not those of what they begin with: each is predicted from where it is met.
        """
        return [
            self._beginning(rule)
            for rule in self._rules.made_of(NonTerminal(kind))
            if terminal is None or terminal in self.openings(rule.expansion[0])
        ]

    def _beginning(self, rule: Rule) -> DottedRule:
        if rule not in self._places:
            self._places[rule] = beginning_of(rule)
        return self._places[rule]

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


class _Narrowed(Predictions):
    """What to predict for each kind before a terminal, worked out when first asked for."""

    def __init__(self, parser: Lookahead, terminal: str | None) -> None:
        super().__init__()
        self._parser, self._terminal = parser, terminal

    def __missing__(self, kind: str) -> Sequence[DottedRule]:
        return self.setdefault(kind, self._parser.ways_to_begin(kind, self._terminal))


class _TreeMakers(dict[Rule, Callable[[list[Any]], Any]]):
    """What makes a tree of a rule's parts, every way to read it kept; made when first asked for."""

    def __missing__(self, rule: Rule) -> Callable[[list[Any]], Any]:
        self.update(ParseTreeBuilder([rule], Tree, ambiguous=True).create_callback())
        return self[rule]
