"""Doctests are looked for where there are some.

Pytest imports every module for its doctests and looks through all that is in it, in each worker;
one in seven has an example. That all can be imported, ``structure/test_floors.py`` sees.
"""

from __future__ import annotations

from collections.abc import Generator
from pathlib import Path

import pytest
from _pytest.doctest import DoctestModule

Collectors = list[pytest.Collector]


class OnlyWhereThereAreSome:
    """Leaves out of the doctests' modules those without an example."""

    @pytest.hookimpl(wrapper=True)
    def pytest_collect_file(self, file_path: Path) -> Generator[None, Collectors, Collectors]:
        """Of what would look through a file, what finds something."""
        found = yield
        if file_path.suffix != ".py" or b">>> " in file_path.read_bytes():
            return found
        return [each for each in found if not isinstance(each, DoctestModule)]
