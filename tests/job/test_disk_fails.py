"""The disk fails as a line is committed: the reply says truly whether the line is in the record.

The failure is put between the journal and its connection, before the commit or after it.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from assistant.conversation.conversation import Conversation
from assistant.decide import World
from assistant.errors import JournalError
from assistant.record.journal import Journal


class FailingDisk:
    """A connection whose next commit reports an error, before or after the disk had it."""

    def __init__(self, connection: sqlite3.Connection, taken: bool) -> None:
        self._connection = connection
        self._taken = taken

    def execute(self, statement: str, *values: Any) -> sqlite3.Cursor:
        if statement != "COMMIT":
            return self._connection.execute(statement, *values)
        if self._taken:
            self._connection.execute(statement)
        error = sqlite3.OperationalError("disk I/O error")
        error.sqlite_errorcode = sqlite3.SQLITE_IOERR_FSYNC
        raise error

    def __getattr__(self, name: str) -> Any:
        return getattr(self._connection, name)


def fail(journal: Journal, taken: bool) -> None:
    journal._connection = FailingDisk(journal._connection, taken)  # type: ignore[assignment]


@contextlib.contextmanager
def out_of_reach(journal: Journal, taken: bool) -> Iterator[None]:
    """The disk fails at the next commit, and the file cannot be read again meanwhile."""

    def unreadable(*_: object) -> sqlite3.Connection:
        raise JournalError("It cannot be read.")

    fail(journal, taken)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("assistant.record.journal.open_connection", unreadable)
        yield


def said_in(path: Path) -> list[str]:
    with Journal.open(path) as journal:
        return [entry.said for entry in journal.entries()]


def test_a_line_that_is_refused_does_not_come_back(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        journal.append("one", [])
        fail(journal, taken=False)
        with pytest.raises(JournalError, match="Nothing was recorded: the disk did not take it"):
            journal.append("refused", [])
        assert journal.append("two", []) == 2
    assert said_in(path) == ["one", "two"]


def test_a_line_that_the_disk_took_all_the_same_stands(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        journal.append("one", [])
        fail(journal, taken=True)
        assert journal.append("taken", []) == 2
        assert journal.append("three", []) == 3
    assert said_in(path) == ["one", "taken", "three"]


def test_while_nobody_can_tell_nothing_more_is_taken(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        journal.append("one", [])
        with out_of_reach(journal, taken=True):
            for _ in range(2):
                with pytest.raises(JournalError, match="cannot be told: It cannot be read"):
                    journal.append("perhaps", [])
        # The disk is well again, but this program does not know of the line that is there now.
        for _ in range(2):
            with pytest.raises(JournalError, match="recorded after all"):
                journal.append("next", [])
    assert said_in(path) == ["one", "perhaps"]


def test_once_it_reads_again_without_the_line_it_goes_on(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        journal.append("one", [])
        with (
            out_of_reach(journal, taken=False),
            pytest.raises(JournalError, match="cannot be told"),
        ):
            journal.append("lost", [])
        assert journal.append("next", []) == 2
    assert said_in(path) == ["one", "next"]


def test_a_conversation_goes_on_with_the_line_that_was_recorded_after_all(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        conversation = Conversation(journal, World({}))
        conversation.hear("A1 -18 mm")
        with out_of_reach(journal, taken=True):
            for line in ("B1 -17", "B1 -17", "readings"):
                turn = conversation.hear(line)
                assert not turn.ok
                assert "cannot be told: It cannot be read" in turn.reply.headline
            assert conversation.on_record == 1, "as far as is known"
        turn = conversation.hear("C1 -19")
        assert turn.recorded == ("reading-taken",)
        (told,) = [line for line in turn.reply.details if "after all" in line]
        assert told == "The disk failed over “B1 -17”, but it was recorded after all."
        assert turn.reply.data["recorded_after_all"] == "B1 -17"
        assert list(conversation.job.readings) == ["A1", "B1", "C1"]
        assert "after all" not in str(conversation.hear("readings").reply)
    assert said_in(path) == ["A1 -18 mm", "B1 -17", "C1 -19"]


def test_a_conversation_goes_on_without_the_line_that_was_not(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        conversation = Conversation(journal, World({}))
        conversation.hear("A1 -18 mm")
        with out_of_reach(journal, taken=False):
            assert not conversation.hear("B1 -17").ok
        turn = conversation.hear("readings")
        assert turn.ok
        assert "after all" not in str(turn.reply)
        assert list(conversation.job.readings) == ["A1"]
        assert conversation.hear("B1 -17").recorded
    assert said_in(path) == ["A1 -18 mm", "B1 -17"]


def test_an_answer_that_was_recorded_after_all_leaves_no_question(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        conversation = Conversation(journal, World({}))
        conversation.hear("A1 18 mm")
        with out_of_reach(journal, taken=True):
            assert not conversation.hear("below").ok
            assert conversation.pending is not None
        turn = conversation.hear("readings")
        assert "The disk failed over “below”, but it was recorded after all." in turn.reply.details
        assert conversation.pending is None
        assert conversation.job.readings["A1"].mm == -18
    assert said_in(path) == ["A1 18 mm\nbelow"]


def test_a_disk_that_fails_before_the_line_is_put_in_has_recorded_nothing(tmp_path: Path) -> None:
    """With one line on record as with none or two: no number of a line that is not there."""
    path = tmp_path / "floor.leadsman"
    for before in range(3):
        with Journal.open(path) as journal:
            whole = journal._connection

            class FailsAtOnce(FailingDisk):
                def execute(self, statement: str, *values: Any) -> sqlite3.Cursor:
                    if statement != "BEGIN IMMEDIATE":
                        return self._connection.execute(statement, *values)
                    error = sqlite3.OperationalError("disk I/O error")
                    error.sqlite_errorcode = sqlite3.SQLITE_IOERR_READ
                    raise error

            failing = FailsAtOnce(whole, taken=False)
            journal._connection = failing  # type: ignore[assignment]
            with pytest.raises(JournalError, match="Nothing was recorded"):
                journal.append("refused", [])
            assert journal.last_utterance() == before
            assert journal.append("taken", []) == before + 1
    assert said_in(path) == ["taken"] * 3
