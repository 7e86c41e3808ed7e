"""Each part of the record by itself: what it takes, what it leaves, both sides of its bounds."""

from __future__ import annotations

import errno
import os
import sqlite3
import struct
import sys
import types
import zlib
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from assistant.errors import JournalError
from assistant.record import check, connection, drafts, journal, lock, put_back, watched
from assistant.record.attachments import (
    Attachment,
    attachment_of,
    insert_attachment,
    read_attachment,
)
from assistant.record.glance import glance_at
from assistant.record.journal import Journal
from assistant.record.left_open import LeftOpen, read_left_open, write_left_open
from assistant.record.memory import Memory
from assistant.record.misses import Miss, insert_miss, misses_told, read_misses
from assistant.record.news import RecordedAfterAll
from assistant.record.parted import LogMissing, keep_as_it_was
from assistant.record.put_back import PutBack
from assistant.record.sent_lines import Sender, devices, insert_sender, utterance_sent_as
from assistant.record.table import (
    APPLICATION_ID,
    RECORD_VERSION,
    TABLES,
    HeaderMark,
    RecordEntry,
    chain_digest,
    check_tables,
    insert_utterance,
    last_utterance,
    make_tables,
    unchecked_entries,
)
from assistant.record.table import entries as entries_in
from assistant.record.watched import WatchedFile
from assistant.reply.manner import Manner

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


@pytest.fixture
def empty() -> Iterator[sqlite3.Connection]:
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as made:
        make_tables(made)
        yield made


# --- the log of a crash: SQLite's file format description, "WAL File Format" -------------------


def log_of(*frames: tuple[int, int], magic: int = 0x377F0682, page: int = 512) -> bytes:
    """A log whose head holds; of each frame the size after a commit, and how far a salt is off."""
    salts = (0xFFFFFFF0, 0xFEDCBA98)
    words = (magic, 3007000, page, 0, *salts)
    # The checksum goes over the words as they lie in the file, read in the order the magic names.
    read = struct.unpack(">6I" if magic & 1 else "<6I", struct.pack(">6I", *words))
    one = two = 0
    for place in (0, 2, 4):
        one = (one + read[place] + two) % 2**32
        two = (two + read[place + 1] + one) % 2**32
    log = struct.pack(">8I", *words, one, two)
    for size, off in frames:
        log += struct.pack(">6I", 1, size, salts[0] + off, salts[1], 0, 0) + bytes(page)
    return log


def test_the_head_of_a_log_holds_in_either_order_of_bytes() -> None:
    for magic in (0x377F0682, 0x377F0683):
        head = log_of(magic=magic)
        assert check._log_header_holds(head), magic
        for place in range(len(head)):
            off = bytearray(head)
            off[place] ^= 16
            assert not check._log_header_holds(bytes(off)), place
    for magic in (0x377F0680, 0x377F0681, 0x377F0684):
        assert not check._log_header_holds(log_of(magic=magic)), magic
    # one that SQLite wrote, of the second kind where the machine's bytes go the other way
    assert len(log_of()) == check._WAL_HEADER.size


def test_the_head_of_a_log_that_sqlite_wrote_holds(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "job", isolation_level=None)) as made:
        made.execute("PRAGMA journal_mode = WAL").fetchone()
        made.execute("CREATE TABLE a (b)")
        log = (tmp_path / "job-wal").read_bytes()
    assert check._log_header_holds(log)


def test_two_commits_after_the_break_are_damage_and_one_is_a_crash(
    empty: sqlite3.Connection,
) -> None:
    """Of a database in memory SQLite takes no frame at all, so that all of them are dropped."""
    whole, half, of_another = (3, 0), (0, 0), (3, 7)
    for frames, end, damaged in (
        ([], b"", False), ([whole], b"", False), ([whole, whole], b"", True),
        ([half, whole, half], b"", False), ([whole, half, whole], b"", True),
        # Salts that are not the head's: left from before SQLite began the log anew.
        ([whole, of_another, of_another], b"", False), ([whole, of_another, whole], b"", True),
        # What is not whole at the end is no frame.
        ([whole], bytes(20), False), ([whole], log_of(whole)[32:-1], False),
        ([whole, whole], bytes(20), True),
    ):  # fmt: skip
        told = check._trouble_in_log(empty, log_of(*frames) + end)
        assert told == ("its log breaks off in the middle" if damaged else ""), (frames, len(end))


def test_a_log_no_longer_than_its_head_is_not_looked_at(empty: sqlite3.Connection) -> None:
    for log, told in ((b"", ""), (bytes(32), ""), (bytes(33), "the head of its log does not hold")):
        assert check._trouble_in_log(empty, log) == told, len(log)


# --- the file's end and its count: the same description, "The Database Header" -----------------


def headed(folder: Path, pages: int, there: int, size: int = 512, *, counted: bool = True) -> Path:
    head = bytearray(100)
    struct.pack_into(">H", head, 16, 1 if size == 65536 else size)
    struct.pack_into(">II", head, 24, 7, pages)
    struct.pack_into(">I", head, 92, 7 if counted else 6)
    path = folder / "copy"
    path.write_bytes(bytes(head).ljust(there * size, b"\0"))
    return path


