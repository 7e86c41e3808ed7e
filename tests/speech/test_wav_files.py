"""Recordings of every make, and files that only look like one."""

from __future__ import annotations

import os
import struct
import wave
from pathlib import Path

import numpy as np
import pytest

from assistant.errors import EarsError, LeadsmanError
from assistant.sound.sound_files import read_recording, read_wav

soundfile = pytest.importorskip("soundfile", reason="soundfile is not installed")
pytest.importorskip("soxr", reason="soxr is not installed")
pytestmark = pytest.mark.voice

TONE_HZ = 440


def tone(rate_hz: int = 16_000, seconds: float = 0.5, size: float = 0.5) -> np.ndarray:
    at = np.arange(round(rate_hz * seconds)) / rate_hz
    return (size * np.sin(2 * np.pi * TONE_HZ * at)).astype(np.float32)


def written(folder: Path, samples: np.ndarray, rate_hz: int = 16_000, **kind: str) -> Path:
    path = folder / "bravo three.wav"
    soundfile.write(path, samples, rate_hz, **({"subtype": "PCM_16"} | kind))
    return path


def strength(sound: np.ndarray, hz: float) -> float:
    """How much of a frequency is in it, as the size of a sine."""
    at = np.arange(len(sound)) / 16_000
    window = np.hanning(len(sound))
    return float(2 * abs(np.sum(sound * window * np.exp(-2j * np.pi * hz * at))) / np.sum(window))


@pytest.mark.parametrize("container", ["WAV", "WAVEX", "RF64", "W64"])
@pytest.mark.parametrize("subtype", ["PCM_U8", "PCM_16", "PCM_24", "PCM_32", "FLOAT", "DOUBLE"])
def test_every_width(tmp_path: Path, container: str, subtype: str) -> None:
    path = written(tmp_path, tone(), format=container, subtype=subtype)
    sound = read_wav(path)
    assert sound.dtype == np.float32
    assert sound.shape == (8_000,)
    assert np.max(np.abs(sound - tone())) < (0.01 if subtype == "PCM_U8" else 1e-4)


@pytest.mark.parametrize("rate_hz", [8_000, 11_025, 22_050, 32_000, 44_100, 48_000, 96_000])
def test_every_rate(tmp_path: Path, rate_hz: int) -> None:
    recording = read_recording(written(tmp_path, tone(rate_hz), rate_hz))
    assert recording.rate_hz == rate_hz
    assert len(recording.samples) == pytest.approx(8_000, abs=1)
    assert strength(recording.samples, TONE_HZ) == pytest.approx(0.5, abs=0.01)


def test_what_16_khz_cannot_hold_does_not_come_back_as_something_else(tmp_path: Path) -> None:
    at = np.arange(24_000) / 48_000
    sound = read_wav(written(tmp_path, 0.5 * np.sin(2 * np.pi * 10_000 * at), 48_000))
    assert strength(sound, 6_000) < 1e-4  # where 10 kHz would fold to


def test_channels_are_mixed(tmp_path: Path) -> None:
    left, right = tone(size=0.6), tone(size=0.2)
    recording = read_recording(written(tmp_path, np.stack((left, right), axis=1)))
    assert recording.channels == 2
    assert np.max(np.abs(recording.samples - tone(size=0.4))) < 1e-3


def test_eight_channels_at_a_high_rate(tmp_path: Path) -> None:
    eight = np.repeat(tone(96_000, seconds=2)[:, None], 8, axis=1)
    assert strength(read_wav(written(tmp_path, eight, 96_000)), TONE_HZ) == pytest.approx(0.5, 0.02)


def test_samples_past_full_scale_are_made_smaller_not_clipped(tmp_path: Path) -> None:
    sound = read_wav(written(tmp_path, tone(size=4.0), subtype="FLOAT"))
    assert np.max(np.abs(sound)) == pytest.approx(1.0)
    assert strength(sound, TONE_HZ) == pytest.approx(1.0, abs=0.01)


def test_samples_that_are_no_numbers_are_silence_and_told(tmp_path: Path) -> None:
    samples = tone()
    samples[100:200] = np.nan
    samples[300] = np.inf
    recording = read_recording(written(tmp_path, samples, subtype="FLOAT"))
    assert np.all(np.isfinite(recording.samples))
    assert "no numbers" in recording.notes[0]


