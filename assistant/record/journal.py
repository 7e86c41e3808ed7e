"""The record of a job: what was said and what it meant, only ever added to.

One SQLite file a job. What :meth:`Journal.append` has returned from is on disk.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType

from assistant.errors import JournalError
from assistant.events import Event
from assistant.record.check import LEFT_ALONE, companions, examine
from assistant.record.event_rows import row_of
from assistant.record.lock import FileLock, unopenable
from assistant.record.misses import Miss, insert_miss, read_misses
from assistant.record.table import Entry, entries, insert_utterance, last_utterance, make_tables

__all__ = ["Clock", "Entry", "Journal", "utc_now"]

Clock = Callable[[], datetime]
"""Gives the time now, with its zone."""


def utc_now() -> datetime:
    """The time of this machine, in UTC."""
    return datetime.now(UTC)


class Journal:
    """
    The open record of one job, and its only writer.

    Made by :meth:`open`; a context manager. While it is open no other process and no
    other journal can open the same file.
    """

    def __init__(
        self, path: Path | None, connection: sqlite3.Connection, lock: FileLock | None, clock: Clock
    ) -> None:
        self.path = path
        """The job file; None where the record is kept in memory only."""
        self._connection = connection
        self._lock = lock
        self._clock = clock

    @classmethod
    def open(cls, path: Path | None, clock: Clock = utc_now) -> Journal:
        """
        Open a job, or begin it where there is none yet.

        Parameters
        ----------
        path : Path or None
            The job file. Its folder must be there already, so that a slip in a
            path makes no new folders. None keeps the record in memory.
        clock : callable
            Gives the time of each utterance, with its zone.

        Raises
        ------
        JournalError
            Where the file is in use, not ours, newer, damaged or out of reach. It is
            then exactly as it was.
        """
        if path is None:
            return cls(None, _in_memory(), None, clock)
        path, is_there = _found(path)
        if not is_there:
            _begin(path)
        lock = FileLock(path)
        try:
            examine(lock.file, path)
            return cls(path, _connected(path), lock, clock)
        except BaseException:
            lock.release()
            raise

    def append(self, said: str, events: Sequence[Event], time: datetime | None = None) -> int:
        """
        Record an utterance with all its events, or nothing at all.

        Parameters
        ----------
        said : str
            The words exactly as they were said.
        events : sequence of Event
            What they meant, in order.
        time : datetime, optional
            When it was said, with its zone; the clock's own time where it is left out.

        Returns
        -------
        number : int
            The number of the utterance. It is on disk now.

        Raises
        ------
        JournalError
            Where it could not be written; nothing was recorded, and the journal
            can be tried again.
        """
        rows = [row_of(event) for event in events]
        time = self._clock() if time is None else time
        if time.tzinfo is None:
            raise ValueError("a time must have its zone")
        with self._written_whole():
            return insert_utterance(self._connection, time, said, rows)

    def note_miss(self, miss: Miss) -> None:
        """
        Keep what was not understood, beside the record.

        Raises :class:`JournalError` where it could not be written.
        """
        with self._written_whole():
            insert_miss(self._connection, miss)

    def misses(self) -> list[Miss]:
        """What was not understood, oldest first."""
        return read_misses(self._connection)

    @contextlib.contextmanager
    def _written_whole(self) -> Iterator[None]:
        """On disk when it ends, or nothing of it."""
        try:
            self._connection.execute("BEGIN IMMEDIATE")
            yield
            self._connection.execute("COMMIT")
        except sqlite3.Error as error:
            raise JournalError(_why_not_written(error)) from error
        finally:
            # Also after Ctrl-C. SQLite has often rolled back by itself already.
            with contextlib.suppress(sqlite3.Error):
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")

    def utterances(self) -> Iterator[tuple[int, str, list[Event], datetime]]:
        """Number, words, events and time of all that was recorded, oldest first."""
        for entry in self.entries():
            yield entry.number, entry.said, list(entry.events), entry.time

    def entries(self) -> list[Entry]:
        """Everything recorded so far with its time, oldest first, checked again on the way."""
        try:
            return list(entries(self._connection))
        except sqlite3.Error as error:
            raise JournalError(f"The record cannot be read: {error}.") from error

    def last_utterance(self) -> int:
        """The number of the newest utterance; 0 while there is none."""
        return last_utterance(self._connection)[0]

    def close(self) -> None:
        """Fold the log into the one file that remains; may be called twice."""
        self._connection.close()
        if self._lock is not None:
            self._lock.release()

    def __enter__(self) -> Journal:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()


def _found(path: Path) -> tuple[Path, bool]:
    """The path with all links followed, and whether something is there."""
    try:
        real = path.resolve()
        real.lstat()
    except FileNotFoundError:
        return real, False
    except (OSError, ValueError, RuntimeError) as error:
        raise unopenable(path, error) from error
    return real, True


def _in_memory() -> sqlite3.Connection:
    connection = sqlite3.connect(":memory:", isolation_level=None)
    make_tables(connection)
    return connection


def _begin(path: Path) -> None:
    """Make a job with nothing in it; whole or not at all, whenever the power goes."""
    if not path.parent.is_dir():
        raise JournalError(f"There is no folder {path.parent}. Make it first, or name another.")
    if beside := companions(path):
        # SQLite would read the old log into the new file.
        raise JournalError(
            f"{path} is gone but {beside[0].name} was left of it. Move that away first."
        )
    draft = path.with_name(f".{path.name}.{os.urandom(4).hex()}.new")
    try:
        _write_draft(draft)
        _put_in_place(draft, path)
    except (OSError, ValueError) as error:
        raise unopenable(path, error) from error
    except sqlite3.Error as error:
        raise JournalError(f"{path} cannot be made: {error}.") from error
    finally:
        for left in (draft, *companions(draft)):
            left.unlink(missing_ok=True)


def _write_draft(draft: Path) -> None:
    # Opened before SQLite does, because its own message gives no reason.
    draft.open("xb").close()
    connection = sqlite3.connect(draft, isolation_level=None)
    try:
        # Before the log is switched on, so that the marks stand in the file itself.
        connection.execute("PRAGMA synchronous = FULL")
        connection.execute("BEGIN")
        make_tables(connection)
        connection.execute("COMMIT")
        connection.execute("PRAGMA journal_mode = WAL").fetchone()
    finally:
        connection.close()


def _put_in_place(draft: Path, path: Path) -> None:
    try:
        os.link(draft, path)
    except FileExistsError:
        return  # Another Leadsman was faster; whoever gets the lock goes on.
    except OSError:
        # A memory stick's file system may know no links.
        draft.rename(path)
    if hasattr(os, "O_DIRECTORY"):
        folder = os.open(path.parent, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)


def _connected(path: Path) -> sqlite3.Connection:
    connection = sqlite3.connect(path, isolation_level=None, timeout=0)
    try:
        # Exclusive before anything is read: then no -shm file is needed.
        connection.execute("PRAGMA locking_mode = EXCLUSIVE").fetchone()
        connection.execute("PRAGMA journal_mode = WAL").fetchone()
        connection.execute("PRAGMA synchronous = FULL")
        # On a Mac a plain flush ends in the drive's own memory.
        connection.execute("PRAGMA fullfsync = ON")
        connection.execute("PRAGMA checkpoint_fullfsync = ON")
        # Takes SQLite's own lock too, against programs that know nothing of ours.
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("COMMIT")
    except sqlite3.Error as error:
        connection.close()
        if error.sqlite_errorcode == sqlite3.SQLITE_BUSY:
            raise JournalError(f"{path} is in use by another program. {LEFT_ALONE}") from error
        raise JournalError(f"{path} cannot be opened: {error}. {LEFT_ALONE}") from error
    return connection


def _why_not_written(error: sqlite3.Error) -> str:
    # Python's own complaints, such as a closed database, carry no code.
    code = getattr(error, "sqlite_errorcode", 0) & 0xFF
    reasons = {
        sqlite3.SQLITE_FULL: "the disk is full",
        sqlite3.SQLITE_IOERR: "the disk did not take it",
        sqlite3.SQLITE_READONLY: "the file may not be written",
    }
    return f"Nothing was recorded: {reasons.get(code, error)}. Put that right and say it again."
