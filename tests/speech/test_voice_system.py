"""The system's voices: espeak-ng, and programs that speak by themselves."""

from __future__ import annotations

import io
import shutil
import subprocess
import sys
import threading
import time
import wave
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from assistant.errors import LeadsmanError
from assistant.voice import VoiceError
from assistant.voice.espeak import EspeakVoice, SystemSpeaker, _piped_wav, system_line

READ_BACK = "bravo three, one eight millimetres below."


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