def test_one_that_was_cut_short_is_read_as_far_as_it_goes_and_says_so(tmp_path: Path) -> None:
    path = written(tmp_path, tone())
    path.write_bytes(path.read_bytes()[:10_001])
    recording = read_recording(path)
    assert len(recording.samples) == (10_001 - 44) // 2
    assert recording.cut_short
    assert "cut short" in recording.notes[0]
    assert "0.3 s" in recording.notes[0]


def test_a_whole_one_has_nothing_to_say(tmp_path: Path) -> None:
    recording = read_recording(written(tmp_path, tone(seconds=0.50003), subtype="PCM_U8"))
    assert (recording.notes, recording.cut_short) == ((), False)


def test_a_piece_of_odd_size_before_the_sound(tmp_path: Path) -> None:
    path = written(tmp_path, tone())
    whole = path.read_bytes()
    path.write_bytes(whole[:36] + struct.pack("<4sI", b"LIST", 3) + b"abc\0" + whole[36:])
    recording = read_recording(path)
    assert (len(recording.samples), recording.cut_short) == (8_000, False)
    path.write_bytes(path.read_bytes()[:-500])
    assert read_recording(path).cut_short


def test_one_that_came_through_a_pipe_has_no_length_and_needs_none(tmp_path: Path) -> None:
    path = written(tmp_path, tone())
    whole = path.read_bytes()
    path.write_bytes(whole[:4] + b"\xff" * 4 + whole[8:40] + b"\xff" * 4 + whole[44:])
    recording = read_recording(path)
    assert (len(recording.samples), recording.cut_short) == (8_000, False)


# --- other kinds of file ------------------------------------------------------------

KINDS = [
    ("FLAC", "PCM_16"), ("FLAC", "PCM_24"), ("OGG", "VORBIS"), ("OGG", "OPUS"),
    ("AIFF", "PCM_16"), ("AU", "PCM_16"), ("CAF", "PCM_16"),
]  # fmt: skip


@pytest.mark.parametrize(("kind", "subtype"), KINDS)
def test_every_kind_that_recorders_write(tmp_path: Path, kind: str, subtype: str) -> None:
    path = written(tmp_path, tone(48_000, seconds=3), 48_000, format=kind, subtype=subtype)
    recording = read_recording(path)
    # Packed ones have some silence before and after.
    assert len(recording.samples) == pytest.approx(48_000, abs=1_500)
    assert strength(recording.samples, TONE_HZ) == pytest.approx(0.5, abs=0.07)
    assert (recording.notes, recording.cut_short) == ((), False)


@pytest.mark.parametrize(
    ("kind", "subtype"),
    [(kind, "PCM_16") for kind in ("FLAC", "AIFF", "AU", "W64", "RF64")] + [("OGG", "OPUS")],
)
def test_every_kind_that_was_cut_short_says_so(tmp_path: Path, kind: str, subtype: str) -> None:
    path = written(tmp_path, tone(48_000, seconds=3), 48_000, format=kind, subtype=subtype)
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) * 2 // 3])
    recording = read_recording(path)
    assert recording.cut_short
    assert "was cut short" in recording.notes[0]
    assert 12_000 < len(recording.samples) < 40_000


@pytest.mark.parametrize(("kind", "subtype"), [("OGG", "VORBIS"), ("CAF", "PCM_16")])
def test_one_that_nothing_can_be_read_of_is_refused(
    tmp_path: Path, kind: str, subtype: str
) -> None:
    path = written(tmp_path, tone(48_000, seconds=3), 48_000, format=kind, subtype=subtype)
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) * 2 // 3])
    assert "cut short" in refusal(path) or "damaged" in refusal(path)


# --- refused ----------------------------------------------------------------------


def refusal(path: Path, **more: float) -> str:
    with pytest.raises(EarsError) as caught:
        read_wav(path, **more)
    return str(caught.value)


