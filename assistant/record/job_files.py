"""A job's file among those of other jobs: renamed, copied, put away and brought back.

Nothing is ever overwritten or deleted. A file is moved whole, on its own disk, or stays.
"""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path

from assistant.errors import JournalError, LeadsmanError
from assistant.record.journal import Journal
from assistant.record.places import (
    AWAY,
    SUFFIX,
    JobFile,
    free_job_path,
    job_path,
    jobs_in,
    jobs_named,
    safe_name,
)


class JobFiles:
    """
    The file of an open job, and its neighbours.

    Parameters
    ----------
    journal : Journal
        The open job.
    folder : Path
        The folder of jobs, which a list shows.
    """

    def __init__(self, journal: Journal, folder: Path) -> None:
        self._journal = journal
        self._folder = folder

    @property
    def here(self) -> Path | None:
        """The file of the open job; None where it is kept in memory only."""
        return self._journal.path

    def listed(self) -> list[JobFile]:
        """The jobs of the folder, the one last worked on first."""
        return jobs_in(self._folder)

    def rename(self, name: str) -> Path:
        """
        Give the open job another name; returns where it is now.

        Raises LeadsmanError, as all of these do, where it cannot be done; nothing has changed then.
        """
        path = self._path()
        return self._moved(job_path(path.parent, name, itself=path))

    def copy(self, name: str) -> Path:
        """Make a whole copy of the open job beside it; returns its file."""
        copy = job_path(home_of(self._path()), name)
        self._journal.copy_to(copy)
        return copy

    def put_away(self) -> Path:
        """Move the open job into the folder of those put away; returns where it is now."""
        path = self._path()
        if _is_away(path):
            raise LeadsmanError(f"{path.stem} is put away already, in {path.parent}.")
        away = path.parent / AWAY
        try:
            away.mkdir(exist_ok=True)
        except OSError as error:
            raise LeadsmanError(
                f"{path.stem} stays where it is: the folder {away} cannot be made "
                f"({error.strerror})."
            ) from error
        return self._moved(free_job_path(away, path.stem))

    def bring_back(self, name: str | None = None, new_name: str = "") -> Path:
        """Move a job that was put away, the open one or another, back; returns where it is now."""
        here = self.here
        if name is None or (here is not None and _is_away(here) and _is_named(here, name)):
            path = self._path()
            if not _is_away(path):
                raise LeadsmanError(
                    f"{path.stem} is not put away. Another one: bring back job NAME"
                )
            return self._moved(job_path(home_of(path), new_name or path.stem))
        folder = self._folder if here is None else home_of(here)
        return bring_back(folder, name, new_name)

    def _path(self) -> Path:
        if self._journal.path is None:
            raise LeadsmanError("This job is kept in memory only; it has no file.")
        return self._journal.path

    def _moved(self, path: Path) -> Path:
        self._journal.move_to(path)
        return path


def home_of(path: Path) -> Path:
    """The folder that a job belongs to, also while it is put away."""
    return path.parent.parent if _is_away(path) else path.parent


def _is_away(path: Path) -> bool:
    return path.parent.name == AWAY


def _is_named(path: Path, name: str) -> bool:
    return safe_name(path.stem) == safe_name(name)


# --- jobs that are not open here --------------------------------------------------------------


def rename(folder: Path, name: str, new_name: str) -> Path:
    """Give a job of a folder another name; returns where it is now."""
    path = existing_file(folder, name)
    with Journal.open(path) as journal:
        return JobFiles(journal, folder).rename(new_name)


def copy(folder: Path, name: str, new_name: str) -> Path:
    """Make a whole copy of a job of a folder; returns its file."""
    with Journal.open(existing_file(folder, name)) as journal:
        return JobFiles(journal, folder).copy(new_name)


def export(folder: Path, name: str, to: Path) -> Path:
    """
    Make a whole copy of a job of a folder anywhere else; returns its file.

    `to` is a folder that is there, where it keeps its name, or the file to be.
    """
    path = existing_file(folder, name)
    copy = to / path.name if os.path.isdir(to) else to
    if copy.suffix != SUFFIX:
        raise JournalError(f"A job's file ends in {SUFFIX}: {copy.with_suffix(SUFFIX)}")
    with Journal.open(path) as journal:
        journal.copy_to(copy)
    return copy


def put_away(folder: Path, name: str) -> Path:
    """Put a job of a folder away; returns where it is now."""
    with Journal.open(existing_file(folder, name)) as journal:
        return JobFiles(journal, folder).put_away()


def bring_back(folder: Path, name: str, new_name: str = "") -> Path:
    """Bring a job back into a folder; returns where it is now."""
    with Journal.open(existing_file(folder / AWAY, name)) as journal:
        return JobFiles(journal, folder).bring_back(new_name=new_name)


def existing_file(folder: Path, name: str) -> Path:
    """
    The one job of a folder that has a name, or the job file that a path names.

    Raises LeadsmanError where there is none, and names those there are.
    """
    if os.sep in name or (os.altsep and os.altsep in name):
        if not os.path.isfile(name):
            raise JournalError(f"There is no file {name}.")
        return Path(name)
    there = jobs_named(folder, name)
    if len(there) == 1:
        return there[0].path
    exactly = [job.path for job in there if job.name == name]
    if exactly:
        return exactly[0]
    if there:
        raise JournalError(f"Which one: {_listed(there)}? Name it as it stands here.")
    what = "job put away" if folder.name == AWAY else "job"
    others = jobs_in(folder)
    are = f"There are {_listed(others)}." if others else f"There is none in {folder}."
    raise JournalError(f"There is no {what} {name!r}. {are}")


def _listed(jobs: Sequence[JobFile], most: int = 6) -> str:
    names = [job.name for job in jobs[:most]]
    more = f" and {len(jobs) - most} more" if len(jobs) > most else ""
    return f"{', '.join(names)}{more}"
