"""Close calls are weighed anew; with a model made by hand, and with the real one."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any

import numpy as np
import pytest

from assistant.ears.beam_search import DecodedSentence
from assistant.ears.entries import Hypothesis
from assistant.ears.moonshine import END, Moonshine, model_folder
from assistant.ears.second_listen import CLOSE, COMPARED, is_close, weigh_again
from assistant.errors import EarsError

pytest.importorskip("soxr", reason="needs the voice extra")
SOUND = np.random.default_rng(1).normal(0, 0.01, 16_000).astype(np.float32)


def entries(*scores: float) -> list[Hypothesis]:
    return [
        Hypothesis(f"bravo {at}", DecodedSentence((at,), 0.0, 0.0, 1.0), score)
        for at, score in enumerate(scores)
    ]


FREE = DecodedSentence((99,), -0.5, 0.0, 0.0)


class Opinions:
    """A model whose opinion of each sentence depends on how long the sound is."""

    def __init__(
        self, usual: Sequence[float], changed: Sequence[float], free: tuple[float, float] = (0, 0)
    ) -> None:
        self.usual, self.changed, self.free = np.array(usual), np.array(changed), free
        self.lengths: list[int] = []

    def side_by_side(self, work: Callable[[Any], Any], given: Iterable[Any]) -> list[Any]:
        return [work(one) for one in given]

    def log_probabilities(
        self, sound: np.ndarray, sentences: Sequence[tuple[int, ...]]
    ) -> np.ndarray:
        assert sound.dtype == np.float32
        self.lengths.append(len(sound))
        assert sentences[-1] == FREE.pieces
        usual = len(sound) == len(SOUND)
        commands = (self.usual if usual else self.changed)[: len(sentences) - 1]
        return np.array([*commands, self.free[0 if usual else 1]])


def weighed(model: Opinions, before: list[Hypothesis]) -> list[Hypothesis]:
    return weigh_again(model, SOUND, before, FREE)  # type: ignore[arg-type]


def test_only_a_close_call_is_worth_it() -> None:
    assert is_close(entries(-1.0, -1.0 - CLOSE + 0.1))
    assert not is_close(entries(-1.0, -1.0 - CLOSE - 0.1))
    assert not is_close(entries(-1.0))
    assert not is_close([])


def test_seven_changes_of_the_sound_are_averaged_with_the_sound_itself() -> None:
    model = Opinions([-2.0, -3.0], [-10.0, -3.0])
    after = weighed(model, entries(-1.0, -2.0))
    # The second gained eight nats on the first in seven of eight hearings.
    assert [entry.words for entry in after] == ["bravo 1", "bravo 0"]
    assert [entry.score for entry in after] == pytest.approx([-2.0, -1.0 - 7.0])
    usual, *others = model.lengths
    assert usual == len(SOUND)
    assert others == pytest.approx(
        [
            usual / 0.75, usual / 0.84, usual / 0.9 + 2 * 4_800, usual + 2 * 4_000,
            usual + 2 * 8_000, usual / 1.12, usual / 1.3,
        ],
        abs=20,
    )  # fmt: skip


def test_how_far_behind_the_free_sentence_is_averaged_too() -> None:
    # The free sentence lost eight nats in seven of eight hearings, the first command nothing.
    after = weighed(Opinions([-2.0, -9.0], [-2.0, -9.0], free=(-1.0, -9.0)), entries(-1.0, -2.0))
    assert [entry.best.log_probability for entry in after] == pytest.approx([7.0, 7.0])
    assert [entry.score for entry in after] == pytest.approx([-1.0, -2.0])


def test_what_makes_all_of_them_likelier_changes_nothing() -> None:
    after = weighed(Opinions([-2.0, -3.0], [-12.0, -13.0]), entries(-1.0, -2.0))
    assert [entry.score for entry in after] == pytest.approx([-1.0, -2.0])


def test_those_far_behind_stay_as_they_are() -> None:
    before = entries(*(-1.0 - at for at in range(COMPARED + 2)))
    far = [entry.score for entry in before[COMPARED:]]
    after = weighed(Opinions([0.0] * COMPARED, [-9.0, *[0.0] * (COMPARED - 1)]), before)
    assert len(after) == len(before)
    assert [entry.score for entry in after[COMPARED:]] == far
    assert after[COMPARED - 1].words == "bravo 0"


@pytest.mark.voice
def test_a_long_sound_is_listened_to_again_too() -> None:
    try:
        model = Moonshine(model_folder())
    except EarsError as fault:
        pytest.skip(str(fault))
    long = np.random.default_rng(1).normal(0, 0.01, 12 * 16_000).astype(np.float32)
    told = model.log_probabilities(long, [(402, 4369), (402, 25020)])
    assert np.isfinite(told).all()


@pytest.mark.voice
def test_whole_sentences_come_to_the_same_as_piece_by_piece() -> None:
    try:
        model = Moonshine(model_folder())
    except EarsError as fault:
        pytest.skip(str(fault))
    sentences = [(402, 4369, 25020), (402, 4369, 19044, 26134, 29889)]
    told = model.log_probabilities(SOUND, sentences)
    memory = model.remember(SOUND)
    for sentence, total in zip(sentences, told, strict=True):
        step, one_by_one = memory.first, 0.0
        for piece in (*sentence, END):
            one_by_one += float(step.scores[0, piece] - step.log_totals[0])
            step = model.step(memory, step.past, np.array([piece]))
        # The networks work in 8 bits: the same sum moves with what stands beside it.
        assert total == pytest.approx(one_by_one, abs=1.0)
