"""Lines that came from a paired device: which device, and by which id it sent them.

A table beside the record and no part of it: it is created with the first such line, in the
transaction of the line itself, and is not in the chain of digests. A line without a row here was
typed or said at the program. A device that never got its answer sends the line again under the
same id; by this table it is not recorded twice, even if the program was started again meanwhile.
"""

from __future__ import annotations

import sqlite3

from grammar.frozen import frozen

TABLE = """CREATE TABLE sent_lines (
    line TEXT PRIMARY KEY,
    device TEXT NOT NULL,
    utterance INTEGER NOT NULL
)"""


@frozen
class Sender:
    """Where a line came from."""

    device: str
    """``phone 1``; a name means one device in all of a job."""
    line: str
    """The id that the device gave the line, unlike any other."""


def has_table(connection: sqlite3.Connection) -> bool:
    """Whether any line came from a device."""
    found = connection.execute(
        "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'sent_lines'"
    ).fetchone()
    return found is not None


def insert_sender(connection: sqlite3.Connection, sender: Sender, utterance: int) -> None:
    """Keep where an utterance came from, inside the transaction of the caller."""
    if not has_table(connection):
        connection.execute(TABLE)
    connection.execute(
        "INSERT INTO sent_lines VALUES (?, ?, ?)", (sender.line, sender.device, utterance)
    )


def utterance_sent_as(connection: sqlite3.Connection, line: str) -> int | None:
    """The utterance that a line of this id was recorded as; None where it was not."""
    if not has_table(connection):
        return None
    row = connection.execute("SELECT utterance FROM sent_lines WHERE line = ?", (line,)).fetchone()
    return None if row is None else int(row[0])


def devices(connection: sqlite3.Connection) -> dict[int, str]:
    """The device of each utterance that came from one, by the utterance's number."""
    if not has_table(connection):
        return {}
    rows = connection.execute("SELECT utterance, device FROM sent_lines")
    return {int(number): str(device) for number, device in rows}
