"""Utterances that were not understood at once, kept with the job for tuning recognisers.

A table beside the record and no part of it: it is created with the first miss, is not in the
chain of digests, and nothing in the job depends on it.
"""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from datetime import UTC, datetime

from assistant.reply.replies import Reply, Table
from grammar.frozen import frozen

TABLE = """CREATE TABLE misses (
    time TEXT NOT NULL,
    heard TEXT NOT NULL,
    tier TEXT NOT NULL,
    alternatives TEXT NOT NULL,
    snr_db REAL
)"""


@frozen
class Miss:
    """One utterance that was not taken as it was heard."""

    time: datetime
    """With its zone."""
    heard: str
    """The words, as far as they were recognised."""
    tier: str
    """``ask`` or ``again``."""
    alternatives: tuple[str, ...]
    """Short typed forms, the likeliest first."""
    snr_db: float | None = None
    """Speech over noise."""


def misses_told(misses: Sequence[Miss]) -> Reply:
    """The misses as a list for the user."""
    if not misses:
        return Reply("Everything that was said was understood at once, or nothing was.")
    rows = tuple(
        (
            miss.time.astimezone().strftime("%Y-%m-%d %H:%M"),
            miss.heard or "no words",
            miss.tier,
            ", ".join(miss.alternatives[:3]),
        )
        for miss in misses
    )
    count = f"{len(misses)} utterance{'' if len(misses) == 1 else 's'}"
    return Reply(
        f"{count} not understood at once.",
        tables=(Table("", ("when", "heard", "then", "perhaps"), rows),),
    )


def has_table(connection: sqlite3.Connection) -> bool:
    """Whether the table exists, that is, whether there was a miss."""
    found = connection.execute(
        "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'misses'"
    ).fetchone()
    return found is not None


def insert_miss(connection: sqlite3.Connection, miss: Miss) -> None:
    """Add one, inside the transaction of the caller; the first creates the table."""
    if not has_table(connection):
        connection.execute(TABLE)
    row = (
        miss.time.astimezone(UTC).isoformat(timespec="microseconds"),
        _storable(miss.heard),
        miss.tier,
        json.dumps(miss.alternatives),
        miss.snr_db,
    )
    connection.execute("INSERT INTO misses VALUES (?, ?, ?, ?, ?)", row)


def read_misses(connection: sqlite3.Connection) -> list[Miss]:
    """All misses, oldest first; damaged rows are left out, as nothing depends on them."""
    if not has_table(connection):
        return []
    rows = connection.execute("SELECT * FROM misses ORDER BY rowid").fetchall()
    return [miss for row in rows if (miss := _miss(row)) is not None]


def _miss(row: Sequence[object]) -> Miss | None:
    time, heard, tier, alternatives, snr_db = row
    try:
        forms = tuple(str(form) for form in json.loads(str(alternatives)))
        when = datetime.fromisoformat(str(time))
        return Miss(when, str(heard), str(tier), forms, None if snr_db is None else float(snr_db))  # type: ignore[arg-type]
    except (ValueError, TypeError):
        return None


def _storable(text: str) -> str:
    """Text without halves of characters, which a recogniser may give and SQLite can't store."""
    return text.encode("utf-8", "replace").decode("utf-8")
