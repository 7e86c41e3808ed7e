"""The decoding graph: the spoken language as paths over the model's pieces.

Made from the word automaton, only as far as the search gets.
"""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np

from assistant.ears.moonshine import END
from assistant.ears.tokens import Tokens
from grammar.automaton import Automaton
from grammar.written import PLAIN

DONE = -1
"""The node after a finished sentence."""


@dataclass(slots=True)
class _Place:
    """A node of the graph: inside a word, or before one."""

    onward: dict[int, int] = field(default_factory=dict)
    """Piece -> place."""
    ends: list[tuple[int, str]] = field(default_factory=list)
    """Words that end here: the automaton's state after each, and the word as we spell it."""


@dataclass(frozen=True, slots=True)
class Onward:
    """What may follow at a node, in parallel arrays."""

    pieces: np.ndarray
    """(ways,) int64."""
    places: np.ndarray
    """(ways,) int64: the node each leads to."""
    words: tuple[str, ...]
    """The word that each way finishes; empty where it is still inside one."""
    weights: np.ndarray
    """(ways,) float32: words finished, as counted for the word bonus."""


class DecodingGraph:
    """The graph of one automaton; node 0 is the beginning."""

    def __init__(self, automaton: Automaton, pieces: Tokens) -> None:
        self._automaton = automaton
        self._pieces = pieces
        self._places: list[_Place] = []
        self._before: dict[int, int] = {}
        self._onward: dict[int, Onward] = {}
        self._stop = pieces.cut(".", True)[0]
        self._full_stop = len(self._places)
        self._places.append(_Place())
        self.begin(0)

    def begin(self, state: int) -> None:
        """Let sentences begin at a state of the automaton, from the next search on."""
        self.start = self._before_state(state)

    def onward(self, place: int) -> Onward:
        """The ways on from a node."""
        if place not in self._onward:
            self._onward[place] = self._ways(place)
        return self._onward[place]

    def _ways(self, place: int) -> Onward:
        if place == self._full_stop:
            return _parallel([(END, DONE, "", 0.0)])
        here = self._places[place]
        ways = [(piece, to, "", 0.0) for piece, to in here.onward.items()]
        for state, word in here.ends:
            weight = weight_of(word)
            before = self._places[self._before_state(state)]
            ways += [(piece, to, word, weight) for piece, to in before.onward.items()]
            if self._automaton.is_final(state):
                ways += [(self._stop, self._full_stop, word, weight), (END, DONE, word, weight)]
        return _parallel(ways)

    def _before_state(self, state: int) -> int:
        """The node before all words of a state of the automaton."""
        if state not in self._before:
            self._before[state] = self._new()
            for word, following in self._automaton.arcs(state).items():
                self._add(self._before[state], word, following)
        return self._before[state]

    def _new(self) -> int:
        self._places.append(_Place())
        return len(self._places) - 1

    def _add(self, at: int, word: str, following: int) -> None:
        joined = word.startswith("+") and len(word) > 1
        plain = word.removeprefix("+") if joined else word
        if not self._pieces.can_cut(plain):
            return
        for piece in self._pieces.cut(plain, joined):
            onward = self._places[at].onward
            if piece not in onward:
                onward[piece] = self._new()
            at = onward[piece]
        lower = word.lower()
        self._places[at].ends.append((following, PLAIN.get(lower, lower)))


def weight_of(word: str) -> float:
    """What a word counts for the word bonus; signs inside a number are no words."""
    return 0.0 if word in ("+-", "+.") else 1.0


def _parallel(ways: list[tuple[int, int, str, float]]) -> Onward:
    return Onward(
        np.array([way[0] for way in ways], np.int64),
        np.array([way[1] for way in ways], np.int64),
        tuple(way[2] for way in ways),
        np.array([way[3] for way in ways], np.float32),
    )
