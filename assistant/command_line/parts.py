"""What the command-line commands share."""

from __future__ import annotations

import argparse
import io
import os
import sys
from collections.abc import Callable, Iterable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO, Protocol

from assistant.errors import LeadsmanError
from assistant.record.places import SUFFIX, Folders, jobs_in, new_job_path, user_folders
from assistant.terminal.aside import aside
from assistant.wiring import gather_cards, make_folder

if TYPE_CHECKING:
    from assistant.products.cards import Card
    from assistant.terminal.screen import Screen

ALL_TAKEN = 0
SOME_NOT_TAKEN = 1

BY_ITS_DAY = True
"""What --new holds where it was given without a name."""


class AddCommand(Protocol):
    """Adds a command to the command line."""

    def __call__(
        self,
        name: str,
        do: Callable[[argparse.Namespace], int],
        help: str,
        about: str,
        examples: str,
    ) -> argparse.ArgumentParser:
        """The parser of the new command."""


def job_path(named: str) -> Path:
    """The path after --job. An empty one, as of a variable that is not set, is no folder."""
    if not named:
        raise LeadsmanError(
            "--job '' names no file. One of your own: leadsman --job floor.leadsman; a job in the "
            "data folder: leadsman --new boat-shed; the job used last: leadsman"
        )
    return Path(named)


def check_named(options: argparse.Namespace) -> None:
    """Refuse a name that nobody can have meant, before anything is made under it."""
    if options.new == "":
        raise LeadsmanError(
            "--new '' has no name. With a name: leadsman --new boat-shed; without one the job is "
            "called by its day: leadsman --new"
        )
    if options.job is not None:
        _check_job(Path(options.job))


def _check_job(path: Path) -> None:
    """Check a job's path: an existing file may have any name, a new one must be found again."""
    if os.path.isdir(path):
        raise LeadsmanError(
            f"{path} is a folder. Name the job file in it: leadsman --job {path / 'floor'}{SUFFIX}"
        )
    if path.suffix or os.path.lexists(path):
        return
    full = path.with_name(path.name + SUFFIX)
    known = [job for job in jobs_in(user_folders().jobs) if job.name == path.name]
    if os.path.exists(full):
        meant = f"There is {full}: leadsman --job {full}"
    elif known and path.name == str(path):
        meant = f"There is one in the data folder: leadsman --job {known[0].path}"
    else:
        meant = f"To begin one there: leadsman --job {full}"
        if path.name == str(path):
            meant += f"; in the data folder: leadsman --new {path.name}"
    raise LeadsmanError(f"There is no file {path}, and a job file's name ends in {SUFFIX}. {meant}")


def job_to_open(options: argparse.Namespace, folders: Folders) -> Path:
    """The job that was named, or the one used last, or a new one."""
    if options.job is not None:
        return Path(options.job)
    if options.new is None:
        known = jobs_in(folders.jobs)
        if known:
            return known[0].path
    return new_path(options)


def new_path(options: argparse.Namespace) -> Path:
    """Where a new job goes, in the data folder."""
    folder = user_folders().jobs
    make_folder(folder)
    name = "" if options.new in (None, BY_ITS_DAY) else options.new
    return new_job_path(folder, name, datetime.now().astimezone().date())


def is_plain(options: argparse.Namespace) -> bool:
    """Whether only plain text may be written."""
    return bool(options.plain) or not sys.stdout.isatty() or os.environ.get("TERM") == "dumb"


def cards_at_hand(extra: Iterable[Path], folders: Folders | None) -> dict[str, Card]:
    """The product cards; one that cannot be used is reported."""
    cards, faults = gather_cards(folders.cards if folders else None, list(extra))
    for fault in faults:
        tell(f"card left out: {fault}")
    return cards


def screen_for(options: argparse.Namespace) -> Screen:
    """Where replies are shown."""
    from assistant.terminal.output import output_to
    from assistant.terminal.screen import Screen

    return Screen(output_to(plain=is_plain(options)))


def tell(text: str) -> None:
    """Write a message to standard error; standard output is for answers only."""
    aside(text)


# --- standard input -------------------------------------------------------------------

NOTHING_TO_HEAR = (
    "Standard input is no terminal and has no lines, so there is nobody to talk to and nothing "
    "to play. For the chat start leadsman in a terminal; to play lines: leadsman run FILE, or "
    "cat FILE | leadsman"
)


def lines_typed(*, may_be_none: bool = True) -> BinaryIO:
    """Lines from a pipe; waits for its first line where there has to be one."""
    if sys.stdin is None:
        raise LeadsmanError("There is no standard input to read lines from.")
    stream = sys.stdin.buffer
    if not may_be_none and isinstance(stream, io.BufferedReader) and not stream.peek(1):
        raise LeadsmanError(NOTHING_TO_HEAR)
    return stream
