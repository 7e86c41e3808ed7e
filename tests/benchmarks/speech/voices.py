"""Who speaks in the benchmark: synthetic voices from packages, none of them in both halves."""

from __future__ import annotations

import hashlib
import shutil
import subprocess
import tempfile
import wave
from dataclasses import dataclass
from functools import cache
from importlib.metadata import version
from pathlib import Path
from typing import Any, Literal

import numpy as np

from assistant.sound.resample import resample_all
from assistant.sound.voice_parts import voice_part
from tests.benchmarks.speech.sentences import Half

Program = Literal["espeak-ng", "festival", "flite", "hibari"]


@dataclass(frozen=True, slots=True)
class Talker:
    """A voice and its pace."""

    name: str
    program: Program
    voice: str
    pace: float = 1.0
    """Against the program's own; higher is quicker."""


TALKERS: dict[Half, tuple[Talker, ...]] = {
    "tune": (
        Talker("espeak British", "espeak-ng", "en-gb"),
        Talker("espeak Scottish", "espeak-ng", "en-gb-scotland+m3", 0.95),
        Talker("espeak Lancashire woman", "espeak-ng", "en-gb-x-gbclan+f2"),
        Talker("espeak New York", "espeak-ng", "en-us-nyc", 1.1),
        Talker("espeak American woman", "espeak-ng", "en-us+f3", 0.9),
        Talker("flite slt", "flite", "slt"),
        Talker("flite rms", "flite", "rms", 1.1),
        Talker("espeak British man", "espeak-ng", "en-gb+m5", 0.95),
        Talker("espeak American man", "espeak-ng", "en-us+m2", 1.1),
        Talker("espeak Scottish woman", "espeak-ng", "en-gb-scotland+f1"),
        Talker("espeak Lancashire", "espeak-ng", "en-gb-x-gbclan", 1.05),
        Talker("espeak New York woman", "espeak-ng", "en-us-nyc+f2", 0.9),
        # Reported on until these halves were made, 2026-11.
        Talker("espeak RP woman", "espeak-ng", "en-gb-x-rp+f4"),
        Talker("espeak American", "espeak-ng", "en-us", 1.05),
        Talker("espeak West Midlands", "espeak-ng", "en-gb-x-gbcwmd+m7", 0.95),
        Talker("espeak Caribbean", "espeak-ng", "en-029"),
        Talker("flite awb", "flite", "awb"),
        Talker("flite kal16", "flite", "kal16", 0.95),
        # People on a site speak fast.
        Talker("espeak British quick", "espeak-ng", "en-gb+m1", 1.35),
        Talker("flite slt quick", "flite", "slt", 1.3),
        # Reported on, a second time; and more like them, whom the ears found hardest.
        Talker("espeak RP man", "espeak-ng", "en-gb-x-rp+m4", 1.05),
        Talker("espeak another American woman", "espeak-ng", "en-us+f5"),
        Talker("espeak West Midlands woman", "espeak-ng", "en-gb-x-gbcwmd+f1", 0.95),
        Talker("espeak Caribbean woman", "espeak-ng", "en-029+f2"),
        Talker("espeak Scottish quick", "espeak-ng", "en-gb-scotland+m6", 1.2),
        Talker("espeak American woman quick", "espeak-ng", "en-us+f1", 1.25),
        Talker("espeak third West Midlands woman", "espeak-ng", "en-gb-x-gbcwmd+f3", 0.95),
        Talker("espeak another Caribbean woman", "espeak-ng", "en-029+f4"),
        Talker("espeak another Scottish quick", "espeak-ng", "en-gb-scotland+m4", 1.25),
        # And a third time.
        Talker("espeak another RP man", "espeak-ng", "en-gb-x-rp+m7", 1.05),
        Talker("espeak third American woman", "espeak-ng", "en-us+f2"),
        Talker("espeak another West Midlands woman", "espeak-ng", "en-gb-x-gbcwmd+f4", 0.95),
        Talker("espeak third Caribbean woman", "espeak-ng", "en-029+f1"),
        Talker("espeak third Scottish quick", "espeak-ng", "en-gb-scotland+m2", 1.2),
    ),
    "report": (
        Talker("espeak third RP man", "espeak-ng", "en-gb-x-rp+m6", 1.05),
        Talker("espeak fourth American woman", "espeak-ng", "en-us+linda"),
        Talker("espeak fourth West Midlands woman", "espeak-ng", "en-gb-x-gbcwmd+f5", 0.95),
        Talker("espeak fourth Caribbean woman", "espeak-ng", "en-029+f3"),
        Talker("espeak fourth Scottish quick", "espeak-ng", "en-gb-scotland+m5", 1.2),
        # Reported on before, and nothing was ever fitted to them.
        Talker("festival ked", "festival", "ked_diphone"),
        Talker("hibari", "hibari", "heart"),
        Talker("hibari quick", "hibari", "heart", 1.2),
    ),
}
_WORDS_A_MINUTE = 155
_SAID_ALOUD = {"alfa": "alpha", "juliett": "juliet", "xray": "x ray", "lima": "leema"}
"""Spellings that voices read as people say the word."""
_SAID_ALOUD_BY: dict[Program, dict[str, str]] = {
    "festival": {
        "metre": "meter", "millimetre": "millimeter", "centimetre": "centimeter",
        "metres": "meters", "millimetres": "millimeters", "centimetres": "centimeters",
        "levelling": "leveling",
    },
}  # fmt: skip
"""More of them for one program: its American dictionary guesses at British spellings."""


