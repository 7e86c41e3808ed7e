"""Follows a job file that another window of the program writes to, without touching it."""

from __future__ import annotations

from pathlib import Path

from assistant.errors import JournalError
from assistant.record.check import companions
from assistant.record.glance import glance_at
from assistant.record.table import RecordEntry


class WatchedFile:
    """
    A job file, looked at again whenever it has changed.

    Parameters
    ----------
    path : Path
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._seen: tuple[int, int] | None = None

    def look(self) -> list[RecordEntry] | None:
        """
        All that is on record, where the file has changed since the last look; else None.

        None too while a line is being written: the next look finds it.

        Raises
        ------
        JournalError
            Where the file is gone, or is no job that can be read.
        """
        mark = self._mark()
        if mark == self._seen or self._is_written():
            return None
        try:
            entries = glance_at(self.path)
        except JournalError as why:
            if self._is_written() or self._mark() != mark:
                return None  # it was read as it changed
            raise JournalError(f"{self.path}: {why}") from why
        if self._is_written() or self._mark() != mark:
            return None
        self._seen = mark
        return entries

    def _mark(self) -> tuple[int, int]:
        try:
            found = self.path.stat()
        except OSError as fault:
            raise JournalError(f"{self.path} cannot be read: {fault.strerror}.") from fault
        return found.st_mtime_ns, found.st_size

    def _is_written(self) -> bool:
        """Whether SQLite's journal beside it has something to undo."""
        try:
            return any(beside.stat().st_size for beside in companions(self.path))
        except OSError:
            return True
