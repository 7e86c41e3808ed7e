"""A job file parted from what SQLite keeps beside it, or cut at its end.

Whichever of the files are left, every answered line is in them, or the job is refused
and the error says what to do.
"""

from __future__ import annotations

import shutil
import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.errors import JournalError
from assistant.events.readings import ReadingTaken
from assistant.record.event_rows import row_of
from assistant.record.journal import Journal
from assistant.record.table import insert_utterance
from grammar.commands import Measure

LINES = 40
SECTOR = 512
B3 = ReadingTaken("B3", Measure(Decimal("-18.0"), "mm"))
OLD = Path(__file__).parent / "kept" / "written_with_wal.leadsman"


def said(number: int) -> str:
    return f"line {number} " + "as it was said " * (number % 30)


ANSWERED = [said(number) for number in range(1, LINES + 1)]


def opened(path: Path) -> list[str] | str:
    """What is said in it, or why it was refused; then it is as it was."""
    before = path.read_bytes()
    try:
        with Journal.open(path) as journal:
            return [entry.said for entry in journal.entries()]
    except JournalError as error:
        assert path.read_bytes() == before
        assert "left as it was" in str(error)
        return str(error)


def write(path: Path, lines: list[str]) -> None:
    with Journal.open(path) as journal:
        for line in lines:
            journal.append(line, [B3])


@pytest.fixture
def path(tmp_path: Path) -> Path:
    path = tmp_path / "floor.leadsman"
    write(path, ANSWERED)
    return path


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    """Another folder, where a file alone was carried to."""
    folder = tmp_path / "stick"
    folder.mkdir()
    return folder / "floor.leadsman"


def cut_short(folder: Path) -> tuple[bytes, bytes]:
    """The file and its journal as they lie while a long line is being written."""
    path = folder / "being-written.leadsman"
    write(path, ANSWERED)
    long = ReadingTaken("B" * 9000, Measure(Decimal(-18), "mm"))
    with Journal.open(path) as journal:
        pages = journal._connection
        pages.execute("PRAGMA cache_size = 1")  # so that pages go to disk before the end
        pages.execute("BEGIN")
        insert_utterance(pages, datetime.now(UTC), "cut short", [row_of(long)] * 3)
        taken = path.read_bytes(), Path(f"{path}-journal").read_bytes()
        pages.execute("ROLLBACK")
    return taken


def put(path: Path, main: bytes, journal: bytes | None) -> None:
    for left in path.parent.iterdir():
        left.unlink()
    path.write_bytes(main)
    if journal is not None:
        Path(f"{path}-journal").write_bytes(journal)


def cuts(data: bytes) -> Iterator[bytes]:
    return (data[:end] for end in range(0, len(data), SECTOR))


# --- cut at its end -------------------------------------------------------------------------


@pytest.mark.parametrize("beside", [None, b""], ids=["alone", "its empty journal beside it"])
def test_cut_at_any_sector_it_is_refused(path: Path, stick: Path, beside: bytes | None) -> None:
    whole = path.read_bytes()
    for cut in cuts(whole):
        put(stick, cut, beside)
        assert isinstance(opened(stick), str), len(cut)
    put(stick, whole, beside)
    assert opened(stick) == ANSWERED


def test_an_end_that_the_disk_lost_or_kept_as_it_was_before_is_missed(
    path: Path, stick: Path
) -> None:
    """A stick that said it had written and had not: the first page is new, the rest is old."""
    missed = 0
    for number in range(LINES + 1, LINES + 6):
        before = path.read_bytes()
        write(path, [f"line {number}"])
        after = path.read_bytes()
        put(stick, after[:4096] + before[4096:] + after[len(before) :], None)
        told = opened(stick)
        assert isinstance(told, str), f"{len(told)} lines of {number}"
        missed += f"its last line is missing, {number - 1} of {number} are there" in told
    assert missed


# --- parted from its journal ----------------------------------------------------------------


def test_with_its_journal_it_opens_to_all_that_was_answered(tmp_path: Path, stick: Path) -> None:
    main, journal = cut_short(tmp_path)
    put(stick, main, journal)
    assert opened(stick) == ANSWERED


def test_carried_off_without_its_journal_it_is_whole_or_refused(
    tmp_path: Path, stick: Path
) -> None:
    main, _ = cut_short(tmp_path)
    for cut in (main, *cuts(main)):
        put(stick, cut, None)
        assert isinstance(told := opened(stick), str) or told == ANSWERED, len(cut)


def test_with_part_of_its_journal_it_is_whole_or_refused(tmp_path: Path, stick: Path) -> None:
    main, journal = cut_short(tmp_path)
    for cut in cuts(journal):
        put(stick, main, cut)
        assert isinstance(told := opened(stick), str) or told == ANSWERED, len(cut)


