"""The tables of a job file, and the chain that shows when a row was altered.

Every row has a digest of its own content and of the digest before it, in the
order: the events of an utterance, then the utterance, then the next one's events.
So the digest of the last utterance vouches for everything before it. This finds
bits that flipped in a worn card; it is no protection against forgery.
"""

from __future__ import annotations

import hashlib
import sqlite3
from collections.abc import Iterator, Sequence
from datetime import UTC, datetime
from typing import Any

from assistant.errors import JournalError
from assistant.events.kinds import Event
from assistant.record.attachments import TABLE as ATTACHMENTS
from assistant.record.attachments import has_table as has_attachments
from assistant.record.event_rows import Row, event_of
from assistant.record.left_open import TABLE as LEFT_OPEN
from assistant.record.misses import TABLE as MISSES
from assistant.record.sent_lines import TABLE as SENT_LINES
from assistant.record.sent_lines import devices
from assistant.record.sent_lines import has_table as has_sent_lines
from grammar.frozen import frozen

APPLICATION_ID = 0x4C454144
"""Marks a file as a Leadsman job ("LEAD"), in the header of the SQLite file."""

RECORD_VERSION = 5
"""The newest version that can be read; see :class:`HeaderMark`. 2 may have a table of what was not
understood; 3 counts the utterances in the header, and may have a table of the waiting question; 4
has a table of attached files, and is written only where there are any; so has 5, of lines that
came from paired devices."""
_WITH_FILES, _WITHOUT_FILES = 4, 3

BESIDE = {(MISSES,), (LEFT_OPEN,), (ATTACHMENTS,), (SENT_LINES,)}

_COUNT_SHIFT = 8
_LARGEST_COUNT = 2**23 - 1

TABLES = (
    """CREATE TABLE utterances (
    number INTEGER PRIMARY KEY,
    time TEXT NOT NULL,
    said NOT NULL,
    digest TEXT NOT NULL
)""",
    """CREATE TABLE events (
    utterance INTEGER NOT NULL REFERENCES utterances (number),
    place INTEGER NOT NULL,
    name TEXT NOT NULL,
    version INTEGER NOT NULL,
    facts TEXT NOT NULL,
    digest TEXT NOT NULL,
    PRIMARY KEY (utterance, place)
) WITHOUT ROWID""",
    # The triggers on numbers also stop INSERT OR REPLACE, which fires no DELETE trigger.
    """CREATE TRIGGER utterances_in_order BEFORE INSERT ON utterances
WHEN NEW.number IS NOT (SELECT coalesce(max(number), 0) + 1 FROM utterances)
BEGIN SELECT RAISE(ABORT, 'the record only grows at its end'); END""",
    """CREATE TRIGGER events_in_order BEFORE INSERT ON events
WHEN NEW.utterance IS NOT (SELECT max(number) FROM utterances)
OR NEW.place IS NOT (SELECT coalesce(max(place), 0) + 1 FROM events WHERE utterance = NEW.utterance)
BEGIN SELECT RAISE(ABORT, 'the record only grows at its end'); END""",
    *(
        f"""CREATE TRIGGER {table}_no_{act.lower()} BEFORE {act} ON {table}
BEGIN SELECT RAISE(ABORT, 'the record only grows at its end'); END"""
        for table in ("utterances", "events")
        for act in ("UPDATE", "DELETE")
    ),
)


@frozen
class HeaderMark:
    """
    SQLite's user_version in the file's header: our version, and the number of utterances.

    The header is on the first page, which is written with every commit, so it counts lines
    whose own pages are missing or outdated. The chain shows that lines are unchanged, the
    count that none is missing.
    """

    version: int
    utterances: int
    """Utterances that must be there; 0 where they were not counted, as before version 3."""

    @classmethod
    def from_stored(cls, stored: int) -> HeaderMark:
        """The mark read from the header's number."""
        return cls(stored & (1 << _COUNT_SHIFT) - 1, stored >> _COUNT_SHIFT)

    @property
    def stored(self) -> int:
        """The number for the header, 32 bits with sign as SQLite keeps it."""
        return self.version | min(self.utterances, _LARGEST_COUNT) << _COUNT_SHIFT


@frozen
class RecordEntry:
    """One utterance and what it recorded."""

    number: int
    """1 for the first of the job, then 2, 3, ..."""
    time: datetime
    """When it was recorded, UTC."""
    said: str
    """The words exactly as they were said."""
    events: tuple[Event, ...]
    device: str = ""
    """Which paired device it came from; nothing for the program's own keyboard and ears."""


def make_tables(connection: sqlite3.Connection) -> None:
    """Mark an empty database as ours and lay out its tables."""
    connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    for statement in TABLES:
        connection.execute(statement)
    mark_counted(connection)


def mark_counted(connection: sqlite3.Connection) -> None:
    """Write the number of utterances to the header, inside the transaction of the caller."""
    version = _WITH_FILES if has_attachments(connection) else _WITHOUT_FILES
    if has_sent_lines(connection):
        version = RECORD_VERSION
    mark = HeaderMark(version, last_utterance(connection)[0])
    connection.execute(f"PRAGMA user_version = {mark.stored}")


