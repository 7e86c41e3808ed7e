"""Runs the built-in model's two networks: sound to states, states and words to scores.

The networks come with the package ``moonshine-voice``; only its files are used, none of
its code. Shapes: the encoder gives one state of 288 numbers for every 24 ms; the decoder has
6 layers, each with 8 heads of 36 numbers.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path
from typing import Any, TypeVar

import numpy as np

from assistant.ears.packaged import packaged_folder
from assistant.errors import EarsError
from assistant.sound.ready_made import how_to_get
from assistant.sound.voice_parts import voice_part

PACKAGE = "moonshine-voice"
VERSION = "0.0.73"
"""The last version whose wheel contains the networks."""
_FOLDER = "moonshine_voice/assets/tiny-en"
ENCODER, DECODER, PIECES = "encoder_model.ort", "decoder_model_merged.ort", "tokenizer.bin"
START, END = 1, 2
"""Tokens that begin and end a sentence."""
_LAYERS, _HEADS, _WIDTH = 6, 8, 36
_SHORTEST = 8_000
"""Least samples for the encoder; shorter sound is filled up with silence."""

HOW_TO_GET = (
    f"The built-in recogniser ({PACKAGE} {VERSION}) is not installed. {how_to_get(PACKAGE)}"
)


def model_folder() -> Path:
    """
    Where the networks are, without loading any of the package's code.

    Raises :class:`EarsError` with what to do where they are missing.
    """
    otherwise = f"Version {VERSION} does: pip install '{PACKAGE}=={VERSION}'."
    return packaged_folder(PACKAGE, _FOLDER, (ENCODER, DECODER, PIECES), HOW_TO_GET, otherwise)


Given = TypeVar("Given")
Made = TypeVar("Made")


@dataclass(frozen=True, slots=True)
class Attended:
    """What the decoder attends to in one utterance; all hypotheses share it."""

    states: np.ndarray
    """(1, frames, 288) float32."""
    shared: dict[str, np.ndarray]
    """Keys and values of the states, (1, 8, frames, 36) each, and the mask."""
    first: DecoderStep
    """The decoder's answer to the start token."""


@dataclass(frozen=True)
class DecoderStep:
    """The decoder's answer to one more token of each hypothesis."""

    scores: np.ndarray
    """(hypotheses, tokens) float32, as the network gives them."""
    past: tuple[np.ndarray, ...]
    """12 arrays (hypotheses, 8, tokens so far, 36): the cache of each hypothesis."""

    @cached_property
    def log_totals(self) -> np.ndarray:
        """(hypotheses,): to be subtracted from scores to make them log-probabilities."""
        totals = np.empty(len(self.scores), np.float32)
        room = np.empty_like(self.scores[0])
        # Row by row, so that the work stays in the processor's cache: six times as fast.
        for row, scores in enumerate(self.scores):
            top = scores.max()
            np.subtract(scores, top, out=room)
            np.exp(room, out=room)
            totals[row] = top + np.log(room.sum())
        return totals


