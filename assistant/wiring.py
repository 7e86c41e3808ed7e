"""Puts the parts together: folders, the job's file, the product cards, the conversation.

Nothing heavy is imported here: the numeric core and the grammar are loaded when a
conversation is opened, so that `--version` and the prompt don't wait for them.
"""

from __future__ import annotations

import traceback
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING

from assistant.errors import CardError, LeadsmanError
from assistant.record.places import Folders

if TYPE_CHECKING:
    from assistant.conversation.conversation import Conversation
    from assistant.products.cards import Card
    from assistant.record.journal import Journal


def open_journal(path: Path | None) -> Journal:
    """The job's file, opened for this process alone; None keeps the job in memory only."""
    from assistant.record.journal import Journal

    return Journal.open(path)


def make_folder(folder: Path) -> None:
    """Make a folder of the program's own, with those above it."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as fault:
        raise LeadsmanError(
            f"The folder {folder} cannot be made: {fault.strerror or fault}. "
            "Say where the job is to be kept: leadsman --job PATH"
        ) from fault


# --- product cards -------------------------------------------------------------------


def gather_cards(
    own_folder: Path | None, extra_folders: Sequence[Path]
) -> tuple[dict[str, Card], tuple[CardError, ...]]:
    """
    All product cards at hand, a later folder's before an earlier one's.

    A card in the installer's own folder that can't be used is left out and reported, as
    the day's work may not need it.

    Raises
    ------
    CardError
        If a folder asked for by name is not there, or has a card that can't be used.
    """
    from assistant.products.cards import cards_in, readable_cards, shipped_folder

    cards = cards_in(shipped_folder())
    faults: tuple[CardError, ...] = ()
    if own_folder is not None:
        own, faults = readable_cards(own_folder)
        cards |= own
    for folder in extra_folders:
        if not folder.is_dir():
            raise CardError(f"{folder}: there is no such folder of product cards.")
        cards |= cards_in(folder)
    return cards, faults


# --- the conversation ------------------------------------------------------------------


def converse(
    journal: Journal,
    cards: Mapping[str, Card],
    folders: Folders,
    clock: Callable[[], datetime] | None = None,
    *,
    own_cards: bool = True,
    remembers: bool = True,
) -> Conversation:
    """
    A conversation about the job in the journal, by this machine's time or a clock's.

    Without `own_cards` it has none of the installer's, and names no folder for them.
    """
    from assistant.conversation.conversation import Conversation
    from assistant.decide import World
    from assistant.record.job_files import JobFiles
    from assistant.record.journal import utc_now
    from assistant.record.memory import Memory

    memory = Memory(folders.memory, str(journal.path or "")) if remembers else None
    return Conversation(
        journal,
        World(cards, zone=None, own_cards=str(folders.cards) if own_cards else ""),
        lambda fault: note_fault(folders.faults, fault),
        clock or utc_now,
        memory,
        JobFiles(journal, folders.jobs),
    )


def warm_up(cards: Mapping[str, Card]) -> None:
    """Load all that a first line would wait for, by playing a short conversation unseen."""
    from grammar import suggestions

    with open_journal(None) as journal:
        talk = converse(journal, cards, Folders(Path()), remembers=False)
        suggestions("")
        suggestions("B")
        readings = (f"{column}{row} -{8 + row} mm" for row in (1, 2) for column in "ABCD")
        for line in ("room 12 by 8 metres", "grid 3 metres", *readings, "tally"):
            talk.hear(line)


def note_fault(log: Path, fault: BaseException) -> str:
    """Save a fault of the program itself; returns where, or why it could not be saved."""
    told = "".join(traceback.format_exception(fault))
    try:
        log.parent.mkdir(parents=True, exist_ok=True)
        with log.open("a", encoding="utf-8", errors="replace") as file:
            file.write(f"--- {datetime.now(UTC).isoformat(timespec='seconds')}\n{told}\n")
    except OSError as no_log:
        return f"no log, {log} cannot be written ({no_log.strerror or no_log})"
    return str(log)
