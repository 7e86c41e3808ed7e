"""A file that is not ours, newer, damaged or out of reach is refused, and left as it was."""

from __future__ import annotations

import os
import random
import shutil
import sqlite3
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

import pytest

from assistant.errors import JournalError, NewerRecordError
from assistant.events.readings import ReadingTaken
from assistant.record.event_rows import row_of
from assistant.record.journal import Journal, RecordEntry
from assistant.record.table import RECORD_VERSION, chain_digest, insert_utterance
from assistant.record.table import entries as entries_in
from grammar.commands import Measure

B3 = ReadingTaken("B3", Measure(Decimal("-18.0"), "mm"))
LINES = 40
FLIPS = int(os.environ.get("LEADSMAN_FLIPS", "300"))
"""Raise it for a long run: each is a job file with one bit gone over."""


def write_lines(path: Path, count: int = LINES) -> list[RecordEntry]:
    with Journal.open(path) as journal:
        for number in range(1, count + 1):
            journal.append(f"B{number} 18 low, as it was said", [B3, B3])
        return journal.entries()


def crashed(folder: Path, count: int = LINES) -> tuple[Path, list[RecordEntry]]:
    """A job as a crash left it when jobs had a log: the last lines still in that."""
    path, whole = folder / "job.leadsman", folder / "whole.leadsman"
    Journal.open(whole).close()
    entries = add_with_a_log(whole, path, count)
    whole.unlink()
    return path, entries


def add_with_a_log(whole: Path, path: Path, count: int) -> list[RecordEntry]:
    """Add lines to a job through a log, copied to ``path`` before it is folded in."""
    with closing(sqlite3.connect(whole, isolation_level=None)) as connection:
        connection.execute("PRAGMA locking_mode = EXCLUSIVE").fetchone()
        connection.execute("PRAGMA journal_mode = WAL").fetchone()
        for number in range(1, count + 1):
            connection.execute("BEGIN")
            said = f"B{number} 18 low, as it was said"
            insert_utterance(connection, datetime.now(UTC), said, [row_of(B3), row_of(B3)])
            connection.execute("COMMIT")
        for ending in ("", "-wal"):
            shutil.copyfile(f"{whole}{ending}", f"{path}{ending}")
        return list(entries_in(connection))


def all_files(folder: Path) -> dict[str, tuple[bytes, int]]:
    return {
        path.name: (path.read_bytes() if path.is_file() else b"", path.stat().st_mtime_ns)
        for path in folder.iterdir()
    }


@contextmanager
def left_as_it_was(folder: Path) -> Iterator[None]:
    before = all_files(folder)
    yield
    assert all_files(folder) == before


def refused(path: Path, message: str, error: type[JournalError] = JournalError) -> None:
    with left_as_it_was(path.parent), pytest.raises(error, match=message) as caught:
        Journal.open(path)
    assert type(caught.value) is error
    with left_as_it_was(path.parent), pytest.raises(error, match=message):
        Journal.open(path)  # A refusal must not leave the file locked either.


def altered(path: Path, *statements: str) -> None:
    """Change a job as another program could, its own rules switched off."""
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        rules = connection.execute(
            "SELECT name, sql FROM sqlite_master WHERE type = 'trigger' ORDER BY rowid"
        ).fetchall()
        for name, _ in rules:
            connection.execute(f"DROP TRIGGER {name}")
        for statement in statements:
            connection.execute(statement)
        for _, rule in rules:
            connection.execute(rule)


# --- not ours ------------------------------------------------------------------------


