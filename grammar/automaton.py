"""Templates as an automaton over words, whose states are worked out on their first visit."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from grammar.template import Literal, Node, SlotNode
from grammar.written import ways_to_write

Slots = Callable[[str], tuple[Node, ...]]
"""A slot's name to how it is said. The same name always gives the very same nodes."""

_Spot = tuple[tuple[Node, ...], int, int]
"""A position before a node of a row, and the number of the position after the row."""
_END = -1
"""The position after a whole sentence."""


class Automaton:
    """
    Every sentence of some templates: words lead from state to state, beginning at state 0.

    From a state, a word leads to one state only. ``written`` lets each word be written
    in other ways, see :mod:`grammar.written`.

    >>> from grammar.template import read_template
    >>> Automaton([read_template("cut (list | for)")], read_template).accepts(["cut", "list"])
    True
    """

    def __init__(
        self, sentences: Iterable[tuple[Node, ...]], slots: Slots, written: bool = False
    ) -> None:
        self._slots = slots
        self._written = written
        self._spots: list[_Spot] = []
        self._number_of: dict[tuple[int, int, int], int] = {}
        self._states: list[tuple[int, ...]] = []
        self._state_of: dict[frozenset[int], int] = {}
        self._arcs: dict[int, Mapping[str, int]] = {}
        self._first = self._openings(sentences)
        self._starts = {self._state(self._first)}

    def also(self, sentences: Iterable[tuple[Node, ...]]) -> int:
        """
        The state that accepts these sentences besides all that state 0 accepts.

        State 0 stays as it is. Quick, since later states are shared; the same sentences
        (the very same nodes) give the same state.

        >>> from grammar.template import read_template
        >>> automaton = Automaton([read_template("cut list")], read_template)
        >>> both = automaton.also([read_template("cut (one | two)")])
        >>> automaton.accepts(["cut", "one"]), automaton.accepts(["cut", "one"], both)
        (False, True)
        """
        state = self._state([*self._first, *self._openings(sentences)])
        self._starts.add(state)
        return state

    def arcs(self, state: int) -> Mapping[str, int]:
        """Word -> next state."""
        if state not in self._arcs:
            self._arcs[state] = dict(self._onward(state))
        return self._arcs[state]

    def is_final(self, state: int) -> bool:
        """Whether a sentence may end here."""
        return _END in self._states[state]

    def walk(self, words: Iterable[str], state: int = 0) -> int | None:
        """The state after some words, or None where one does not fit."""
        for word in words:
            following = self.arcs(state).get(word)
            if following is None:
                return None
            state = following
        return state

    def accepts(self, words: Iterable[str], state: int = 0) -> bool:
        """Whether the words are a whole sentence."""
        after = self.walk(words, state)
        return after is not None and self.is_final(after)

    def everywhere(self) -> Iterator[tuple[int, str, int]]:
        """Every arc from state 0 on: state, word, next state. Walking them takes a second."""
        waiting = [0]
        seen = set(waiting)
        for state in waiting:
            for word, following in self.arcs(state).items():
                yield state, word, following
                if following not in seen:
                    seen.add(following)
                    waiting.append(following)

    def _onward(self, state: int) -> Iterator[tuple[str, int]]:
        reached: dict[str, set[int]] = {}
        for spot in self._states[state]:
            if spot == _END:
                continue
            nodes, at, after = self._spots[spot]
            node = nodes[at]
            assert isinstance(node, Literal)
            for word in self._ways(node.word.lower(), state):
                reached.setdefault(word, set()).add(self._spot(nodes, at + 1, after))
        for word in sorted(reached):
            yield word, self._state(reached[word])

    def _ways(self, word: str, state: int) -> Sequence[str]:
        if not self._written:
            return (word,)
        return ways_to_write(word, first=state in self._starts)

    def _openings(self, sentences: Iterable[tuple[Node, ...]]) -> list[int]:
        """The positions before some sentences."""
        return [self._spot(nodes, 0, _END) for nodes in sentences]

    def _state(self, spots: Iterable[int]) -> int:
        words = frozenset(self._before_words(spots))
        if words not in self._state_of:
            self._state_of[words] = len(self._states)
            self._states.append(tuple(sorted(words)))
        return self._state_of[words]

    def _before_words(self, spots: Iterable[int]) -> set[int]:
        """The positions before a word that are reached from these without saying one."""
        seen: set[int] = set()
        found: set[int] = set()
        waiting = list(spots)
        while waiting:
            spot = waiting.pop()
            if spot in seen:
                continue
            seen.add(spot)
            if spot == _END or isinstance(self._node(spot), Literal):
                found.add(spot)
            else:
                waiting.extend(self._inside(spot))
        return found

    def _node(self, spot: int) -> Node:
        nodes, at, _ = self._spots[spot]
        return nodes[at]

    def _inside(self, spot: int) -> Iterator[int]:
        nodes, at, after = self._spots[spot]
        node = nodes[at]
        behind = self._spot(nodes, at + 1, after)
        if isinstance(node, SlotNode):
            yield self._spot(self._slots(node.slot), 0, behind)
        elif not isinstance(node, Literal):
            for way in node.ways:
                yield self._spot(way, 0, behind)
            if node.optional:
                yield behind

    def _spot(self, nodes: tuple[Node, ...], at: int, after: int) -> int:
        """The number of a position; at the end of a row, of the position after the row."""
        if at == len(nodes):
            return after
        # Rows are compared by identity: comparing them word for word takes far longer.
        key = (id(nodes), at, after)
        if key not in self._number_of:
            self._number_of[key] = len(self._spots)
            self._spots.append((nodes, at, after))
        return self._number_of[key]
