"""Is the answer to "one five or five zero?" heard, and is nothing else taken for it?

``python -m tests.benchmarks.speech.answers assistant.ears.builtin:BuiltinEngine --noise clean
mixer:10``. Each teen is asked about with its ten; each voice of a half answers with either
value, digit by digit and as a word, with "confirm" and with "cancel that", and talks.
"""

from __future__ import annotations

import argparse
import hashlib
import json
import sys
from collections import Counter
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from pathlib import Path

import numpy as np

from assistant.conversation.either_or import Choice, answers_to
from assistant.ears.hearing import Heard, expect
from assistant.ears.utterances import SileroDetector
from grammar import short_form
from grammar.numbers import in_words
from grammar.spoken import Manner
from tests.benchmarks.speech import noise
from tests.benchmarks.speech.corpus import CLEAN, Setting, _noise, cache_folder, setting_named
from tests.benchmarks.speech.run import engine_named, hear
from tests.benchmarks.speech.sentences import Half, spoken_language, talk
from tests.benchmarks.speech.voices import TALKERS, Talker, missing, said_by

TEENS = range(13, 20)
"""Each is asked about with what sounds like it, fifteen with fifty."""
_RANK = ("sure", "ask", "again", "none")


@dataclass(frozen=True, slots=True)
class Answered:
    """What came of one answer."""

    kind: str
    """``digits``, ``words``, ``whole``, ``confirm``, ``cancel that``, ``talk``."""
    said: str
    truth: str | None
    """In its short form; None for talk."""
    voice: str
    setting: str
    tier: str
    canonical: str | None
    probability: float
    fit: float | None
    seconds: float

    @property
    def came(self) -> str:
        """``right`` or ``wrong`` where it was taken, else what was said about it."""
        if self.tier != "sure":
            return self.tier
        return "right" if self.canonical == self.truth else "wrong"


def question(teen: int, manner: Manner) -> list[Choice]:
    """B3 minus fifteen, or minus fifty?"""
    spoken = spoken_language(manner)
    numbers = (teen, 10 * (teen - 10))
    words = [f"bravo three minus {_said(number, manner)} millimetres" for number in numbers]
    return [Choice(spoken.meanings(one)[0], one) for one in words]


def _said(number: int, manner: Manner) -> str:
    return in_words(number) if manner == "words" else _digits(number)


def _digits(number: int) -> str:
    return " ".join(in_words(int(sign)) for sign in str(number))


def sayings(teen: int, manner: Manner) -> Iterator[tuple[str, str, str]]:
    """Kind, words and truth of what is said to the question."""
    for choice, number in zip(question(teen, manner), (teen, 10 * (teen - 10)), strict=True):
        truth = short_form(choice.command)
        yield "digits", _digits(number), truth
        if manner == "words":
            yield "words", in_words(number), truth
        yield "whole", choice.words, truth
    for answer in ("confirm", "cancel that"):
        yield answer, answer, answer


def asked(half: Half, manner: Manner) -> Iterator[tuple[int, Talker, str, str, str | None]]:
    """Every question, who answers it, and with what."""
    for teen in TEENS:
        for talker in TALKERS[half]:
            for kind, words, truth in sayings(teen, manner):
                yield teen, talker, kind, words, truth
    for at, line in enumerate(talk(half, manner)):
        talker = TALKERS[half][at % len(TALKERS[half])]
        yield TEENS[at % len(TEENS)], talker, "talk", line.text, None


def sound_of(words: str, talker: Talker, teen: int, setting: Setting, half: Half) -> np.ndarray:
    """(n,) float32, 16 kHz: the answer in its noise, another stretch for every question."""
    recipe = f"{words} {talker.name} {setting.noise} {teen}"
    seed = int.from_bytes(hashlib.sha256(recipe.encode()).digest()[:4])
    background = None if setting == CLEAN else _noise(setting.noise, half)
    speech = said_by(talker, words, cache_folder())
    return noise.mixed(speech, background, setting.snr_db or 0.0, seed=seed)


def main(arguments: list[str] | None = None) -> int:
    """Run it and print the table."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.speech.answers")
    parser.add_argument("engine", help="module:class of the engine")
    parser.add_argument("--half", choices=("tune", "report"), default="report")
    parser.add_argument("--manner", choices=("words", "digits"), default="words")
    parser.add_argument("--noise", nargs="*", metavar="KIND:DB", default=["clean", "mixer:10"])
    parser.add_argument("--kind", nargs="*", help="these kinds of answers only")
    parser.add_argument("--rows", type=Path, help="keep every clip's result here")
    told = parser.parse_args(arguments)
    if lacking := missing(told.half):
        print(f"Not installed: {', '.join(lacking)}", file=sys.stderr)
        return 2
    engine = engine_named(told.engine, spoken_language(told.manner))
    detector = SileroDetector()
    found: list[Answered] = []
    for setting in map(setting_named, told.noise):
        for teen, talker, kind, words, truth in asked(told.half, told.manner):
            if told.kind and kind not in told.kind:
                continue
            expect(engine, answers_to(question(teen, told.manner)))
            sound = sound_of(words, talker, teen, setting, told.half)
            every = sorted(hear(engine, sound, detector), key=lambda o: _RANK.index(o.heard.tier))
            heard, seconds = (every[0].heard, every[0].seconds) if every else (_NOBODY, 0.0)
            found.append(
                Answered(kind, words, truth, talker.name, setting.name, heard.tier,
                         heard.canonical, heard.confidence, heard.fit, seconds)
            )  # fmt: skip
    if told.rows:
        lines = (json.dumps(asdict(row)) for row in found)
        told.rows.write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(table(found))
    return 0


_NOBODY = Heard("", (), "none")
_COLUMNS = ("right", "wrong", "ask", "again", "none")


def table(found: list[Answered]) -> str:
    """Markdown: for each kind of answer in each noise, what came of it."""
    counts = Counter((row.setting, row.kind, row.came) for row in found)
    groups = dict.fromkeys((row.setting, row.kind) for row in found)
    lines = [
        f"| noise | answer | clips | {' | '.join(_COLUMNS)} |",
        f"|---|---|{'---:|' * (1 + len(_COLUMNS))}",
    ]
    for setting, kind in groups:
        came = [counts[setting, kind, column] for column in _COLUMNS]
        cells = [setting, kind, *(str(count) for count in (sum(came), *came))]
        lines.append(f"| {' | '.join(cells)} |")
    return "\n".join(lines)


if __name__ == "__main__":
    sys.exit(main())