def check_tables(connection: sqlite3.Connection) -> None:
    """Raise JournalError where tables or triggers are not the ones we make."""
    found = connection.execute("SELECT sql FROM sqlite_master WHERE name NOT LIKE 'sqlite\\_%' "
                               "ESCAPE '\\' ORDER BY rowid").fetchall()  # fmt: skip
    ours = [(statement,) for statement in TABLES]
    # The tables beside the record are created with their first row.
    more = found[len(ours) :]
    if found[: len(ours)] != ours or len(set(more)) < len(more) or not {*more} <= BESIDE:
        raise JournalError("its tables are not as Leadsman makes them")


def last_utterance(connection: sqlite3.Connection) -> tuple[int, str]:
    """Number and digest of the newest utterance; 0 and nothing in a new job."""
    row = connection.execute(
        "SELECT number, digest FROM utterances ORDER BY number DESC LIMIT 1"
    ).fetchone()
    return (0, "") if row is None else row


def insert_utterance(
    connection: sqlite3.Connection, time: datetime, said: str, rows: Sequence[Row]
) -> int:
    """Add an utterance and its events, inside the transaction of the caller; gives its number."""
    before, digest = last_utterance(connection)
    number = before + 1
    lines = []
    for place, row in enumerate(rows, start=1):
        line = (number, place, row.name, row.version, row.facts)
        digest = chain_digest(digest, line)
        lines.append((*line, digest))
    head = (number, time.astimezone(UTC).isoformat(timespec="microseconds"), _as_column(said))
    connection.execute(
        "INSERT INTO utterances VALUES (?, ?, ?, ?)", (*head, chain_digest(digest, head))
    )
    connection.executemany("INSERT INTO events VALUES (?, ?, ?, ?, ?, ?)", lines)
    return number


def entries(connection: sqlite3.Connection) -> Iterator[RecordEntry]:
    """
    Read the record from its start, checking the chain on the way.

    Raises JournalError, NewerRecordError or sqlite3.Error at the first
    utterance that is not as it was written; those before it were yielded.
    """
    lines = connection.execute("SELECT * FROM events ORDER BY utterance, place")
    line = next(lines, None)
    digest, sent_from = "", devices(connection)
    heads = connection.execute("SELECT * FROM utterances ORDER BY number")
    for expected, (*head, head_digest) in enumerate(heads, start=1):
        events = []
        while line is not None and line[0] == expected:
            digest = _checked(digest, line[:-1], line[-1])
            events.append(event_of(Row(*line[2:5])))
            line = next(lines, None)
        digest = _checked(digest, head, head_digest)
        number, time, said = head
        if number != expected:
            raise JournalError(f"utterance {expected} is missing")
        when, device = datetime.fromisoformat(time), sent_from.get(number, "")
        yield RecordEntry(number, when, _from_column(said), tuple(events), device)
    if line is not None:
        raise JournalError(f"events of an utterance {line[0]} that is not there")


def unchecked_entries(connection: sqlite3.Connection) -> Iterator[RecordEntry]:
    """The same without checking the chain, where only a glance at the job is wanted."""
    events: dict[int, list[Event]] = {}
    sent_from = devices(connection)
    for number, *row in connection.execute(
        "SELECT utterance, name, version, facts FROM events ORDER BY utterance, place"
    ):
        events.setdefault(number, []).append(event_of(Row(*row)))
    for number, time, said in connection.execute(
        "SELECT number, time, said FROM utterances ORDER BY number"
    ):
        told = tuple(events.get(number, ()))
        when, device = datetime.fromisoformat(time), sent_from.get(number, "")
        yield RecordEntry(number, when, _from_column(said), told, device)


def chain_digest(previous: str, content: Sequence[Any]) -> str:
    """The digest of a row after the one with the digest ``previous``."""
    pieces = [previous.encode()]
    for value in content:
        data = value if isinstance(value, bytes) else str(value).encode()
        # Type and length mark where each column ends.
        pieces.append(b"%s %d:" % (type(value).__name__.encode(), len(data)))
        pieces.append(data)
    return hashlib.blake2b(b"".join(pieces), digest_size=16).hexdigest()


def _checked(previous: str, content: Sequence[Any], digest: Any) -> str:
    right = chain_digest(previous, content)
    if digest != right:
        raise JournalError("a row is not as it was written")
    return right


def _as_column(said: str) -> str | bytes:
    # A terminal can hand over bytes that are no UTF-8 (lone surrogates in Python), and SQL
    # tools cut text at a NUL. Such words are kept as bytes, all others as plain text.
    try:
        said.encode()
    except UnicodeEncodeError:
        return said.encode(errors="surrogatepass")
    return said.encode() if "\0" in said else said


def _from_column(said: str | bytes) -> str:
    return said if isinstance(said, str) else said.decode(errors="surrogatepass")