def test_cut_beside_its_whole_journal_it_is_whole_or_refused(tmp_path: Path, stick: Path) -> None:
    main, journal = cut_short(tmp_path)
    for cut in cuts(main):
        put(stick, cut, journal)
        assert isinstance(told := opened(stick), str) or told == ANSWERED, len(cut)


def test_where_the_journal_stayed_no_new_job_is_begun_over_it(tmp_path: Path, stick: Path) -> None:
    main, journal = cut_short(tmp_path)
    put(stick, main, journal)
    carried = stick.rename(stick.parent.parent / "elsewhere.leadsman")
    with pytest.raises(JournalError, match="put the job file back beside it"):
        Journal.open(stick)
    assert isinstance(opened(carried), str)
    carried.rename(stick)
    assert opened(stick) == ANSWERED


def test_another_job_in_its_place_takes_no_harm_from_the_journal(
    tmp_path: Path, stick: Path
) -> None:
    main, journal = cut_short(tmp_path)
    put(stick, main, journal)
    other = tmp_path / "other.leadsman"
    write(other, [f"other {number}" for number in range(30)])
    shutil.copyfile(other, stick)
    assert isinstance(opened(stick), str)


# --- parted from its log, as jobs had one before ----------------------------------------------


def with_a_log(path: Path, lines: list[str]) -> None:
    """The lines, still in the log beside it; with no line before in the file itself."""
    Journal.open(path).close()
    kept = path.with_suffix(".kept")
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA user_version = 1")
        connection.execute("PRAGMA journal_mode = WAL").fetchone()
        for line in lines:
            connection.execute("BEGIN")
            insert_utterance(connection, datetime.now(UTC), line, [row_of(B3)])
            connection.execute("COMMIT")
        for ending in ("", "-wal"):
            shutil.copyfile(f"{path}{ending}", f"{kept}{ending}")
    for ending in ("", "-wal"):
        Path(f"{kept}{ending}").replace(f"{path}{ending}")


def test_a_file_with_no_line_whose_log_is_missing_is_refused(tmp_path: Path, stick: Path) -> None:
    path = tmp_path / "old.leadsman"
    with_a_log(path, ANSWERED)
    shutil.copyfile(path, stick)
    told = opened(stick)
    assert isinstance(told, str)
    assert "no line in it" in told
    assert "floor.leadsman-wal" in told
    shutil.copyfile(f"{path}-wal", f"{stick}-wal")
    assert opened(stick) == ANSWERED


def test_an_old_file_with_lines_opens_says_where_it_ends_and_is_kept_as_it_was(stick: Path) -> None:
    shutil.copyfile(OLD, stick)
    with Journal.open(stick) as journal:
        assert len(journal.entries()) == 9
        (news,) = journal.news()
        assert journal.news() == ()
    assert "It ends with “B3 -15.5”" in news.text
    assert "floor.leadsman.as-it-was" in news.text
    kept = Path(f"{stick}.as-it-was")
    assert kept.read_bytes() == OLD.read_bytes()
    with Journal.open(stick) as journal:
        assert journal.news() == (), "it is told once"


def test_the_chat_tells_before_anything_is_said(stick: Path) -> None:
    shutil.copyfile(OLD, stick)
    with Journal.open(stick) as journal:
        assert journal.has_to_tell
        conversation = Conversation(journal, World({}))
        assert conversation.rings
        told = conversation.rung()
        assert told is not None
        assert told.headline.startswith("floor.leadsman was kept by an earlier Leadsman")
        assert told.data["log_missing"]["lines"] == 9
        assert not conversation.rings
        assert "earlier Leadsman" not in str(conversation.hear("readings").reply)


def test_lines_that_were_in_the_log_are_there_again_once_it_is_found(
    tmp_path: Path, stick: Path
) -> None:
    path = tmp_path / "old.leadsman"
    shutil.copyfile(OLD, path)
    with closing(sqlite3.connect(path, isolation_level=None)) as connection:
        connection.execute("PRAGMA journal_mode = WAL").fetchone()
        insert_utterance(connection, datetime.now(UTC), "tenth", [row_of(B3)])
        shutil.copyfile(path, stick)
        log = Path(f"{path}-wal").read_bytes()
    write(stick, ["said since"])
    kept = Path(f"{stick}.as-it-was")
    Path(f"{kept}-wal").write_bytes(log)
    found = opened(kept)
    assert len(found) == 10
    assert found[-1] == "tenth"


def test_an_empty_log_beside_it_is_no_reason_to_tell(stick: Path) -> None:
    shutil.copyfile(OLD, stick)
    Path(f"{stick}-wal").touch()
    with Journal.open(stick) as journal:
        assert journal.news() == ()
        assert len(journal.entries()) == 9
