"""Pytest in several folders, each in a fork of one process that has its libraries already.

What a folder holds is imported anew there, as by a pytest of its own, which would take as long to
load its libraries as the tests take. Run as a program, with folders and then pytest's words.
"""

from __future__ import annotations

import importlib
import os
import subprocess
import sys
import traceback
from collections.abc import Sequence
from pathlib import Path

from tests.structure.made_up import BARE, without_plugins

ENDED_RED = (1, 2, 4)
"""Of pytest: a test failed, could not be collected, or what tests share could not be loaded."""
LIBRARIES = ("pytest", "_pytest.assertion", "_pytest.doctest", "hypothesis.extra",
             "lark", "rapidfuzz.process", "numpy",
             "sqlite3")  # fmt: skip
_TOLD, _CODE, _END = "told.txt", "code.txt", "--"


def pytests_in(folders: Sequence[Path], *words: str) -> list[tuple[int, str]]:
    """How pytest with these words ends in each folder, and what it says."""
    program = [sys.executable, str(Path(__file__).resolve()), *map(str, folders), _END]
    surroundings = without_plugins(Path(__file__).resolve().parents[2])
    subprocess.run([*program, *BARE, "-q", *words], env=surroundings, check=True)
    return [
        (int((folder / _CODE).read_text()), (folder / _TOLD).read_text("utf-8"))
        for folder in folders
    ]


def _run(folder: str, words: Sequence[str]) -> int:
    import pytest

    os.chdir(folder)
    # Not the program beside this file, which the folder has its own of.
    sys.path[:] = [folder, *(each for each in sys.path if each not in _OURS)]
    os.environ["PYTHONPATH"] = folder
    for name in [name for name in sys.modules if name.split(".")[0] in _PROGRAM]:
        del sys.modules[name]
    told = os.open(_TOLD, os.O_CREAT | os.O_WRONLY)
    os.dup2(told, 1)
    os.dup2(told, 2)
    return int(pytest.main(list(words)))


_ROOT = str(Path(__file__).resolve().parents[2])
_OURS = (_ROOT, str(Path(__file__).resolve().parent), "")
_PROGRAM = ("assistant", "grammar", "tests", "demo")


def _main(folders: Sequence[str], words: Sequence[str]) -> None:
    for name in LIBRARIES:
        importlib.import_module(name)
    for folder in folders:
        child = os.fork()
        if child == 0:
            code = 70
            try:
                code = _run(folder, words)
            except BaseException:
                traceback.print_exc()
            finally:
                sys.stdout.flush()
                os._exit(code)
        _, status = os.waitpid(child, 0)
        (Path(folder) / _CODE).write_text(str(os.waitstatus_to_exitcode(status)))


if __name__ == "__main__":
    given = sys.argv[1:]
    _main(given[: given.index(_END)], given[given.index(_END) + 1 :])
