"""The waiting question, kept with the job so that the next opening can ask it again.

A table beside the record and no part of it: it is created with the first question, is not in
the chain of digests, and has at most one row.
"""

from __future__ import annotations

import json
import sqlite3

from grammar.frozen import frozen

TABLE = """CREATE TABLE left_open (
    after INTEGER NOT NULL,
    question TEXT NOT NULL,
    said TEXT NOT NULL,
    commands TEXT NOT NULL
)"""


@frozen
class LeftOpen:
    """A waiting question as it is stored."""

    after: int
    """Number of the newest utterance when it was asked; a newer one ends the waiting."""
    question: str
    """The question's text."""
    said: str
    """The words that led to it, one line each."""
    commands: tuple[tuple[str, str], ...]
    """The choices, the likeliest first: short typed form, and the words as heard."""


def write_left_open(connection: sqlite3.Connection, left: LeftOpen | None) -> None:
    """Store this question only, inside the transaction of the caller; None stores none."""
    if _has_table(connection):
        connection.execute("DELETE FROM left_open")
    elif left is not None:
        connection.execute(TABLE)
    if left is not None:
        row = (left.after, left.question, left.said, json.dumps(left.commands))
        connection.execute("INSERT INTO left_open VALUES (?, ?, ?, ?)", row)


def read_left_open(connection: sqlite3.Connection) -> LeftOpen | None:
    """The stored question, if any; an invalid one is ignored, as nothing depends on it."""
    if not _has_table(connection):
        return None
    row = connection.execute("SELECT * FROM left_open").fetchone()
    try:
        after, question, said, commands = row
        pairs = tuple((str(form), str(words)) for form, words in json.loads(str(commands)))
        return LeftOpen(int(after), str(question), str(said), pairs)
    except (ValueError, TypeError):
        return None


def _has_table(connection: sqlite3.Connection) -> bool:
    found = connection.execute(
        "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'left_open'"
    ).fetchone()
    return found is not None
