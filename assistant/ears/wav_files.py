"""Recordings: a wav of any make becomes 16 kHz mono, or a plain word on why not."""

from __future__ import annotations

import os
import stat
import struct
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO

import numpy as np

from assistant.ears.hearing import EarsError
from assistant.ears.resample import Resampler
from assistant.voice_parts import voice_part

LONGEST_S = 120.0
"""Longest recording that is read; a dictated command takes four seconds."""
_WAV_KINDS = ("WAV", "WAVEX", "W64", "RF64")
_BLOCK = 65_536
"""Samples read at a time: any rate and number of channels stays small in memory."""
_RATES = (4_000, 768_000)
_MOST_CHANNELS = 64
_SIZE_UNKNOWN = 0xFFFF_FFFF
"""What a recorder that writes to a pipe puts where it cannot know the size yet."""


@dataclass(frozen=True, slots=True, eq=False)
class Recording:
    """A recording as the engines want it, and what was found in the file."""

    samples: np.ndarray
    """(n,) float32, 16 kHz mono, within -1 and 1."""
    rate_hz: int
    """As recorded."""
    channels: int
    """As recorded; mixed down."""
    notes: tuple[str, ...] = ()
    """What the user should know: that the file was cut short, for one."""
    cut_short: bool = False
    """The file ends before its own header says; the last words may lack their end."""


def read_wav(path: str | Path, longest_s: float = LONGEST_S) -> np.ndarray:
    """
    The sound of a wav file, (n,) float32, 16 kHz mono.

    Raises :class:`EarsError` as :func:`read_recording` does, whose notes are lost here.
    """
    return read_recording(path, longest_s).samples


def read_recording(path: str | Path, longest_s: float = LONGEST_S) -> Recording:
    """
    A wav file: any width, integer or float, any number of channels, any rate.

    Raises :class:`EarsError` for what is no wav, holds no sound, or is longer than
    `longest_s` seconds, which is found out before any of it is read. A file that was cut
    short is read as far as it goes, and says so in the notes.
    """
    path = Path(path)
    soundfile = voice_part("soundfile")
    with _opened(path) as file:
        declared = _declared_bytes(file)
        file.seek(0)
        try:
            sound = soundfile.SoundFile(file)
        except soundfile.LibsndfileError as fault:
            raise EarsError(_unreadable(path)) from fault
        with sound:
            _check(path, sound, declared, longest_s)
            samples, notes = _mixed(path, sound, soundfile)
            rate_hz, channels = int(sound.samplerate), int(sound.channels)
        cut_short = _is_cut_short(declared, os.fstat(file.fileno()).st_size)
    if cut_short:
        notes = (
            f"{path.name} was cut short: its header promises more sound than the "
            f"{len(samples) / 16_000:.1f} s that are there. The last words may lack their end.",
            *notes,
        )
    return Recording(samples, rate_hz, channels, notes, cut_short)


def _opened(path: Path) -> BinaryIO:
    try:
        if path.is_dir():
            raise EarsError(f"{path} is a folder. Give the wav files in it by name.")
        if not stat.S_ISREG(path.stat().st_mode):
            raise EarsError(f"{path} is not a file that can be read from start to end.")
        if path.stat().st_size == 0:
            raise EarsError(f"{path} is empty: nothing was recorded in it.")
        return path.open("rb")
    except FileNotFoundError as fault:
        raise EarsError(f"There is no file {path}.") from fault
    except PermissionError as fault:
        raise EarsError(f"{path} may not be read: you have no permission to.") from fault
    except (OSError, ValueError) as fault:
        raise EarsError(f"{path} cannot be opened: {fault}.") from fault


def _unreadable(path: Path) -> str:
    return (
        f"{path} is not a wav file, or its header is damaged. "
        "Record as wav, or convert it: sox recording.m4a recording.wav"
    )


def _check(path: Path, sound: Any, declared: tuple[int, int] | None, longest_s: float) -> None:
    """Refuses by what the header says, before anything is read."""
    if sound.format not in _WAV_KINDS:
        raise EarsError(
            f"{path} is in {sound.format} format, not a wav. Convert it: sox {path.name} "
            f"{path.stem}.wav"
        )
    if sound.frames <= 0:
        if declared is not None and declared[1] == 0 and path.stat().st_size > declared[0] + 8:
            raise EarsError(
                f"{path} was never finished: the recorder left its length at nothing. "
                f"Mend it: sox --ignore-length {path.name} mended.wav"
            )
        raise EarsError(f"{path} holds no sound: a header and nothing after it.")
    if not _RATES[0] <= sound.samplerate <= _RATES[1] or sound.channels > _MOST_CHANNELS:
        raise EarsError(
            f"{path} says {sound.samplerate} samples a second and {sound.channels} channels, "
            "which no recorder makes: its header is damaged."
        )
    length_s = sound.frames / sound.samplerate
    if length_s > longest_s:
        raise EarsError(
            f"{path} lasts {_length(length_s)}; nothing longer than {_length(longest_s)} is "
            "read. Cut it into pieces with a command or a few in each."
        )


def _length(seconds: float) -> str:
    """
    >>> _length(90), _length(120), _length(3600)
    ('90 s', '2 min', '60 min')
    """
    return f"{seconds:.0f} s" if seconds < 120 else f"{seconds / 60:.0f} min"


def _mixed(path: Path, sound: Any, soundfile: Any) -> tuple[np.ndarray, tuple[str, ...]]:
    """All of it, mixed down and resampled as it is read, and notes on what was mended."""
    resampler = Resampler(sound.samplerate)
    pieces: list[np.ndarray] = []
    notes: tuple[str, ...] = ()
    try:
        for block in _blocks(sound):
            if not np.all(np.isfinite(block)):
                notes = (f"{path.name} holds samples that are no numbers; taken as silence.",)
                block = np.nan_to_num(block, nan=0.0, posinf=0.0, neginf=0.0)
            # In 64 bits, so that loud float samples of many channels cannot overflow.
            mono = block.mean(axis=1, dtype=np.float64)
            pieces.append(resampler.feed(mono.astype(np.float32)))
    except soundfile.SoundFileError as fault:
        raise EarsError(_unreadable(path)) from fault
    samples = np.concatenate((*pieces, resampler.finish()))
    peak = float(np.max(np.abs(samples), initial=0.0))
    # Float wavs may go past full scale. Made smaller, not clipped: the shape is the speech.
    return (samples / np.float32(peak) if peak > 1 else samples), notes


def _blocks(sound: Any) -> Iterator[np.ndarray]:
    size = max(1, _BLOCK // sound.channels)
    while len(block := sound.read(size, dtype="float32", always_2d=True)):
        yield block


def _declared_bytes(file: BinaryIO) -> tuple[int, int] | None:
    """Where the header of the sound begins and how many bytes it promises; None if unclear."""
    head = file.read(12)
    if len(head) < 12 or head[:4] != b"RIFF" or head[8:] != b"WAVE":
        return None
    while len(piece := file.read(8)) == 8:
        name, size = struct.unpack("<4sI", piece)
        if name == b"data":
            return file.tell() - 8, size
        # Pieces start at even places; one of odd size has a byte of filling after it.
        file.seek(size + size % 2, os.SEEK_CUR)
    return None


def _is_cut_short(declared: tuple[int, int] | None, file_bytes: int) -> bool:
    if declared is None or declared[1] == _SIZE_UNKNOWN:
        return False
    return declared[0] + 8 + declared[1] > file_bytes
