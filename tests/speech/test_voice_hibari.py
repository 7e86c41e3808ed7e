"""The voice made on this machine: its speech, its speed, and no voice fetched unasked."""

from __future__ import annotations

import shutil
import sys
import wave
from pathlib import Path

import pytest

from assistant.errors import LeadsmanError
from assistant.voice import VoiceError, speaker_for

READ_BACK = "bravo three, one eight millimetres below."


def test_without_the_package_it_says_how_to_get_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setitem(sys.modules, "hibari", None)
    with pytest.raises(LeadsmanError, match=r"pip install 'leadsman\[voice\]'"):
        speaker_for("hibari", wav="unused.wav")


@pytest.mark.voice
@pytest.mark.slow
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
@pytest.mark.slow
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
@pytest.mark.slow
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
@pytest.mark.slow
def test_a_voice_that_is_not_here_is_refused_and_not_fetched(elsewhere: Path) -> None:
    with pytest.raises(VoiceError, match=r"“emma” is not on this machine.*“heart” is") as refused:
        speaker_for("hibari", voice="emma", wav=elsewhere / "said.wav").close()
    assert str(elsewhere / "voices") in str(refused.value)
    assert not (elsewhere / "asked for").exists()


@pytest.mark.voice
@pytest.mark.slow
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
