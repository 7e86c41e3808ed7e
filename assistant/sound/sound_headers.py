"""The lengths promised by headers of sound files, to notice files that were cut short.

The library that reads them silently makes the length fit what is there.
"""

from __future__ import annotations

import os
import struct
from typing import BinaryIO

_SIZE_UNKNOWN = 0xFFFF_FFFF
"""Sizes written by recorders to a pipe, where the size is not known yet."""
_W64 = b"riff\x2e\x91\xcf\x11"
_OGG_LAST = 4
"""The bit of a page's third field that marks the last one (RFC 3533, section 6)."""
_OGG_PAGE = 65_307
"""Bytes of the longest page possible."""


def wav_sound(file: BinaryIO) -> tuple[int, int] | None:
    """Where the sound of a wav begins and how many bytes its header promises; None if unclear."""
    file.seek(0)
    head = file.read(12)
    if len(head) < 12 or head[:4] != b"RIFF" or head[8:] != b"WAVE":
        return None
    while len(piece := file.read(8)) == 8:
        name, size = struct.unpack("<4sI", piece)
        if name == b"data":
            return file.tell(), size
        # Chunks start at even offsets; one of odd size is followed by a padding byte.
        file.seek(size + size % 2, os.SEEK_CUR)
    return None


def is_cut_short(file: BinaryIO) -> bool:
    """Whether the file ends before its own header says; False where the header doesn't say."""
    file.seek(0)
    head = file.read(32)
    ends_at = _promised_end(file, head)
    size = file.seek(0, os.SEEK_END)
    if ends_at is not None:
        return ends_at > size
    return head[:4] == b"OggS" and not _ogg_ends(file, size)


def _promised_end(file: BinaryIO, head: bytes) -> int | None:
    """
    The byte at which a file ends by its own header.

    Of wav, RF64 (EBU Tech 3306), AIFF, AU and W64; from memory but for the first two.
    """
    if head[:4] == b"RIFF":
        sound = wav_sound(file)
        return None if sound is None or sound[1] == _SIZE_UNKNOWN else sum(sound)
    if len(head) < 32:
        return None
    if head[:4] == b"RF64" and head[12:16] == b"ds64":
        return 8 + int(struct.unpack_from("<Q", head, 20)[0])
    if head[:4] == b"FORM":
        return 8 + int(struct.unpack_from(">I", head, 4)[0])
    if head[:4] == b".snd":
        start, size = struct.unpack_from(">II", head, 4)
        return None if size == _SIZE_UNKNOWN else int(start + size)
    if head[:8] == _W64:
        return int(struct.unpack_from("<Q", head, 16)[0])
    return None


def _ogg_ends(file: BinaryIO, size: int) -> bool:
    file.seek(max(0, size - _OGG_PAGE))
    page = file.read().rpartition(b"OggS")[2]
    return len(page) > 1 and bool(page[1] & _OGG_LAST)
