"""Whose job it is and where, and what becomes of its file."""

from __future__ import annotations

from typing import ClassVar

from grammar.commands.kinds import Ask, Change, Filing
from grammar.frozen import frozen


@frozen
class SetClient(Change):
    """For whom the floor is made."""

    IS_ASIDE: ClassVar = True

    name: str
    """As it was said."""


@frozen
class SetAddress(Change):
    """Where the floor is."""

    IS_ASIDE: ClassVar = True

    words: str
    """As they were said."""


@frozen
class AskJob(Ask):
    """What job this is: name, client, address, file, and where it stands."""


@frozen
class AskJobs(Ask):
    """The jobs on this machine, each with where it stands."""


@frozen
class RenameJob(Filing):
    """Give the job another name."""

    name: str
    """As it was said."""


@frozen
class CopyJob(Filing):
    """Make a whole copy of the job under another name; this one stays open."""

    name: str
    """As it was said."""


@frozen
class PutJobAway(Filing):
    """Take the job from the list, with its file kept in a folder of its own."""


@frozen
class BringJobBack(Filing):
    """Put a job that was put away in the list again."""

    name: str | None = None
    """As it was said; None for the job that is open."""