def test_pages_that_the_head_counts_have_to_be_there(tmp_path: Path) -> None:
    for size in (512, 4096, 65536):
        assert "2 of 3 pages" in check._trouble_at_end(headed(tmp_path, 3, 2, size)), size
        assert check._trouble_at_end(headed(tmp_path, 3, 3, size)) == ""
        assert check._trouble_at_end(headed(tmp_path, 3, 4, size)) == ""
    # what a program wrote that keeps no count, says nothing
    assert check._trouble_at_end(headed(tmp_path, 3, 2, counted=False)) == ""
    # a size below the least of SQLite's is damage of another kind, found in its pages
    assert "4 of 5 pages" in check._trouble_at_end(headed(tmp_path, 5, 4, 512))
    short = headed(tmp_path, 513, 512)
    assert "512 of 513 pages" in check._trouble_at_end(short)


def test_lines_that_the_head_counts_have_to_be_there(empty: sqlite3.Connection) -> None:
    for counted, there, told in (
        (3, 3, ""), (3, 4, ""), (0, 0, ""),
        (4, 3, "its last line is missing, 3 of 4 are there"),
        (5, 3, "its last 2 lines are missing, 3 of 5 are there"),
    ):  # fmt: skip
        empty.execute(f"PRAGMA user_version = {HeaderMark(RECORD_VERSION, counted).stored}")
        assert check._trouble_in_count(empty, there) == told, (counted, there)


def test_no_room_for_the_copy_is_no_damage_of_the_job() -> None:
    error = sqlite3.OperationalError("database or disk is full")
    error.sqlite_errorcode = sqlite3.SQLITE_FULL
    with pytest.raises(OSError, match="no room for a copy, database or disk is full"):
        check._damage(error)
    error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
    assert check._damage(error) == "database or disk is full"
    assert check._damage(ValueError("of no code")) == "of no code"


def test_the_first_trouble_is_told_and_a_sound_record_has_none(
    empty: sqlite3.Connection, tmp_path: Path
) -> None:
    path = tmp_path / "job.leadsman"
    assert check._check_record(empty, path, "") is None
    insert_utterance(empty, NOON, "one", [])
    insert_utterance(empty, NOON, "two", [])
    last = check._check_record(empty, path, "")
    assert last is not None
    assert last.number == 2
    with pytest.raises(JournalError, match=r"its end is missing\. The record .* utterance 2\."):
        check._check_record(empty, path, "its end is missing")
    empty.execute("DROP TRIGGER events_no_delete")
    with pytest.raises(JournalError, match=r"its end is missing\. No utterance reads\."):
        check._check_record(empty, path, "its end is missing")
    with pytest.raises(JournalError, match=r"tables are not as .* reads\. .*copy it once more"):
        check._check_record(empty, path, "")
    # not where something lies beside it that may still be joined with it
    Path(f"{path}-journal").write_bytes(b"x")
    with pytest.raises(JournalError) as caught:
        check._check_record(empty, path, "")
    assert "copy it once more" not in str(caught.value)


# --- the tables --------------------------------------------------------------------------------


def test_tables_are_ours_in_our_order_and_those_beside_once_at_most() -> None:
    def told(*statements: str) -> bool:
        with closing(sqlite3.connect(":memory:", isolation_level=None)) as made:
            for statement in statements:
                made.execute(statement)
            try:
                check_tables(made)
            except JournalError:
                return False
        return True

    beside = "CREATE TABLE misses"
    with closing(sqlite3.connect(":memory:", isolation_level=None)) as made:
        make_tables(made)
        insert_miss(made, Miss(NOON, "bravo", "ask", ()))
        write_left_open(made, LeftOpen(1, "?", "bravo", ()))
        insert_attachment(made, attachment_of("points.csv", b"1,2"))
        check_tables(made)
        rows = made.execute("SELECT sql FROM sqlite_master WHERE sql LIKE 'CREATE TABLE %'")
        (beside,) = [sql for (sql,) in rows if sql.startswith(beside)]
    assert told(*TABLES)
    assert told(*TABLES, beside)
    assert not told(*TABLES, beside, "CREATE TABLE more (a)")
    assert not told(*TABLES, "CREATE TABLE more (a)")
    assert not told(*TABLES[:-1])
    assert not told(beside, *TABLES)


