"""Files that a job's facts were taken from, kept whole with it, each under its own digest.

A table beside the record: an event names the digest, so the chain of the record vouches for the
file too. It is created with the first file.
"""

from __future__ import annotations

import hashlib
import sqlite3
import zlib

from assistant.errors import JournalError
from grammar.frozen import frozen

TABLE = """CREATE TABLE attachments (
    digest TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    packed BLOB NOT NULL
)"""


@frozen
class Attachment:
    """A file to be kept."""

    name: str
    digest: str
    """SHA-256 of the content, as hexadecimal figures."""
    packed: bytes
    """The content, packed with zlib."""


def attachment_of(name: str, content: bytes) -> Attachment:
    """A file's content, made ready to be kept."""
    # The lowest level: a point file shrinks to a third with it, and hardly more with others.
    return Attachment(name, hashlib.sha256(content).hexdigest(), zlib.compress(content, 1))


def has_table(connection: sqlite3.Connection) -> bool:
    """Whether any file is kept."""
    found = connection.execute(
        "SELECT 1 FROM sqlite_master WHERE type = 'table' AND name = 'attachments'"
    ).fetchone()
    return found is not None


def insert_attachment(connection: sqlite3.Connection, kept: Attachment) -> None:
    """Keep one, inside the transaction of the caller; one that is there already stays."""
    if not has_table(connection):
        connection.execute(TABLE)
    connection.execute(
        "INSERT OR IGNORE INTO attachments VALUES (?, ?, ?)", (kept.digest, kept.name, kept.packed)
    )


def read_attachment(connection: sqlite3.Connection, digest: str) -> bytes | None:
    """
    The content kept under a digest; None where there is none.

    Raises JournalError where it is not what was kept.
    """
    if not has_table(connection):
        return None
    row = connection.execute(
        "SELECT packed FROM attachments WHERE digest = ?", (digest,)
    ).fetchone()
    if row is None:
        return None
    try:
        content = zlib.decompress(row[0])
    except (zlib.error, TypeError) as error:
        raise JournalError("A file kept with the job is damaged.") from error
    if hashlib.sha256(content).hexdigest() != digest:
        raise JournalError("A file kept with the job is damaged.")
    return content
