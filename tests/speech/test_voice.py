"""The mouth: says it soon, stops at once, closes the ears meanwhile, tells what is wrong."""

from __future__ import annotations

import io
import shutil
import subprocess
import sys
import threading
import time
import wave
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.errors import LeadsmanError
from assistant.sound.devices import DeviceError
from assistant.voice import VOICE_KINDS, Silence, VoiceError, speaker_for
from assistant.voice.espeak import EspeakVoice, SystemSpeaker, _piped_wav, system_line
from assistant.voice.players import Loudspeaker, WavFile
from assistant.voice.speaker import BackgroundSpeaker, Speech
from tests.speech.conftest import VirtualSound
from tests.speech.stand_in_devices import StandInDevices

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


# --- players ------------------------------------------------------------------------


@pytest.mark.voice
def test_the_loudspeaker_plays_all_of_it_at_its_own_rate() -> None:
    pytest.importorskip("soxr", reason="soxr is not installed")
    devices = StandInDevices()
    speech = Speech(np.full(2_400, 0.25, np.float32), 24_000)
    Loudspeaker("collar", devices).play(speech, threading.Event())
    played = np.concatenate(devices.played)
    assert np.sum(played) == pytest.approx(0.25 * 4_800, rel=0.02)
    assert devices.streams[0].closed


@pytest.mark.voice
def test_the_loudspeaker_plays_no_more_once_it_is_stopped() -> None:
    pytest.importorskip("soxr", reason="soxr is not installed")
    devices, stop = StandInDevices(), threading.Event()
    stopping = threading.Timer(0.2, stop.set)
    stopping.start()
    before = time.monotonic()
    Loudspeaker(None, devices).play(Speech(np.ones(24_000 * 60, np.float32), 24_000), stop)
    # Of a minute.
    assert time.monotonic() - before < 20
    stopping.join()
    # Blocks of a hundredth of a second: all but the last as they are, that one silent.
    *played, last = devices.played
    assert all(block.any() for block in played)
    assert not last.any()
    assert devices.streams[0].closed


def test_no_loudspeaker_is_told() -> None:
    devices = StandInDevices([])
    with pytest.raises(DeviceError, match="No loudspeaker was found"):
        Loudspeaker(None, devices).play(Speech(np.ones(10, np.float32), 24_000), threading.Event())


def test_into_a_wav_file(tmp_path: Path) -> None:
    path = tmp_path / "said.wav"
    player = WavFile(path)
    for _ in range(2):
        player.play(Speech(np.full(2_400, 0.5, np.float32), 24_000), threading.Event())
    with wave.open(str(path)) as file:
        assert (file.getframerate(), file.getnframes()) == (24_000, 4_800)


def test_a_wav_file_that_cannot_be_written(tmp_path: Path) -> None:
    player = WavFile(tmp_path / "missing" / "said.wav")
    with pytest.raises(VoiceError, match="cannot be written"):
        player.play(Speech(np.ones(10, np.float32), 24_000), threading.Event())


# --- hibari ----------------------------------------------------------------------------


def test_without_the_package_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "hibari", None)
    with pytest.raises(LeadsmanError, match=r"pip install 'leadsman\[voice\]'"):
        speaker_for("hibari", wav="unused.wav")


@pytest.mark.voice
def test_hibari_speaks_into_a_file_the_same_every_time(tmp_path: Path) -> None:
    pytest.importorskip("hibari", reason="hibari-tts is not installed")
    lengths = []
    for name in ("one.wav", "two.wav"):
        speaker = speaker_for("hibari", wav=tmp_path / name)
        speaker.say(READ_BACK)
        assert speaker.wait(20)
        speaker.close()
        with wave.open(str(tmp_path / name)) as file:
            lengths.append(file.getnframes() / file.getframerate())
    assert (tmp_path / "one.wav").read_bytes() == (tmp_path / "two.wav").read_bytes()
    assert 1.5 < lengths[0] < 4.0


@pytest.mark.voice
def test_a_higher_speed_is_shorter(tmp_path: Path) -> None:
    pytest.importorskip("hibari", reason="hibari-tts is not installed")
    frames = []
    for speed in (1.0, 1.5):
        speaker = speaker_for("hibari", speed=speed, wav=tmp_path / "said.wav")
        speaker.say(READ_BACK)
        assert speaker.wait(20)
        speaker.close()
        with wave.open(str(tmp_path / "said.wav")) as file:
            frames.append(file.getnframes())
    assert frames[1] < 0.8 * frames[0]


@pytest.mark.voice
def test_a_voice_hibari_does_not_have() -> None:
    pytest.importorskip("hibari", reason="hibari-tts is not installed")
    with pytest.raises(VoiceError, match=r"no voice “parrot”\. There are: .*heart"):
        speaker_for("hibari", voice="parrot", wav="unused.wav")