def test_what_is_in_the_record_is_numbered_from_one_and_chained(
    empty: sqlite3.Connection,
) -> None:
    assert last_utterance(empty) == (0, "")
    assert [insert_utterance(empty, NOON, said, []) for said in ("a", "b\0", "c\udcff")] == [
        1,
        2,
        3,
    ]
    told = list(entries_in(empty))
    assert [(entry.number, entry.said) for entry in told] == [(1, "a"), (2, "b\0"), (3, "c\udcff")]
    assert told == list(unchecked_entries(empty))
    # plain words are kept as text, for other programs to read; others byte by byte
    kinds = empty.execute("SELECT typeof(said) FROM utterances ORDER BY number").fetchall()
    assert [kind for (kind,) in kinds] == ["text", "blob", "blob"]
    number, digest = last_utterance(empty)
    assert (number, len(digest)) == (3, 32)
    first = chain_digest("", (1, NOON.isoformat(timespec="microseconds"), "a"))
    assert empty.execute("SELECT digest FROM utterances").fetchone() == (first,)


def test_a_job_file_is_known_by_its_mark() -> None:
    """The letters L, E, A, D, where any program that knows SQLite's files can read them."""
    assert APPLICATION_ID.to_bytes(4, "big") == b"LEAD"
    assert HeaderMark.of(-1 & 0xFF).version == 255
    assert HeaderMark.of(256).version == 0


# --- beside the record ---------------------------------------------------------------------------


def test_a_file_is_kept_once_under_its_digest_and_given_back_whole(
    empty: sqlite3.Connection,
) -> None:
    # SHA-256 of "abc": FIPS 180-2, appendix B.1
    kept = attachment_of("points.csv", b"abc")
    assert kept.digest == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert zlib.decompress(kept.packed) == b"abc"
    assert read_attachment(empty, kept.digest) is None
    insert_attachment(empty, kept)
    insert_attachment(empty, Attachment("again.csv", kept.digest, b"other"))
    assert read_attachment(empty, kept.digest) == b"abc"
    assert read_attachment(empty, "0" * 64) is None
    more = attachment_of("more.csv", b"abcd")
    insert_attachment(empty, more)
    assert read_attachment(empty, more.digest) == b"abcd"


def test_a_kept_file_that_is_not_what_was_kept_is_told(empty: sqlite3.Connection) -> None:
    for digest, packed in (("a", b"no zlib"), ("b", zlib.compress(b"other")), ("c", "text")):
        insert_attachment(empty, Attachment("points.csv", digest, packed))  # type: ignore[arg-type]
        with pytest.raises(JournalError, match="is damaged"):
            read_attachment(empty, digest)


def test_one_question_waits_or_none(empty: sqlite3.Connection) -> None:
    def tables() -> int:
        rows = empty.execute("SELECT name FROM sqlite_master WHERE name = 'left_open'")
        return len(rows.fetchall())

    assert read_left_open(empty) is None
    write_left_open(empty, None)
    assert tables() == 0
    first = LeftOpen(3, "Below or above?", "B3 18", (("B3 -18", "B3 18"),))
    second = LeftOpen(4, "Which?", "row 2", ())
    for waiting in (first, second, None, first):
        write_left_open(empty, waiting)
        assert read_left_open(empty) == waiting
    assert tables() == 1
    for bad in ("no json", "[[1]]", "7"):
        empty.execute("UPDATE left_open SET commands = ?", (bad,))
        assert read_left_open(empty) is None, bad


def test_a_line_is_known_by_the_id_that_a_device_sent_it_under(
    empty: sqlite3.Connection,
) -> None:
    assert utterance_sent_as(empty, "7f") is None
    assert devices(empty) == {}
    insert_sender(empty, Sender("phone 1", "7f"), 3)
    insert_sender(empty, Sender("phone 2", "80"), 5)
    assert [utterance_sent_as(empty, line) for line in ("7f", "80", "81")] == [3, 5, None]
    assert devices(empty) == {3: "phone 1", 5: "phone 2"}
    with pytest.raises(sqlite3.IntegrityError):
        insert_sender(empty, Sender("phone 2", "7f"), 6)


def test_misses_are_listed_with_three_guesses_at_most(empty: sqlite3.Connection) -> None:
    assert read_misses(empty) == []
    assert not misses_told([]).tables
    said = [
        Miss(NOON, "bravo", "ask", ("B1", "B2", "B3", "B4"), 12.5),
        Miss(NOON, "", "again", ()),
    ]
    for miss in said:
        insert_miss(empty, miss)
    assert read_misses(empty) == said
    empty.execute("INSERT INTO misses VALUES ('no time', '', 'ask', '[]', NULL)")
    assert read_misses(empty) == said
    told = misses_told(said)
    assert told.headline.startswith("2 utterances")
    assert misses_told(said[:1]).headline.startswith("1 utterance ")
    rows = told.tables[0].rows
    assert [row[1:] for row in rows] == [("bravo", "ask", "B1, B2, B3"), ("no words", "again", "")]


def test_of_several_lines_the_last_is_told() -> None:
    for said, last in (("B3 18\nbelow", "below"), ("B3 18", "B3 18"), ("", "")):
        assert RecordedAfterAll(said).data == {"recorded_after_all": last}
        entry = RecordEntry(9, NOON, said, ())
        told = LogMissing(Path("floor"), Path("kept"), entry).told
        assert f"It ends with “{last}”" in told, said


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
        assert told in news.told
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
