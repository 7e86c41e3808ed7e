"""The files of jobs where the open one is not in the folder of jobs, or in no file at all."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from assistant.errors import JournalError, LeadsmanError
from assistant.record.job_files import JobFiles, existing_file
from assistant.record.journal import Journal


def job(folder: Path, name: str) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    path = folder / f"{name}.leadsman"
    Journal.open(path).close()
    return path


def test_a_job_in_no_file_brings_others_back_and_has_nothing_to_move(tmp_path: Path) -> None:
    away = job(tmp_path / "away", "shed")
    with Journal.open(None) as journal:
        files = JobFiles(journal, tmp_path)
        assert files.here is None
        assert files.bring_back("shed") == tmp_path / "shed.leadsman"
        assert not away.exists()
        assert [one.name for one in files.listed()] == ["shed"]
        for move in (files.put_away, files.bring_back, lambda: files.rename("hut")):
            with pytest.raises(LeadsmanError, match="in memory only"):
                move()


def test_an_open_job_brings_back_its_own_neighbours(tmp_path: Path) -> None:
    """Not those of the folder that a list shows, where a job of that name is put away too."""
    listed, own = tmp_path / "jobs", tmp_path / "site"
    job(listed / "away", "hut")
    job(own / "away", "hut")
    with Journal.open(job(own, "shed")) as journal:
        files = JobFiles(journal, listed)
        assert files.bring_back("hut") == own / "hut.leadsman"
        assert files.put_away() == own / "away" / "shed.leadsman"
        with pytest.raises(LeadsmanError, match="put away already"):
            files.put_away()
        assert files.copy("loft") == own / "loft.leadsman"
        assert files.bring_back("Shed") == own / "shed.leadsman"
    assert (listed / "away" / "hut.leadsman").exists()


def test_a_job_is_found_by_its_name_however_it_is_spelled_and_named_where_it_is_not(
    tmp_path: Path,
) -> None:
    with pytest.raises(JournalError, match="There is none in"):
        existing_file(tmp_path, "shed")
    one = job(tmp_path, "boat-shed")
    assert existing_file(tmp_path, "Boat shed") == one
    other = job(tmp_path, "Boat shed")
    assert existing_file(tmp_path, "Boat shed") == other
    assert existing_file(tmp_path, "boat-shed") == one
    with pytest.raises(JournalError, match="Which one"):
        existing_file(tmp_path, "BOAT SHED")
    assert existing_file(tmp_path, str(one)) == one
    with pytest.raises(JournalError, match="no file"):
        existing_file(tmp_path, str(tmp_path / "hut"))
    for number in range(4):
        job(tmp_path, f"job-{number}")
    with pytest.raises(JournalError) as six:
        existing_file(tmp_path, "hut")
    assert "more" not in str(six.value)
    job(tmp_path, "job-4")
    with pytest.raises(JournalError, match=r"and 1 more\."):
        existing_file(tmp_path, "hut")
    with pytest.raises(JournalError, match="no job put away"):
        existing_file(tmp_path / "away", "hut")


@pytest.mark.parametrize("other", [None, "%"])
def test_a_name_is_a_path_where_it_has_either_sign_between_folders(
    other: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Windows has two, others have one: there the second may stand in a name like any other."""
    monkeypatch.setattr(os, "altsep", other)
    one = job(tmp_path, "shed")
    assert existing_file(tmp_path, "shed") == one
    told = "There is no file" if other else "There is no job"
    with pytest.raises(JournalError, match=told):
        existing_file(tmp_path, "a%shed")
