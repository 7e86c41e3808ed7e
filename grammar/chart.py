"""Which rules of a grammar a row of tokens can follow, all of them at once, as a forest.

Earley's algorithm with the forest of E. Scott, "SPPF-Style Parsing From Earley Recognisers" (2008),
as in lark, whose forest this makes and whose trees are made of it. Lark makes every item anew
wherever it is met and looks through a whole column for who waits for what was completed, which took
most of the time of a line; here a place in a rule is one object, and a column knows who waits.
No rule is empty.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from lark import Token
from lark.grammar import Rule
from lark.parsers.earley_forest import PackedNode, SymbolNode, TokenNode


class DottedRule:
    """
    How far a rule is followed; one object for each place in a rule.

    Parameters
    ----------
    rule : Rule
    at : int
        How many of its symbols have come.
    following : DottedRule or None
        The next place in it; None at its end.
    """

    __slots__ = ("at", "following", "kind", "label", "rule", "symbol", "terminal")

    def __init__(self, rule: Rule, at: int, following: DottedRule | None) -> None:
        self.rule, self.at, self.following = rule, at, following
        wanted = rule.expansion[at] if following is not None else None
        self.terminal = wanted.name if wanted is not None and wanted.is_term else None
        """The terminal that has to come next, if it is one."""
        self.kind = wanted.name if wanted is not None and not wanted.is_term else None
        """What has to come next, if that is no terminal; both are None at the end."""
        ended = following is None
        self.symbol: Any = rule.origin if ended else (rule, at)
        """What lark calls a node by."""
        self.label: Any = rule.origin.name if ended else self
        """A stand-in for the symbol that is quicker to compare."""


def beginning_of(rule: Rule) -> DottedRule:
    """The place before the first symbol of a rule, and with it all that follow."""
    place = None
    for at in range(len(rule.expansion), -1, -1):
        place = DottedRule(rule, at, place)
    assert place is not None
    return place


class Node(SymbolNode):
    """What a stretch of tokens is, with each way to make it once, in the order they were found."""

    __slots__ = ("_parts", "_ways")

    def __init__(self, symbol: Any, start: int, end: int) -> None:
        # Not lark's own: it makes two sets for each node.
        self.s, self.start, self.end = symbol, start, end
        self.is_intermediate = type(symbol) is tuple
        self._parts: dict[tuple[int, int], tuple[Rule, Any, Any]] = {}
        self._ways: list[PackedNode] | None = None

    def made_of(self, rule: Rule, left: Any, right: Any) -> None:
        """Add one way, unless it is there: what came before in the rule, and its last part."""
        self._parts.setdefault((id(left), id(right)), (rule, left, right))

    @property
    def children(self) -> list[PackedNode]:
        """The ways, those of earlier rules first; the same objects each time."""
        # Few of all nodes are part of a tree in the end.
        if self._ways is None:
            made = [
                PackedNode(self, self.s, rule, self.end, left, right)
                for rule, left, right in self._parts.values()
            ]
            self._ways = made if len(made) == 1 else sorted(made, key=lambda way: way.rule.order)
        return self._ways


class Predictions(dict[str, Sequence[DottedRule]]):
    """The beginnings of the rules that make each kind."""


NOTHING = Predictions()
Item = tuple[DottedRule, int]
"""A place in a rule, and how many tokens came before the rule began."""


class Chart:
    """
    The ways that the tokens so far can be read, column by column.

    Parameters
    ----------
    beginnings : iterable of DottedRule
        Of the rules that all tokens together may follow.
    """

    def __init__(self, beginnings: Iterable[DottedRule]) -> None:
        self._waiting: list[dict[str, list[tuple[DottedRule, int, Any]]]] = []
        self._column: dict[Item, Any] = {}
        self._scanned: dict[Item, Any] = {}
        for place in beginnings:
            (self._scanned if place.terminal else self._column)[place, 0] = None

    @property
    def wanted(self) -> frozenset[tuple[Rule, int]]:
        """Rules and places in them at which a terminal would be taken now."""
        return frozenset((place.rule, place.at) for place, _ in self._scanned)

    def advance(self, predictions: Predictions) -> None:
        """Complete what the last token has ended, and predict what may come next."""
        here = len(self._waiting)
        column, scanned = self._column, self._scanned
        waiting: dict[str, list[tuple[DottedRule, int, Any]]] = {}
        nodes: dict[tuple[Any, int], Node] = {}
        self._waiting.append(waiting)
        for (place, start), node in column.items():
            if place.kind is not None:
                waiting.setdefault(place.kind, []).append((place, start, node))
            else:
                nodes[place.label, start] = node
        predicted = set[str]()
        items = [(place, start, node) for (place, start), node in column.items()]
        while items:
            place, start, node = items.pop()
            if place.kind is None:
                for before, begun, left in self._waiting[start].get(place.label, ()):
                    after = before.following
                    assert after is not None
                    label = after.label, begun
                    made = nodes.get(label)
                    if made is None:
                        made = nodes[label] = Node(after.symbol, begun, here)
                    made.made_of(after.rule, left, node)
                    item = after, begun
                    if after.terminal is not None:
                        scanned[item] = made
                    elif item not in column:
                        column[item] = made
                        items.append((after, begun, made))
                        if after.kind is not None:
                            waiting.setdefault(after.kind, []).append((after, begun, made))
            elif place.kind not in predicted:
                predicted.add(place.kind)
                for new in predictions[place.kind] if predictions is not NOTHING else ():
                    item = new, here
                    if new.terminal is not None:
                        scanned.setdefault(item, None)
                    elif item not in column:
                        column[item] = None
                        items.append((new, here, None))
                        if new.kind is not None:
                            waiting.setdefault(new.kind, []).append((new, here, None))

    def predict_all(self, predictions: Predictions) -> None:
        """Predict what may come next, where :meth:`advance` predicted nothing."""
        here = len(self._waiting) - 1
        kinds = list(self._waiting[-1])
        seen = set(kinds)
        while kinds:
            for new in predictions[kinds.pop()]:
                if new.terminal is not None:
                    self._scanned.setdefault((new, here), None)
                elif new.kind is not None and new.kind not in seen:
                    seen.add(new.kind)
                    kinds.append(new.kind)

    def take(self, token: Token) -> bool:
        """Go on past a token; False where none of what may come next is one of its type."""
        here = len(self._waiting)
        column: dict[Item, Any] = {}
        scanned: dict[Item, Any] = {}
        nodes: dict[tuple[Any, int], Node] = {}
        leaf = TokenNode(token, None, priority=0)
        for (place, start), node in self._scanned.items():
            if place.terminal != token.type:
                continue
            after = place.following
            assert after is not None
            label = after.label, start
            made = nodes.get(label)
            if made is None:
                made = nodes[label] = Node(after.symbol, start, here)
            made.made_of(place.rule, node, leaf)
            (column if after.terminal is None else scanned)[after, start] = made
        if not column and not scanned:
            return False
        self._column, self._scanned = column, scanned
        return True

    def whole(self, kind: str) -> Node | None:
        """The node of a kind for all tokens together; None where they are not one."""
        for (place, start), node in self._column.items():
            if start == 0 and place.label == kind and node is not None:
                found: Node = node
                return found
        return None
