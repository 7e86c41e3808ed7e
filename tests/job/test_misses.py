"""What was not understood is kept beside the record, and the record is as it would be without."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from datetime import UTC, datetime
from decimal import Decimal
from pathlib import Path

import pytest

from assistant.errors import JournalError, NewerRecordError
from assistant.events.readings import ReadingTaken
from assistant.record.journal import Journal
from assistant.record.left_open import LeftOpen
from assistant.record.misses import Miss, misses_told
from assistant.record.table import RECORD_VERSION
from grammar.commands import Measure

NOON = datetime(2026, 5, 4, 12, tzinfo=UTC)
B3 = ReadingTaken("B3", Measure(Decimal("-18"), "mm"))
MISS = Miss(NOON, "bravo tree minus fifty", "ask", ("B3 -50 mm", "B3 -15 mm"), 7.5)
TALK = Miss(NOON, "mind the door on the left", "again", ())


def rows(path: Path) -> tuple[int, list[tuple[object, ...]], list[tuple[object, ...]]]:
    """Version, utterances and events as they lie in the file, digests among them."""
    with closing(sqlite3.connect(path)) as file:
        (version,) = file.execute("PRAGMA user_version").fetchone()
        return (
            version,
            file.execute("SELECT * FROM utterances").fetchall(),
            file.execute("SELECT * FROM events").fetchall(),
        )


def test_misses_come_back_in_order(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    with Journal.open(path) as journal:
        assert journal.misses() == []
        journal.note_miss(MISS)
        journal.note_miss(TALK)
    with Journal.open(path) as journal:
        assert journal.misses() == [MISS, TALK]


def test_the_chain_is_the_same_with_and_without(tmp_path: Path) -> None:
    paths = tmp_path / "with.leadsman", tmp_path / "without.leadsman"
    for path in paths:
        with Journal.open(path) as journal:
            journal.append("B3 -18", [B3], NOON)
            if path is paths[0]:
                journal.note_miss(MISS)
            journal.append("B3 -18", [B3], NOON)
    with_miss, without = (rows(path) for path in paths)
    assert with_miss[1:] == without[1:]
    assert len(with_miss[1]) == 2


def test_a_job_without_a_miss_is_as_it_always_was(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    with Journal.open(path) as journal:
        journal.append("B3 -18", [B3])
        assert journal.misses() == []
    mark = rows(path)[0]
    with closing(sqlite3.connect(path)) as file:
        tables = file.execute("SELECT name FROM sqlite_master WHERE type = 'table'").fetchall()
    assert tables == [("utterances",), ("events",)]
    with Journal.open(path) as journal:
        journal.note_miss(MISS)
    assert rows(path)[0] == mark


def test_a_miss_is_no_utterance(tmp_path: Path) -> None:
    with Journal.open(tmp_path / "job.leadsman") as journal:
        journal.append("B3 -18", [B3])
        journal.note_miss(MISS)
        assert journal.last_utterance() == 1
        assert [entry.said for entry in journal.entries()] == ["B3 -18"]


def test_a_miss_that_cannot_be_written_leaves_the_journal_usable() -> None:
    with Journal.open(None) as journal:
        journal._connection.execute("PRAGMA query_only = ON")
        with pytest.raises(JournalError, match="Nothing was recorded"):
            journal.note_miss(MISS)
        journal._connection.execute("PRAGMA query_only = OFF")
        assert journal.append("B3 -18", [B3]) == 1
        assert journal.misses() == []


def test_half_a_character_is_kept_as_well_as_it_goes() -> None:
    with Journal.open(None) as journal:
        journal.note_miss(Miss(NOON, "bravo \udcff", "again", ()))
        assert journal.misses()[0].heard == "bravo ?"


def test_a_row_that_makes_no_sense_is_left_out(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    with Journal.open(path) as journal:
        journal.note_miss(MISS)
        journal.note_miss(TALK)
    with closing(sqlite3.connect(path)) as file:
        file.execute("UPDATE misses SET alternatives = 'nonsense' WHERE tier = 'again'")
        file.commit()
    with Journal.open(path) as journal:
        assert journal.misses() == [MISS]


def test_another_table_of_that_name_is_not_ours(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    Journal.open(path).close()
    with closing(sqlite3.connect(path)) as file:
        file.execute("CREATE TABLE misses (anything)")
        file.commit()
    with pytest.raises(JournalError, match="not as Leadsman makes them"):
        Journal.open(path)


def test_what_is_newer_still_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "job.leadsman"
    Journal.open(path).close()
    with closing(sqlite3.connect(path)) as file:
        file.execute(f"PRAGMA user_version = {RECORD_VERSION + 1}")
        file.commit()
    with pytest.raises(NewerRecordError):
        Journal.open(path)


def test_both_tables_beside_the_record_may_be_there(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    left = LeftOpen(1, "B3 18: below or above?", "B3 18", (("B3 18", ""),))
    with Journal.open(path) as journal:
        journal.append("one", [])
        journal.note_miss(MISS)
        journal.keep_open(left)
    with Journal.open(path) as journal:
        assert journal.misses() == [MISS]
        assert journal.left_open() == left
        journal.append("two", [])
        assert journal.left_open() is None  # what came after it ended the waiting


def test_the_list_says_where_no_words_were_heard_and_shows_three_of_what_may_be_meant() -> None:
    silent = Miss(NOON, "", "again", ("B1 -1 mm", "B2 -1 mm", "B3 -1 mm", "B4 -1 mm"))
    told = misses_told([MISS, silent])
    assert told.headline == "2 utterances not understood at once."
    (table,) = told.tables
    assert [row[1] for row in table.rows] == ["bravo tree minus fifty", "no words"]
    assert table.rows[1][3] == "B1 -1 mm, B2 -1 mm, B3 -1 mm"
    assert misses_told([MISS]).headline == "1 utterance not understood at once."
    assert misses_told([]).tables == ()
