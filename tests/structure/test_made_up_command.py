"""Adding a command: six files with its test, and whichever is forgotten turns a test red."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.structure.made_up import BARE, EDITS, build, without_plugins

MOST_FILES = 6
WALKS = (
    "tests/job/test_tables.py", "tests/job/test_undo.py", "tests/job/test_record_format.py",
    "tests/grammar/test_phrase_table.py",
)  # fmt: skip
"""The tests that walk every table in which a command or an event has to stand."""
_NOT_EACH_WAY = "not test_every_way_gives_its_command"


def _tested(folder: Path, *tests: str) -> subprocess.CompletedProcess[str]:
    # Each table has to be walked, not each value in it tried.
    few = ("-p", "_hypothesis_pytestplugin", "--hypothesis-profile=few", "-k", _NOT_EACH_WAY)
    command = [sys.executable, "-m", "pytest", *BARE, "-q", "-x", *few, *tests]
    return subprocess.run(
        command, cwd=folder, env=without_plugins(folder), capture_output=True, text=True,
        check=False,
    )  # fmt: skip


def test_a_command_takes_few_files() -> None:
    assert len(EDITS) <= MOST_FILES


@pytest.mark.slow
def test_added_by_the_recipe_it_works(tmp_path: Path) -> None:
    build(tmp_path)
    done = _tested(tmp_path, "tests/job/test_shifts.py", *WALKS)
    assert done.returncode == 0, done.stdout[-3000:]


@pytest.mark.slow
@pytest.mark.parametrize("forgotten", [name for name in EDITS if not name.startswith("tests/")])
def test_what_is_forgotten_is_named(tmp_path: Path, forgotten: str) -> None:
    build(tmp_path, without=forgotten)
    done = _tested(tmp_path, *WALKS)
    assert done.returncode != 0, f"nothing missed {forgotten}"
    matter = forgotten.removesuffix("/product.py").removesuffix(".py")
    told = done.stdout + done.stderr
    assert matter in told or matter.replace("/", ".") in told, told[-3000:]
