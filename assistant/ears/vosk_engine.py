"""The engine vosk: streaming, with a model that the user fetched.

Its "grammar" is only a language model over pairs of our words, so whatever comes back is
parsed by ours and may fail. Its word confidences say nothing about talk that is no command
(such talk comes back at 1.0); the word ``[unk]`` in the list does, so an utterance that
holds one is refused.
"""

from __future__ import annotations

import json
import os
from collections.abc import Mapping, Sequence
from contextlib import suppress
from dataclasses import replace
from importlib import metadata
from itertools import product
from math import exp
from pathlib import Path
from time import perf_counter
from typing import Any

import numpy as np

from assistant.ears.hearing import NOTHING, SAMPLE_RATE, Alternative, EarsError, Heard, Tier
from assistant.record.places import user_folders
from assistant.voice_parts import voice_part
from grammar import short_form
from grammar.spoken import Spoken, plain_words
from grammar.vocabulary import fitted, phrases

VARIABLE = "LEADSMAN_VOSK_MODEL"
UNKNOWN = "[unk]"
_ALTERNATIVES = 8
"""Asked of vosk for each piece of an utterance. More finds farther rivals, slower."""
_SPREAD = 2.0
"""Vosk's scores are divided by this before they are made probabilities: they are too sure of
themselves. A guess, not measured on English: no English model comes in a package."""
_SURE = 0.9
"""Probability from which the first alternative is taken. Higher asks more often."""


def models_folder() -> Path:
    """Where fetched models are kept."""
    return user_folders().models


def find_model(given: str | Path | None = None) -> Path:
    """
    The model's folder: the one given, else the environment's, else the newest fetched one.

    Raises :class:`EarsError` with what to do where there is none, or it is no model.
    """
    named = given or os.environ.get(VARIABLE)
    if named:
        return _checked(Path(named).expanduser())
    kept = models_folder()
    found = [path for path in kept.iterdir() if _is_model(path)] if kept.is_dir() else []
    if not found:
        raise EarsError(
            "There is no vosk model yet. Fetch one with: leadsman voice fetch. Where there is no "
            f"network, copy an unpacked model folder into {kept}, or name it with --model "
            f"or in {VARIABLE}."
        )
    return max(found, key=lambda path: path.stat().st_mtime)


def _is_model(folder: Path) -> bool:
    return any((folder / name).is_file() for name in ("am/final.mdl", "final.mdl"))


def _checked(folder: Path) -> Path:
    if not folder.exists():
        raise EarsError(f"The vosk model {folder} is not there.")
    if folder.is_dir() and _is_model(folder):
        return folder
    inside = (
        sorted(path.name for path in folder.iterdir() if _is_model(path))
        if (folder.is_dir())
        else []
    )
    if inside:
        raise EarsError(f"{folder} holds the model one folder down: use {folder / inside[0]}.")
    kind = "a folder with am/final.mdl in it; unpack a zip file first"
    raise EarsError(f"{folder} is no vosk model. A model is {kind}.")


class VoskModel:
    """A model, loaded."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._vosk = voice_part("vosk")
        self._vosk.SetLogLevel(-1)
        try:
            self._model = self._vosk.Model(str(folder))
        except Exception:  # the package raises a bare Exception
            raise EarsError(f"vosk cannot load the model in {folder}.") from None

    def knows(self, word: str) -> bool:
        """Whether the model has a word; it drops others from a list without a sign."""
        return bool(self._model.vosk_model_find_word(word) >= 0)

    def listener(self, words: Sequence[str]) -> VoskListener:
        """Ears for one utterance, made of these phrases."""
        known = [*words, *([UNKNOWN] if self.knows(UNKNOWN) else [])]
        recogniser = self._vosk.KaldiRecognizer(
            self._model, SAMPLE_RATE, json.dumps(known, ensure_ascii=False)
        )
        # Asking for alternatives gives up the word confidences, which tell nothing here.
        recogniser.SetMaxAlternatives(_ALTERNATIVES)
        return VoskListener(recogniser)


class VoskListener:
    """
    One utterance: sound goes in, vosk's results come out.

    A listener is never used for a second one, nor given other words: changing the list
    within an utterance spoils it.
    """

    def __init__(self, recogniser: Any) -> None:
        self._recogniser = recogniser
        self._pieces: list[Mapping[str, Any]] = []
        self.samples = 0

    def feed(self, chunk: np.ndarray) -> None:
        """More sound, (n,) float32 at 16 kHz; vosk works on it at once."""
        self.samples += len(chunk)
        whole = np.clip(np.nan_to_num(chunk) * 32_767, -32_768, 32_767).astype("<i2").tobytes()
        if self._recogniser.AcceptWaveform(whole):
            # Vosk ends a piece at a pause of its own choosing; the utterance goes on.
            self._pieces.append(json.loads(self._recogniser.Result()))

    def pieces(self) -> list[Mapping[str, Any]]:
        """The end: vosk's results for all pieces of the utterance."""
        return [*self._pieces, json.loads(self._recogniser.FinalResult())]


