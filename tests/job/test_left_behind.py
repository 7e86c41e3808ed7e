"""What a program that was ended leaves beside a job, and who may read a job."""

from __future__ import annotations

import os
import sqlite3
import sys
import time
from pathlib import Path

import pytest

from assistant.errors import JournalError
from assistant.record import check
from assistant.record.journal import Journal

LONG_AGO = time.time() - 7200


def aged(path: Path) -> Path:
    os.utime(path, (LONG_AGO, LONG_AGO))
    return path


def draft(path: Path, mark: str, lines: int) -> Path:
    found = path.with_name(f".{path.name}.{mark}.new")
    with Journal.open(found) as journal:
        for number in range(lines):
            journal.append(f"line {number}", [])
    return aged(found)


@pytest.mark.skipif(sys.platform == "win32", reason="no such modes there")
def test_a_new_job_is_for_its_owner_only(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        journal.append("one", [])
        modes = {found.name: found.stat().st_mode & 0o777 for found in tmp_path.iterdir()}
    assert modes == {path.name: 0o600, f"{path.name}-journal": 0o600}


def test_old_drafts_go_unless_a_line_may_be_lost_with_them(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    Journal.open(path).close()
    with_lines = draft(path, "11111111", 2)
    empty = draft(path, "22222222", 0)
    nothing = path.with_name(f".{path.name}.33333333.new")
    nothing.touch()
    aged(nothing)
    young = path.with_name(f".{path.name}.44444444.new")
    young.touch()
    another = tmp_path / ".other.leadsman.55555555.new"
    another.touch()
    aged(another)
    Journal.open(path).close()
    assert not empty.exists()
    assert not nothing.exists()
    assert with_lines.exists()
    assert young.exists()
    assert another.exists()


@pytest.mark.skipif(not hasattr(os, "link"), reason="no second names there")
def test_a_draft_that_is_the_job_already_loses_only_its_name(tmp_path: Path) -> None:
    path = tmp_path / "floor.leadsman"
    with Journal.open(path) as journal:
        journal.append("one", [])
    os.link(path, path.with_name(f".{path.name}.11111111.new"))
    aged(path)
    with Journal.open(path) as journal:
        assert journal.last_utterance() == 1
    assert os.listdir(tmp_path) == [path.name]


@pytest.mark.parametrize(
    ("ending", "said"), [("-wal", "holds the last lines"), ("-journal", "cut short")]
)
def test_what_is_left_of_a_job_that_is_gone_is_kept(ending: str, said: str, tmp_path: Path) -> None:
    left = tmp_path / f"floor.leadsman{ending}"
    left.write_bytes(b"lines")
    with pytest.raises(JournalError, match=f"{said}.*Keep it: put") as caught:
        Journal.open(tmp_path / "floor.leadsman")
    assert "Move that away" not in str(caught.value)
    assert left.read_bytes() == b"lines"


def test_an_empty_journal_of_a_job_that_is_gone_is_nothing(tmp_path: Path) -> None:
    (tmp_path / "floor.leadsman-journal").touch()
    with Journal.open(tmp_path / "floor.leadsman") as journal:
        assert journal.append("one", []) == 1


def test_a_full_temporary_folder_is_no_damage(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "floor.leadsman"
    Journal.open(path).close()

    def no_room(*_: object) -> None:
        error = sqlite3.OperationalError("database or disk is full")
        error.sqlite_errorcode = sqlite3.SQLITE_FULL
        raise error

    monkeypatch.setattr(check, "check_tables", no_room)
    with pytest.raises(JournalError, match=r"could not be examined: .* has no room") as caught:
        Journal.open(path)
    assert "damaged" not in str(caught.value)