def missing(half: Half) -> tuple[str, ...]:
    """What has to be installed before this half can speak; nothing where all is there."""
    wanted: set[str] = {talker.program for talker in TALKERS[half]}
    if "festival" in wanted:
        wanted.add("text2wave")
    lacking = [name for name in sorted(wanted - {"hibari"}) if shutil.which(name) is None]
    if "hibari" in wanted:
        try:
            version("hibari-tts")
        except ModuleNotFoundError:
            lacking.append("hibari-tts")
    if "festival" in wanted and "festival" not in lacking:
        lacking += _festival_lacks({t.voice for t in TALKERS[half] if t.program == "festival"})
    return tuple(lacking)


def _festival_lacks(voices: set[str]) -> list[str]:
    """Its voices are packages of their own, and it says nothing where one is not there."""
    line = ["festival", "--batch", "(print (voice.list))"]
    told = subprocess.run(line, check=True, capture_output=True, text=True).stdout
    there = set(told.replace("(", " ").replace(")", " ").split())
    return [f"festival's voice {voice}" for voice in sorted(voices - there)]


def said_by(talker: Talker, text: str, folder: Path) -> np.ndarray:
    """A sentence spoken, (n,) float32 at 16 kHz; kept in `folder` by what it was made from."""
    spelt = _SAID_ALOUD | _SAID_ALOUD_BY.get(talker.program, {})
    aloud = " ".join(spelt.get(word, word) for word in text.split())
    recipe = f"{talker.program} {_version(talker.program)} {talker.voice} {talker.pace} {aloud}"
    kept = folder / f"{hashlib.sha256(recipe.encode()).hexdigest()[:32]}.npy"
    if kept.exists():
        return _loaded(kept)
    sound = _spoken(talker, aloud)
    folder.mkdir(parents=True, exist_ok=True)
    # Put in place in one step: two runs may share the folder.
    with tempfile.NamedTemporaryFile(dir=folder, suffix=".part", delete=False) as part:
        np.save(part, np.clip(sound * 32768, -32768, 32767).astype(np.int16))
    Path(part.name).replace(kept)
    return _loaded(kept)


def _loaded(kept: Path) -> np.ndarray:
    sound: np.ndarray = np.load(kept).astype(np.float32) / 32768
    return sound


def _spoken(talker: Talker, aloud: str) -> np.ndarray:
    if talker.program == "hibari":
        model = _hibari()
        return resample_all(model(aloud + ".", speed=talker.pace, seed=0), model.sample_rate)
    with tempfile.TemporaryDirectory() as name:
        path = Path(name) / "said.wav"
        # Festival reads what to say from its input; the others have it on their line.
        line, told = _line(talker, aloud, path), aloud.encode()
        subprocess.run(line, input=told, check=True, capture_output=True)
        with wave.open(str(path)) as file:
            rate_hz = file.getframerate()
            samples = np.frombuffer(file.readframes(file.getnframes()), "<i2")
    return resample_all(samples.astype(np.float32) / 32768, rate_hz)


def _line(talker: Talker, aloud: str, path: Path) -> list[str]:
    stretch = f"{1 / talker.pace:.3f}"
    if talker.program == "festival":
        pace = f"(Parameter.set 'Duration_Stretch {stretch})"
        return ["text2wave", "-eval", f"(begin (voice_{talker.voice}) {pace})", "-o", str(path)]
    if talker.program == "flite":
        pace = f"duration_stretch={stretch}"
        return ["flite", "-voice", talker.voice, "--setf", pace, "-t", aloud, "-o", str(path)]
    pace = str(round(_WORDS_A_MINUTE * talker.pace))
    return ["espeak-ng", "-v", talker.voice, "-s", pace, "-w", str(path), aloud]


@cache
def _hibari() -> Any:
    return voice_part("hibari").Hibari()


@cache
def _version(program: Program) -> str:
    """So that a newer program does not find what an older one said."""
    if program == "hibari":
        return version("hibari-tts")
    done = subprocess.run([program, "--version"], capture_output=True, text=True)
    return (done.stdout + done.stderr).strip().splitlines()[0].split("  Data at")[0]
