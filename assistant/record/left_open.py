"""The question that waits, kept with the job: told at the next opening, whatever ends this one.

A table beside the record and no part of it: it is made with the first question, is in no chain
of digests, and has one row at most.
"""

from __future__ import annotations

import json
import sqlite3
from dataclasses import dataclass

TABLE = """CREATE TABLE left_open (
    after INTEGER NOT NULL,
    question TEXT NOT NULL,
    said TEXT NOT NULL,
    commands TEXT NOT NULL
)"""


@dataclass(frozen=True, slots=True)
class LeftOpen:
    """A question as it waits."""

    after: int
    """The number of the newest utterance on record; with a newer one it waits no more."""
    question: str
    """As it was put."""
    said: str
    """The words that led to it, a line each."""
    commands: tuple[tuple[str, str], ...]
    """What is asked about, the likeliest first: short typed form, and words as they were heard."""


def write_left_open(connection: sqlite3.Connection, left: LeftOpen | None) -> None:
    """Keep this question and no other, inside the transaction of the caller; None keeps none."""
    if _has_table(connection):
        connection.execute("DELETE FROM left_open")
    elif left is not None:
        connection.execute(TABLE)
    if left is not None:
        row = (left.after, left.question, left.said, json.dumps(left.commands))
        connection.execute("INSERT INTO left_open VALUES (?, ?, ?, ?)", row)


def read_left_open(connection: sqlite3.Connection) -> LeftOpen | None:
    """The question that was kept; one that makes no sense is none, as nothing hangs on it."""
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
