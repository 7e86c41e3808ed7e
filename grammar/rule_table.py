"""The productions of a grammar, by what they make, written out when they are asked for.

A line uses the rules of the few phrases that begin with its first word, and writing out those of
all phrases took as long as parsing a dozen lines.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence
from typing import Protocol

from lark.grammar import NonTerminal, Rule, Symbol

from grammar.frozen import frozen
from grammar.productions import productions, symbol_of, ways_of_rules
from grammar.shared_beginnings import with_shared_beginnings
from grammar.template import Literal, OneOf, SlotNode, beginnings, read_template

ToSymbol = Callable[[Literal | SlotNode], Symbol]
"""Says what stands for a leaf of a template."""


class _Unread(Protocol):
    """What makes one thing, and has not been asked for yet."""

    def write_out(self, name: str, table: RuleTable) -> None:
        """Add its rules to a table."""

    def firsts(self) -> Sequence[Symbol]:
        """What they begin with; none is written out for it."""


@frozen
class _Templates:
    """One template or more."""

    templates: tuple[str, ...]
    symbol: ToSymbol

    def write_out(self, name: str, table: RuleTable) -> None:
        nodes = OneOf(tuple(map(read_template, self.templates)))
        for rule in self.in_order(productions(name, (nodes,), self.symbol)):
            table.add(rule)  # some are of parts that got a rule of their own

    def firsts(self) -> Sequence[Symbol]:
        return [self.symbol(leaf) for each in self.templates for leaf in beginnings(each)]

    def in_order(self, rules: list[Rule]) -> list[Rule]:
        return rules


class _WaysAlike(_Templates):
    """Templates that begin alike."""

    def in_order(self, rules: list[Rule]) -> list[Rule]:
        return with_shared_beginnings(rules)


class _Phrase(_Templates):
    """
    Many templates, of which a line needs those that begin as it does.

    Those that begin alike get a rule of their own; lark leaves it out of its trees again, as its
    name begins with "_".
    """

    def write_out(self, name: str, table: RuleTable) -> None:
        alike: dict[frozenset[str], list[str]] = {}
        for template in self.templates:
            firsts = frozenset(self.symbol(leaf).name for leaf in beginnings(template))
            alike.setdefault(firsts, []).append(template)
        for order, some in enumerate(alike.values()):
            part = f"_{name}_{order}"
            table.add_later(part, _WaysAlike(tuple(some), self.symbol))
            table.add(Rule(NonTerminal(name), [NonTerminal(part)], order))


@frozen
class _Choice:
    """One symbol of some."""

    symbols: Callable[[], Sequence[Symbol]]

    def write_out(self, name: str, table: RuleTable) -> None:
        for order, symbol in enumerate(self.symbols()):
            table.add(Rule(NonTerminal(name), [symbol], order))

    def firsts(self) -> Sequence[Symbol]:
        return self.symbols()


class RuleTable:
    """
    The rules of a grammar, by what they make.

    Not for several threads at once.

    Parameters
    ----------
    rules : iterable of Rule
        Those that are there from the start.
    """

    def __init__(self, rules: Iterable[Rule] = ()) -> None:
        self._rules: dict[str, list[Rule]] = defaultdict(list)
        self._unread: dict[str, _Unread] = {}
        for rule in rules:
            self.add(rule)

    def __contains__(self, name: str) -> bool:
        return name in self._rules or name in self._unread

    def add(self, rule: Rule) -> None:
        """Add one more rule for what it makes."""
        self._rules[rule.origin.name].append(rule)

    def add_later(self, name: str, unread: _Unread) -> None:
        """Add what makes something; its rules are written out when they are asked for."""
        self._unread[name] = unread

    def add_rules(self, text: str) -> None:
        """Add rules as slots write them, one a line; see :func:`~productions.ways_of_rules`."""
        for name, template in ways_of_rules(text):
            self.add_later(name, _Templates((template,), symbol_of))

    def add_phrase(self, name: str, templates: tuple[str, ...], symbol: ToSymbol) -> None:
        """Add a phrase's templates; ``symbol`` says what stands for a leaf of one."""
        self.add_later(name, _Phrase(templates, symbol))

    def add_choice(self, name: str, symbols: Callable[[], Sequence[Symbol]]) -> None:
        """Add that something is any of some symbols, the first of them first."""
        self.add_later(name, _Choice(symbols))

    def made_of(self, origin: Symbol) -> Sequence[Rule]:
        """
        The rules that make something, in their order.

        Raises ValueError where there is none, or where a template may be left out as a whole.
        """
        if origin.name in self._unread:
            self._unread[origin.name].write_out(origin.name, self)
            del self._unread[origin.name]
        if origin.name not in self._rules:
            raise ValueError(f"no rule makes {origin.name}")
        return self._rules[origin.name]

    def firsts(self, origin: Symbol) -> Sequence[Symbol]:
        """What the rules that make something begin with, some more than once."""
        if origin.name in self._unread:
            return self._unread[origin.name].firsts()
        return [rule.expansion[0] for rule in self.made_of(origin)]
