"""The record of a job: what was said and what it meant; it is only ever added to.

Each job is one SQLite file. Once :meth:`Journal.append` returns, the line is on disk in that
file itself: between two answers a copy of it is always the whole job.
"""

from __future__ import annotations

import contextlib
import sqlite3
import sys
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from pathlib import Path
from types import TracebackType

from assistant.errors import JournalError
from assistant.events.kinds import Event
from assistant.record.attachments import Attachment, insert_attachment, read_attachment
from assistant.record.beginning import begin, in_memory
from assistant.record.check import examine_job_file
from assistant.record.connection import keep_journal_findable, open_connection, take_journal_away
from assistant.record.drafts import (
    clear_drafts,
    draft_beside,
    move_in_place,
    put_in_place,
)
from assistant.record.event_rows import row_of
from assistant.record.left_open import LeftOpen, read_left_open, write_left_open
from assistant.record.lock import FileLock, unopenable_message
from assistant.record.misses import Miss, insert_miss, read_misses
from assistant.record.news import FileNews, RecordedAfterAll
from assistant.record.parted import keep_as_it_was
from assistant.record.put_back import PutBack, put_back
from assistant.record.sent_lines import Sender, devices, insert_sender, utterance_sent_as
from assistant.record.table import (
    RecordEntry,
    entries,
    insert_utterance,
    last_utterance,
    mark_counted,
)

__all__ = ["Clock", "Journal", "RecordEntry", "utc_now"]

Clock = Callable[[], datetime]
"""Gives the time now, with its zone."""


def utc_now() -> datetime:
    """The time of this machine, in UTC."""
    return datetime.now(UTC)


class UnsureError(JournalError):
    """A commit failed, and it is not known whether the disk has it."""


