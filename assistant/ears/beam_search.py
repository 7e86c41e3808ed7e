"""The beam search: the likeliest sentences that the paths allow, all hypotheses in one batch."""

from __future__ import annotations

from dataclasses import dataclass, field
from threading import Event

import numpy as np

from assistant.ears.decoding_graph import DONE, DecodingGraph
from assistant.ears.moonshine import END, DecoderStep, Memory, Moonshine


@dataclass(frozen=True, slots=True)
class Beam:
    """How much the search looks at, and how it weighs what it sees."""

    width: int = 48
    """Hypotheses kept at a time; more finds more and takes longer."""
    margin: float = 8.0
    """How far behind the best finished sentence one may be and stay; more keeps rivals that
    catch up late, and takes longer."""
    abreast: float = 9.0
    """How far behind the best of those with as many pieces one may be and stay. In quiet few
    are, so an easy utterance costs little; more finds words that begin badly."""
    prior: float = 0.5
    """How much of what the model would expect without hearing anything is taken off. More
    trusts the ear against habit: rare words gain, and in noise the far-fetched too."""
    bonus: float = 0.3
    """Added for each word, since every word makes a sentence less likely."""
    spellings: int = 2
    """Ways of writing the same words that are kept; more fills the width with one command."""


@dataclass(frozen=True, slots=True)
class DecodedSentence:
    """A finished sentence."""

    pieces: tuple[int, ...]
    log_probability: float
    """Of the sentence, given the sound."""
    expected: float
    """The same given silence: how the model would like the sentence anyway."""
    weight: float
    """Words, as they count for the bonus."""
    behind: tuple[float, ...] = ()
    """How far each piece, and the end, was behind the likeliest there, nats. A command that
    was said is a little behind now and then; one made of other words is far behind once."""

    def score(self, breadth: Beam) -> float:
        """What sentences are compared by."""
        taken_off = breadth.prior * self.expected
        return self.log_probability - taken_off + breadth.bonus * self.weight


@dataclass(frozen=True, slots=True)
class Found:
    """What a search brought."""

    sentences: tuple[DecodedSentence, ...]
    """Likeliest first."""
    free: DecodedSentence | None
    """What the model would have written had it been free, where that was asked for."""


@dataclass(frozen=True, slots=True)
class Ears:
    """The model with one utterance in its memory, and with silence."""

    model: Moonshine
    heard: Memory
    silence: Memory
    unwanted: Event = field(default_factory=Event)
    """Set when more sound made the search useless."""


class Unwanted(Exception):
    """The search was given up."""


@dataclass(slots=True)
class _Row:
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
    """The hypothesis that follows no path."""

    pieces: tuple[int, ...] = ()
    sound: float = 0.0
    expected: float = 0.0
    ended: bool = False

    def advance(self, steps: tuple[DecoderStep, DecoderStep], row: int) -> None:
        """One piece on, the likeliest."""
        heard, silent = (step.scores[row] - step.log_totals[row] for step in steps)
        piece = int(heard.argmax())
        self.sound += float(heard[piece])
        self.expected += float(silent[piece])
        self.ended = piece == END
        if not self.ended:
            self.pieces = (*self.pieces, piece)

    def sentence(self) -> DecodedSentence:
        """What it has written."""
        return DecodedSentence(self.pieces, self.sound, self.expected, 0.0)


class _Ways:
    """Every way on from every hypothesis, in parallel arrays."""

    def __init__(
        self, rows: list[_Row], steps: tuple[DecoderStep, DecoderStep], paths: DecodingGraph
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
        """What they are compared by."""
        found: np.ndarray = self.sound - breadth.prior * self.expected
        found += breadth.bonus * self.weights
        return found


def search(
    ears: Ears,
    paths: DecodingGraph,
    breadth: Beam,
    longest: int,
    free: bool = False,
    floor: float = -np.inf,
) -> Found:
    """
    Finished sentences, likeliest first.

    ``longest`` is the most pieces a sentence may have; ``free`` also follows what the
    model would write if nothing held it, as one more row of the same batch; ``floor``
    is the score of a sentence that is known already, which others are measured by.
    """
    rows = [_Row(paths.start, (), (), 0.0, 0.0, 0.0, ())]
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
    return Found(tuple(done), loose.sentence() if free else None)


def _steps(
    ears: Ears, steps: tuple[DecoderStep, DecoderStep], parents: list[int], pieces: list[int]
) -> tuple[DecoderStep, DecoderStep]:
    """One piece on in the utterance and in silence, at the same time."""

    def onward(one: tuple[Memory, DecoderStep]) -> DecoderStep:
        return _step(ears.model, one[0], one[1], parents, pieces)

    heard, silent = ears.model.side_by_side(
        onward, zip((ears.heard, ears.silence), steps, strict=True)
    )
    return heard, silent


def _step(
    model: Moonshine, memory: Memory, step: DecoderStep, parents: list[int], pieces: list[int]
) -> DecoderStep:
    past = tuple(np.take(kept, parents, axis=0) for kept in step.past)
    return model.step(memory, past, np.array(pieces, np.int64))


def _advance(
    ways: _Ways, rows: list[_Row], breadth: Beam, done: list[DecodedSentence], floor: float
) -> tuple[list[_Row], list[int]]:
    """Every hypothesis one piece on, and whose child each is; finished ones go to ``done``."""
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
    following: list[_Row] = []
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
        following.append(_Row(same[0], pieces, words, *numbers, behind))
    return following, parents