def test_an_hour_is_refused_by_its_header(tmp_path: Path) -> None:
    path = tmp_path / "hour.wav"
    with path.open("wb") as file:
        with wave.open(file, "wb") as sound:
            sound.setnchannels(1)
            sound.setsampwidth(2)
            sound.setframerate(16_000)
            sound.writeframes(b"")
        file_bytes = 3600 * 32_000
        path.write_bytes(
            b"RIFF" + struct.pack("<I", 36 + file_bytes) + path.read_bytes()[8:40]
            + struct.pack("<I", file_bytes)
        )  # fmt: skip
    os.truncate(path, 44 + file_bytes)  # a hole: an hour of silence that takes no room
    assert "lasts 60 min; nothing longer than 2 min" in refusal(path)


def test_the_limit_itself_is_taken(tmp_path: Path) -> None:
    path = written(tmp_path, tone(seconds=1.0))
    assert len(read_wav(path, longest_s=1.0)) == 16_000
    assert "lasts 1 s" in refusal(path, longest_s=0.9)


@pytest.mark.parametrize(
    ("content", "expected"),
    [
        (b"", "is empty"),
        (b"bravo three, eighteen low\n" * 20, "is not a sound file"),
        (bytes(range(256)) * 40, "is not a sound file"),
        (b"RIFF\x24\x7d\x00\x00WAVEfmt \x10\x00\x00\x00", "is not a sound file"),
        (b"fLaC", "is not a sound file"),
        (b"OggS" + bytes(60), "is not a sound file"),
        (b"FORM\x00\x00\x00\x04AIFF", "is not a sound file"),
    ],
)
def test_what_is_no_wav(tmp_path: Path, content: bytes, expected: str) -> None:
    path = tmp_path / "note.wav"
    path.write_bytes(content)
    assert expected in refusal(path)


def test_a_header_and_nothing_after_it(tmp_path: Path) -> None:
    assert "holds no sound" in refusal(written(tmp_path, tone()[:0]))


def test_one_whose_recorder_was_killed(tmp_path: Path) -> None:
    path = written(tmp_path, tone())
    whole = path.read_bytes()
    path.write_bytes(whole[:4] + bytes(4) + whole[8:40] + bytes(4) + whole[44:])
    assert "never finished" in refusal(path)


@pytest.mark.parametrize(("kind", "subtype"), [("MAT5", "PCM_16"), ("MP3", "MPEG_LAYER_III")])
def test_a_kind_that_is_not_taken(tmp_path: Path, kind: str, subtype: str) -> None:
    path = written(tmp_path, tone(), format=kind, subtype=subtype)
    assert f"is in {kind} format, which is not taken. Convert it: " in refusal(path)


def test_a_packed_file_that_does_not_tell_its_length(tmp_path: Path) -> None:
    path = written(tmp_path, tone(), format="FLAC")
    told = bytearray(path.read_bytes())
    # The last 36 bits of STREAMINFO before its digest, nothing where unknown (RFC 9639, 8.2).
    told[21] &= 0xF0
    told[22:26] = bytes(4)
    path.write_bytes(told)
    assert "does not tell its length" in refusal(path)


def test_a_rate_that_no_recorder_has(tmp_path: Path) -> None:
    path = written(tmp_path, tone())
    whole = path.read_bytes()
    path.write_bytes(whole[:24] + struct.pack("<I", 50) + whole[28:])
    assert "its header is damaged" in refusal(path)


def test_no_file_and_a_folder(tmp_path: Path) -> None:
    assert "There is no file" in refusal(tmp_path / "nothing.wav")
    assert "is a folder" in refusal(tmp_path)


def test_no_permission(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = written(tmp_path, tone())

    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    # Whoever runs tests as root may read everything.
    monkeypatch.setattr(Path, "open", refuse)
    assert "no permission" in refusal(path)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_does_not_make_it_wait_for_ever(tmp_path: Path) -> None:
    path = tmp_path / "pipe.wav"
    os.mkfifo(path)
    assert "not a file that can be read from start to end" in refusal(path)


def test_a_name_no_file_can_have() -> None:
    assert "cannot be opened" in refusal(Path("bravo\0three.wav"))


def test_without_the_package_it_says_how_to_get_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = written(tmp_path, tone())
    monkeypatch.setitem(__import__("sys").modules, "soundfile", None)
    with pytest.raises(LeadsmanError, match=r"pip install 'leadsman\[voice\]'"):
        read_wav(path)
