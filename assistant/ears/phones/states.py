"""Sentences as rows of hidden states: every way to say them, with optional pauses."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

import numpy as np

from assistant.ears.phones.model import ALONE, BEGINS, ENDS, INSIDE, STATES, PhoneModel
from assistant.ears.phones.pronouncing import Phones, Ways

PAUSE = -1
"""Stands for the word of a pause, which belongs to none."""
_START = -1
_SILENCE = "SIL"


@dataclass(frozen=True, slots=True)
class _Open:
    """A phone after which the next word may begin."""

    node: int
    phone: str
    right: str | None
    """The phone that must follow it; None for a pause, after which any may."""


@dataclass
class PhoneLattice:
    """Phones in rows, sentence after sentence; see :func:`lattice`."""

    model: PhoneModel
    phones: list[int] = field(default_factory=list)
    before: list[list[int]] = field(default_factory=list)
    words: list[int] = field(default_factory=list)
    """For each phone, the word of its sentence that it belongs to."""
    ends: list[list[int]] = field(default_factory=list)
    """For each sentence, the phones it may end with."""

    def add(self, ways: Sequence[Ways]) -> None:
        """Add a sentence."""
        open_ones = [_Open(self._pause([_START]), _SILENCE, None)]
        last = [open_ones[0].node]
        for at, word in enumerate(ways):
            following = ways[at + 1] if at + 1 < len(ways) else ()
            rights = sorted({way[0] for way in following if way} | {_SILENCE})
            ended = [one for way in word if way for one in self._word(at, way, open_ones, rights)]
            quiet = [one.node for one in ended if one.right == _SILENCE]
            pause = _Open(self._pause(quiet), _SILENCE, None)
            open_ones = [pause, *(one for one in ended if one.right != _SILENCE)]
            last = [pause.node, *quiet]
        self.ends.append(last)

    def _word(self, at: int, way: Phones, open_ones: list[_Open], rights: list[str]) -> list[_Open]:
        """Add one way to say a word, once for each phone that may follow; returns its ends."""
        lefts: dict[str, list[int]] = {}
        for one in open_ones:
            if one.right in (None, way[0]):
                lefts.setdefault(one.phone, []).append(one.node)
        if len(way) == 1:
            return [
                _Open(self._phone(at, way[0], left, right, ALONE, nodes), way[0], right)
                for left, nodes in lefts.items()
                for right in rights
            ]
        nodes = [self._phone(at, way[0], left, way[1], BEGINS, before)
                 for left, before in lefts.items()]  # fmt: skip
        for left, middle, right in zip(way, way[1:], way[2:], strict=False):
            nodes = [self._phone(at, middle, left, right, INSIDE, nodes)]
        return [
            _Open(self._phone(at, way[-1], way[-2], right, ENDS, nodes), way[-1], right)
            for right in rights
        ]

    def _pause(self, before: list[int]) -> int:
        return self._node(PAUSE, self.model.silence, before)

    def _phone(
        self, word: int, middle: str, left: str, right: str, position: int, before: list[int]
    ) -> int:
        number = self.model.number_of
        triphone = self.model.triphone(number[middle], number[left], number[right], position)
        return self._node(word, triphone, before)

    def _node(self, word: int, phone: int, before: list[int]) -> int:
        self.phones.append(phone)
        self.before.append(before)
        self.words.append(word)
        return len(self.phones) - 1


@dataclass(frozen=True, slots=True)
class States:
    """The states of a lattice in arrays, three for a phone: 3 × phone + 0, 1 or 2."""

    senones: np.ndarray
    """(phones × 3,)."""
    stay: np.ndarray
    """(3, phones) log-probability of staying another frame."""
    onward: np.ndarray
    """(3, phones) log-probability of the next state, or the next phone."""
    before: np.ndarray
    """(entries, phones): the phone before; ``count`` for none, ``count + 1`` for the start."""
    words: np.ndarray
    """(phones,): the word each belongs to, `PAUSE` for none."""
    ends: tuple[np.ndarray, ...]
    """For each sentence, the phones it may end with."""

    @property
    def count(self) -> int:
        """Number of phones."""
        return len(self.words)


def states_of(lattice: PhoneLattice) -> States:
    """A lattice's states."""
    model, count = lattice.model, len(lattice.phones)
    phones = np.array(lattice.phones)
    moves = model.transitions[model.base_of[phones]]
    before = np.full((max(map(len, lattice.before)), count), count)
    for phone, others in enumerate(lattice.before):
        for way, other in enumerate(others):
            before[way, phone] = count + 1 if other == _START else other
    each = np.arange(STATES)
    return States(
        senones=model.senones_of[phones].reshape(-1),
        stay=np.ascontiguousarray(moves[:, each, each].T),
        onward=np.ascontiguousarray(moves[:, each, each + 1].T),
        before=before,
        words=np.array(lattice.words),
        ends=tuple(map(np.array, lattice.ends)),
    )