class Moonshine:
    """The two networks, loaded."""

    def __init__(self, folder: Path, threads: int = 2) -> None:
        ort = voice_part("onnxruntime")
        options = ort.SessionOptions()
        # One thread a run, and two runs at once: the matrices are small, and two threads inside
        # one run mostly wait for each other.
        options.intra_op_num_threads = 1
        options.inter_op_num_threads = 1
        self._beside = ThreadPoolExecutor(threads, thread_name_prefix="model")
        # A thread that spins while it waits would take a core from the recording.
        options.add_session_config_entry("session.intra_op.allow_spinning", "0")
        try:
            self._encoder = ort.InferenceSession(str(folder / ENCODER), options)
            self._decoder = ort.InferenceSession(str(folder / DECODER), options)
        except Exception as trouble:  # onnxruntime has no base class of its own for these
            raise EarsError(f"The speech model in {folder} cannot be loaded: {trouble}") from None
        names = [
            f"{layer}.{part}.{kind}"
            for layer in range(_LAYERS)
            for part in ("decoder", "encoder")
            for kind in ("key", "value")
        ]
        self._own = [name for name in names if ".decoder." in name]
        self._shared = [name for name in names if ".encoder." in name]
        self.runtime = f"onnxruntime {ort.__version__}"

    def side_by_side(self, work: Callable[[Given], Made], given: Iterable[Given]) -> list[Made]:
        """The function's results for each, as many at once as there are threads."""
        return list(self._beside.map(work, given))

    def remember(self, sound: np.ndarray) -> Attended:
        """The sound, (n,) float32 at 16 kHz, as the decoder's memory of it."""
        return self._begin(self._states(sound))

    def log_probabilities(
        self, sound: np.ndarray, sentences: Sequence[tuple[int, ...]]
    ) -> np.ndarray:
        """
        (sentences,) log-probabilities of whole sentences, in pieces, given (n,) of sound.

        All of them in one run of the decoder, since nothing is searched for.
        """
        states = np.repeat(self._states(sound), len(sentences), axis=0)
        longest = max(map(len, sentences)) + 1
        pieces = np.full((len(sentences), longest), END, np.int64)
        pieces[:, 0] = START
        for row, sentence in enumerate(sentences):
            pieces[row, 1 : len(sentence) + 1] = sentence
        (scores,) = self._decoder.run(["logits"], self._whole(states, pieces))
        found = np.zeros(len(sentences))
        for row, sentence in enumerate(sentences):
            # The scores after a piece are for the next one; after the last, for the end.
            wanted = np.array((*sentence, END))
            told = scores[row, : len(wanted)]
            top = told.max(axis=1, keepdims=True)
            totals = top[:, 0] + np.log(np.exp(told - top).sum(axis=1))
            found[row] = float((told[np.arange(len(wanted)), wanted] - totals).sum())
        return found

    def _states(self, sound: np.ndarray) -> np.ndarray:
        if len(sound) < _SHORTEST:
            sound = np.pad(sound, (0, _SHORTEST - len(sound)))
        row = np.ascontiguousarray(sound, np.float32)[None]
        (states,) = self._encoder.run(
            None, {"input_values": row, "attention_mask": np.ones(row.shape, np.int64)}
        )
        found: np.ndarray = states
        return found

    def _whole(self, states: np.ndarray, pieces: np.ndarray) -> dict[str, Any]:
        """The decoder's inputs while its cache is empty."""
        empty = np.zeros((len(pieces), _HEADS, 0, _WIDTH), np.float32)
        return {
            # A mask of the sound's samples, all of which count: the network takes every 384th
            # for a frame, so a mask of frames would only do for the first nine seconds.
            "encoder_attention_mask": np.ones((1, 1), np.int64),
            "input_ids": pieces,
            "encoder_hidden_states": states,
            "use_cache_branch": np.array([False]),
            **{f"past_key_values.{n}": empty for n in (*self._own, *self._shared)},
        }

    def _begin(self, states: np.ndarray) -> Attended:
        given = self._whole(states, np.array([[START]]))
        wanted = ["logits", *(f"present.{name}" for name in (*self._own, *self._shared))]
        scores, *kept = self._decoder.run(wanted, given)
        own, shared = kept[: len(self._own)], kept[len(self._own) :]
        feed = {f"past_key_values.{n}": v for n, v in zip(self._shared, shared, strict=True)}
        return Attended(
            states,
            {**feed, **{n: given[n] for n in ("encoder_attention_mask", "encoder_hidden_states")}},
            DecoderStep(scores[:, -1], tuple(own)),
        )

    def step(
        self, memory: Attended, past: tuple[np.ndarray, ...], tokens: np.ndarray
    ) -> DecoderStep:
        """
        Add one token, (hypotheses,) int64, to hypotheses with these caches.

        The memory is passed once for all of them: the network's products broadcast a single
        row over the batch, which saves copying it for each.
        """
        wanted = ["logits", *(f"present.{name}" for name in self._own)]
        feed: dict[str, Any] = {
            **memory.shared,
            "input_ids": tokens[:, None],
            "use_cache_branch": np.array([True]),
            **{f"past_key_values.{n}": v for n, v in zip(self._own, past, strict=True)},
        }
        scores, *own = self._decoder.run(wanted, feed)
        return DecoderStep(scores[:, -1], tuple(own))
