"""A file of an earlier Leadsman whose log is missing: opened, reported, and kept unchanged.

Earlier versions wrote the last lines to a log (``-wal``) beside the file while the job was open.
A file closed normally has no log, and neither has one that lost it: the file alone cannot show
which it is. So the user is shown where it ends, and the original is kept under another name,
since from now on no log would fit it any more.
"""

from __future__ import annotations

import contextlib
import os
import shutil
from pathlib import Path
from typing import Any, BinaryIO

from assistant.errors import JournalError
from assistant.record.drafts import draft_named, put_in_place
from assistant.record.table import RecordEntry
from grammar.frozen import frozen

ENDING = ".as-it-was"


@frozen
class LogMissing:
    """An old job file that may have lost its last lines."""

    path: Path
    kept: Path
    """The file as it was found."""
    last: RecordEntry

    @property
    def text(self) -> str:
        """The message to read."""
        time = self.last.time.astimezone().strftime("%Y-%m-%d %H:%M")
        words = self.last.said.splitlines()[-1] if self.last.said.strip() else ""
        return (
            f"{self.path.name} was kept by an earlier Leadsman with a log beside it, and there is "
            f"none. It ends with “{words}”, {time}: if that was the last line, all is "
            f"well. If not, the rest is in {self.path.name}-wal where this file came from: put "
            f"that beside {self.kept} as {self.kept.name}-wal and open {self.kept}."
        )

    @property
    def spoken(self) -> str:
        """The message to say."""
        return "The log of this old job is missing. See where it ends."

    @property
    def data(self) -> dict[str, Any]:
        """The message's data, for programs."""
        return {
            "log_missing": {
                "job_file": str(self.path),
                "kept": str(self.kept),
                "lines": self.last.number,
                "last": self.last.said,
            }
        }


def keep_as_it_was(file: BinaryIO, path: Path, last: RecordEntry) -> LogMissing:
    """
    Copy the file beside itself without changing it; an earlier copy stays.

    Raises JournalError where it cannot be written.
    """
    kept = path.with_name(path.name + ENDING)
    draft = draft_named(path)
    try:
        with contextlib.suppress(FileExistsError):
            file.seek(0)
            descriptor = os.open(draft, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600)
            with open(descriptor, "wb") as target:
                shutil.copyfileobj(file, target)
                target.flush()
                os.fsync(descriptor)
            put_in_place(draft, kept)
    except OSError as error:
        raise JournalError(
            f"{path} cannot be opened: it was kept with a log that is missing, and cannot be put "
            f"aside as it is ({error.strerror or error}). Make room for it."
        ) from error
    finally:
        draft.unlink(missing_ok=True)
    return LogMissing(path, kept, last)