class Journal:
    """
    The open record of one job, and its only writer.

    Made by :meth:`open`; a context manager. While it is open no other process and no
    other journal can open the same file.
    """

    def __init__(
        self, path: Path | None, connection: sqlite3.Connection, lock: FileLock | None, clock: Clock
    ) -> None:
        self.path = path
        """The job file; None where the record is kept in memory only. It changes where the
        record is saved again under another name; see :meth:`news`."""
        self._connection = connection
        self._lock = lock
        self._clock = clock
        self._news: list[FileNews] = []
        self._in_doubt: int | None = None  # the last line that is certain, after a failure
        if lock is not None:
            lock.remember()

    @classmethod
    def open(cls, path: Path | None, clock: Clock = utc_now) -> Journal:
        """
        Open a job, or start it where there is none yet.

        Parameters
        ----------
        path : Path or None
            The job file. Its folder must be there already, so that a slip in a
            path makes no new folders. None keeps the record in memory.
        clock : callable
            Gives the time of each utterance, with its zone.

        Raises
        ------
        JournalError
            Where the file is in use, not ours, newer, damaged or out of reach. It is then
            unchanged.
        """
        if path is None:
            return cls(None, in_memory(), None, clock)
        path, is_there = _found(path)
        clear_drafts(path)
        if not is_there:
            begin(path)
        lock = FileLock(path)
        try:
            last = examine_job_file(lock.file, path)
            found = keep_as_it_was(lock.file, path, last) if last is not None else None
            journal = cls(path, open_connection(path), lock, clock)
            journal._news = [found] if found is not None else []
            return journal
        except BaseException:
            lock.release()
            raise

    def append(
        self,
        said: str,
        events: Sequence[Event],
        time: datetime | None = None,
        *,
        attached: Sequence[Attachment] = (),
        sender: Sender | None = None,
    ) -> int:
        """
        Record an utterance with all its events, or nothing at all.

        Parameters
        ----------
        said : str
            The words exactly as they were said.
        events : sequence of Event
            What they meant, in order.
        time : datetime, optional
            When it was said, with its zone; the clock's own time where it is left out.
        attached : sequence of Attachment
            Files that the events were taken from, kept with them.
        sender : Sender, optional
            The device that it came from.

        Returns
        -------
        number : int
            The number of the utterance. It is on disk now.

        Raises
        ------
        JournalError
            Where it could not be written. Either nothing was recorded and it can be tried
            again; or, as the message then says, that is not known, and the journal takes no
            more until the file can be read.
        """
        rows = [row_of(event) for event in events]
        time = self._clock() if time is None else time
        if time.tzinfo is None:
            raise ValueError("a time must have its zone")
        number = 0
        try:
            with self._written_whole():
                number = insert_utterance(self._connection, time, said, rows)
                for each in attached:
                    insert_attachment(self._connection, each)
                if sender is not None:
                    insert_sender(self._connection, sender, number)
        except UnsureError as error:
            # The disk may have it all the same; then it counts, and must not be added twice.
            if not number or self.last_utterance() != number:
                raise JournalError(str(error)) from error
        return number

    def attachment(self, digest: str) -> bytes | None:
        """
        A file that was kept with the job; None where there is none of that digest.

        Raises :class:`JournalError` where it is damaged.
        """
        return read_attachment(self._connection, digest)

    def recorded_as(self, line: str) -> int | None:
        """The number of the utterance that a device sent under this id; None where it is none."""
        return utterance_sent_as(self._connection, line)

    def devices(self) -> frozenset[str]:
        """Names of all devices that anything on record came from."""
        return frozenset(devices(self._connection).values())

    def note_miss(self, miss: Miss) -> None:
        """
        Keep what was not understood, beside the record.

        Raises :class:`JournalError` where it could not be written.
        """
        with self._written_whole():
            insert_miss(self._connection, miss)

    def misses(self) -> list[Miss]:
        """What was not understood, oldest first."""
        return read_misses(self._connection)

    def keep_open(self, left: LeftOpen | None) -> None:
        """
        Keep the waiting question beside the record, or that none waits any more.

        Raises :class:`JournalError` where it could not be written.
        """
        with self._written_whole():
            write_left_open(self._connection, left)

    def left_open(self) -> LeftOpen | None:
        """The question that waited last, unless it was answered."""
        left = read_left_open(self._connection)
        return left if left is not None and left.after == self.last_utterance() else None

    @contextlib.contextmanager
    def _written_whole(self) -> Iterator[None]:
        """A transaction, on disk at its end or undone; UnsureError where neither is certain."""
        self._settle_doubt()
        self._stay_on_disk()
        committing, known = False, 0
        try:
            known = self.last_utterance()
            self._connection.execute("BEGIN IMMEDIATE")
            yield
            mark_counted(self._connection)
            committing = True
            if self._lock is not None:
                self._lock.forget()  # Ctrl-C may come between the commit and what remembers it
            self._connection.execute("COMMIT")
            if self._lock is not None:
                self._lock.remember()
        except sqlite3.Error as error:
            if not committing and _kind_of(error) != sqlite3.SQLITE_IOERR:
                raise JournalError(_why_not_written(error)) from error
            self._roll_back()
            self._in_doubt = known
            self._open_again()
            self._in_doubt = None
            raise UnsureError(_why_not_written(error)) from error
        finally:
            self._roll_back()

    def _roll_back(self) -> None:
        # After Ctrl-C as well. SQLite has often rolled back already.
        with contextlib.suppress(sqlite3.Error):
            if self._connection.in_transaction:
                self._connection.execute("ROLLBACK")

    def _settle_doubt(self) -> None:
        """Refuse new lines while the file may hold one that was never answered."""
        if self._in_doubt is None:
            return
        self._open_again()
        if self.last_utterance() != self._in_doubt:
            # The speaker does not know of that line yet, but whoever reads the record will.
            raise JournalError(
                "The disk failed, but the last line before that was recorded after all; this one "
                "was not. Say it again."
            )
        self._in_doubt = None

    def _open_again(self) -> None:
        """
        Trust the file instead of what SQLite has cached of it, after the disk failed.

        Raises JournalError where it cannot be read.
        """
        if self.path is None or self._lock is None:
            return
        if not self._lock.released and not self._lock.is_at(self.path):
            return  # Only this connection still has all of it; the next line saves it again.
        self._connection.close()
        self._lock.release()
        try:
            self._lock = FileLock(self.path)
            examine_job_file(self._lock.file, self.path)
            self._connection = open_connection(self.path)
            self._lock.remember()
        except JournalError as error:
            self._lock.release()
            raise JournalError(
                "The disk failed, and whether the last line was recorded cannot be told: "
                f"{error} Nothing more is taken until the file can be read again."
            ) from error

    def _stay_on_disk(self) -> None:
        """Where the job file is gone or written over, save all of it again and continue."""
        if self.path is None or self._lock is None:
            return
        if self._lock.is_at(self.path) and (self._lock.released or self._lock.is_as_written()):
            keep_journal_findable(self._connection, self.path)
            return
        now = put_back(self._connection, self.path)
        # Before the new file is opened, as both have their journal beside the same path.
        self._connection.close()
        self._lock.release()
        self._news.append(PutBack(self.path, now))
        self.path, self._lock = now, None
        self._lock = FileLock(now)
        self._connection = open_connection(now)
        self._lock.remember()

    def copy_to(self, path: Path) -> None:
        """
        Write all of the record into a new file, completely or not at all; this one stays open.

        Raises :class:`JournalError` where there is such a file, or it cannot be written.
        """
        self._settle_doubt()
        self._stay_on_disk()
        try:
            with draft_beside(path, self._connection.backup) as draft:
                put_in_place(draft, path)
        except FileExistsError as error:
            raise JournalError(f"There is a {path} already. Choose another name.") from error
        except (OSError, sqlite3.Error) as error:
            raise JournalError(f"No copy was made: {_reason(error)}.") from error

    def move_to(self, path: Path) -> None:
        """
        Give the job file another name on its disk; it stays open.

        Raises
        ------
        JournalError
            Where there is such a file, or it cannot be moved: it is where it was, and open.
            Or where it was moved and cannot be opened again: then nothing more is taken until
            it can.
        """
        if self.path is None or self._lock is None:
            raise JournalError("This job is kept in memory only; it has no file.")
        self._settle_doubt()
        self._stay_on_disk()
        known = self.last_utterance()
        # The journal is named after the file, so there must be none while that is renamed.
        take_journal_away(self._connection)
        if sys.platform == "win32":  # an open file keeps its name there
            self._connection.close()
            self._lock.release()
        failed: OSError | None = None
        try:
            move_in_place(self.path, path)
            self.path = path
        except OSError as error:
            failed = error
        self._connection.close()
        self._lock.release()
        self._in_doubt = known
        try:
            self._open_again()
        except JournalError as error:
            raise JournalError(
                f"The job is whole, in {self.path}, but cannot be opened again there: "
                f"{error.__cause__ or error} Nothing more is taken until it can."
            ) from error
        self._in_doubt = None
        if isinstance(failed, FileExistsError):
            raise JournalError(f"There is a {path} already. Choose another name.") from failed
        if failed is not None:
            raise JournalError(
                f"{self.path} stays where it is: {_reason(failed)}. Nothing has changed."
            ) from failed

    @property
    def has_to_tell(self) -> bool:
        """Whether there is a message at opening, before the first line."""
        return bool(self._news) or self.left_open() is not None

    def news(self) -> tuple[FileNews, ...]:
        """A message about the job file, given once: it was saved again, or its log is missing."""
        news, self._news = tuple(self._news), []
        return news

    def utterances(self) -> Iterator[tuple[int, str, list[Event], datetime, str]]:
        """Number, words, events, time and device of all that was recorded, oldest first."""
        for entry in self.entries():
            yield entry.number, entry.said, list(entry.events), entry.time, entry.device

    def entries(self) -> list[RecordEntry]:
        """
        Everything recorded so far with its time, oldest first, checked again on the way.

        After a failure they come from the file itself, so that the reader knows what is on disk.
        """
        doubted = self._in_doubt
        if doubted is not None:
            self._open_again()
        try:
            found = list(entries(self._connection))
        except sqlite3.Error as error:
            raise JournalError(f"The record cannot be read: {error}.") from error
        self._in_doubt = None
        if doubted is not None and len(found) > doubted:
            self._news.append(RecordedAfterAll(found[-1].said))
        return found

    def last_utterance(self) -> int:
        """The number of the newest utterance; 0 while there is none."""
        return last_utterance(self._connection)[0]

    def close(self) -> None:
        """
        Close it, leaving one file and nothing beside it; may be called twice.

        Raises :class:`JournalError` after closing where the file is found missing only now; the
        message says where the record was saved.
        """
        try:
            if self._lock is not None and not self._lock.released:
                self._stay_on_disk()
                take_journal_away(self._connection)
        finally:
            self._connection.close()
            if self._lock is not None:
                self._lock.release()
        for news in self.news():
            if isinstance(news, PutBack):
                raise JournalError(news.text)

    def __enter__(self) -> Journal:
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self.close()


def _found(path: Path) -> tuple[Path, bool]:
    """The path with all links resolved, and whether something exists there."""
    try:
        real = path.resolve()
        real.lstat()
    except FileNotFoundError:
        return real, False
    except (OSError, ValueError, RuntimeError) as error:
        raise unopenable_message(path, error) from error
    return real, True


def _why_not_written(error: sqlite3.Error) -> str:
    reasons = {
        sqlite3.SQLITE_FULL: "the disk is full",
        sqlite3.SQLITE_IOERR: "the disk did not take it",
        sqlite3.SQLITE_READONLY: "the file may not be written",
    }
    reason = reasons.get(_kind_of(error), error)
    return f"Nothing was recorded: {reason}. Put that right and say it again."


def _reason(error: Exception) -> str:
    return getattr(error, "strerror", None) or str(error)


def _kind_of(error: sqlite3.Error) -> int:
    # Python's own complaints, such as a closed database, carry no code.
    return getattr(error, "sqlite_errorcode", 0) & 0xFF
