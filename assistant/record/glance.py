"""Reads a job file without opening it for work: for a list, in which many are looked at.

Nothing is locked, changed or checked row by row. Where something cannot be read the list says so;
whether it matters is judged when that job is opened.
"""

from __future__ import annotations

import sqlite3
from pathlib import Path

from assistant.errors import JournalError, NewerRecordError
from assistant.record.check import companions
from assistant.record.lock import is_open_here
from assistant.record.table import APPLICATION_ID, RecordEntry, unchecked_entries


def glance_at(path: Path) -> list[RecordEntry]:
    """
    What a job file holds, as far as it can be seen from outside.

    Raises
    ------
    JournalError
        Where it cannot be read now, or is open here; says why in few words.
    """
    if is_open_here(path):
        raise JournalError("open here")
    if any(left.stat().st_size for left in companions(path)):
        raise JournalError("being written, or cut off: open it to see")
    try:
        # Immutable: no lock is taken and nothing is put beside the file.
        connection = sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro&immutable=1", uri=True)
        try:
            (application,) = connection.execute("PRAGMA application_id").fetchone()
            if application != APPLICATION_ID:
                raise JournalError("no Leadsman job")
            return list(unchecked_entries(connection))
        finally:
            connection.close()
    except NewerRecordError as error:
        raise JournalError("of a newer Leadsman") from error
    except JournalError:
        raise
    except (sqlite3.Error, OSError, ValueError, TypeError) as error:
        raise JournalError("cannot be read: open it to see why") from error
