"""What the commands of the command line have in common."""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Iterable
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.record.places import Folders, jobs_in, new_job_path, user_folders
from assistant.terminal.aside import aside
from assistant.wiring import gather_cards, make_folder

if TYPE_CHECKING:
    from assistant.products.cards import Card
    from assistant.terminal.screen import Screen

ALL_TAKEN = 0
SOME_NOT_TAKEN = 1


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
    return new_job_path(folder, options.new or "", datetime.now().astimezone().date())


def is_plain(options: argparse.Namespace) -> bool:
    """Whether only plain text may be written."""
    return bool(options.plain) or not sys.stdout.isatty() or os.environ.get("TERM") == "dumb"


def cards_at_hand(extra: Iterable[Path], folders: Folders | None) -> dict[str, Card]:
    """The product cards; one that cannot be used is told of."""
    cards, faults = gather_cards(folders.cards if folders else None, list(extra))
    for fault in faults:
        tell(f"card left out: {fault}")
    return cards


def screen_for(options: argparse.Namespace) -> Screen:
    """Where replies are shown."""
    from assistant.terminal.screen import Screen, make_console

    return Screen(make_console(plain=is_plain(options)))


def tell(text: str) -> None:
    """A word beside the answers, which have standard output to themselves."""
    aside(text)
