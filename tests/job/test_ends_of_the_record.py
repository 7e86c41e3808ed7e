"""What of a file is still a job, and what no longer: both sides of every bound."""

from __future__ import annotations

import os
import sqlite3
import struct
from contextlib import closing
from datetime import date
from pathlib import Path

import pytest

from assistant.errors import JournalError
from assistant.record import drafts, lock
from assistant.record.journal import Journal
from assistant.record.places import new_job_path, safe_name
from assistant.record.table import RECORD_VERSION, HeaderMark
from tests.job.test_journal_refusals import LINES, crashed

# SQLite's file format description, "WAL File Format": a head of 32 bytes, then frames of a head of
# 24 and a page each; the second number of a frame's head is above zero where it ends a commit.
LOG_HEAD, FRAME_HEAD, PAGE = 32, 24, 4096


def _job(path: Path, lines: int = 3) -> Path:
    with Journal.open(path) as journal:
        for number in range(1, lines + 1):
            journal.append(f"line {number}", [])
    return path


def _refusal(path: Path) -> str:
    with pytest.raises(JournalError) as caught:
        Journal.open(path)
    return str(caught.value)


# --- the head of the file ---------------------------------------------------------------------


def test_a_head_cut_short_by_one_byte_is_no_job(tmp_path: Path) -> None:
    path = _job(tmp_path / "job.leadsman")
    whole = path.read_bytes()
    path.write_bytes(whole[:99])
    assert "is no Leadsman job" in _refusal(path)
    path.write_bytes(whole[:100])  # all of the head, and nothing after it
    assert "is damaged" in _refusal(path)


@pytest.mark.parametrize(
    ("version", "told"),
    [(0, "is damaged: its record has version 0"), (RECORD_VERSION + 1, "by a newer Leadsman")],
)
def test_versions_before_the_first_and_after_the_last_are_refused(
    version: int, told: str, tmp_path: Path
) -> None:
    path = _job(tmp_path / "job.leadsman")
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {HeaderMark(version, 3).stored}")
    assert told in _refusal(path)


@pytest.mark.parametrize("version", range(1, RECORD_VERSION + 1))
def test_every_version_between_them_opens(version: int, tmp_path: Path) -> None:
    path = _job(tmp_path / "job.leadsman")
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {HeaderMark(version, 3).stored}")
    with Journal.open(path) as journal:
        assert journal.last_utterance() == 3


@pytest.mark.parametrize(
    ("counted", "told"),
    [
        (4, "its last line is missing, 3 of 4 are there"),
        (5, "its last 2 lines are missing, 3 of 5 are there"),
    ],
)
def test_fewer_lines_than_were_counted_are_told(counted: int, told: str, tmp_path: Path) -> None:
    path = _job(tmp_path / "job.leadsman")
    with closing(sqlite3.connect(path)) as connection:
        mark = HeaderMark(RECORD_VERSION, counted).stored
        connection.execute(f"PRAGMA user_version = {mark}")
    refusal = _refusal(path)
    assert told in refusal
    assert "makes sense up to utterance 3." in refusal


def test_a_job_with_nothing_sound_in_it_says_that_nothing_reads(tmp_path: Path) -> None:
    path = _job(tmp_path / "job.leadsman", lines=0)
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {HeaderMark(RECORD_VERSION, 1).stored}")
    refusal = _refusal(path)
    assert "its last line is missing, 0 of 1 are there. No utterance reads." in refusal


def test_more_lines_than_were_counted_are_no_harm(tmp_path: Path) -> None:
    path = _job(tmp_path / "job.leadsman")
    with closing(sqlite3.connect(path)) as connection:
        connection.execute(f"PRAGMA user_version = {HeaderMark(RECORD_VERSION, 2).stored}")
    with Journal.open(path) as journal:
        assert journal.last_utterance() == 3


def test_version_and_count_stand_where_other_programs_look_for_them() -> None:
    # In files that are out there: the version in the lowest eight bits, the count above them.
    assert HeaderMark(3, 40).stored == 3 + 256 * 40
    assert HeaderMark.from_stored(3 + 256 * 40) == HeaderMark(3, 40)


@pytest.mark.parametrize("counted", [2**23 - 2, 2**23 - 1, 2**23, 10**9])
def test_a_count_beyond_what_the_head_can_hold_stays_at_the_most(counted: int) -> None:
    # SQLite keeps 32 bits with a sign; 8 are the version's, and one the sign's.
    stored = HeaderMark(3, counted).stored
    assert stored < 2**31
    assert HeaderMark.from_stored(stored) == HeaderMark(3, min(counted, 8_388_607))


