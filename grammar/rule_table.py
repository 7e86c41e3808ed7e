"""The productions of a grammar, by what they make, written out when they are asked for.

A line uses the rules of the few phrases that begin with its first word, and writing out those of
all phrases took as long as parsing a dozen lines.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence

from lark.grammar import Rule, Symbol

from grammar.frozen import frozen
from grammar.productions import productions, symbol_of, ways_of_rules
from grammar.shared_beginnings import with_shared_beginnings
from grammar.template import Literal, OneOf, SlotNode, beginnings, read_template

ToSymbol = Callable[[Literal | SlotNode], Symbol]
"""Says what stands for a leaf of a template."""


@frozen
class _Unread:
    """What makes one thing, as templates that nobody has asked for yet."""

    templates: tuple[str, ...]
    symbol: ToSymbol
    share_beginnings: bool

    def rules(self, name: str) -> list[Rule]:
        nodes = OneOf(tuple(map(read_template, self.templates)))
        rules = productions(name, (nodes,), self.symbol)
        return with_shared_beginnings(rules) if self.share_beginnings else rules

    def firsts(self) -> set[Symbol]:
        """What one of them can begin with; no more of them is read."""
        return {self.symbol(leaf) for each in self.templates for leaf in beginnings(each)}


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

    def add_rules(self, text: str) -> None:
        """Add rules as slots write them, one a line; see :func:`~productions.ways_of_rules`."""
        for name, template in ways_of_rules(text):
            self._unread[name] = _Unread((template,), symbol_of, share_beginnings=False)

    def add_templates(self, name: str, templates: tuple[str, ...], symbol: ToSymbol) -> None:
        """Add ways to make something; ``symbol`` says what stands for a leaf of one."""
        self._unread[name] = _Unread(templates, symbol, share_beginnings=True)

    def made_of(self, origin: Symbol) -> Sequence[Rule]:
        """
        The rules that make something, in their order.

        Raises ValueError where there is none, or where a template may be left out as a whole.
        """
        if origin.name in self._unread:
            for rule in self._unread[origin.name].rules(origin.name):
                self.add(rule)  # some are of parts that got a rule of their own
            del self._unread[origin.name]
        if origin.name not in self._rules:
            raise ValueError(f"no rule makes {origin.name}")
        return self._rules[origin.name]

    def firsts(self, origin: Symbol) -> set[Symbol]:
        """What the rules that make something begin with; no template is written out for it."""
        if origin.name in self._unread:
            return self._unread[origin.name].firsts()
        return {rule.expansion[0] for rule in self.made_of(origin)}
