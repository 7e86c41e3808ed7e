"""Test files are compiled once, before there are workers who would each do it.

Pytest rewrites the asserts of each file, and keeps what came of it. Workers of a fresh clone begin
with the same files at the same time, so that none has yet kept what the others need.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

TESTS = Path(__file__).parent
PROGRAMS = 2
FEWEST = 40
"""Files for which it is worth it to start programs that do nothing else."""


def not_compiled(folder: Path = TESTS) -> Iterator[Path]:
    """The test files of which nothing is kept, or what they were before."""
    for path in sorted(folder.rglob("test_*.py")):
        kept = list((path.parent / "__pycache__").glob(f"{path.stem}.*-pytest-*.pyc"))
        if not any(each.stat().st_mtime > path.stat().st_mtime for each in kept):
            yield path


def compile_tests() -> None:
    """Have pytest collect what is not compiled, in as many programs as there are cores to use."""
    files = list(not_compiled())
    if len(files) < FEWEST or sys.pycache_prefix:
        return
    # What these find, the workers find again: nobody listens to it here.
    command = [sys.executable, "-m", "pytest", "--collect-only", "-q", "-n", "0",
               "-p", "no:cacheprovider", "-p", "no:doctest",
               "-o", "addopts=--import-mode=importlib --strict-markers"]  # fmt: skip
    started = [
        subprocess.Popen(
            [*command, *map(str, files[number::PROGRAMS])],
            cwd=TESTS.parent,
            env={**os.environ, "PYTHONDONTWRITEBYTECODE": ""},
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
        for number in range(PROGRAMS)
    ]
    for program in started:
        program.wait()
