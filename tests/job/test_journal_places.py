"""Jobs get names that any file system takes, and the last one worked on is found again."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from assistant import places
from assistant.journal import Journal

DAY = date(2026, 11, 25)


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("LEADSMAN_HOME", str(tmp_path / "home"))
    return tmp_path / "home"


def test_everything_lies_under_the_home_that_was_named(home: Path) -> None:
    assert places.jobs_folder() == home / "jobs"
    assert places.cards_folder() == home / "cards"
    assert places.history_file() == home / "history"
    assert not home.exists()


def test_otherwise_it_lies_in_the_data_folder_of_the_platform(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("LEADSMAN_HOME", raising=False)
    monkeypatch.setattr("platformdirs.user_data_path", lambda name, **_: tmp_path / name)
    assert places.jobs_folder() == tmp_path / "leadsman" / "jobs"


def test_without_jobs_there_is_no_latest(home: Path) -> None:
    assert places.latest_job() is None
    assert places.list_jobs() == []
    assert places.job_named("boat shed") is None
    assert not home.exists()


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
        ("???", "job-2026-11-25.leadsman"),
        (None, "job-2026-11-25.leadsman"),
    ],
)
def test_a_new_job_is_named_for_what_was_asked(name: str | None, file: str, home: Path) -> None:
    assert places.new_job(name, DAY) == home / "jobs" / file
    assert os.listdir(home / "jobs") == []


@given(name=st.text(st.characters(exclude_categories=[]), max_size=300))
def test_any_name_gives_a_plain_file_name(name: str) -> None:
    short = places.safe_name(name)
    assert len(short.encode()) <= 110
    assert not set(short) & set('/\\:*?"<>|.\0 ')
    assert not short.startswith("-")
    assert places.safe_name(short) == short


def test_a_name_that_is_taken_is_counted_on(home: Path) -> None:
    names = []
    for _ in range(3):
        path = places.new_job("boat shed", DAY)
        path.touch()
        names.append(path.name)
    assert names == ["boat-shed.leadsman", "boat-shed-2.leadsman", "boat-shed-3.leadsman"]
    Path(f"{home}/jobs/boat-shed-4.leadsman-wal").touch()
    assert places.new_job("boat shed", DAY).name == "boat-shed-5.leadsman"


def test_a_new_job_can_be_opened_and_found_by_its_name(home: Path) -> None:
    path = places.new_job("Boat Shed", DAY)
    Journal.open(path).close()
    for name in ("Boat Shed", "boat-shed", "boat-shed.leadsman"):
        assert places.job_named(name) == path
    assert places.list_jobs() == [path]
    assert os.listdir(home / "jobs") == ["boat-shed.leadsman"]


@pytest.mark.usefixtures("home")
def test_the_latest_job_is_the_one_last_worked_on() -> None:
    first, second = (places.new_job(name, DAY) for name in ("first", "second"))
    for path, moment in ((first, 1000), (second, 2000)):
        path.touch()
        os.utime(path, (moment, moment))
    (places.jobs_folder() / "notes.txt").touch()
    (places.jobs_folder() / ".first.leadsman.1234.new").touch()
    (places.jobs_folder() / "folder.leadsman").mkdir()
    assert places.list_jobs() == [second, first]
    log = Path(f"{first}-wal")  # Left by a crash: newer than the job itself.
    log.touch()
    os.utime(log, (3000, 3000))
    assert places.latest_job() == first
