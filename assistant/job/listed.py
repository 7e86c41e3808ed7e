"""A job in the list of jobs."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

from grammar.frozen import frozen


@frozen
class ListedJob:
    """One job, as much as the list says of it."""

    name: str
    path: Path
    changed: datetime
    """When it was last worked on, with its zone."""
    stands: str
    """Where it stands, in a few words; or why its file does not show that."""
    client: str = ""
    is_open: bool = False
    """Whether it is the one that is open here."""
