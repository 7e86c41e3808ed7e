"""Saves the record again when the job file disappears while the program runs.

A file that was deleted, moved or replaced while we hold it open is still complete and can be
written, but would be lost when the program ends. Where open files cannot be deleted, as on
Windows, this never happens.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

from assistant.errors import JournalError
from assistant.record.check import companions, examine_job_file
from assistant.record.drafts import draft_beside, put_in_place
from grammar.frozen import frozen

_NAMES = 100
"""Names that are tried in a folder before giving it up."""


@frozen
class PutBack:
    """A job file that disappeared, and where the record is kept since."""

    was: Path
    now: Path

    @property
    def text(self) -> str:
        """The message to read."""
        gone = f"The job file {self.was} is gone from disk: it was deleted, moved or replaced."
        if self.now == self.was:
            return f"{gone} The whole record was put back there; nothing is lost."
        return (
            f"{gone} The whole record is in {self.now} now and is kept there from here on; "
            "nothing is lost. Open that one next time."
        )

    @property
    def spoken(self) -> str:
        """The message to say."""
        where = "It was put back." if self.now == self.was else "It goes on in another file."
        return f"The job file was gone. {where}"

    @property
    def data(self) -> dict[str, Any]:
        """The message's data, for programs."""
        return {"job_file": {"was": str(self.was), "now": str(self.now)}}


def put_back(connection: sqlite3.Connection, path: Path) -> Path:
    """
    Write all that a connection holds to disk again, completely or not at all.

    Parameters
    ----------
    connection : sqlite3.Connection
        To the job file that disappeared; in no transaction.
    path : Path
        Where it was.

    Returns
    -------
    now : Path
        The same path if it is free, else the next free name beside it; in the home folder
        where the old folder is gone and cannot be made again.

    Raises
    ------
    JournalError
        Where there is no space or no permission; the connection still holds everything.
    """
    faults: list[Exception] = []
    for wanted in (path, Path.home() / path.name):
        try:
            wanted.parent.mkdir(parents=True, exist_ok=True)
            with draft_beside(wanted, connection.backup) as draft:
                with draft.open("rb") as whole:  # pages written over may not be in memory
                    examine_job_file(whole, draft)
                _take_empty_journal_away(path)
                return _placed(draft, wanted)
        except (OSError, sqlite3.Error, JournalError) as fault:
            faults.append(fault)
    reason = getattr(faults[0], "strerror", None) or faults[0]
    raise JournalError(
        f"Nothing was recorded: the job file {path} is gone from disk and cannot be put back "
        f"({reason}). What was said before is kept only as long as this program runs. "
        "Put that right and say it again."
    ) from faults[0]


def _placed(draft: Path, wanted: Path) -> Path:
    for place in _names(wanted):
        # SQLite would read an old log into the new file; an empty one does no harm.
        if any(left.stat().st_size for left in companions(place)):
            continue
        with suppress(FileExistsError):
            put_in_place(draft, place)
            return place
    raise FileExistsError(f"{wanted.parent} has no free name like {wanted.name}")


def _names(path: Path) -> Iterator[Path]:
    """The names to try: the path, then ``floor-2.leadsman`` and so on."""
    yield path
    for number in range(2, _NAMES):
        yield path.with_name(f"{path.stem}-{number}{path.suffix}")


def _take_empty_journal_away(path: Path) -> None:
    """Remove our journal where the file was, unless a new file there may own it."""
    if not os.path.lexists(path):
        for left in companions(path):
            if not left.stat().st_size:
                left.unlink()
