"""Templates as the productions of a grammar, in lark's own objects.

Lark makes the same of a grammar's text, but reading that text took it longer than everything
else at a start. A row of many choices gets rules of its own for its parts, so that a template
grows by what is added to it, not by the product of its choices.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from itertools import chain, product
from math import prod

from lark.grammar import NonTerminal, Rule, Symbol, Terminal

from grammar.template import Literal, Node, OneOf, SlotNode, read_template

_Way = tuple[Symbol, ...]

_MOST_WAYS = 32
"""Ways of one row that are written out side by side; with more, its parts get rules."""
_RULE = re.compile(r"^(\w+):((?:.*)(?:\n[ \t]+\|.*)*)", re.MULTILINE)


def productions(
    name: str, nodes: tuple[Node, ...], symbol: Callable[[Literal | SlotNode], Symbol]
) -> list[Rule]:
    """
    The productions of one rule, the first way first; what ``symbol`` says stands for each leaf.

    Raises ValueError where all of it may be left out.

    >>> for rule in productions("grid", read_template("grid [of] <first:length>"), symbol_of):
    ...     print(rule)
    <grid : grid of length>
    <grid : grid length>
    """
    return _Maker(name, symbol).made(nodes)


def productions_of(text: str) -> Iterator[Rule]:
    """
    The productions of rules as slots write them.

    >>> for rule in productions_of("p_row: NUMERAL | r_digit [r_zero]"):
    ...     print(rule)
    <p_row : NUMERAL>
    <p_row : r_digit r_zero>
    <p_row : r_digit>
    """
    for name, template in ways_of_rules(text):
        yield from productions(name, read_template(template), symbol_of)


def ways_of_rules(text: str) -> Iterator[tuple[str, str]]:
    """
    What rules make, and a template of the ways to: ``name: one | [other] TERMINAL``, one a line.

    >>> list(ways_of_rules("p_row: NUMERAL | r_digit [r_zero]"))
    [('p_row', '(NUMERAL | r_digit [r_zero])')]
    """
    return ((name, f"({ways.strip()})") for name, ways in _RULE.findall(text))


def symbol_of(leaf: Literal | SlotNode) -> Symbol:
    """What a leaf of a rule stands for: terminals are in capitals."""
    name = leaf.word if isinstance(leaf, Literal) else leaf.slot
    return Terminal(name) if name.isupper() else NonTerminal(name)


class _Maker:
    """Makes the productions of one rule, and of the parts that get a rule of their own."""

    def __init__(self, name: str, symbol: Callable[[Literal | SlotNode], Symbol]) -> None:
        self._name = name
        self._symbol = symbol
        self._parts: list[Rule] = []
        self._part_count = 0

    def made(self, nodes: tuple[Node, ...]) -> list[Rule]:
        ways = self._ways(nodes)
        if () in ways:
            raise ValueError(f"all of {self._name} may be left out")
        return [*self._rules(self._name, ways), *self._parts]

    def _ways(self, nodes: tuple[Node, ...]) -> list[_Way]:
        """A row of nodes written out, every choice of the first before the next of it."""
        choices = [self._choices(node) for node in nodes]
        if len(nodes) > 1 and prod(map(len, choices)) > _MOST_WAYS:
            half = len(nodes) // 2
            choices = [self._part(self._ways(some)) for some in (nodes[:half], nodes[half:])]
        return list(dict.fromkeys(tuple(chain(*way)) for way in product(*choices)))

    def _choices(self, node: Node) -> list[_Way]:
        if not isinstance(node, OneOf):
            return [(self._symbol(node),)]
        ways = list(chain.from_iterable(self._ways(way) for way in node.ways))
        return [*ways, ()] if node.optional else ways

    def _part(self, ways: list[_Way]) -> list[_Way]:
        """A rule of its own for these ways, which lark leaves out of its trees again."""
        if len(ways) <= 2:
            return ways
        self._part_count += 1
        name = f"_{self._name}_{self._part_count}"
        self._parts += self._rules(name, [way for way in ways if way])
        return [(NonTerminal(name),), *(way for way in ways if not way)]

    def _rules(self, name: str, ways: list[_Way]) -> list[Rule]:
        origin = NonTerminal(name)
        return [Rule(origin, way, order) for order, way in enumerate(ways)]
