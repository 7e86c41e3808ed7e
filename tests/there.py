"""What a test takes to be there: values, and packages."""

from __future__ import annotations

import importlib.util
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import TypeVar

import pytest

Value = TypeVar("Value")


def there(value: Value | None) -> Value:
    """The value itself; the test fails where it is missing."""
    assert value is not None
    return value


def need(*packages: str) -> None:
    """
    Skip the test where one of these is not installed.

    None of them is imported: a package's own code may not be what is run, and a test that says so
    looks at what was loaded before it, too.
    """
    for package in packages:
        if importlib.util.find_spec(package) is None:
            pytest.skip(f"{package} is not installed")


@contextmanager
def on_disk() -> Iterator[Path]:
    """A folder where this machine has its temporary files, though the tests' own be in memory."""
    with tempfile.TemporaryDirectory() as name:
        yield Path(name)
