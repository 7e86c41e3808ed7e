"""The mouth: says it soon, stops at once, closes the ears meanwhile, tells what is wrong."""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

import numpy as np
import pytest

from assistant.errors import LeadsmanError
from assistant.voice import VOICE_KINDS, Silence, VoiceError, speaker_for
from assistant.voice.speaker import BackgroundSpeaker, Speech

READ_BACK = "bravo three, one eight millimetres below."


class Tones:
    """A voice that makes a tone of so many seconds for each sentence."""

    def __init__(self, seconds: float = 0.1) -> None:
        self._seconds = seconds
        self.said: list[str] = []

    def speech(self, text: str) -> Iterator[Speech]:
        self.said.append(text)
        for _ in text.split(". "):
            yield Speech(np.full(round(24_000 * self._seconds), 0.25, np.float32), 24_000)


class Broken:
    """A voice that cannot speak."""

    def __init__(self, fault: Exception) -> None:
        self._fault = fault

    def speech(self, _text: str) -> Iterator[Speech]:
        raise self._fault
        yield


class Notes:
    """A player that only notes what it is given, and whether it was stopped."""

    def __init__(self) -> None:
        self.played: list[Speech] = []
        self.stopped: list[bool] = []
        self._began = threading.Semaphore(0)

    def play(self, speech: Speech, stop: threading.Event) -> None:
        self.played.append(speech)
        self._began.release()
        self.stopped.append(stop.wait(len(speech.samples) / speech.rate_hz))

    def has_begun(self) -> bool:
        """Once it plays: how soon a thread of its own gets there is the machine's matter."""
        return self._began.acquire(timeout=20)


class Waits(Tones):
    """A voice that makes no speech until it may."""

    def __init__(self) -> None:
        super().__init__()
        self.may = threading.Event()

    def speech(self, text: str) -> Iterator[Speech]:
        assert self.may.wait(20)
        yield from super().speech(text)


@pytest.fixture
def opened() -> Iterator[list[BackgroundSpeaker]]:
    """Speakers to be closed after the test."""
    speakers: list[BackgroundSpeaker] = []
    yield speakers
    for speaker in speakers:
        speaker.close()


def test_say_returns_at_once_and_everything_is_said(opened: list[BackgroundSpeaker]) -> None:
    notes, voice = Notes(), Waits()
    speaker = BackgroundSpeaker(voice, notes)
    opened.append(speaker)
    speaker.say("One. Two. Three.")
    # Nothing of it can have been made yet.
    assert speaker.speaking
    assert notes.played == []
    voice.may.set()
    assert speaker.wait(20)
    assert not speaker.speaking
    (played,) = notes.played
    assert len(played.samples) == 3 * 2_400
    assert notes.stopped == [False]


def test_stop_leaves_out_the_rest(opened: list[BackgroundSpeaker]) -> None:
    notes = Notes()
    speaker = BackgroundSpeaker(Tones(30.0), notes)
    opened.append(speaker)
    speaker.say("One. Two. Three.")
    assert notes.has_begun()
    speaker.stop()
    # Much sooner than it would have taken.
    assert speaker.wait(20)
    assert notes.stopped == [True]


def test_what_is_stopped_before_it_sounds_is_not_played(opened: list[BackgroundSpeaker]) -> None:
    notes, voice = Notes(), Waits()
    speaker = BackgroundSpeaker(voice, notes)
    opened.append(speaker)
    speaker.say("One.")
    speaker.stop()
    voice.may.set()
    assert speaker.wait(20)
    assert notes.played == []


def test_new_words_break_off_the_old_ones(opened: list[BackgroundSpeaker]) -> None:
    voice, notes = Tones(30.0), Notes()
    speaker = BackgroundSpeaker(voice, notes)
    opened.append(speaker)
    speaker.say("One. Two. Three. Four.")
    assert notes.has_begun()
    speaker.say("Five.")
    assert notes.has_begun()
    assert voice.said == ["One. Two. Three. Four.", "Five."]
    assert notes.stopped == [True]
    assert len(notes.played[1].samples) < len(notes.played[0].samples)


class Ears:
    """Keeps when they were closed, and for what."""

    def __init__(self) -> None:
        self.states: list[str] = []
        self.told: Speech | None = None

    @contextmanager
    def closed(self, speech: Speech | None) -> Iterator[None]:
        self.told = speech
        self.states.append("closed")
        yield
        self.states.append("open")


def test_ears_are_closed_for_just_as_long(opened: list[BackgroundSpeaker]) -> None:
    ears, notes = Ears(), Notes()
    speaker = BackgroundSpeaker(Tones(), notes, ears.closed)
    opened.append(speaker)
    speaker.say("One. Two.")
    assert speaker.wait(20)
    assert ears.states == ["closed", "open"]
    assert notes.played == [ears.told]


def test_while_a_voice_makes_the_speech_the_ears_are_open(opened: list[BackgroundSpeaker]) -> None:
    voice, ears = Waits(), Ears()
    speaker = BackgroundSpeaker(voice, Notes(), ears.closed)
    opened.append(speaker)
    for stopped in (True, False):
        speaker.say("One.")
        time.sleep(0.05)
        assert ears.states == []
        if stopped:
            # Whoever begins to speak now is not interrupted by what was about to be said.
            speaker.stop()
            voice.may.set()
            assert speaker.wait(20)
            voice.may.clear()
    voice.may.set()
    assert speaker.wait(20)
    assert ears.states == ["closed", "open"]


def test_silence_is_not_said(opened: list[BackgroundSpeaker]) -> None:
    voice = Tones()
    speaker = BackgroundSpeaker(voice, Notes())
    opened.append(speaker)
    speaker.say("  ")
    assert speaker.wait(1)
    assert voice.said == []


@pytest.mark.parametrize(
    ("fault", "told"),
    [
        (VoiceError("No voice today."), "No voice today."),
        (RuntimeError("odd"), "The voice failed (RuntimeError: odd)."),
    ],
)
def test_what_goes_wrong_is_told_once_and_does_not_end_it(
    opened: list[BackgroundSpeaker], fault: Exception, told: str
) -> None:
    faults: list[LeadsmanError] = []
    speaker = BackgroundSpeaker(Broken(fault), Notes(), on_fault=faults.append)
    opened.append(speaker)
    for _ in range(3):
        speaker.say("One.")
        assert speaker.wait(20)
    assert [str(each) for each in faults] == [told]


def test_after_close_nothing_is_said() -> None:
    voice = Tones()
    speaker = BackgroundSpeaker(voice, Notes())
    speaker.close()
    speaker.say("One.")
    assert not speaker.speaking
    assert voice.said == []


def test_quiet() -> None:
    speaker = speaker_for("silence")
    assert isinstance(speaker, Silence)
    speaker.say(READ_BACK)
    assert not speaker.speaking
    assert speaker.wait(0)
    speaker.stop()
    speaker.close()


def test_an_unknown_voice_names_those_there_are() -> None:
    with pytest.raises(VoiceError, match="There are: " + ", ".join(VOICE_KINDS)):
        speaker_for("parrot", wav="unused.wav")
