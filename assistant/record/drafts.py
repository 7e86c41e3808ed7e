"""Job files made beside their place and put there whole, or not at all."""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections.abc import Callable, Iterator
from pathlib import Path

from assistant.record.check import companions


@contextlib.contextmanager
def draft_beside(path: Path, write: Callable[[sqlite3.Connection], None]) -> Iterator[Path]:
    """
    A database in the folder of `path`, filled by `write` and flushed to disk.

    It goes away in the end; see :func:`put_in_place`. Raises OSError and sqlite3.Error.
    """
    draft = path.with_name(f".{path.name}.{os.urandom(4).hex()}.new")
    try:
        # Opened before SQLite does, because its own message gives no reason.
        draft.open("xb").close()
        connection = sqlite3.connect(draft, isolation_level=None)
        try:
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("PRAGMA fullfsync = ON")
            write(connection)
            # A copy of a job that was kept with a log.
            connection.execute("PRAGMA journal_mode = DELETE").fetchone()
        finally:
            connection.close()
        yield draft
    finally:
        for left in (draft, *companions(draft)):
            left.unlink(missing_ok=True)


def put_in_place(draft: Path, path: Path) -> None:
    """Give the draft its name, on disk. Raises FileExistsError where something stands there."""
    try:
        os.link(draft, path)
    except FileExistsError:
        raise
    except OSError:
        # A memory stick's file system may know no links.
        if os.path.lexists(path):
            raise FileExistsError(path) from None
        draft.rename(path)
    if hasattr(os, "O_DIRECTORY"):
        folder = os.open(path.parent, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
