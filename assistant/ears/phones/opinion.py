"""How well sentences fit a sound, by their phones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from importlib import metadata
from pathlib import Path

import numpy as np

from assistant.ears.phones.alignment import Alignment, align, likelihoods, shortest_phones
from assistant.ears.phones.cepstra import bands, cepstra
from assistant.ears.phones.model import PACKAGE, STATES, PhoneModel, load_phones, phones_folder
from assistant.ears.phones.pronouncing import Pronouncing
from assistant.ears.phones.states import PAUSE, PhoneLattice, states_of
from assistant.sound.voice_parts import voice_part
from grammar.spoken import Manner

_WARPS = (0.93, 1.0, 1.07)
"""Speaker sizes that are tried. In mixer noise their average chose right in 88 of 100, the middle
one alone in 85; in quiet there is no difference (tests.benchmarks.speech.second_model)."""
_AS_IS = 1
_FURTHEST = 80.0
"""Most nats behind the best that count. Past that it is likelier that the word was said in an
unforeseen way than that it was not meant."""
WORST = -15.0
"""Most nats a frame that a phone may count as behind the one that fits best."""
WORTH = 0.1
"""Nats of the first model for each nat of this one, which wrongly takes its frames as independent.
In a trial by hand, of 280 commands of the tuning half in quiet, the right one was likeliest (in
the mean logarithm) with 0.1; 0.07 and 0.14 came close."""

_NO_FIT = {**dict.fromkeys(("phones", "worst_word", "last_word", "pauses"), WORST), "hurried": 1.0}


@dataclass(frozen=True, slots=True)
class Opinions:
    """The model's opinion of some sentences."""

    scores: tuple[float, ...]
    """Nats behind the best of them, 0 to -80; the ``besides`` left out."""
    _alignment: Alignment

    def ahead(self, sentence: int, other: int) -> float:
        """How far one is ahead of another, nats, -80 to 80; ``besides`` are numbered last."""
        mine, its = self._alignment.scores[:, [sentence, other]].mean(axis=0)
        # The sound is too short for this one.
        if not (np.isfinite(mine) or np.isfinite(its)):
            return 0.0
        return float(np.clip(mine - its, -_FURTHEST, _FURTHEST))

    def evidence(self, sentence: int) -> dict[str, float]:
        """How one of them fits: see :class:`assistant.ears.evidence.EvidenceWeights`."""
        if not np.isfinite(self._alignment.scores[_AS_IS, sentence]):
            return dict(_NO_FIT)
        path, fits = self._alignment.path(sentence)
        words = self._alignment.states.words[path // STATES]
        spoken = words != PAUSE
        if not spoken.any():
            return dict(_NO_FIT)
        each = [float(fits[words == word].mean()) for word in np.unique(words[spoken])]
        last = words == words[spoken].max()
        told = {
            "phones": float(fits[spoken].mean()),
            "worst_word": min(each),
            "last_word": each[-1],
            "pauses": float(fits[~spoken].mean()) if not spoken.all() else 0.0,
        }
        held = {name: max(value, WORST) for name, value in told.items()}
        hurried = float(shortest_phones(path[last]).mean())
        return {**held, "hurried": hurried}


class PhoneEar:
    """The second model; may be used from one thread at a time."""

    def __init__(self, folder: Path | None = None) -> None:
        folder = folder or phones_folder()
        self._threads = voice_part("threadpoolctl").ThreadpoolController()
        self._model: PhoneModel = load_phones(folder)
        self._pronouncing = Pronouncing(folder)

    @property
    def name(self) -> str:
        """Its name and version."""
        return f"English phones ({PACKAGE} {metadata.version(PACKAGE)})"

    def learn(self, words: Sequence[str]) -> None:
        """Look up words before they are needed: an unknown name takes half a second."""
        for word in words:
            self._pronouncing.sentence(word)

    def opinions(
        self,
        sound: np.ndarray,
        sentences: Sequence[str],
        manner: Manner | None = None,
        besides: Sequence[str] = (),
    ) -> Opinions:
        """
        Its opinion of sentences, at least one; ``sound``: (n,) float32, 16 kHz mono.

        ``manner``: how their numbers are said, None for either way; ``besides``: more sentences,
        only to compare them with those.
        """
        # Its matrices are small: more threads wait for each other, several times as long.
        with self._threads.limit(limits=1, user_api="blas"):
            alignment = self._aligned(sound, (*sentences, *besides), manner)
        return Opinions(_behind(alignment.scores[:, : len(sentences)]), alignment)

    def _aligned(
        self, sound: np.ndarray, sentences: Sequence[str], manner: Manner | None
    ) -> Alignment:
        lattice = PhoneLattice(self._model)
        for words in sentences:
            lattice.add(self._pronouncing.sentence(words, manner))
        states = states_of(lattice)
        needed, column = np.unique(states.senones, return_inverse=True)
        heard = []
        for view, levels in enumerate(bands(sound, _WARPS)):
            wanted = np.union1d(needed, self._model.plain) if view == _AS_IS else needed
            fits = likelihoods(self._model, cepstra(levels), wanted)
            if view == _AS_IS:
                # Scores become how far each is behind the phone that fits best in its frame.
                plain = fits[:, np.searchsorted(wanted, self._model.plain)].max(axis=1)
                fits = fits[:, np.searchsorted(wanted, needed)] - plain[:, None]
            heard.append(fits)
        sound_of = np.stack(heard, axis=1)[:, :, column.reshape(-1, STATES).T]
        return align(states, sound_of, _AS_IS)


def _behind(scores: np.ndarray) -> tuple[float, ...]:
    """The average of all views, relative to the best; ``scores``: (views, sentences)."""
    means = scores.mean(axis=0)
    best = means.max()
    if not np.isfinite(best):
        return (0.0,) * len(means)
    return tuple(float(max(mean - best, -_FURTHEST)) for mean in means)
