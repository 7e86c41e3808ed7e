"""The SQLite settings for a job file: one file, on disk with every answer."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from pathlib import Path

from assistant.errors import JournalError
from assistant.record.check import LEFT_ALONE


def open_connection(path: Path) -> sqlite3.Connection:
    """
    A connection that has the file to itself and writes each line to disk.

    Raises JournalError where another program uses it, or it cannot be opened.
    """
    connection = sqlite3.connect(path, isolation_level=None, timeout=0)
    try:
        # Exclusive before anything is read: then no -shm file is needed.
        connection.execute("PRAGMA locking_mode = EXCLUSIVE").fetchone()
        # Changes go into the file itself, and what they replace into a journal, which is empty
        # again with the answer. A log (WAL) would keep the lines out of the file until the end;
        # one that is left over is merged here.
        (mode,) = connection.execute("PRAGMA journal_mode = TRUNCATE").fetchone()
        if mode != "truncate":
            raise JournalError(f"{path} cannot be opened: its log is not folded in. {LEFT_ALONE}")
        connection.execute("PRAGMA synchronous = FULL")
        # On a Mac a plain flush only reaches the drive's cache.
        connection.execute("PRAGMA fullfsync = ON")
        connection.execute("PRAGMA checkpoint_fullfsync = ON")
        # All that was read or written stays in memory, 16 MB of it at most: where another program
        # writes over the file, the whole record is saved again from there.
        connection.execute("PRAGMA cache_size = -16384")
        # Takes SQLite's own lock too, against programs that know nothing of ours.
        connection.execute("BEGIN IMMEDIATE")
        connection.execute("COMMIT")
    except JournalError:
        connection.close()
        raise
    except sqlite3.Error as error:
        connection.close()
        if error.sqlite_errorcode == sqlite3.SQLITE_BUSY:
            raise JournalError(f"{path} is in use by another program. {LEFT_ALONE}") from error
        raise JournalError(f"{path} cannot be opened: {error}. {LEFT_ALONE}") from error
    return connection


def keep_journal_findable(connection: sqlite3.Connection, path: Path) -> None:
    """
    Have the journal made again where somebody deleted it.

    SQLite holds it open, but after a power cut a journal without a name cannot be found.
    """
    if not os.path.lexists(f"{path}-journal"):
        with contextlib.suppress(sqlite3.Error):
            connection.execute("PRAGMA journal_mode = OFF").fetchone()
            connection.execute("PRAGMA journal_mode = TRUNCATE").fetchone()


def take_journal_away(connection: sqlite3.Connection) -> None:
    """Remove the empty journal, under SQLite's lock: another program may use it already."""
    with contextlib.suppress(sqlite3.Error):
        connection.execute("PRAGMA locking_mode = NORMAL").fetchone()
        connection.execute("PRAGMA journal_mode = DELETE").fetchone()
