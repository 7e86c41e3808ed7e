"""Checks that a file is a job, complete, and one that we can read.

SQLite repairs a file as it opens it: a log left by a crash is written into it, and a
damaged file may be changed in the attempt. So a copy is examined, in a folder of its
own, and a file that is refused stays as it was.
"""

from __future__ import annotations

import sqlite3
import struct
from contextlib import suppress
from pathlib import Path
from typing import BinaryIO

from assistant.errors import JournalError, NewerRecordError
from assistant.record.table import (
    APPLICATION_ID,
    RECORD_VERSION,
    HeaderMark,
    RecordEntry,
    check_tables,
    entries,
)

LEFT_ALONE = "The file was left as it was."

_MAGIC = b"SQLite format 3\0"
_HEADER_BYTES = 100
"""Of the database header, by SQLite's file format description."""
_COMPANIONS = ("-wal", "-journal")
_DAMAGE = (JournalError, sqlite3.Error, ValueError, TypeError, OverflowError, MemoryError)
"""Errors of reading a damaged file; a wrong length may ask for all memory there is."""
_NO_ROOM = {
    sqlite3.SQLITE_FULL, sqlite3.SQLITE_CANTOPEN, sqlite3.SQLITE_IOERR_WRITE,
    sqlite3.SQLITE_IOERR_FSYNC, sqlite3.SQLITE_IOERR_TRUNCATE, sqlite3.SQLITE_IOERR_SHMSIZE,
    sqlite3.SQLITE_IOERR_SHMOPEN,
}  # fmt: skip
"""Errors that are the fault of the copy's folder, not of the job's pages."""
_WAL_HEADER = struct.Struct(">8I")
_FRAME_HEADER = struct.Struct(">4I8x")


def examine_job_file(file: BinaryIO, path: Path) -> RecordEntry | None:
    """
    Raise JournalError unless the job can be opened as it is.

    Returns the last line where it cannot be known whether there were more: the file was kept
    with a log, and there is none.

    Parameters
    ----------
    file : BinaryIO
        The locked file; only read from.
    path : Path
        Its name, for messages and to find what a crash left beside it.
    """
    import tempfile  # slow to load, and a new job has nothing to be examined

    _check_header(file, path)
    misses_log = _is_kept_with_log(file) and not Path(f"{path}-wal").exists()
    try:
        with tempfile.TemporaryDirectory(prefix="leadsman-", ignore_cleanup_errors=True) as folder:
            copy = Path(folder) / "job"
            _copy(file, path, copy)
            last = _check_copy(copy, path)
    except OSError as error:
        raise JournalError(f"{path} could not be examined: {error}. {LEFT_ALONE}") from error
    if misses_log and last is None:
        raise JournalError(_parted_empty(path))
    return last if misses_log else None


def companions(path: Path) -> list[Path]:
    """Files that SQLite may have left beside a job file when it was interrupted."""
    beside = (path.with_name(path.name + ending) for ending in _COMPANIONS)
    return [found for found in beside if found.exists()]


def left_of_it(path: Path, left: Path) -> str:
    """The message for a log or journal whose job file is missing: keep the two together."""
    if left.name.endswith("-wal"):
        holds = "It holds the last lines of that job, perhaps a whole day."
    else:
        holds = "It belongs to a job file that was cut short as it was written."
    return (
        f"{path} is gone but {left.name} was left of it. {holds} Keep it: put the job file "
        "back beside it, under its old name, and open that. For a new job use another name."
    )


def _check_header(file: BinaryIO, path: Path) -> None:
    file.seek(0)
    header = file.read(_HEADER_BYTES)
    if not header:
        raise JournalError(f"{path} is empty, so it is no Leadsman job. {LEFT_ALONE}")
    if len(header) < _HEADER_BYTES or not header.startswith(_MAGIC):
        raise JournalError(f"{path} is no Leadsman job. {LEFT_ALONE}")
    (stored,) = struct.unpack_from(">i", header, 60)
    version = HeaderMark.from_stored(stored).version
    (application,) = struct.unpack_from(">i", header, 68)
    if application != APPLICATION_ID:
        raise JournalError(f"{path} belongs to another program. {LEFT_ALONE}")
    if version > RECORD_VERSION:
        raise _newer(path, f"its record has version {version}, ours is {RECORD_VERSION}")
    if version < 1:
        raise JournalError(f"{path} is damaged: its record has version {version}. {LEFT_ALONE}")


def _is_kept_with_log(file: BinaryIO) -> bool:
    """Whether lines go to a log first; source of the offset as for :func:`_trouble_at_end`."""
    file.seek(18)
    return file.read(1) == b"\2"


def _parted_empty(path: Path) -> str:
    return (
        f"{path} has no line in it, and all that was said may be in {path.name}-wal, which is not "
        "beside it. Look for that where this file came from and put it here too. If there is none, "
        f"nothing was said in this job: begin it under another name. {LEFT_ALONE}"
    )


def _copy(file: BinaryIO, path: Path, copy: Path) -> None:
    import shutil

    file.seek(0)
    with copy.open("wb") as target:
        shutil.copyfileobj(file, target)
    for beside in companions(path):
        shutil.copyfile(beside, f"{copy}{beside.name.removeprefix(path.name)}")


