"""The sound of the benchmark: each sentence by one of its half's voices, in each noise."""

from __future__ import annotations

import hashlib
import os
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import count
from pathlib import Path

import numpy as np
from platformdirs import user_cache_path

from grammar.spoken import Manner
from tests.benchmarks.speech import noise
from tests.benchmarks.speech.cut_off import broken_commands
from tests.benchmarks.speech.sentences import Half, Said, commands, lines_of_talk, talk
from tests.benchmarks.speech.voices import TALKERS, Talker, said_by


@dataclass(frozen=True, slots=True)
class Setting:
    """A noise and how far speech stands above it."""

    noise: str
    """``clean``, ``white``, ``pink``, ``babble`` or ``mixer``."""
    snr_db: float | None = None

    @property
    def name(self) -> str:
        """As it stands in tables."""
        return self.noise if self.snr_db is None else f"{self.noise} {self.snr_db:g} dB"


CLEAN = Setting("clean")
SETTINGS = (
    CLEAN,
    *(Setting(kind, snr) for kind in ("white", "pink", "babble", "mixer") for snr in (20, 10, 5)),
)


@dataclass(frozen=True, slots=True)
class Clip:
    """A sentence by a voice in a noise."""

    said: Said
    talker: Talker
    setting: Setting
    half: Half

    def sound(self) -> np.ndarray:
        """(n,) float32, 16 kHz mono: 0.8 s of noise, the sentence, 1 s of noise."""
        speech = said_by(self.talker, self.said.text, cache_folder())
        background = None if self.setting == CLEAN else _noise(self.setting.noise, self.half)
        # The same stretch of noise at every ratio, so that only the ratio differs.
        recipe = f"{self.said.text} {self.talker.name} {self.setting.noise}"
        seed = int.from_bytes(hashlib.sha256(recipe.encode()).digest()[:4])
        return noise.mixed(speech, background, self.setting.snr_db or 0.0, seed=seed)


def clips(
    half: Half,
    settings: Sequence[Setting] = SETTINGS,
    manner: Manner = "words",
    limit: int | None = None,
) -> list[Clip]:
    """
    All clips of a half, setting by setting.

    `limit` takes so many commands only, evenly from all of them, and half as much talk. The
    half that is tuned on has as much again of commands that broke off.
    """
    broken = broken_commands(manner) if half == "tune" else ()
    everything = [*commands(half, manner), *talk(half, manner), *broken]
    if limit is not None:
        few = limit // 2
        everything = [*_evenly(commands(half, manner), limit), *_evenly(talk(half, manner), few)]
        everything += _evenly(broken, few)
    dealt = list(zip(everything, _by_turns(half), strict=False))
    return [Clip(said, talker, setting, half) for setting in settings for said, talker in dealt]


def _by_turns(half: Half) -> Iterator[Talker]:
    """
    The half's voices without end, each round begun one voice further.

    Round by round the same, twenty voices would each say the same one of every phrase's five
    sentences.
    """
    talkers = TALKERS[half]
    return (talkers[(at + at // len(talkers)) % len(talkers)] for at in count())


def _evenly(said: Sequence[Said], few: int) -> list[Said]:
    """So many of them, spread over all; all where there are no more."""
    if few >= len(said):
        return list(said)
    return [said[at * len(said) // few] for at in range(few)]


def setting_named(name: str) -> Setting:
    """
    A setting by what a person types.

    >>> setting_named("mixer:10").name, setting_named("clean").name
    ('mixer 10 dB', 'clean')
    """
    kind, _, snr = name.partition(":")
    if kind not in ("clean", "white", "pink", "babble", "mixer") or (kind == "clean") == bool(snr):
        raise ValueError(f"no such noise: {name}; one is mixer:10, another clean")
    return Setting(kind, float(snr) if snr else None)


def cache_folder() -> Path:
    """Where spoken sentences are kept; ``LEADSMAN_SPEECH_CACHE`` says otherwise."""
    told = os.environ.get("LEADSMAN_SPEECH_CACHE")
    return Path(told) if told else user_cache_path("leadsman") / "speech-benchmark"


@cache
def _noise(kind: str, half: Half) -> np.ndarray:
    """Another stretch of every noise for each half; babble from the half's own voices."""
    seed = {"tune": 100, "report": 300}[half]
    if kind == "babble":
        lines = lines_of_talk(half)[:24]
        folder, talkers = cache_folder(), TALKERS[half]
        spoken = [
            said_by(talkers[at % len(talkers)], said.text, folder) for at, said in enumerate(lines)
        ]
        made = noise.babble(spoken, seed=seed)
    else:
        made = {"white": noise.white, "pink": noise.pink, "mixer": noise.mixer}[kind](seed)
    return made.astype(np.float32)
