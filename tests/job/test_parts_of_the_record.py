"""Each part of the record by itself: what it takes, what it leaves, both sides of its bounds."""

from __future__ import annotations

import sqlite3
import struct
import zlib
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from pathlib import Path

import pytest

from assistant.errors import JournalError
from assistant.record import check
from assistant.record.attachments import (
    Attachment,
    attachment_of,
    insert_attachment,
    read_attachment,
)
from assistant.record.left_open import LeftOpen, read_left_open, write_left_open
from assistant.record.misses import Miss, insert_miss, misses_told, read_misses
from assistant.record.news import RecordedAfterAll
from assistant.record.parted import LogMissing
from assistant.record.sent_lines import Sender, devices, insert_sender, utterance_sent_as
from assistant.record.table import (
    APPLICATION_ID,
    BESIDE,
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
        # A database of a single page is one as well.
        ([(1, 0), (1, 0)], b"", True),
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
    assert told(*TABLES, *(sql for (sql,) in sorted(BESIDE)))  # a job that has all of them
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
    assert HeaderMark.from_stored(-1 & 0xFF).version == 255
    assert HeaderMark.from_stored(256).version == 0


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
        told = LogMissing(Path("floor"), Path("kept"), entry).text
        assert f"It ends with “{last}”" in told, said
