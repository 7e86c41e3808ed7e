"""Makes job files beside their place, then moves them there complete or not at all."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import time
from collections.abc import Callable, Iterator
from pathlib import Path

from assistant.record.check import companions

_STALE_S = 3600
"""Age from which a draft is left over: it is moved to its place within seconds."""


@contextlib.contextmanager
def draft_beside(path: Path, write: Callable[[sqlite3.Connection], None]) -> Iterator[Path]:
    """
    A database in the folder of `path`, filled by `write` and flushed to disk.

    It is removed at the end; see :func:`put_in_place`. Raises OSError and sqlite3.Error.
    """
    draft = draft_named(path)
    try:
        # Opened before SQLite does, because its own message gives no reason.
        # Readable by its owner only: a job says where somebody works, and for whom.
        os.close(os.open(draft, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        connection = sqlite3.connect(draft, isolation_level=None)
        try:
            connection.execute("PRAGMA synchronous = FULL")
            connection.execute("PRAGMA fullfsync = ON")
            write(connection)
            # The copy of a job that was kept with a log has one too.
            connection.execute("PRAGMA journal_mode = DELETE").fetchone()
        finally:
            connection.close()
        yield draft
    finally:
        for left in (draft, *companions(draft)):
            left.unlink(missing_ok=True)


def draft_named(path: Path) -> Path:
    """An unused name beside `path`, which explains itself if the file is left over."""
    return path.with_name(f".{path.name}.{os.urandom(4).hex()}.new")


def clear_drafts(path: Path) -> None:
    """
    Remove drafts of `path` left by a Leadsman that was killed; the job must not be open.

    A draft that holds a line stays, whatever its age, as the file it was to replace may be
    gone. So does one so young that another Leadsman may be writing it.
    """
    with contextlib.suppress(OSError):
        for found in path.parent.iterdir():
            name = found.name
            if name.startswith(f".{path.name}.") and name.endswith(".new") and _is_left(found):
                for left in (found, *companions(found)):
                    left.unlink(missing_ok=True)


def _is_left(draft: Path) -> bool:
    state = draft.stat()
    if abs(time.time() - state.st_mtime) < _STALE_S:
        return False
    # With a second name it is the job itself, whose draft name was not removed yet.
    return state.st_nlink > 1 or state.st_size == 0 or _holds_no_line(draft)


def _holds_no_line(draft: Path) -> bool:
    try:
        connection = sqlite3.connect(f"{draft.as_uri()}?mode=ro&immutable=1", uri=True)
        try:
            return connection.execute("SELECT 1 FROM utterances").fetchone() is None
        finally:
            connection.close()
    except sqlite3.Error:
        return False


def put_in_place(draft: Path, path: Path) -> None:
    """Give the draft its final name, on disk. Raises FileExistsError where that is taken."""
    try:
        os.link(draft, path)
    except FileExistsError:
        raise
    except OSError:
        # A memory stick's file system may have no links.
        if os.path.lexists(path):
            raise FileExistsError(path) from None
        draft.rename(path)
    _flush_folder(path.parent)


def move_in_place(path: Path, target: Path) -> None:
    """
    Give a job file another name on its disk, completely or not at all.

    Raises FileExistsError where that name is taken, and OSError.
    """
    if os.path.lexists(target) and target.samefile(path):
        path.rename(target)  # another spelling, where the disk does not tell them apart
    else:
        _rename_to_free(path, target)
    for folder in {target.parent, path.parent}:
        _flush_folder(folder)


def _rename_to_free(path: Path, target: Path) -> None:
    """Rename, but never over a file that appeared meanwhile."""
    try:
        os.link(path, target)
    except FileExistsError:
        raise
    except OSError:
        # A memory stick's file system may have no links. An empty file holds the name first.
        os.close(os.open(target, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600))
        try:
            path.replace(target)
        except OSError:
            target.unlink()
            raise
        return
    try:
        path.unlink()
    except OSError:
        target.unlink()
        raise


def _flush_folder(path: Path) -> None:
    """Have a folder's names on disk."""
    if hasattr(os, "O_DIRECTORY"):
        folder = os.open(path, os.O_RDONLY | os.O_DIRECTORY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