def _check_copy(copy: Path, path: Path) -> RecordEntry | None:
    """Check the copy; returns the last line, or raises JournalError where anything is wrong."""
    wal = Path(f"{copy}-wal")
    log = wal.read_bytes() if wal.exists() else b""
    connection = sqlite3.connect(copy, isolation_level=None)
    try:
        trouble = _trouble_in_log(connection, log)
        _recover(connection)
        trouble = trouble or _trouble_at_end(copy) or _trouble_in_pages(connection)
        return _check_record(connection, path, trouble)
    finally:
        connection.close()


def _check_record(connection: sqlite3.Connection, path: Path, trouble: str) -> RecordEntry | None:
    sound, last = 0, None
    try:
        check_tables(connection)
        for last in entries(connection):
            sound = last.number
        trouble = trouble or _trouble_in_count(connection, sound)
    except NewerRecordError as error:
        if not trouble:
            raise _newer(path, str(error).rstrip(".")) from error
    except _DAMAGE as error:
        trouble = trouble or _damage(error)
    if trouble:
        until = f"The record makes sense up to utterance {sound}" if sound else "No utterance reads"
        advice = "" if any(left.stat().st_size for left in companions(path)) else _copy_again(path)
        raise JournalError(f"{path} is damaged: {trouble}. {until}. {LEFT_ALONE}{advice}")
    return last


def _copy_again(path: Path) -> str:
    return (
        f" If it is a copy, copy it once more, together with {path.name}-journal or "
        f"{path.name}-wal where one lies beside the original."
    )


def _recover(connection: sqlite3.Connection) -> None:
    """Let SQLite undo what a crash interrupted, as it does when a file is first read."""
    with suppress(*_DAMAGE):
        connection.execute("SELECT 1 FROM sqlite_master").fetchone()


def _trouble_in_count(connection: sqlite3.Connection, there: int) -> str:
    """Whether the file's header counts more lines than there are."""
    (stored,) = connection.execute("PRAGMA user_version").fetchone()
    counted = HeaderMark.from_stored(stored).utterances
    if there >= counted:
        return ""
    missing = counted - there
    what = "its last line is" if missing == 1 else f"its last {missing} lines are"
    return f"{what} missing, {there} of {counted} are there"


def _trouble_at_end(copy: Path) -> str:
    """
    Whether pages are missing that the file's header counts.

    Source of the offsets: SQLite's file format description, "The Database Header".
    """
    with copy.open("rb") as file:
        header = file.read(_HEADER_BYTES)
    (size,) = struct.unpack_from(">H", header, 16)
    changes, pages = struct.unpack_from(">II", header, 24)
    (counted_at,) = struct.unpack_from(">I", header, 92)
    there = copy.stat().st_size // (65536 if size == 1 else max(size, 512))
    if counted_at != changes or there >= pages:
        return ""
    return f"its end is missing, {there} of {pages} pages are there"


def _damage(error: Exception) -> str:
    """What is wrong with the job; OSError where only the copy could not be worked on."""
    if getattr(error, "sqlite_errorcode", None) in _NO_ROOM:
        import tempfile

        raise OSError(f"{tempfile.gettempdir()} has no room for a copy, {error}") from error
    return str(error)


def _trouble_in_pages(connection: sqlite3.Connection) -> str:
    try:
        (found,) = connection.execute("PRAGMA integrity_check(1)").fetchone()
    except _DAMAGE as error:
        return _damage(error)
    return "" if found == "ok" else " ".join(found.split())


def _trouble_in_log(connection: sqlite3.Connection, log: bytes) -> str:
    """
    Whether the log of a crash holds more than SQLite would take from it.

    SQLite reads the log as far as its checksums hold and silently drops the rest. That
    is right for the one transaction that a crash interrupted, which was never answered.
    Two or more after the break were on disk once, so the log is damaged.
    """
    if len(log) <= _WAL_HEADER.size:
        return ""
    if not _log_header_holds(log):
        return "the head of its log does not hold"
    _, _, page_size, _, *salts, _, _ = _WAL_HEADER.unpack_from(log)
    try:
        _, taken, _ = connection.execute("PRAGMA wal_checkpoint").fetchone()
    except _DAMAGE as error:
        return _damage(error)
    frame_size = _FRAME_HEADER.size + page_size
    dropped = 0
    for start in range(_WAL_HEADER.size + max(taken, 0) * frame_size, len(log), frame_size):
        if start + frame_size > len(log):
            break
        _, size_after_commit, *frame_salts = _FRAME_HEADER.unpack_from(log, start)
        dropped += size_after_commit > 0 and frame_salts == salts
    return "its log breaks off in the middle" if dropped > 1 else ""


def _log_header_holds(log: bytes) -> bool:
    """Check a log's header. Source: SQLite's file format description, "WAL File Format"."""
    magic, *_, first, second = _WAL_HEADER.unpack_from(log)
    if magic not in (0x377F0682, 0x377F0683):
        return False
    words = struct.unpack_from(">6I" if magic & 1 else "<6I", log)
    sums = [0, 0]
    for even, odd in zip(words[::2], words[1::2], strict=True):
        sums[0] = (sums[0] + even + sums[1]) & 0xFFFFFFFF
        sums[1] = (sums[1] + odd + sums[0]) & 0xFFFFFFFF
    return sums == [first, second]


def _newer(path: Path, reason: str) -> NewerRecordError:
    return NewerRecordError(f"{path} was made by a newer Leadsman: {reason}. {LEFT_ALONE}")
