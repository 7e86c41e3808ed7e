"""The likeliest path of an utterance through the states of each sentence (Viterbi 1967)."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from assistant.ears.phones.model import STATES, STREAMS, PhoneModel
from assistant.ears.phones.states import States

_STREAM_PARTS = (1.0, 1.0, 0.3)
"""Weights of cepstra, slope and curvature. The three are not independent, as the model assumes;
in noise, part of the last is a little better than all or none of it."""
_TINY = np.float32(1e-30)


def likelihoods(model: PhoneModel, frames: np.ndarray, senones: np.ndarray) -> np.ndarray:
    """(frames, senones) float32, nats; ``frames``: (frames, 39) cepstra."""
    codebooks = model.codebook_of[senones]
    found = np.zeros((len(frames), len(senones)), np.float32)
    wanted = np.unique(codebooks)
    columns = [np.flatnonzero(codebooks == codebook) for codebook in wanted]
    for stream, part in enumerate(_STREAM_PARTS):
        plain = np.split(frames, STREAMS, axis=1)[stream]
        density = _gaussians(model, stream, np.hstack((plain, plain * plain)), wanted)
        # Nothing is further than `_TINY` behind the best fit of its frame.
        most = density.max(axis=(1, 2))
        np.exp(np.subtract(density, most[:, None, None], out=density), out=density)
        for row, mine in enumerate(columns):
            mixed = density[:, row] @ model.mixtures[stream][:, senones[mine]]
            found[:, mine] += np.float32(part) * np.log(mixed + _TINY)
        found += np.float32(part) * most[:, None]
    return found


def _gaussians(
    model: PhoneModel, stream: int, numbers: np.ndarray, codebooks: np.ndarray
) -> np.ndarray:
    """(frames, codebooks, 128)."""
    size = len(model.phones)
    weights = model.weights[stream].reshape(numbers.shape[1], size, -1)[:, codebooks]
    constants = model.constants[stream].reshape(size, -1)[codebooks].reshape(-1)
    found: np.ndarray = numbers @ weights.reshape(numbers.shape[1], -1) + constants
    return found.reshape(len(numbers), len(codebooks), -1)


@dataclass(frozen=True, slots=True)
class Alignment:
    """The position in each sentence over the time of an utterance."""

    states: States
    scores: np.ndarray
    """(views, sentences), nats; -inf where the sentence is too long for the sound."""
    _moved: np.ndarray
    """(frames, 3, phones) in the view that is kept: whether a state was just entered."""
    _ways: np.ndarray
    """(frames, phones): from where a phone was entered, if it was."""
    _sound: np.ndarray
    """(frames, 3, phones) nats, the same view."""
    _last: tuple[int, ...]

    def path(self, sentence: int) -> tuple[np.ndarray, np.ndarray]:
        """For each frame the state, 3 × phone + 0, 1 or 2, and how well it fits, nats."""
        phone, state = self._last[sentence], STATES - 1
        path, fits = [], []
        for frame in range(len(self._ways) - 1, -1, -1):
            path.append(STATES * phone + state)
            fits.append(self._sound[frame, state, phone])
            if self._moved[frame, state, phone]:
                if state == 0:
                    phone = int(self.states.before[self._ways[frame, phone], phone])
                state = (state - 1) % STATES
        return np.array(path[::-1]), np.array(fits[::-1])


def align(states: States, sound: np.ndarray, looked_into: int) -> Alignment:
    """
    The likeliest paths; ``sound``: (frames, views, 3, phones) nats.

    Views of the same utterance are followed side by side; the paths of one are kept.
    """
    frames, views, _, count = sound.shape
    here = np.full((views, STATES, count), -np.inf)
    left = np.full((views, count + 2), -np.inf)
    left[:, count + 1] = 0.0
    entered = np.empty_like(here)
    moved = np.empty((frames, STATES, count), bool)
    ways = np.zeros((frames, count), np.int16)
    for frame in range(frames):
        entered[:, 0] = left[:, states.before[0]]
        for way, before in enumerate(states.before[1:], 1):
            other = left[:, before]
            ways[frame][other[looked_into] > entered[looked_into, 0]] = way
            np.maximum(entered[:, 0], other, out=entered[:, 0])
        np.add(here[:, :-1], states.onward[:-1], out=entered[:, 1:])
        here += states.stay
        np.greater(entered[looked_into], here[looked_into], out=moved[frame])
        np.maximum(here, entered, out=here)
        here += sound[frame]
        np.add(here[:, -1], states.onward[-1], out=left[:, :count])
        left[:, count + 1] = -np.inf
    finished = [left[:, ends] for ends in states.ends]
    scores = np.stack([some.max(axis=1) for some in finished], axis=1)
    last = tuple(int(ends[some[looked_into].argmax()])
                 for ends, some in zip(states.ends, finished, strict=True))  # fmt: skip
    return Alignment(states, scores, moved, ways, sound[:, looked_into], last)


def shortest_phones(path: np.ndarray) -> np.ndarray:
    """
    For each phone of a path, whether it is as short as a phone can be.

    >>> shortest_phones(np.array([0, 1, 2, 3, 3, 4, 5]))
    array([ True, False])
    """
    phones = path // STATES
    starts = np.flatnonzero(np.diff(phones, prepend=-1))
    return np.diff(starts, append=len(phones)) <= STATES
