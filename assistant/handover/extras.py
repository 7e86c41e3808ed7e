"""Packages that only files for others need, or how to get them."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from assistant.errors import LeadsmanError


@contextmanager
def needed(what: str, extra: str) -> Iterator[None]:
    """
    Imports inside it need an extra.

    Raises
    ------
    LeadsmanError
        Where a package is missing: what it is for, and the one command that installs it.
    """
    try:
        yield
    except ImportError as fault:
        raise LeadsmanError(
            f"{what} needs the package {fault.name or fault}, which is not installed here: "
            f"pip install 'leadsman[{extra}]'"
        ) from fault
