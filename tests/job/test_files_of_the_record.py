"""The files of a job, each part by itself: watched, drafted, named, locked and remembered."""

from __future__ import annotations

import errno
import os
import sqlite3
import sys
import types
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from assistant.errors import JournalError
from assistant.record import connection, drafts, journal, lock, put_back, watched
from assistant.record.glance import glance_at
from assistant.record.journal import Journal
from assistant.record.memory import Memory
from assistant.record.parted import keep_as_it_was
from assistant.record.put_back import PutBack
from assistant.record.table import (
    APPLICATION_ID,
    RecordEntry,
    insert_utterance,
    make_tables,
)
from assistant.record.watched import WatchedFile
from assistant.reply.manner import Manner

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


def test_a_file_is_kept_as_it_was_for_its_owner_only(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    path.write_bytes(b"as it was found")
    entry = RecordEntry(9, NOON, "B3 -18", ())
    for found in (b"as it was found", b"another since"):
        path.write_bytes(found)
        with path.open("rb") as file:
            file.read(4)
            news = keep_as_it_was(file, path, entry)
        assert news.kept.name == "floor.leadsman.as-it-was"
        # the earlier copy stays
        assert news.kept.read_bytes() == b"as it was found"
        assert news.kept.stat().st_mode & 0o777 == 0o600
    assert sorted(os.listdir(tmp_path)) == ["floor.leadsman", "floor.leadsman.as-it-was"]


def test_a_glance_sees_jobs_of_ours_only(tmp_path: Path) -> None:
    path = tmp_path / "job"
    with closing(sqlite3.connect(path, isolation_level=None)) as made:
        make_tables(made)
        insert_utterance(made, NOON, "tally", [])
    assert [entry.said for entry in glance_at(path)] == ["tally"]
    beside = Path(f"{path}-journal")
    beside.touch()
    assert len(glance_at(path)) == 1
    beside.write_bytes(b"x")
    with pytest.raises(JournalError, match="being written"):
        glance_at(path)
    beside.unlink()
    with closing(sqlite3.connect(path)) as made:
        made.execute(f"PRAGMA application_id = {APPLICATION_ID + 1}")
    with pytest.raises(JournalError, match="no Leadsman job"):
        glance_at(path)


class Watched(WatchedFile):
    """A file of which a test says how it looks each time it is asked."""

    def __init__(self, marks: list[int], written: list[bool]) -> None:
        super().__init__(Path("floor.leadsman"))
        self.marks, self.written = marks, written

    def _mark(self) -> tuple[int, int]:
        return self.marks.pop(0), 100

    def _is_written(self) -> bool:
        return self.written.pop(0)


def test_a_file_is_read_where_it_has_changed_and_nobody_writes(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(watched, "glance_at", lambda _: [])
    for marks, written, seen in (
        ([1, 1], [False, False], []),
        ([1], [True], None),  # being written before
        ([1], [False, True], None),  # and after
        ([1, 2], [False, False], None),  # it has changed while it was read
    ):
        assert Watched(list(marks), list(written)).look() == seen, (marks, written)
    again = Watched([1, 1, 1, 2, 2], [False] * 5)
    assert [again.look() for _ in range(3)] == [[], None, []]


def test_a_fault_in_reading_counts_where_the_file_stayed_as_it_was(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    def fails(_: Path) -> None:
        raise JournalError("cannot be read")

    monkeypatch.setattr(watched, "glance_at", fails)
    for marks, written in (([1, 2], [False, False]), ([1, 1], [False, True])):
        assert Watched(list(marks), list(written)).look() is None, (marks, written)
    with pytest.raises(JournalError, match="cannot be read"):
        Watched([1, 1], [False, False]).look()


# --- names, drafts and locks ---------------------------------------------------------------------


def test_a_draft_is_left_over_where_it_is_old_and_holds_nothing(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"

    def draft(name: str) -> Path:
        made = tmp_path / name
        made.touch()
        os.utime(made, (1_000, 1_000))
        return made

    nothing, elsewhere, other = (
        draft(name)
        for name in (".floor.leadsman.1.new", ".shed.leadsman.1.new", ".floor.leadsman.1")
    )
    job, same = draft(".floor.leadsman.2.new"), tmp_path / "floor.leadsman"
    job.write_bytes(b"no job, but something")
    os.link(job, same)
    held = draft(".floor.leadsman.3.new")
    with closing(sqlite3.connect(held, isolation_level=None)) as made:
        make_tables(made)
        insert_utterance(made, NOON, "tally", [])
    no_line = draft(".floor.leadsman.4.new")
    with closing(sqlite3.connect(no_line, isolation_level=None)) as made:
        make_tables(made)
    noise = draft(".floor.leadsman.5.new")
    noise.write_bytes(b"no job, but something")
    for made_old in (job, held, no_line, noise):
        os.utime(made_old, (1_000, 1_000))
    drafts.clear_drafts(path)
    kept = {
        each for each in (nothing, elsewhere, other, job, held, no_line, noise) if each.exists()
    }
    assert kept == {elsewhere, other, held, noise}
    assert same.exists()


def test_a_draft_is_for_its_owner_only_and_gone_in_the_end(tmp_path: Path) -> None:
    with drafts.draft_beside(tmp_path / "floor.leadsman", make_tables) as draft:
        assert draft.stat().st_mode & 0o777 == 0o600
    assert os.listdir(tmp_path) == []


def test_a_name_is_changed_over_no_other_file(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one, two = tmp_path / "one", tmp_path / "two"
    one.write_text("1")
    two.write_text("2")
    with pytest.raises(FileExistsError):
        drafts.move_in_place(one, two)
    drafts.move_in_place(one, tmp_path / "three")
    assert (tmp_path / "three").read_text() == "1"

    def no_links(*_: object) -> None:
        raise OSError(errno.EPERM, "no links on this disk")

    monkeypatch.setattr(os, "link", no_links)
    with pytest.raises(FileExistsError):
        drafts.move_in_place(two, tmp_path / "three")
    with pytest.raises(FileExistsError):
        drafts.put_in_place(two, tmp_path / "three")
    modes = []
    replace = Path.replace

    def seen(self: Path, target: Path) -> Path:
        modes.append(target.stat().st_mode & 0o777)
        return replace(self, target)

    monkeypatch.setattr(Path, "replace", seen)
    drafts.move_in_place(two, tmp_path / "four")
    assert ((tmp_path / "four").read_text(), modes) == ("2", [0o600])


def test_a_file_that_was_put_back_says_where() -> None:
    was, other = Path("floor.leadsman"), Path("floor-2.leadsman")
    for news, told, spoken in (
        (PutBack(was, was), "was put back there", "It was put back"),
        (PutBack(was, other), "is in floor-2.leadsman now", "goes on in another file"),
    ):
        assert told in news.text
        assert spoken in news.spoken
    names = [name.name for name in put_back._names(was)]
    assert names[:3] == ["floor.leadsman", "floor-2.leadsman", "floor-3.leadsman"]
    assert (len(names), names[-1]) == (99, "floor-99.leadsman")


def test_why_a_file_cannot_be_put_back_is_told_of_its_own_place(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The home folder is tried second; what was wrong there is not what is to be put right."""
    for first, reason in ((OSError(errno.ENOSPC, "no space left"), "no space left"),
                          (sqlite3.OperationalError("disk error"), "disk error")):  # fmt: skip
        faults: list[Exception] = [first, OSError(errno.EACCES, "not at home")]

        def fails(*_: object, faults: list[Exception] = faults) -> None:
            raise faults.pop(0)

        monkeypatch.setattr(put_back, "draft_beside", fails)
        made = sqlite3.connect(":memory:")
        with closing(made), pytest.raises(JournalError) as caught:
            put_back.put_back(made, tmp_path / "floor.leadsman")
        assert f"({reason})" in str(caught.value)
        assert caught.value.__cause__ is first


def test_after_a_failure_the_file_is_opened_again_unless_it_is_gone(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as opened:
        opened.append("tally", [])
        before = opened._connection
        opened._open_again()
        assert opened._connection is not before
        path.unlink()
        before = opened._connection
        opened._open_again()  # only this connection has all of it
        assert opened._connection is before
        assert opened.append("map", []) == 2
        assert [news.data["job_file"]["now"] for news in opened.news()] == [str(path)]
    with Journal.open(path) as opened:
        assert [entry.said for entry in opened.entries()] == ["tally", "map"]


def test_why_a_line_was_not_written() -> None:
    error = sqlite3.OperationalError("of its own")
    for code, told in (
        (sqlite3.SQLITE_FULL, "the disk is full"), (sqlite3.SQLITE_IOERR, "did not take it"),
        (sqlite3.SQLITE_IOERR_WRITE, "did not take it"),
        (sqlite3.SQLITE_READONLY, "not be written"),
        (sqlite3.SQLITE_CORRUPT, "of its own"),
    ):  # fmt: skip
        error.sqlite_errorcode = code
        assert told in journal._why_not_written(error), code
    # Python's own complaints carry no code.
    assert journal._kind_of(sqlite3.ProgrammingError("closed")) == 0
    assert journal._reason(OSError(errno.EIO, "broken")) == "broken"
    assert journal._reason(ValueError("strange")) == "strange"


def test_an_empty_journal_is_taken_away_where_the_file_is_gone(tmp_path: Path) -> None:
    path, beside = tmp_path / "floor", tmp_path / "floor-journal"
    for there, content, left in ((True, b"", True), (False, b"", False), (False, b"x", True)):
        path.unlink(missing_ok=True)
        if there:
            path.touch()
        beside.write_bytes(content)
        put_back._take_empty_journal_away(path)
        assert beside.exists() is left, (there, content)


def test_a_journal_that_was_deleted_is_made_again_and_another_left(tmp_path: Path) -> None:
    path, beside = tmp_path / "floor", tmp_path / "floor-journal"
    with closing(connection.open_connection(path)) as made:
        make_tables(made)
        first = beside.stat().st_ino
        connection.keep_journal_findable(made, path)
        assert beside.stat().st_ino == first
        beside.unlink()
        connection.keep_journal_findable(made, path)
        insert_utterance(made, NOON, "tally", [])
        assert beside.exists()


def test_a_file_that_another_program_has_is_in_use_and_noise_is_not(tmp_path: Path) -> None:
    path, noise = tmp_path / "floor", tmp_path / "noise"
    noise.write_bytes(b"x" * 200)
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("CREATE TABLE a (b)")
        other.execute("BEGIN IMMEDIATE")
        with pytest.raises(JournalError, match="in use by another program"):
            connection.open_connection(path)
    with pytest.raises(JournalError, match="cannot be opened: file is not a database"):
        connection.open_connection(noise)


def test_nobody_waits_for_another_program_to_let_go_of_a_job(tmp_path: Path) -> None:
    """What is refused is said at once: SQLite would wait for so many milliseconds."""
    with closing(connection.open_connection(tmp_path / "floor")) as made:
        assert made.execute("PRAGMA busy_timeout").fetchone() == (0,)


def test_a_lock_is_held_once_and_let_go(tmp_path: Path) -> None:
    path, other = tmp_path / "floor", tmp_path / "other"
    path.write_bytes(b"x")
    other.write_bytes(b"x")
    held = lock.FileLock(path)
    assert lock.is_open_here(path)
    assert not lock.is_open_here(other)
    assert not lock.is_open_here(tmp_path / "none")
    assert held.is_at(path)
    assert not held.is_at(other)
    assert not held.is_at(tmp_path / "none")
    with pytest.raises(JournalError, match="already open here"):
        lock.FileLock(path)
    for _ in range(2):
        held.release()
        assert held.released
        assert not lock.is_open_here(path)
    assert held.is_at(other)  # nobody asks any more
    lock.FileLock(path).release()
    with pytest.raises(JournalError, match="is a folder"):
        lock.FileLock(tmp_path)


def test_one_byte_is_locked_on_either_kind_of_system(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The same one for ever: an older program and a newer one lock each other out by it."""
    fcntl = pytest.importorskip("fcntl")
    locked = []
    monkeypatch.setattr(fcntl, "lockf", lambda _, _how, count, at: locked.append((at, count)))
    with (tmp_path / "floor").open("w+b") as file:
        lock._lock(file.fileno())
        windows = types.SimpleNamespace(LK_NBLCK=2)
        windows.locking = lambda descriptor, _how, count: locked.append(
            (os.lseek(descriptor, 0, os.SEEK_CUR), count)
        )
        monkeypatch.setitem(sys.modules, "msvcrt", windows)
        monkeypatch.setattr(sys, "platform", "win32")
        lock._lock(file.fileno())
        assert os.lseek(file.fileno(), 0, os.SEEK_CUR) == 0
    assert locked == [(1_073_742_848, 1)] * 2


def test_why_a_file_cannot_be_locked_or_opened() -> None:
    path = Path("floor.leadsman")
    for number in (errno.EACCES, errno.EAGAIN, errno.EDEADLK):
        assert "another Leadsman" in str(lock._refused(path, OSError(number, "taken")))
    assert "(no locks)" in str(lock._refused(path, OSError(errno.ENOLCK, "no locks")))
    for error, reason in (
        (PermissionError(errno.EACCES, "denied"), "you may not read and write there"),
        (OSError(errno.EIO, "input or output error"), "opened: input or output error."),
        (OSError("of no number"), "opened: of no number."),
        (ValueError("embedded null byte"), "opened: embedded null byte."),
    ):
        assert reason in str(lock.unopenable_message(path, error))


# --- the memory of the machine -------------------------------------------------------------------


def test_what_was_said_in_full_today_is_remembered_by_job(tmp_path: Path) -> None:
    file, today, after = tmp_path / "kept" / "memory.json", date(2026, 11, 25), date(2026, 11, 26)
    memory = Memory(file, "floor")
    assert not memory.was_given("silica", today)
    memory.gave([], today)
    assert not file.exists()
    memory.gave(["silica"], today)
    written = file.stat().st_mtime_ns
    memory.gave(["silica"], today)
    assert file.stat().st_mtime_ns == written
    again, other = Memory(file, "floor"), Memory(file, "shed")
    assert again.was_given("silica", today)
    assert not again.was_given("silica", after)
    assert not again.was_given("lifting", today)
    assert not other.was_given("silica", today)
    other.gave(["lifting"], today)
    assert Memory(file, "floor").was_given("silica", today)
    # of no job nothing is kept, nor of a conversation without a file
    Memory(file).gave(["silica"], today)
    assert "" not in file.read_text(encoding="utf-8").split('"')[1::2]
    assert Memory().set_manner(Manner(quiet=True)) is False


def test_a_manner_is_remembered_as_far_as_it_makes_sense(tmp_path: Path) -> None:
    file = tmp_path / "memory.json"
    wished = Manner("short", 0.5, 4.0, quiet=True)
    assert Memory(file).set_manner(wished) is True
    assert Memory(file).manner == wished
    for text, manner in (
        (
            '{"manner": {"length": "endless", "speed": 2.0, "loudness": 0.25}}',
            Manner("usual", 2, 0.25),
        ),
        ('{"manner": {"speed": 0.49, "loudness": 4.01, "quiet": 1}}', Manner()),
        ('{"manner": {"speed": 2.01, "loudness": 0.24}}', Manner()),
        ('{"manner": {"speed": true, "loudness": "1.5"}}', Manner()),
        ('{"manner": {"speed": 1, "loudness": null}}', Manner()),
        ('{"manner": [1]}', Manner()),
        ("[1]", Manner()),
        ("no json", Manner()),
    ):
        file.write_text(text, encoding="utf-8")
        assert Memory(file).manner == manner, text
