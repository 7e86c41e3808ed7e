"""Adding a command: six files with its test, and whichever is forgotten turns a test red."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.structure.forks import ENDED_RED, pytests_in
from tests.structure.made_up import EDITS, build

MOST_FILES = 6
WALKS = (
    "tests/job/test_tables.py", "tests/job/test_undo.py", "tests/job/test_record_format.py",
    "tests/grammar/test_phrase_table.py",
)  # fmt: skip
"""The tests that walk every table in which a command or an event has to stand."""
_NOT_EACH_WAY = "not test_every_way_gives_its_command"


# Each table has to be walked, not each value in it tried.
FEW = ("-x", "-p", "_hypothesis_pytestplugin", "--hypothesis-profile=few", "-k", _NOT_EACH_WAY)


def test_a_command_takes_few_files() -> None:
    assert len(EDITS) <= MOST_FILES


@pytest.mark.slow
def test_added_by_the_recipe_it_works(tmp_path: Path) -> None:
    build(tmp_path)
    ((code, told),) = pytests_in([tmp_path], *FEW, "tests/job/test_shifts.py", *WALKS)
    assert code == 0, told[-3000:]


@pytest.mark.slow
def test_what_is_forgotten_is_named(tmp_path: Path) -> None:
    forgotten = [name for name in EDITS if not name.startswith("tests/")]
    folders = [tmp_path / str(number) for number in range(len(forgotten))]
    for folder, name in zip(folders, forgotten, strict=True):
        build(folder, without=name)
    missed = {}
    for name, (code, told) in zip(forgotten, pytests_in(folders, *FEW, *WALKS), strict=True):
        matter = name.removesuffix("/product.py").removesuffix(".py")
        if code not in ENDED_RED or not (matter in told or matter.replace("/", ".") in told):
            missed[name] = code, told[-3000:]
    assert not missed
