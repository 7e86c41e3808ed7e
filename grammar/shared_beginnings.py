"""Rules that begin alike, with one rule for how they go on.

The parser carries every way to go on from word to word, and what people ask begins with few words:
"how" began eight hundred ways, of which a line then needed one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import takewhile

from lark.grammar import NonTerminal, Rule, Symbol

_Way = tuple[Symbol, ...]

_FEWEST = 3
"""Ways that get a beginning of their own; with fewer the rule more costs what it spares."""


def with_shared_beginnings(rules: Sequence[Rule]) -> list[Rule]:
    """
    Rules for the same lines, in which not many of one kind begin alike.

    How they go on is a rule whose name begins with "_", which lark leaves out of its trees again.

    >>> from grammar.productions import productions_of
    >>> for rule in with_shared_beginnings(list(productions_of("ask: A B | A B C | A B D | E"))):
    ...     print(rule)
    <ask : A B>
    <ask : A B _ask__1>
    <ask : E>
    <_ask__1 : C>
    <_ask__1 : D>
    """
    ways: dict[NonTerminal, list[_Way]] = {}
    for rule in rules:
        ways.setdefault(rule.origin, []).append(tuple(rule.expansion))
    return [made for origin, some in ways.items() for made in _Sharing(origin).made(some)]


class _Sharing:
    """The rules of one kind, and those of how they go on."""

    def __init__(self, origin: NonTerminal) -> None:
        self._origin = origin
        self._count = 0
        self._later: list[Rule] = []

    def made(self, ways: Sequence[_Way]) -> list[Rule]:
        return [*self._rules(self._origin, ways), *self._later]

    def _rules(self, origin: NonTerminal, ways: Sequence[_Way]) -> list[Rule]:
        alike: dict[Symbol, list[_Way]] = {}
        for way in ways:
            alike.setdefault(way[0], []).append(way)
        shared = [way for some in alike.values() for way in self._shared(some)]
        return [Rule(origin, way, order) for order, way in enumerate(shared)]

    def _shared(self, ways: Sequence[_Way]) -> Iterator[_Way]:
        """Ways that begin alike: their beginning written once, followed by how each goes on."""
        if len(ways) < _FEWEST:
            yield from ways
            return
        length = len(_beginning(ways))
        beginning, rests = ways[0][:length], [way[length:] for way in ways]
        if () in rests:
            yield beginning
        self._count += 1
        name = NonTerminal(f"_{self._origin.name.lstrip('_')}__{self._count}")
        self._later += self._rules(name, [rest for rest in rests if rest])
        yield (*beginning, name)


def _beginning(ways: Sequence[_Way]) -> _Way:
    """What all of them begin with."""
    steps = takewhile(lambda step: len(set(step)) == 1, zip(*ways, strict=False))
    return tuple(step[0] for step in steps)
