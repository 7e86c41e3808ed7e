"""Jobs get names that any file system takes, and the last one worked on is found again."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant.ears.vosk_engine import models_folder
from assistant.errors import LeadsmanError
from assistant.record.journal import Journal
from assistant.record.places import Folders, jobs_in, new_job_path, safe_name, user_folders

DAY = date(2026, 11, 25)


def test_everything_lies_under_the_home_that_was_named(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path / "home"))
    folders = user_folders()
    assert folders.jobs == tmp_path / "home" / "jobs"
    assert folders.cards == tmp_path / "home" / "cards"
    assert models_folder() == tmp_path / "home" / "vosk"
    assert not folders.data.exists()


def test_otherwise_it_lies_in_the_data_folder_of_the_platform(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("LEADSMAN_HOME", raising=False)
    monkeypatch.setattr("platformdirs.user_data_path", lambda name, **_: tmp_path / name)
    assert user_folders() == Folders(tmp_path / "leadsman")


def test_without_a_folder_there_are_no_jobs(tmp_path: Path) -> None:
    assert jobs_in(tmp_path / "none") == []


@pytest.mark.parametrize(
    ("name", "file"),
    [
        ("Reading Room", "reading-room.leadsman"),
        ("  boat / shed: no. 2 ", "boat-shed-no-2.leadsman"),
        ("../../etc/passwd", "etc-passwd.leadsman"),
        ("Küche Süd", "küche-süd.leadsman"),
        ("\u0390", "\u0390.leadsman"),  # falls apart when made small
        ("図書館", "図書館.leadsman"),
        (".hidden", "hidden.leadsman"),
        ("CON", "job-con.leadsman"),
        ("", "job-2026-11-25.leadsman"),
    ],
)
def test_a_new_job_is_named_for_what_was_asked(name: str, file: str, tmp_path: Path) -> None:
    assert new_job_path(tmp_path, name, DAY) == tmp_path / file


def test_a_name_without_letters_is_refused(tmp_path: Path) -> None:
    with pytest.raises(LeadsmanError, match="letters and numbers"):
        new_job_path(tmp_path, "???", DAY)


@given(name=st.text(st.characters(exclude_categories=[]), max_size=300))
def test_any_name_gives_a_plain_file_name(name: str) -> None:
    short = safe_name(name)
    assert len(short.encode()) <= 110
    assert not set(short) & set('/\\:*?"<>|.\0 ')
    assert not short.startswith("-")
    assert safe_name(short) == short


def test_a_name_that_is_taken_is_not_taken_twice(tmp_path: Path) -> None:
    new_job_path(tmp_path, "boat shed", DAY).touch()
    with pytest.raises(LeadsmanError, match="Go on with it"):
        new_job_path(tmp_path, "Boat Shed", DAY)
    Path(f"{tmp_path}/quay.leadsman-wal").touch()
    with pytest.raises(LeadsmanError, match="Go on with it"):
        new_job_path(tmp_path, "quay", DAY)


def test_jobs_of_one_day_are_counted_on(tmp_path: Path) -> None:
    names = []
    for _ in range(3):
        path = new_job_path(tmp_path, "", DAY)
        path.touch()
        names.append(path.stem)
    assert names == ["job-2026-11-25", "job-2026-11-25-2", "job-2026-11-25-3"]


def test_a_new_job_can_be_opened_and_found(tmp_path: Path) -> None:
    path = new_job_path(tmp_path, "Boat Shed", DAY)
    Journal.open(path).close()
    assert [(job.name, job.path) for job in jobs_in(tmp_path)] == [("boat-shed", path)]
    assert os.listdir(tmp_path) == ["boat-shed.leadsman"]


def test_the_latest_job_is_the_one_last_worked_on(tmp_path: Path) -> None:
    first, second = (new_job_path(tmp_path, name, DAY) for name in ("first", "second"))
    for path, moment in ((first, 1000), (second, 2000)):
        path.touch()
        os.utime(path, (moment, moment))
    (tmp_path / "notes.txt").touch()
    (tmp_path / ".first.leadsman.1234.new").touch()
    (tmp_path / "folder.leadsman").mkdir()
    assert [job.path for job in jobs_in(tmp_path)] == [second, first]
    log = Path(f"{first}-wal")  # Left by a crash: newer than the job itself.
    log.touch()
    os.utime(log, (3000, 3000))
    assert jobs_in(tmp_path)[0].path == first
