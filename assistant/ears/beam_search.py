"""The beam search: the likeliest sentences of a decoding graph, all hypotheses in one batch."""

from __future__ import annotations

from dataclasses import dataclass, field
from threading import Event

import numpy as np

from assistant.ears.decoding_graph import DONE, DecodingGraph
from assistant.ears.moonshine import END, Attended, DecoderStep, Moonshine


@dataclass(frozen=True, slots=True)
class Beam:
    """The width of the search, and its weights."""

    width: int = 48
    """Hypotheses kept at a time; more finds more and takes longer."""
    margin: float = 8.0
    """How far behind the best finished sentence one may be and is kept; more keeps rivals
    that catch up late, and takes longer."""
    abreast: float = 9.0
    """How far behind the best of the same number of pieces one may be and is kept. In quiet few
    are, so an easy utterance costs little; more finds words that begin badly."""
    prior: float = 0.5
    """How much of the score that the model gives without any sound is subtracted. More trusts the
    sound over habit: rare words gain, and in noise unlikely ones too."""
    bonus: float = 0.3
    """Bonus for each word, since every word makes a sentence less likely."""
    spellings: int = 2
    """Spellings of the same words that are kept; more fills the width with one command."""


@dataclass(frozen=True, slots=True)
class DecodedSentence:
    """A finished sentence."""

    pieces: tuple[int, ...]
    log_probability: float
    """Log-probability of the sentence, given the sound."""
    expected: float
    """The same given silence: how likely the model finds the sentence anyway."""
    weight: float
    """Words as counted for the bonus."""
    behind: tuple[float, ...] = ()
    """How far each piece, and the end, was behind the likeliest at its place, nats. A command that
    was said is a little behind now and then; one that was not is far behind somewhere."""

    def score(self, breadth: Beam) -> float:
        """The score by which sentences are compared."""
        taken_off = breadth.prior * self.expected
        return self.log_probability - taken_off + breadth.bonus * self.weight


@dataclass(frozen=True, slots=True)
class SearchResult:
    """The result of a search."""

    sentences: tuple[DecodedSentence, ...]
    """Likeliest first."""
    free: DecodedSentence | None
    """The free sentence: what the model writes without the graph, where that was asked for."""


@dataclass(frozen=True, slots=True)
class Ears:
    """The model's memory of one utterance, and of silence."""

    model: Moonshine
    heard: Attended
    silence: Attended
    unwanted: Event = field(default_factory=Event)
    """Set when more sound has made the search useless."""


class Unwanted(Exception):
    """Raised where a search is given up."""


@dataclass(slots=True)
class _Hypothesis:
    """One unfinished hypothesis."""

    place: int
    pieces: tuple[int, ...]
    words: tuple[str, ...]
    sound: float
    expected: float
    weight: float
    behind: tuple[float, ...]


@dataclass(slots=True)
class _Free:
    """The hypothesis that is free of the graph."""

    pieces: tuple[int, ...] = ()
    sound: float = 0.0
    expected: float = 0.0
    ended: bool = False

    def advance(self, steps: tuple[DecoderStep, DecoderStep], row: int) -> None:
        """Add the likeliest piece."""
        heard, silent = (step.scores[row] - step.log_totals[row] for step in steps)
        piece = int(heard.argmax())
        self.sound += float(heard[piece])
        self.expected += float(silent[piece])
        self.ended = piece == END
        if not self.ended:
            self.pieces = (*self.pieces, piece)

    def sentence(self) -> DecodedSentence:
        """The sentence it has written."""
        return DecodedSentence(self.pieces, self.sound, self.expected, 0.0)


class _Ways:
    """Every continuation of every hypothesis, in parallel arrays."""

    def __init__(
        self, rows: list[_Hypothesis], steps: tuple[DecoderStep, DecoderStep], paths: DecodingGraph
    ) -> None:
        ways = [paths.onward(row.place) for row in rows]
        sizes = [len(way.pieces) for way in ways]
        self.words = [word for way in ways for word in way.words]
        self.parents = np.repeat(np.arange(len(rows)), sizes)
        self.pieces = np.concatenate([way.pieces for way in ways])
        self.places = np.concatenate([way.places for way in ways])
        weights = np.array([row.weight for row in rows])
        self.weights = np.concatenate([way.weights for way in ways]) + weights[self.parents]
        self.sound = self._onward(steps[0]) + np.array([r.sound for r in rows])[self.parents]
        before = np.array([r.expected for r in rows])[self.parents]
        self.expected = self._onward(steps[1]) + before
        heard = steps[0].scores
        self.behind = heard.max(axis=1)[self.parents] - heard[self.parents, self.pieces]

    def _onward(self, step: DecoderStep) -> np.ndarray:
        found: np.ndarray = step.scores[self.parents, self.pieces] - step.log_totals[self.parents]
        return found

    def scores(self, breadth: Beam) -> np.ndarray:
        """The scores by which they are compared."""
        found: np.ndarray = self.sound - breadth.prior * self.expected
        found += breadth.bonus * self.weights
        return found


