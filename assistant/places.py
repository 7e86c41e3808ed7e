"""Where jobs, product cards and the typed history live.

In the platform's own data folder, or all under one folder where the environment
names it in ``LEADSMAN_HOME``. Nothing here opens a job file.
"""

from __future__ import annotations

import os
import unicodedata
from datetime import date
from pathlib import Path

SUFFIX = ".leadsman"

_LONGEST_NAME = 100
"""Bytes. File systems take 255, and -wal and a counting number come on top."""

_NOT_ON_WINDOWS = {"con", "prn", "aux", "nul"} | {
    f"{device}{number}" for device in ("com", "lpt") for number in range(1, 10)
}


def jobs_folder() -> Path:
    """The folder of the jobs; may not be there yet."""
    return _data_folder() / "jobs"


def cards_folder() -> Path:
    """The folder of the user's own product cards; may not be there yet."""
    return _data_folder() / "cards"


def history_file() -> Path:
    """Where the prompt keeps the lines typed before; may not be there yet."""
    return _data_folder() / "history"


def list_jobs() -> list[Path]:
    """All jobs in the jobs folder, the one last worked on first."""
    try:
        found = [path for path in jobs_folder().iterdir() if _is_job(path)]
    except OSError:
        return []
    return sorted(found, key=lambda path: (_last_change(path), path.name), reverse=True)


def latest_job() -> Path | None:
    """The job that was last worked on."""
    return next(iter(list_jobs()), None)


def job_named(name: str) -> Path | None:
    """The job of that name, however it was capitalised or spaced."""
    path = jobs_folder() / (safe_name(name.removesuffix(SUFFIX)) + SUFFIX)
    return path if path.is_file() else None


def new_job(name: str | None, today: date) -> Path:
    """
    A path for a new job that no other job has; makes the folder, not the file.

    Without a name, or with one that leaves nothing for a file name, the job is named
    for the day.
    """
    folder = jobs_folder()
    folder.mkdir(parents=True, exist_ok=True)
    stem = safe_name(name or "") or f"job-{today.isoformat()}"
    path, count = folder / f"{stem}{SUFFIX}", 1
    # A log without its job also bars a name: it holds what a lost job last recorded.
    while os.path.lexists(path) or os.path.lexists(f"{path}-wal"):
        count += 1
        path = folder / f"{stem}-{count}{SUFFIX}"
    return path


def safe_name(name: str) -> str:
    """
    What of a name any file system takes: letters and digits of any script, and dashes.

    >>> safe_name("Reading Room, boat shed (2)")
    'reading-room-boat-shed-2'
    >>> safe_name("../..")
    ''
    """
    # Composed again at the end: a few letters fall apart when made small.
    plain = unicodedata.normalize("NFC", unicodedata.normalize("NFC", name).casefold())
    kept = "".join(sign if _in_a_word(sign) else " " for sign in plain)
    short = "-".join(kept.split()).encode()[:_LONGEST_NAME].decode(errors="ignore").rstrip("-")
    return f"job-{short}" if short in _NOT_ON_WINDOWS else short


def _in_a_word(sign: str) -> bool:
    # Marks too: scripts such as Devanagari write vowels with them.
    return unicodedata.category(sign)[0] in "LNM"


def _data_folder() -> Path:
    if home := os.environ.get("LEADSMAN_HOME"):
        return Path(home)
    import platformdirs

    return platformdirs.user_data_path("leadsman", appauthor=False)


def _is_job(path: Path) -> bool:
    return path.suffix == SUFFIX and not path.name.startswith(".") and path.is_file()


def _last_change(path: Path) -> float:
    # After a crash the newest lines are in the log, and only the log is newer.
    times = [0.0]
    for part in (path, Path(f"{path}-wal")):
        try:
            times.append(part.stat().st_mtime)
        except OSError:
            continue
    return max(times)