class VoskEngine:
    """Vosk held to our words; see :class:`assistant.ears.hearing.Engine`."""

    name = "vosk"

    def __init__(self, spoken: Spoken | None = None, model: str | Path | None = None) -> None:
        self.model = VoskModel(find_model(model))
        self.use(spoken or Spoken())

    def use(self, spoken: Spoken) -> None:
        """Other settings or names, from the next utterance on."""
        fit = fitted(spoken, self.model.knows)
        words = phrases(spoken, fit)
        if not words:
            raise EarsError(
                f"The vosk model in {self.model.folder} knows none of the words that are said "
                "here: is it an English one?"
            )
        self._spoken, self.fit, self._words = spoken, fit, words
        self.start()

    def start(self) -> None:
        """Forget the last utterance."""
        self._listener = self.model.listener(self._words)

    def feed(self, chunk: np.ndarray) -> None:
        """More of the utterance."""
        self._listener.feed(chunk)

    def maybe_end(self) -> None:
        """Nothing to do ahead: the work is done as the sound comes."""

    def finish(self) -> Heard:
        """What was heard."""
        began = perf_counter()
        seconds = self._listener.samples / SAMPLE_RATE
        heard = heard_from(self._listener.pieces(), self._spoken, speech_s=seconds)
        self.start()
        return replace(heard, heard_s=perf_counter() - began)

    def info(self) -> Mapping[str, str]:
        """What is loaded."""
        version = "of an unknown version"
        with suppress(metadata.PackageNotFoundError):
            version = metadata.version("vosk")
        return {
            "engine": f"vosk {version}",
            "model": str(self.model.folder),
            "numbers": self._spoken.manner,
            "missing words": ", ".join(self.fit.missing) or "none",
        }


def heard_from(
    pieces: Sequence[Mapping[str, Any]],
    spoken: Spoken,
    speech_s: float = 0.0,
) -> Heard:
    """
    Vosk's results for the pieces of one utterance as what was heard.

    Each piece is a result as vosk gives it, with alternatives or without.
    """
    texts = _joined([_scored(piece) for piece in pieces])
    if not texts or not any(text for text, _ in texts):
        return replace(NOTHING, speech_s=speech_s)
    text = texts[0][0]
    alternatives = _alternatives(texts, spoken)
    return Heard(
        text,
        alternatives or (Alternative(text, None, None, 1.0, texts[0][1]),),
        _tier(text, alternatives),
        alternatives[0].command if alternatives else None,
        speech_s=speech_s,
    )


def _tier(text: str, alternatives: tuple[Alternative, ...]) -> Tier:
    if not alternatives or UNKNOWN in text.split():
        return "again"
    # Where the likeliest words are no command, the second best are a guess.
    parses = alternatives[0].words == text
    return "sure" if parses and alternatives[0].probability >= _SURE else "ask"


def _scored(piece: Mapping[str, Any]) -> list[tuple[str, float]]:
    found = piece.get("alternatives") or [piece]
    return [(str(one.get("text", "")), float(one.get("confidence", 0.0))) for one in found]


def _joined(pieces: list[list[tuple[str, float]]]) -> list[tuple[str, float]]:
    """Pieces that were said one after the other as whole texts, likeliest first."""
    spoken = [piece for piece in pieces if any(text for text, _ in piece)]
    # A third piece means a long silence within a command: few alternatives each are plenty.
    most = _ALTERNATIVES if len(spoken) < 2 else 3
    rows = product(*(piece[:most] for piece in spoken[:4]))
    texts = [(" ".join(t for t, _ in row).strip(), sum(s for _, s in row)) for row in rows]
    return sorted(texts, key=lambda one: -one[1])


def _alternatives(texts: list[tuple[str, float]], spoken: Spoken) -> tuple[Alternative, ...]:
    top = texts[0][1]
    weights: dict[str, float] = {}
    firsts: dict[str, tuple[str, Any, float]] = {}
    for text, score in texts:
        commands = () if UNKNOWN in text.split() else spoken.meanings(text)
        if not commands or not spoken.automaton.accepts(plain_words(text)):
            continue
        name = repr(commands[0])
        weights[name] = weights.get(name, 0.0) + exp((score - top) / _SPREAD)
        firsts.setdefault(name, (text, commands[0], score))
    total = sum(weights.values())
    ranked = sorted(firsts, key=lambda name: -weights[name])
    return tuple(
        Alternative(text, command, short_form(command), weights[name] / total, score)
        for name in ranked
        for text, command, score in (firsts[name],)
    )
