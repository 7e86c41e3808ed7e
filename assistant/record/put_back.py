"""When the job file goes under a running program: the record is put back on disk.

Deleted, moved away or replaced, the file that we hold open is still whole and still takes what
is said, but nobody finds it again once the program ends. Where an open file cannot be deleted,
as on Windows, none of this happens.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from assistant.errors import JournalError
from assistant.record.check import companions
from assistant.record.drafts import draft_beside, put_in_place

_NAMES = 100
"""Names that are tried beside one another before a folder is given up."""


@dataclass(frozen=True, slots=True)
class PutBack:
    """A job file that was gone, and where the record is kept since."""

    was: Path
    now: Path

    @property
    def told(self) -> str:
        """To read."""
        gone = f"The job file {self.was} is gone from disk: it was deleted, moved or replaced."
        if self.now == self.was:
            return f"{gone} The whole record was put back there; nothing is lost."
        return (
            f"{gone} The whole record is in {self.now} now and is kept there from here on; "
            "nothing is lost. Open that one next time."
        )

    @property
    def spoken(self) -> str:
        """To hear."""
        where = "It was put back." if self.now == self.was else "It goes on in another file."
        return f"The job file was gone. {where}"

    @property
    def data(self) -> dict[str, Any]:
        """For programs."""
        return {"job_file": {"was": str(self.was), "now": str(self.now)}}


def put_back(connection: sqlite3.Connection, path: Path) -> Path:
    """
    Write all that a connection holds to disk again, whole or not at all.

    Parameters
    ----------
    connection : sqlite3.Connection
        Of the job file that went; in no transaction.
    path : Path
        Where it was.

    Returns
    -------
    now : Path
        The same path where nothing stands there, or else the next free name beside it; in the
        home folder where that folder is no more and cannot be made.

    Raises
    ------
    JournalError
        Where there is no room or no leave; the connection still holds everything.
    """
    faults: list[Exception] = []
    for wanted in (path, Path.home() / path.name):
        try:
            wanted.parent.mkdir(parents=True, exist_ok=True)
            with draft_beside(wanted, connection.backup) as draft:
                _take_empty_journal_away(path)
                return _placed(draft, wanted)
        except (OSError, sqlite3.Error) as fault:
            faults.append(fault)
    reason = getattr(faults[0], "strerror", None) or faults[0]
    raise JournalError(
        f"Nothing was recorded: the job file {path} is gone from disk and cannot be put back "
        f"({reason}). What was said before is kept only as long as this program runs. "
        "Put that right and say it again."
    ) from faults[0]


def _placed(draft: Path, wanted: Path) -> Path:
    for place in _names(wanted):
        # SQLite would read an old log into the new file; an empty one says nothing.
        if any(left.stat().st_size for left in companions(place)):
            continue
        with suppress(FileExistsError):
            put_in_place(draft, place)
            return place
    raise FileExistsError(f"{wanted.parent} has no free name like {wanted.name}")


def _names(path: Path) -> Iterator[Path]:
    """The path, then ``floor-2.leadsman`` and so on."""
    yield path
    for number in range(2, _NAMES):
        yield path.with_name(f"{path.stem}-{number}{path.suffix}")


def _take_empty_journal_away(path: Path) -> None:
    """Leave nothing of ours where the file was, unless another stands there: it may be its own."""
    if not os.path.lexists(path):
        for left in companions(path):
            if not left.stat().st_size:
                left.unlink()
