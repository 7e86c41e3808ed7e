"""Files for others: whole or not at all, and over nothing."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from assistant.errors import LeadsmanError
from assistant.handover.files import free_name, write_files


def test_nothing_is_written_over_unless_that_is_said(tmp_path: Path) -> None:
    written = write_files(tmp_path / "out", {"a.csv": b"1", "b.csv": b"2"})
    assert [path.name for path in written.new] == ["a.csv", "b.csv"]
    again = write_files(tmp_path / "out", {"a.csv": b"1", "b.csv": b"2"})
    assert not again.new
    assert len(again.unchanged) == 2
    with pytest.raises(LeadsmanError, match=r"b\.csv: there already.*--replace"):
        write_files(tmp_path / "out", {"b.csv": b"3", "c.csv": b"4"})
    # Nothing of what could have been written was.
    assert {path.name for path in (tmp_path / "out").iterdir()} == {"a.csv", "b.csv"}
    assert (tmp_path / "out" / "b.csv").read_bytes() == b"2"
    write_files(tmp_path / "out", {"b.csv": b"3"}, replace=True)
    assert (tmp_path / "out" / "b.csv").read_bytes() == b"3"


def test_a_write_that_fails_leaves_the_file_as_it_was(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    write_files(tmp_path, {"a.csv": b"before"})

    def full(_fd: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(LeadsmanError, match="No space left"):
        write_files(tmp_path, {"a.csv": b"after"}, replace=True)
    assert [path.name for path in tmp_path.iterdir()] == ["a.csv"]
    assert (tmp_path / "a.csv").read_bytes() == b"before"


def test_what_is_no_folder_or_no_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(LeadsmanError, match=r"cannot be written: .*--out FOLDER"):
        write_files(tmp_path / "file", {"a.csv": b""})
    (tmp_path / "a.csv").mkdir()
    with pytest.raises(LeadsmanError, match="is no file"):
        write_files(tmp_path, {"a.csv": b""}, replace=True)


def test_a_link_is_replaced_and_not_followed(tmp_path: Path) -> None:
    (tmp_path / "kept").write_bytes(b"kept")
    (tmp_path / "a.csv").symlink_to(tmp_path / "kept")
    write_files(tmp_path, {"a.csv": b"new"}, replace=True)
    assert (tmp_path / "kept").read_bytes() == b"kept"


def test_a_number_keeps_two_files_apart(tmp_path: Path) -> None:
    write_files(tmp_path, {"a.csv": b"1"})
    assert free_name(tmp_path, "a.csv", b"1") == "a.csv"
    assert free_name(tmp_path, "a.csv", b"2") == "a-2.csv"