# --- the log of a crash -------------------------------------------------------------------------


def _commits(log: bytes | bytearray) -> list[int]:
    """Where the frames begin that end a commit."""
    frames = range(LOG_HEAD, len(log), FRAME_HEAD + PAGE)
    return [start for start in frames if struct.unpack_from(">I", log, start + 4)[0]]


@pytest.mark.parametrize(("last", "kept"), [(1, LINES - 1), (2, None), (3, None)])
def test_one_commit_cut_short_is_a_crash_and_two_are_damage(
    last: int, kept: int | None, tmp_path: Path
) -> None:
    path, _ = crashed(tmp_path)
    log = Path(f"{path}-wal")
    broken = bytearray(log.read_bytes())
    broken[_commits(broken)[-last] + FRAME_HEAD + 5] ^= 4
    log.write_bytes(broken)
    if kept is None:
        assert "is damaged: its log breaks off in the middle" in _refusal(path)
    else:
        with Journal.open(path) as journal:
            assert journal.last_utterance() == kept


def test_a_log_of_a_head_alone_holds_nothing(tmp_path: Path) -> None:
    path, _ = crashed(tmp_path)
    log = Path(f"{path}-wal")
    log.write_bytes(log.read_bytes()[:LOG_HEAD])
    # Its lines are gone with it; that the job itself is a whole one stays true.
    with Journal.open(path) as journal:
        assert journal.last_utterance() == 0


# --- drafts, names, the lock --------------------------------------------------------------------


@pytest.mark.parametrize(
    ("age_s", "left"), [(3599, True), (3600, False), (-3599, True), (-3600, False)]
)
def test_a_draft_is_given_an_hour_whichever_way_the_clock_is_wrong(
    age_s: float, left: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.leadsman"
    draft = path.with_name(f".{path.name}.11111111.new")
    draft.touch()
    os.utime(draft, (1_000_000, 1_000_000))
    monkeypatch.setattr("assistant.record.drafts.time.time", lambda: 1_000_000 + age_s)
    drafts.clear_drafts(path)
    assert draft.exists() is left


@pytest.mark.parametrize(("count", "kept"), [(99, 99), (100, 100), (101, 100)])
def test_a_name_keeps_its_first_hundred_bytes(count: int, kept: int) -> None:
    assert safe_name("a" * count) == "a" * kept


def test_a_letter_of_two_bytes_is_not_cut_in_half() -> None:
    assert safe_name("a" * 99 + "ü") == "a" * 99


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("com1", "job-com1"), ("com9", "job-com9"), ("lpt1", "job-lpt1"), ("lpt9", "job-lpt9"),
        ("nul", "job-nul"), ("com0", "com0"), ("com10", "com10"),
    ],
)  # fmt: skip
def test_names_of_devices_are_no_file_names(name: str, file: str) -> None:
    # Microsoft's "Naming Files, Paths, and Namespaces": COM1 to COM9 and LPT1 to LPT9.
    assert safe_name(name) == file


def test_the_first_job_of_a_day_has_no_number(tmp_path: Path) -> None:
    day = date(2026, 11, 25)
    assert new_job_path(tmp_path, "", day).stem == "job-2026-11-25"
    new_job_path(tmp_path, "", day).touch()
    assert new_job_path(tmp_path, "", day).stem == "job-2026-11-25-2"


def test_the_byte_that_is_locked_is_the_same_for_ever() -> None:
    """An older program and this one lock each other out only if both lock the same."""
    assert lock.LOCK_BYTE == 1_073_742_848
    # SQLite's file format description, "The Lock-Byte Page": bytes 1073741824 to 1073742335 are
    # those that SQLite locks, and no page of content has the page that they are on.
    assert 1_073_742_335 < lock.LOCK_BYTE < 1_073_741_824 + PAGE


@pytest.mark.parametrize("page", [512, 1024, 4096, 65536])
def test_a_job_opens_whatever_size_its_pages_have(page: int, tmp_path: Path) -> None:
    # SQLite's file format description: 65536 is kept as 1.
    path = _job(tmp_path / "job.leadsman", lines=40)
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute(f"PRAGMA page_size = {page}")
        connection.execute("VACUUM")
    with Journal.open(path) as journal:
        assert journal.last_utterance() == 40
    whole = path.read_bytes()
    path.write_bytes(whole[:-page])
    count = len(whole) // page
    assert f"its end is missing, {count - 1} of {count} pages" in _refusal(path)