def beam_search(
    ears: Ears,
    paths: DecodingGraph,
    breadth: Beam,
    longest: int,
    free: bool = False,
    floor: float = -np.inf,
) -> SearchResult:
    """
    Finished sentences, likeliest first.

    ``longest`` is the most pieces a sentence may have; ``free`` also follows what the model
    writes without the graph, as one more row of the batch; ``floor`` is the score of a
    sentence found before, with which others are compared.
    """
    rows = [_Hypothesis(paths.start, (), (), 0.0, 0.0, 0.0, ())]
    loose = _Free(ended=not free)
    steps = (ears.heard.first, ears.silence.first)
    done: list[DecodedSentence] = []
    for taken in range(longest):
        if ears.unwanted.is_set():
            raise Unwanted
        parents: list[int] = []
        # The free hypothesis is the last row; at first there is one row for all.
        loose_row = len(steps[0].scores) - 1
        if rows:
            rows, parents = _advance(_Ways(rows, steps, paths), rows, breadth, done, floor)
        pieces = [row.pieces[-1] for row in rows]
        if not loose.ended:
            loose.advance(steps, loose_row)
            if not loose.ended:
                parents, pieces = [*parents, loose_row], [*pieces, loose.pieces[-1]]
        if not pieces or taken == longest - 1:
            break
        steps = _steps(ears, steps, parents, pieces)
    done.sort(key=lambda sentence: (-sentence.score(breadth), sentence.pieces))
    return SearchResult(tuple(done), loose.sentence() if free else None)


def _steps(
    ears: Ears, steps: tuple[DecoderStep, DecoderStep], parents: list[int], pieces: list[int]
) -> tuple[DecoderStep, DecoderStep]:
    """Score one more piece given the utterance and given silence, in parallel."""

    def onward(one: tuple[Attended, DecoderStep]) -> DecoderStep:
        return _step(ears.model, one[0], one[1], parents, pieces)

    heard, silent = ears.model.side_by_side(
        onward, zip((ears.heard, ears.silence), steps, strict=True)
    )
    return heard, silent


def _step(
    model: Moonshine, memory: Attended, step: DecoderStep, parents: list[int], pieces: list[int]
) -> DecoderStep:
    past = tuple(np.take(kept, parents, axis=0) for kept in step.past)
    return model.step(memory, past, np.array(pieces, np.int64))


def _advance(
    ways: _Ways, rows: list[_Hypothesis], breadth: Beam, done: list[DecodedSentence], floor: float
) -> tuple[list[_Hypothesis], list[int]]:
    """Extend every hypothesis by a piece, with its parent's row; finished ones go to ``done``."""
    scores = ways.scores(breadth)
    for way in np.flatnonzero(ways.places == DONE):
        row = rows[ways.parents[way]]
        done.append(
            DecodedSentence(
                row.pieces,
                float(ways.sound[way]),
                float(ways.expected[way]),
                float(ways.weights[way]),
                (*row.behind, float(ways.behind[way])),
            )
        )
    best = max([floor, *(sentence.score(breadth) for sentence in done)])
    live = scores[ways.places != DONE]
    abreast = live.max() - breadth.abreast if len(live) else -np.inf
    least = max(best - breadth.margin, abreast)
    following: list[_Hypothesis] = []
    parents: list[int] = []
    alike: dict[tuple[int, tuple[str, ...]], int] = {}
    for way in np.argsort(-scores, kind="stable"):
        if scores[way] < least or len(following) == breadth.width:
            break
        if ways.places[way] == DONE:
            continue
        row = rows[ways.parents[way]]
        word = ways.words[way]
        words = (*row.words, word) if word else row.words
        same = (int(ways.places[way]), words)
        alike[same] = alike.get(same, 0) + 1
        if alike[same] > breadth.spellings:
            continue
        parents.append(int(ways.parents[way]))
        numbers = (float(ways.sound[way]), float(ways.expected[way]), float(ways.weights[way]))
        pieces = (*row.pieces, int(ways.pieces[way]))
        behind = (*row.behind, float(ways.behind[way]))
        following.append(_Hypothesis(same[0], pieces, words, *numbers, behind))
    return following, parents
