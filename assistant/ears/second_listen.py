"""Decodes doubtful sound again, slower and deeper, and faster and higher.

The model's preference for one sentence over another varies with things that do not matter,
above all the speaker's size and pace. Averaged over a few such changes it is right more often,
and surer where it is right; a sentence that was never said is likely at one pace only.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

import numpy as np

from assistant.ears.beam_search import DecodedSentence
from assistant.ears.entries import Hypothesis
from assistant.ears.moonshine import Moonshine
from assistant.sound.chunks import SAMPLE_RATE
from assistant.sound.voice_parts import voice_part

CLOSE = 5.0
"""Nats between the first and the second, past which no second decoding has changed the order.
Higher costs time and changes nothing."""
COMPARED = 4
"""Commands that are scored again."""
_CHANGES = (
    (0.75, 0.0), (0.84, 0.0), (0.9, 0.3), (1.0, 0.25), (1.0, 0.5), (1.12, 0.0), (1.3, 0.0),
)  # fmt: skip
"""Paces, and seconds of quiet before and after. Of 344 close calls on the tuning half of the
speech benchmark, in quiet, the first was right in 92 of 100 heard once and in 95 heard so; of
447 in mixer noise at 10 dB, in 81 and 89. Past 0.7 and 1.4 they bring less, and changes far
apart bring more than as many near by. Each takes about 25 ms."""
_ROOM = 1e-4
"""Level of the quiet, as the model was never trained on pure zeros."""


def is_close(entries: Sequence[Hypothesis]) -> bool:
    """Whether the first two are so close that it is worth decoding again."""
    return len(entries) > 1 and entries[0].score - entries[1].score < CLOSE


def weigh_again(
    model: Moonshine, sound: np.ndarray, entries: list[Hypothesis], free: DecodedSentence
) -> list[Hypothesis]:
    """
    The entries in their new order, the first of them scored again.

    Scores stay relative to the free sentence, which is not scored again. ``sound``: (n,)
    float32, 16 kHz mono; ``entries``: those that may be meant, likeliest first.
    """
    compared = entries[:COMPARED]
    sentences = [*(entry.best.pieces for entry in compared), free.pieces]
    first, *others = model.side_by_side(
        lambda heard: model.log_probabilities(heard, sentences), (sound, *_changed(sound))
    )
    shifts = [np.zeros(len(first)), *(other - first for other in others)]
    *shift, free_shift = np.mean(shifts, axis=0)
    # One pace makes all of them likelier than another, so only differences count.
    for entry, more in zip(compared, shift, strict=True):
        nearer = entry.best.log_probability + float(more - free_shift)
        entry.best = replace(entry.best, log_probability=nearer)
        entry.score += float(more - max(shift))
    compared.sort(key=lambda entry: (-entry.score, entry.words))
    return [*compared, *entries[COMPARED:]]


def _changed(sound: np.ndarray) -> Iterator[np.ndarray]:
    soxr = voice_part("soxr")
    random = np.random.default_rng(0)
    for pace, quiet_s in _CHANGES:
        other = soxr.resample(sound, SAMPLE_RATE, round(SAMPLE_RATE / pace))
        quiet = random.standard_normal((2, int(quiet_s * SAMPLE_RATE))) * _ROOM
        yield np.concatenate((quiet[0], other, quiet[1])).astype(np.float32)
