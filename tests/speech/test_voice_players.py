"""Where speech goes: a loudspeaker, a WAV file, and for real a virtual device."""

from __future__ import annotations

import threading
import time
import wave
from pathlib import Path

import numpy as np
import pytest

from assistant.sound.devices import DeviceError
from assistant.voice import VoiceError, speaker_for
from assistant.voice.players import Loudspeaker, WavFile
from assistant.voice.speaker import Speech
from tests.speech.conftest import VirtualSound
from tests.speech.stand_in_devices import StandInDevices


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


@pytest.mark.audio
@pytest.mark.slow
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