@pytest.fixture
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder for voices of its own, and no network: the test sees whoever asks for something."""
    pytest.importorskip("hibari", reason="hibari-tts is not installed")
    monkeypatch.setenv("HIBARI_HOME", str(tmp_path / "voices"))

    def asked_for(url: str, *_more: object, **_named: object) -> None:
        (tmp_path / "asked for").write_text(str(url))
        raise OSError("no network here")

    monkeypatch.setattr("urllib.request.urlopen", asked_for)
    return tmp_path


@pytest.mark.voice
def test_a_voice_that_is_not_here_is_refused_and_not_fetched(elsewhere: Path) -> None:
    with pytest.raises(VoiceError, match=r"“emma” is not on this machine.*“heart” is") as refused:
        speaker_for("hibari", voice="emma", wav=elsewhere / "said.wav").close()
    assert str(elsewhere / "voices") in str(refused.value)
    assert not (elsewhere / "asked for").exists()


@pytest.mark.voice
def test_a_voice_that_was_put_there_by_hand_speaks(elsewhere: Path) -> None:
    import hibari.voices as known

    (elsewhere / "voices").mkdir()
    shutil.copy(known.voice_path("heart"), elsewhere / "voices" / known.VOICES["emma"]["file"])
    speaker = speaker_for("hibari", voice="emma", wav=elsewhere / "said.wav")
    speaker.say("bravo three")
    assert speaker.wait(20)
    speaker.close()
    with wave.open(str(elsewhere / "said.wav")) as file:
        assert file.getnframes() > file.getframerate() / 2
    assert not (elsewhere / "asked for").exists()


# --- the system's voices -----------------------------------------------------------------


@pytest.mark.voice
def test_espeak_makes_speech() -> None:
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    (plain,) = EspeakVoice().speech(READ_BACK)
    (quick,) = EspeakVoice(speed=1.6).speech(READ_BACK)
    assert 1.5 < len(plain.samples) / plain.rate_hz < 4.0
    assert len(quick.samples) < 0.8 * len(plain.samples)
    assert np.max(np.abs(plain.samples)) > 0.1


@pytest.mark.voice
def test_espeak_with_a_voice_it_does_not_have() -> None:
    if shutil.which("espeak-ng") is None:
        pytest.skip("espeak-ng is not installed")
    with pytest.raises(VoiceError, match="did not speak"):
        list(EspeakVoice(voice="parrot").speech(READ_BACK))


def test_espeak_that_is_not_installed() -> None:
    with pytest.raises(VoiceError, match="no-such-voice is not installed"):
        EspeakVoice(program="no-such-voice")


def test_a_wav_from_a_pipe_has_a_header_that_promises_too_much() -> None:
    kept = io.BytesIO()
    with wave.open(kept, "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(22_050)
        file.writeframes(np.array([0, 16_384, -16_384], "<i2").tobytes())
    whole = kept.getvalue()
    speech = _piped_wav(whole[:40] + b"\x00\xf0\xff\x7f" + whole[44:])
    assert speech.rate_hz == 22_050
    assert speech.samples.tolist() == [0.0, 0.5, -0.5]


def test_the_systems_own_programs() -> None:
    mac = system_line(1.0, "Daniel", "darwin")
    assert mac is not None
    assert (mac[0], mac[-2:]) == ("say", ("-f", "-"))
    windows = system_line(1.2, "It's me", "win32")
    assert windows is not None
    assert "SelectVoice('It''s me')" in windows[-1]
    assert system_line(platform="linux") is None


def test_a_system_voice_is_given_the_words_and_can_be_stopped(tmp_path: Path) -> None:
    said = tmp_path / "said.txt"
    program = f"import sys, time; open({str(said)!r}, 'w').write(sys.stdin.read()); time.sleep(90)"
    speaker = SystemSpeaker((sys.executable, "-c", program))
    speaker.say(READ_BACK)
    until = time.monotonic() + 30
    while time.monotonic() < until and not (said.exists() and said.read_text()):
        time.sleep(0.02)
    assert said.read_text() == READ_BACK
    assert speaker.speaking
    speaker.stop()
    assert speaker.wait(20)
    assert not speaker.speaking


def test_a_system_voice_that_has_not_begun_yet_is_stopped_too(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    may, ended = threading.Event(), list[int]()

    class Slow(subprocess.Popen[bytes]):
        def __init__(self, *line: Any, **more: Any) -> None:
            assert may.wait(20)
            super().__init__(*line, **more)

        def __exit__(self, *fault: Any) -> None:
            super().__exit__(*fault)
            ended.append(self.returncode)

    monkeypatch.setattr("assistant.voice.espeak.subprocess.Popen", Slow)
    speaker = SystemSpeaker((sys.executable, "-c", "import time; time.sleep(60)"))
    speaker.say(READ_BACK)
    # Whoever stops it does not wait for the program to start.
    threading.Timer(0.3, may.set).start()
    speaker.stop()
    assert speaker.wait(20)
    assert ended
    assert ended != [0]


def test_a_system_voice_that_is_not_there() -> None:
    faults: list[LeadsmanError] = []
    speaker = SystemSpeaker(("no-such-program",), on_fault=faults.append)
    speaker.say(READ_BACK)
    assert speaker.wait(20)
    assert "no-such-program did not speak" in str(faults[0])


# --- for real, on a virtual device ----------------------------------------------------------


@pytest.mark.audio
@pytest.mark.voice
def test_what_is_said_is_heard_in_the_room_and_stops(
    virtual_sound: VirtualSound, tmp_path: Path
) -> None:
    pytest.importorskip("hibari", reason="hibari-tts is not installed")
    room = tmp_path / "room.wav"
    listener = virtual_sound.record(room)
    speaker = speaker_for("hibari", loudspeaker="pulse")
    speaker.say("one two three four five six seven eight nine ten eleven twelve thirteen")
    until = time.monotonic() + 60
    while time.monotonic() < until and not loud_in(room).size:
        time.sleep(0.05)
    speaker.stop()
    assert speaker.wait(20)
    time.sleep(1.0)
    speaker.close()
    listener.terminate()
    listener.wait(timeout=20)
    loud = loud_in(room)
    assert loud.size, "nothing was heard"
    # Of six seconds.
    assert (loud[-1] - loud[0]) / ROOM_HZ < 4


ROOM_HZ = 48_000


def loud_in(room: Path) -> np.ndarray:
    """Which samples of what was recorded so far are no silence; none where there is no file yet."""
    kept = room.read_bytes()[44:] if room.exists() else b""
    samples = np.frombuffer(kept[: len(kept) // 2 * 2], "<i2")
    return np.flatnonzero(np.abs(samples.astype(np.float32)) > 0.02 * 32768)
