"""The lock by which only one Leadsman has a job file open.

It is a byte-range lock on the file itself, so it ends with the process, however
that ends, and leaves nothing to clean up.
"""

from __future__ import annotations

import errno
import os
import stat
import sys
import threading
from pathlib import Path
from typing import BinaryIO

from assistant.errors import JobInUseError, JournalError

LOCK_BYTE = 0x40000000 + 1024
"""Offset in the page that SQLite reserves for locks, past the 512 bytes it uses itself."""

_HEADER_BYTES = 100
"""Of SQLite's file format; a count of the file's changes is among them."""

_held: set[tuple[int, int]] = set()
_guard = threading.Lock()


class FileLock:
    """
    The lock on an existing job file, and the one open file it may be read through.

    A process loses its byte-range locks on a file as soon as it closes *any*
    descriptor of that file. So nothing else in this program may open a job file that
    a journal has open, and the lock is released only after SQLite has closed its own.
    """

    def __init__(self, path: Path) -> None:
        with _guard:
            self._key = _identity(path)
            if self._key in _held:
                raise JournalError(f"{path} is already open here.")
            try:
                self.file: BinaryIO = open(path, "r+b", buffering=0)  # noqa: SIM115
            except OSError as error:
                raise unopenable_message(path, error) from error
            try:
                _lock(self.file.fileno())
            except OSError as error:
                self.file.close()
                raise _refused(path, error) from error
            _held.add(self._key)
        self._written: bytes | None = None

    def forget(self) -> None:
        """The file is about to be written here, and what it will look like is not known."""
        self._written = None

    def remember(self) -> None:
        """Keep in mind what the file looks like, after each time that it was written here."""
        self._written = self._looks()

    def is_as_written(self) -> bool:
        """Whether nobody else has written into the file since, as `cp OLD JOB` does."""
        return self._written is None or self._looks() == self._written

    def _looks(self) -> bytes | None:
        """The file's header, in which every commit counts on, and how long it is."""
        try:
            self.file.seek(0)
            return (
                self.file.read(_HEADER_BYTES) + str(os.fstat(self.file.fileno()).st_size).encode()
            )
        except OSError:
            return self._written  # a file out of reach has not changed

    def is_at(self, path: Path) -> bool:
        """Whether the path still names the file that is locked; one call, cheap enough always."""
        try:
            found = os.stat(path)
        except (FileNotFoundError, NotADirectoryError):
            return False
        except OSError:
            return True  # a file out of reach is not gone
        if (found.st_dev, found.st_ino) == self._key or self.released:
            return True
        # Some file systems renumber their files while they are in use.
        ours = os.fstat(self.file.fileno())
        return (found.st_dev, found.st_ino) == (ours.st_dev, ours.st_ino)

    @property
    def released(self) -> bool:
        """Whether the lock was released."""
        return self.file.closed

    def release(self) -> None:
        """Release the lock; may be called twice."""
        with _guard:
            if not self.file.closed:
                self.file.close()
                _held.discard(self._key)


def is_open_here(path: Path) -> bool:
    """
    Whether this process holds the lock of a file, under whatever name.

    It must not be opened a second time then, as closing it again would give the lock up.
    """
    try:
        found = os.stat(path)
    except OSError:
        return False
    with _guard:
        return (found.st_dev, found.st_ino) in _held


def unopenable_message(path: Path, error: Exception) -> JournalError:
    """The message for a file that the system does not let us open or make."""
    if isinstance(error, PermissionError):
        return JournalError(f"{path} cannot be opened: you may not read and write there.")
    reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
    return JournalError(f"{path} cannot be opened: {reason}.")


def _identity(path: Path) -> tuple[int, int]:
    try:
        found = os.stat(path)
    except (OSError, ValueError) as error:
        raise unopenable_message(path, error) from error
    if stat.S_ISDIR(found.st_mode):
        raise JournalError(f"{path} is a folder; name a job file in it.")
    if not stat.S_ISREG(found.st_mode):
        raise JournalError(f"{path} is not a file that a job could be kept in.")
    return found.st_dev, found.st_ino


def _refused(path: Path, error: OSError) -> JournalError:
    if error.errno in (errno.EACCES, errno.EAGAIN, errno.EDEADLK):
        return JobInUseError(f"{path} is open in another Leadsman. End that one first.")
    return JournalError(f"{path} cannot be locked where it lies ({error.strerror}). Copy it first.")


def _lock(descriptor: int) -> None:
    if sys.platform == "win32":
        import msvcrt

        os.lseek(descriptor, LOCK_BYTE, os.SEEK_SET)
        msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        os.lseek(descriptor, 0, os.SEEK_SET)
    else:
        import fcntl

        fcntl.lockf(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB, 1, LOCK_BYTE)