def other_program(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("CREATE TABLE addresses (name TEXT)")
        connection.commit()


def other_program_with_a_log(path: Path) -> None:
    with closing(sqlite3.connect(path)) as connection:
        connection.execute("PRAGMA application_id = 7")
        connection.execute("PRAGMA journal_mode = WAL")
        connection.execute("CREATE TABLE utterances (number INTEGER PRIMARY KEY)")
        connection.commit()
        shutil.copyfile(path, path.with_suffix(".kept"))
        shutil.copyfile(f"{path}-wal", path.with_suffix(".kept-wal"))
    path.with_suffix(".kept").replace(path)
    path.with_suffix(".kept-wal").replace(f"{path}-wal")


NOT_OURS: dict[str, tuple[Callable[[Path], object], str]] = {
    "empty": (lambda path: path.touch(), "is empty"),
    "a letter": (lambda path: path.write_text("Dear library, " * 50), "is no Leadsman job"),
    "noise": (lambda path: path.write_bytes(random.Random(1).randbytes(5000)), "is no Leadsman"),
    "zeros": (lambda path: path.write_bytes(bytes(8192)), "is no Leadsman job"),
    "first words only": (lambda path: path.write_bytes(b"SQLite format 3\0"), "is no Leadsman job"),
    "another program": (other_program, "belongs to another program"),
    "another program, cut short": (other_program_with_a_log, "belongs to another program"),
    "a folder": (lambda path: path.mkdir(), "is a folder"),
}


@pytest.mark.parametrize(("make", "message"), NOT_OURS.values(), ids=NOT_OURS.keys())
def test_what_is_not_ours_is_refused(
    make: Callable[[Path], object], message: str, tmp_path: Path
) -> None:
    path = tmp_path / "job.leadsman"
    make(path)
    refused(path, message)


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no pipes with a name there")
def test_a_pipe_is_refused_without_waiting_for_it(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "job.leadsman")
    with pytest.raises(JournalError, match="not a file"):
        Journal.open(tmp_path / "job.leadsman")


def test_a_missing_folder_is_not_made(tmp_path: Path) -> None:
    with pytest.raises(JournalError, match=r"no folder .*boat-shed"):
        Journal.open(tmp_path / "boat-shed" / "job.leadsman")
    assert os.listdir(tmp_path) == []


@pytest.mark.parametrize("name", ["a\0b", "x" * 300], ids=["nul", "long"])
def test_a_name_that_no_file_can_have(name: str, tmp_path: Path) -> None:
    with pytest.raises(JournalError, match="cannot be opened"):
        Journal.open(tmp_path / name)
    assert os.listdir(tmp_path) == []


def test_a_log_whose_job_is_gone_is_not_read_into_a_new_job(tmp_path: Path) -> None:
    path, _ = crashed(tmp_path)
    path.unlink()
    refused(path, "is gone but job.leadsman-wal was left")


@contextmanager
def as_nobody() -> Iterator[None]:
    """Root may do everything, so be someone else for a moment."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)


@pytest.mark.skipif(sys.platform == "win32", reason="rights work differently there")
def test_a_file_or_folder_without_the_right_to_write() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        path = folder / "job.leadsman"
        write_lines(path, 1)
        path.chmod(0o444)
        folder.chmod(0o555)
        with left_as_it_was(folder), as_nobody():
            for place in (path, folder / "new.leadsman"):
                with pytest.raises(JournalError, match="may not read and write"):
                    Journal.open(place)
        folder.chmod(0o755)


# --- newer ---------------------------------------------------------------------------


def test_a_record_of_a_newer_version_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    write_lines(path)
    altered(path, f"PRAGMA user_version = {RECORD_VERSION + 1}")
    newer = f"made by a newer Leadsman: its record has version {RECORD_VERSION + 1}"
    refused(path, newer, NewerRecordError)


@pytest.mark.parametrize(("name", "version"), [("pin-cut", 1), ("reading-taken", 2)])
def test_an_event_of_a_newer_leadsman_is_refused(name: str, version: int, tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    write_lines(path, 3)
    facts = '{"pin": "B3"}'
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        (digest,) = connection.execute("SELECT digest FROM utterances WHERE number = 3").fetchone()
        event = (4, 1, name, version, facts)
        of_event = chain_digest(digest, event)
        head = (4, "2026-11-25T12:00:00.000000+00:00", "pin cut at B3")
        connection.execute(
            "INSERT INTO utterances VALUES (?, ?, ?, ?)", (*head, chain_digest(of_event, head))
        )
        connection.execute("INSERT INTO events VALUES (?, ?, ?, ?, ?, ?)", (*event, of_event))
    refused(path, f'made by a newer Leadsman: "{name}"', NewerRecordError)


# --- damaged -------------------------------------------------------------------------


ALTERED = {
    "a reading changed": (
        "UPDATE events SET facts = replace(facts, '-18.0', '-16.0') WHERE utterance = 30",
        29,
    ),
    "words changed": ("UPDATE utterances SET said = 'B3 16 low' WHERE number = 7", 6),
    "time changed": ("UPDATE utterances SET time = '2020' WHERE number = 7", 6),
    "an event taken out": ("DELETE FROM events WHERE utterance = 12 AND place = 2", 11),
    "an utterance taken out": ("DELETE FROM utterances WHERE number = 12", 11),
    "both taken out": (
        "DELETE FROM events WHERE utterance = 12; DELETE FROM utterances WHERE number = 12",
        11,
    ),
    "the last one without its events": ("DELETE FROM utterances WHERE number = 40", 39),
    "the first one": ("UPDATE utterances SET said = '' WHERE number = 1", 0),
    "two swapped": (
        "UPDATE utterances SET number = 99 WHERE number = 5;"
        "UPDATE utterances SET number = 5 WHERE number = 6;"
        "UPDATE utterances SET number = 6 WHERE number = 99",
        4,
    ),
    "words are no text": ("UPDATE utterances SET said = CAST(x'ff' AS TEXT) WHERE number = 9", 8),
    "version is a word": ("UPDATE events SET version = 'one' WHERE utterance = 3", 2),
}


@pytest.mark.parametrize(("statements", "sound"), ALTERED.values(), ids=ALTERED.keys())
def test_an_altered_record_is_refused(statements: str, sound: int, tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    write_lines(path)
    altered(path, *statements.split(";"))
    until = f"makes sense up to utterance {sound}\\." if sound else "No utterance reads"
    refused(path, f"is damaged: .*{until}.* The file was left as it was")


@pytest.mark.parametrize(
    "statement",
    ["DROP TRIGGER events_no_delete", "DROP TABLE events", "CREATE TABLE more (a)",
     "ALTER TABLE events ADD COLUMN note"],
)  # fmt: skip
def test_other_tables_are_refused(statement: str, tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    write_lines(path)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(statement)
    refused(path, "is damaged")


@pytest.mark.parametrize("share", [0.05, 0.3, 0.5, 0.75, 0.99])
def test_a_file_cut_off_is_refused(share: float, tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    write_lines(path)
    whole = path.read_bytes()
    path.write_bytes(whole[: int(len(whole) * share)])
    refused(path, "is damaged|is no Leadsman job")


def test_flipped_bits_are_refused_or_change_nothing(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    entries = write_lines(path, 8)
    whole = path.read_bytes()
    choose = random.Random(18)
    found = 0
    for _ in range(FLIPS):
        place = choose.randrange(len(whole))
        broken = bytearray(whole)
        broken[place] ^= 1 << choose.randrange(8)
        path.write_bytes(broken)
        try:
            with Journal.open(path) as journal:
                assert journal.entries() == entries, f"byte {place} changed the record unseen"
        except JournalError:
            assert path.read_bytes() == broken
            found += 1
    # The rest lies where SQLite keeps nothing.
    assert found > FLIPS / 20


@pytest.mark.parametrize("place", range(0, LINES, 5))
def test_a_flipped_bit_in_any_row_is_found(place: int, tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    write_lines(path)
    whole = path.read_bytes()
    word = f"B{place + 1} 18 low".encode()
    assert whole.count(word) == 1
    path.write_bytes(whole.replace(word, word.replace(b"18", b"16")))
    refused(path, f"up to utterance {place}\\." if place else "No utterance reads")


# --- what a crash leaves ---------------------------------------------------------------


def test_the_log_of_a_crash_is_read_and_folded_in(tmp_path: Path) -> None:
    path, entries = crashed(tmp_path)
    assert b"as it was said" not in path.read_bytes()
    with Journal.open(path) as journal:
        assert journal.entries() == entries
    assert b"as it was said" in path.read_bytes()
    assert os.listdir(tmp_path) == ["job.leadsman"]


def test_a_log_that_ends_in_half_a_line_loses_only_that(tmp_path: Path) -> None:
    path, entries = crashed(tmp_path)
    with open(f"{path}-wal", "r+b") as log:
        log.truncate(os.path.getsize(log.name) - 2000)
    with Journal.open(path) as journal:
        assert journal.entries() == entries[:-1]
        assert journal.append("B3 18 low", [B3]) == LINES


def test_a_log_damaged_in_the_middle_is_refused(tmp_path: Path) -> None:
    path, _ = crashed(tmp_path)
    log = Path(f"{path}-wal")
    whole = log.read_bytes()
    for place in (0, 17, 40, 5000, len(whole) // 2):
        broken = bytearray(whole)
        broken[place] ^= 4
        log.write_bytes(broken)
        refused(path, "is damaged: .*its? log|is damaged: the head of its log")


def test_a_damaged_job_with_a_log_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    write_lines(path, 200)  # Enough that the log does not hold the first page again.
    cut = tmp_path / "cut.leadsman"
    add_with_a_log(path, cut, 1)
    cut.write_bytes(cut.read_bytes().replace(b"B7 18 low", b"B7 16 low"))
    refused(cut, "up to utterance 6")


def test_a_full_disk_for_the_copy_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "job.leadsman"
    write_lines(path)

    def no_room(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(shutil, "copyfileobj", no_room)
    refused(path, "could not be examined: .*No space left")
