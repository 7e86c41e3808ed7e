"""The streaming engine vosk, with a model that the user downloaded.

Its "grammar" is only a language model over pairs of our words, so its results may not parse in
ours; :mod:`assistant.ears.vosk_results` says how far they are trusted.
"""

from __future__ import annotations

import json
import os
import re
import tempfile
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import replace
from importlib import metadata
from pathlib import Path
from time import perf_counter
from typing import Any

import numpy as np

from assistant.ears.answers import NONE, Answers
from assistant.ears.hearing import Heard
from assistant.ears.vosk_results import ALTERNATIVES, UNKNOWN, Trust, heard_from
from assistant.errors import EarsError
from assistant.record.places import user_folders
from assistant.sound.chunks import SAMPLE_RATE
from assistant.sound.voice_parts import voice_part
from grammar.commands import Command
from grammar.spoken import Spoken
from grammar.vocabulary import fit_vocabulary, recogniser_phrases

VARIABLE = "LEADSMAN_VOSK_MODEL"
WIDE = 8.0
"""Lattice beam: how far behind the likeliest a result is still listed. Models come set to 2 or 6:
at 2, every third utterance of our trials had one result only, wrong more often than right; at 8
one in forty had, for a quarter more work. The search itself stops at 10."""
_UNTOLD = 6.0
"""Vosk's own beam, where a model does not set one."""
_SETTINGS = Path("conf", "model.conf")
_BEAM = re.compile(r"^\s*--lattice-beam=([0-9.]+)\s*$", re.MULTILINE)
_TALK_UNKNOWN = "not told from commands, so changes are always asked about"
_NAMED = 5
"""Missing words that are named; the rest are counted."""


def models_folder() -> Path:
    """The folder of downloaded models."""
    return user_folders().models


def find_model(given: str | Path | None = None) -> Path:
    """
    The model's folder: the one given, else the environment's, else the newest downloaded one.

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


def beam_of(folder: Path) -> float:
    """The lattice beam that a model is set to."""
    try:
        found = _BEAM.search((folder / _SETTINGS).read_text("utf-8", "replace"))
        return float(found[1]) if found else _UNTOLD
    except (OSError, ValueError):
        return _UNTOLD


@contextmanager
def with_wider_beam(folder: Path) -> Iterator[Path]:
    """
    The model with its lattice beam set to `WIDE`, in a temporary folder.

    Its files are linked, not copied. Where that is impossible it is the model's own folder.
    """
    if beam_of(folder) >= WIDE or not (folder / _SETTINGS).is_file():
        yield folder
        return
    with tempfile.TemporaryDirectory(prefix="leadsman-", ignore_cleanup_errors=True) as name:
        try:
            place = _linked(folder, Path(name))
        except OSError:  # links may be forbidden, or the folder be full
            place = folder
        yield place


def _linked(folder: Path, place: Path) -> Path:
    """Link all the model's files but its settings."""
    for path in folder.rglob("*"):
        if path.is_dir():
            continue
        link = place / path.relative_to(folder)
        link.parent.mkdir(parents=True, exist_ok=True)
        if link == place / _SETTINGS:
            told = _BEAM.sub("", path.read_text("utf-8", "replace")).rstrip()
            link.write_text(f"{told}\n--lattice-beam={WIDE}\n", "utf-8")
            continue
        try:
            link.symlink_to(path.resolve())
        except OSError:  # where only an administrator may link
            link.hardlink_to(path.resolve())
    return place


class VoskModel:
    """A model, loaded."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self._vosk = voice_part("vosk")
        self._vosk.SetLogLevel(-1)
        try:
            with with_wider_beam(folder) as wide:
                self._model = self._vosk.Model(str(wide))
                keeps = beam_of(wide)
        except Exception:  # the package raises a bare Exception
            raise EarsError(f"vosk cannot load the model in {folder}.") from None
        self.trust = Trust(keeps, self.knows(UNKNOWN))

    def knows(self, word: str) -> bool:
        """Whether the model has a word; it silently drops others from a list."""
        return bool(self._model.vosk_model_find_word(word) >= 0)

    def listener(self, words: Sequence[str]) -> VoskListener:
        """A listener for one utterance of these phrases."""
        known = [*words, *([UNKNOWN] if self.trust.knows_talk else [])]
        recogniser = self._vosk.KaldiRecognizer(
            self._model, SAMPLE_RATE, json.dumps(known, ensure_ascii=False)
        )
        # With alternatives there are no word confidences, which are useless here.
        recogniser.SetMaxAlternatives(ALTERNATIVES)
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
        """End the utterance; vosk's results for all its pieces."""
        return [*self._pieces, json.loads(self._recogniser.FinalResult())]


class VoskEngine:
    """Vosk held to our words; see :class:`assistant.ears.hearing.Engine`."""

    name = "vosk"

    def __init__(self, spoken: Spoken | None = None, model: str | Path | None = None) -> None:
        self.model = VoskModel(find_model(model))
        self.use(spoken or Spoken())

    def use(self, spoken: Spoken) -> None:
        """Other settings or names, from the next utterance on."""
        fit = fit_vocabulary(spoken, self.model.knows)
        words = recogniser_phrases(spoken, fit)
        if not words:
            raise EarsError(
                f"The vosk model in {self.model.folder} lacks too many of the words that are said "
                f"here ({first_few_named(fit.missing)}): is it an English one?"
            )
        self._spoken, self.fit, self._words = spoken, fit, words
        self._answers = NONE
        self._also: tuple[str, ...] = ()
        self.start()

    def hear_readings_in(self, unit: str | None) -> None:
        """The unit of the job's readings; see :func:`hearing.hear_readings_in`."""
        if self._spoken.open_unit != (unit == "mm"):
            self.use(replace(self._spoken, open_unit=unit == "mm"))

    def expect(self, answers: Mapping[str, Command]) -> None:
        """What else may be said from the next utterance on; see :func:`hearing.expect`."""
        self._answers = Answers(answers)
        said = (words.split() for words in answers)
        known = self.fit.spelling
        self._also = tuple(
            " ".join(known[word] for word in words)
            for words in said
            if all(word in known for word in words)
        )

    def start(self) -> None:
        """Forget the last utterance."""
        self._listener = self.model.listener([*self._words, *self._also])

    def feed(self, chunk: np.ndarray) -> None:
        """More of the utterance."""
        self._listener.feed(chunk)

    def maybe_end(self) -> None:
        """Nothing to do ahead: the work is done as the sound comes."""

    def finish(self) -> Heard:
        """What was heard."""
        began = perf_counter()
        seconds = self._listener.samples / SAMPLE_RATE
        pieces = self._listener.pieces()
        heard = heard_from(pieces, self._spoken, self.model.trust, self._answers, seconds)
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
            "alternatives": f"down to {self.model.trust.keeps:g} behind the likeliest",
            "talk": "told by [unk]" if self.model.trust.knows_talk else _TALK_UNKNOWN,
            "missing words": first_few_named(self.fit.missing) or "none",
        }


def first_few_named(words: Sequence[str]) -> str:
    """
    The first few of some words, and how many more there are.

    >>> first_few_named(["alfa", "bravo"]), first_few_named(list("abcdefgh"))
    ('alfa, bravo', 'a, b, c, d, e and 3 more')
    """
    first = ", ".join(words[:_NAMED])
    return first if len(words) <= _NAMED else f"{first} and {len(words) - _NAMED} more"
