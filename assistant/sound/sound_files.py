"""Recordings: a sound file of any kind becomes 16 kHz mono, or a clear error says why not."""

from __future__ import annotations

import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any, BinaryIO

import numpy as np

from assistant.errors import EarsError
from assistant.sound.resample import Resampler
from assistant.sound.sound_headers import is_cut_short, wav_sound
from assistant.sound.voice_parts import voice_part

LONGEST_S = 120.0
"""Longest recording that is read; a dictated command takes four seconds."""
_KINDS = ("WAV", "WAVEX", "W64", "RF64", "FLAC", "OGG", "AIFF", "AU", "CAF")
"""The formats that recorders write, of those the library reads. The others are sampler and
laboratory files, and each more is one that damaged bytes can be taken for. MP3 is left out, as
the library loses sound where it is read in pieces."""
_BLOCK = 8_192
"""Samples read at a time: little memory for any rate and number of channels, and where a
compressed file breaks off, hardly more is lost than is missing."""
_RATES = (4_000, 768_000)
_MOST_CHANNELS = 64
_LENGTH_UNKNOWN = 2**62
"""Frames: the library reports more than this where a compressed file has no length."""


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
    """What the user should know, such as that the file was cut short."""
    cut_short: bool = False
    """Whether the file ends before its own header says; its last words may be incomplete."""


def read_wav(path: str | Path, longest_s: float = LONGEST_S) -> np.ndarray:
    """
    The sound of a wav file, (n,) float32, 16 kHz mono.

    Raises :class:`EarsError` as :func:`read_recording` does, whose notes are lost here.
    """
    return read_recording(path, longest_s).samples


def read_recording(path: str | Path, longest_s: float = LONGEST_S) -> Recording:
    """
    A sound file (wav, FLAC, Ogg, AIFF …): any width, number of channels and rate.

    Raises :class:`EarsError` for what is none, holds no sound, or is longer than
    `longest_s` seconds, which is found out before any of it is read where its header tells. A
    file that was cut short is read as far as it goes, and says so in the notes.
    """
    path = Path(path)
    soundfile = voice_part("soundfile")
    with _opened(path) as file:
        cut_short = is_cut_short(file)
        declared = wav_sound(file)
        file.seek(0)
        try:
            sound = soundfile.SoundFile(file)
        except soundfile.LibsndfileError as fault:
            raise EarsError(_unreadable(path)) from fault
        with sound:
            _check(path, sound, declared, cut_short, longest_s)
            mixed = _Mixed(path, sound, longest_s)
            samples = mixed.samples(soundfile.SoundFileError)
            rate_hz, channels = int(sound.samplerate), int(sound.channels)
    notes = mixed.notes
    if cut_short or mixed.broke_off:
        notes = (
            f"{path.name} was cut short: its header promises more sound than the "
            f"{len(samples) / 16_000:.1f} s that are there. The last words may lack their end.",
            *notes,
        )
    return Recording(samples, rate_hz, channels, notes, cut_short or mixed.broke_off)


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
        f"{path} is not a sound file that can be read, or it is damaged. "
        "Record as wav, FLAC or Ogg, or convert it: ffmpeg -i recording.m4a recording.wav"
    )


def _check(
    path: Path,
    sound: Any,
    declared: tuple[int, int] | None,
    cut_short: bool,
    longest_s: float,
) -> None:
    """Refuse a file by its header, before anything is read."""
    if sound.format not in _KINDS:
        raise EarsError(
            f"{path} is in {sound.format} format, which is not taken. "
            f"Convert it: sox {path.name} {path.stem}.wav"
        )
    if sound.frames <= 0:
        if cut_short:
            raise EarsError(
                f"{path} was cut short, and without its end nothing of it can be read. "
                "Copy it once more from where it was recorded."
            )
        if declared is not None and declared[1] == 0 and path.stat().st_size > declared[0]:
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
    if sound.frames >= _LENGTH_UNKNOWN:
        raise EarsError(
            f"{path} was never finished, or came through a pipe: it does not tell its length. "
            f"Mend it: sox {path.name} mended.wav"
        )
    length_s = sound.frames / sound.samplerate
    if longest_s < length_s:
        raise EarsError(_too_long(path, f"lasts {_length(length_s)}", longest_s))


def _too_long(path: Path, how_long: str, longest_s: float) -> str:
    return (
        f"{path} {how_long}; nothing longer than {_length(longest_s)} is "
        "read. Cut it into pieces with a command or a few in each."
    )


def _length(seconds: float) -> str:
    """
    >>> _length(90), _length(120), _length(3600)
    ('90 s', '2 min', '60 min')
    """
    return f"{seconds:.0f} s" if seconds < 120 else f"{seconds / 60:.0f} min"


class _Mixed:
    """Reads a sound, mixing it down and resampling it on the way."""

    def __init__(self, path: Path, sound: Any, longest_s: float) -> None:
        self._path, self._sound, self._longest_s = path, sound, longest_s
        self.notes: tuple[str, ...] = ()
        self.broke_off = False
        """Whether less came than was promised."""

    def samples(self, fault: type[Exception]) -> np.ndarray:
        """All samples; `fault` is what the library raises where it can't go on."""
        resampler = Resampler(self._sound.samplerate)
        pieces: list[np.ndarray] = []
        try:
            for block in self._blocks():
                # In 64 bits, so that loud float samples of many channels cannot overflow.
                mono = self._numbers_of(block).mean(axis=1, dtype=np.float64)
                pieces.append(resampler.feed(mono.astype(np.float32)))
        except fault as trouble:
            if not pieces:
                raise EarsError(_unreadable(self._path)) from trouble
            self.broke_off = True
        samples = np.concatenate((*pieces, resampler.finish()))
        peak = float(np.max(np.abs(samples), initial=0.0))
        # Float wavs may go past full scale. Made smaller, not clipped: the shape is the speech.
        return samples / np.float32(peak) if peak > 1 else samples

    def _blocks(self) -> Iterator[np.ndarray]:
        size, count = max(1, _BLOCK // self._sound.channels), 0
        while len(block := self._sound.read(size, dtype="float32", always_2d=True)):
            count += len(block)
            if count > self._longest_s * self._sound.samplerate:
                # The header promised less.
                raise EarsError(_too_long(self._path, "goes on", self._longest_s))
            yield block
        if count < self._sound.frames:
            self.broke_off = True

    def _numbers_of(self, block: np.ndarray) -> np.ndarray:
        if np.all(np.isfinite(block)):
            return block
        self.notes = (f"{self._path.name} holds samples that are no numbers; taken as silence.",)
        silenced: np.ndarray = np.nan_to_num(block, nan=0.0, posinf=0.0, neginf=0.0)
        return silenced
