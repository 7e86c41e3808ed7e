"""How a record begins: an empty job file, or one in memory."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from assistant.errors import JournalError
from assistant.record.check import companions, left_of_it
from assistant.record.drafts import draft_beside, put_in_place
from assistant.record.lock import unopenable_message
from assistant.record.table import make_tables


def in_memory() -> sqlite3.Connection:
    """An empty record that is in no file."""
    connection = sqlite3.connect(":memory:", isolation_level=None)
    make_tables(connection)
    return connection


def begin(path: Path) -> None:
    """Make an empty job file, complete or not at all, even if the power fails."""
    if not path.parent.is_dir():
        raise JournalError(f"There is no folder {path.parent}. Make it first, or name another.")
    if beside := [left for left in companions(path) if left.stat().st_size]:
        # SQLite would read the old log into the new file.
        raise JournalError(left_of_it(path, beside[0]))
    try:
        with draft_beside(path, _make_empty) as draft:
            put_in_place(draft, path)
    except FileExistsError:
        return  # Another Leadsman was faster; the one that gets the lock continues.
    except (OSError, ValueError) as error:
        raise unopenable_message(path, error) from error
    except sqlite3.Error as error:
        raise JournalError(f"{path} cannot be made: {error}.") from error


def _make_empty(connection: sqlite3.Connection) -> None:
    connection.execute("BEGIN")
    make_tables(connection)
    connection.execute("COMMIT")
