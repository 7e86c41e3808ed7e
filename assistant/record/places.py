"""The folders of jobs, product cards and typed history.

They are in the platform's data folder, or all in the folder that the environment
names in ``LEADSMAN_HOME``. Nothing here opens a job file.
"""

from __future__ import annotations

import os
import unicodedata
from datetime import UTC, date, datetime
from pathlib import Path

from assistant.errors import LeadsmanError
from grammar.frozen import frozen

SUFFIX = ".leadsman"
AWAY = "away"
"""The folder, beside the jobs, of those that were put away."""

_LONGEST_NAME = 100
"""Longest name, bytes. File systems take 255, and -wal and a number are added."""

_NOT_ON_WINDOWS = {"con", "prn", "aux", "nul"} | {
    f"{device}{number}" for device in ("com", "lpt") for number in range(1, 10)
}


@frozen
class Folders:
    """Where things are kept on this machine; none of them need exist yet."""

    data: Path

    @property
    def jobs(self) -> Path:
        """The jobs, a file each."""
        return self.data / "jobs"

    @property
    def cards(self) -> Path:
        """The installer's own product cards."""
        return self.data / "cards"

    @property
    def history(self) -> Path:
        """Lines typed at the prompt."""
        return self.data / "typed_lines"

    @property
    def models(self) -> Path:
        """Downloaded models of the vosk recogniser."""
        return self.data / "vosk"

    @property
    def memory(self) -> Path:
        """How replies are said, and the cautions of the day."""
        return self.data / "remembered.json"

    @property
    def faults(self) -> Path:
        """The log of faults in the program, for its maintainers."""
        return self.data / "faults.log"


@frozen
class JobFile:
    """A job in the folder of jobs."""

    name: str
    path: Path
    changed: datetime


def user_folders() -> Folders:
    """The platform's folders for a program's data, or the one that ``LEADSMAN_HOME`` names."""
    if home := os.environ.get("LEADSMAN_HOME"):
        return Folders(Path(home))
    import platformdirs

    return Folders(platformdirs.user_data_path("leadsman", appauthor=False))


def jobs_in(folder: Path) -> list[JobFile]:
    """The jobs of a folder, the one last worked on first."""
    try:
        found = [
            JobFile(path.stem, path, datetime.fromtimestamp(_last_change(path), UTC))
            for path in folder.iterdir()
            if _is_job(path)
        ]
    except OSError:
        return []
    return sorted(found, key=lambda job: (job.changed, job.name), reverse=True)


def new_job_path(folder: Path, name: str, today: date) -> Path:
    """
    The path of a new job; without a name it is named by its date, and a number if need be.

    Raises
    ------
    LeadsmanError
        If there is a job of that name already, or no letter of it can be in a file name.
    """
    if name:
        stem = safe_name(name.removesuffix(SUFFIX))
        if not stem:
            raise LeadsmanError(f"{name!r} makes no file name; use letters and numbers.")
        path = folder / f"{stem}{SUFFIX}"
        if _is_taken(path):
            raise LeadsmanError(
                f"There is a job {stem!r} already. Go on with it: leadsman --job {path}"
            )
        return path
    stem, count = f"job-{today.isoformat()}", 1
    while _is_taken(path := folder / f"{stem}{f'-{count}' if count > 1 else ''}{SUFFIX}"):
        count += 1
    return path


def job_path(folder: Path, name: str, itself: Path | None = None) -> Path:
    """
    The path of a job under another name, which no job of the folder has, however it is spelled.

    Parameters
    ----------
    folder : Path
    name : str
        As it was said; letters and digits of it are kept.
    itself : Path, optional
        The job that is to have the name, which may be another spelling of its own.

    Raises
    ------
    LeadsmanError
        Where no letter of it can be in a file name, it is too long, or a job has it.
    """
    stem = safe_name(name.removesuffix(SUFFIX))
    if not stem:
        raise LeadsmanError(f"{name!r} makes no file name; use letters and numbers.")
    if len(_plain_name(name.removesuffix(SUFFIX)).encode()) > _LONGEST_NAME:
        raise LeadsmanError(
            f"That name is too long for a file: {_LONGEST_NAME} letters at most, as “{stem[:30]}”."
        )
    path = folder / f"{stem}{SUFFIX}"
    if itself is not None and path == itself:
        raise LeadsmanError(f"The job is called {stem!r} already.")
    taken = [job for job in jobs_named(folder, stem) if job.path != itself]
    is_itself = itself is not None and itself.exists() and path.exists() and path.samefile(itself)
    if taken or (_is_taken(path) and not is_itself):
        there = taken[0].name if taken else stem
        raise LeadsmanError(f"There is a job {there!r} already, in {folder}. Choose another name.")
    return path


def free_job_path(folder: Path, stem: str) -> Path:
    """The path of a job in a folder, its name as it is, with a number where that is taken."""
    count = 1
    while _is_taken(path := folder / f"{stem}{f'-{count}' if count > 1 else ''}{SUFFIX}"):
        count += 1
    return path


def jobs_named(folder: Path, name: str) -> list[JobFile]:
    """The jobs of a folder whose name is this one, in any spelling."""
    stem = safe_name(name.removesuffix(SUFFIX))
    return [job for job in jobs_in(folder) if stem and safe_name(job.name) == stem]


def _is_taken(path: Path) -> bool:
    # A log without its job also takes a name: it holds the last lines of a lost job.
    return any(os.path.lexists(f"{path}{ending}") for ending in ("", "-wal", "-journal"))


def safe_name(name: str) -> str:
    """
    A name that any file system takes: letters and digits of any script, and dashes.

    >>> safe_name("Reading Room, boat shed (2)")
    'reading-room-boat-shed-2'
    >>> safe_name("../..")
    ''
    """
    short = _plain_name(name).encode()[:_LONGEST_NAME].decode(errors="ignore").rstrip("-")
    return f"job-{short}" if short in _NOT_ON_WINDOWS else short


def _plain_name(name: str) -> str:
    # Composed again at the end, as a few letters are decomposed by lower().
    plain = unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())
    kept = "".join(sign if _in_a_word(sign) else " " for sign in plain)
    return "-".join(kept.split())


def _in_a_word(sign: str) -> bool:
    # Marks are kept too: scripts such as Devanagari write vowels with them.
    return unicodedata.category(sign)[0] in "LNM"


def _is_job(path: Path) -> bool:
    return path.suffix == SUFFIX and not path.name.startswith(".") and path.is_file()


def _last_change(path: Path) -> float:
    # After a crash the newest lines are in the log, and only its time is newer.
    times = [0.0]
    for part in (path, Path(f"{path}-wal")):
        try:
            times.append(part.stat().st_mtime)
        except OSError:
            continue
    return max(times)
