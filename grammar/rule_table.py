"""The productions of a grammar, by what they make; those of a template are made when asked for.

A line uses the rules of the few phrases that begin with its first word, and writing out those of
all phrases took as long as parsing a dozen lines.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Iterable, Sequence

from lark.grammar import Rule, Symbol

from grammar.productions import productions
from grammar.shared_beginnings import with_shared_beginnings
from grammar.template import Literal, Node, SlotNode, first_leaves

ToSymbol = Callable[[Literal | SlotNode], Symbol]
"""Says what stands for a leaf of a template."""


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
        self._templates: dict[str, tuple[tuple[Node, ...], ToSymbol]] = {}
        for rule in rules:
            self.add(rule)

    def __contains__(self, name: str) -> bool:
        return name in self._rules or name in self._templates

    def add(self, rule: Rule) -> None:
        """Add one more rule for what it makes."""
        self._rules[rule.origin.name].append(rule)

    def add_template(self, name: str, nodes: tuple[Node, ...], symbol: ToSymbol) -> None:
        """Add the rules of a template under a name; ``symbol`` says what stands for a leaf."""
        self._templates[name] = nodes, symbol

    def made_of(self, origin: Symbol) -> Sequence[Rule]:
        """
        The rules that make something, in their order.

        Raises ValueError where there is none, or where a template may be left out as a whole.
        """
        if origin.name in self._templates:
            nodes, symbol = self._templates[origin.name]
            for rule in with_shared_beginnings(productions(origin.name, nodes, symbol)):
                self.add(rule)  # some are of parts that got a rule of their own
            del self._templates[origin.name]
        if origin.name not in self._rules:
            raise ValueError(f"no rule makes {origin.name}")
        return self._rules[origin.name]

    def firsts(self, origin: Symbol) -> list[Symbol]:
        """What the rules that make something begin with; no template is written out for it."""
        if origin.name in self._templates:
            nodes, symbol = self._templates[origin.name]
            return [symbol(leaf) for leaf in first_leaves(nodes)]
        return [rule.expansion[0] for rule in self.made_of(origin)]
