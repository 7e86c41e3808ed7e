"""Forks that test a broken tree: what goes round for ever, and what waits for ever."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from tests.mutation.passing import ROOT

MODULE = """
import time

def steps(count):
    done = 0
    while done < count:
        done = done + 1
    return done

def wait(seconds):
    time.sleep(600 if seconds > 0 else 0)
"""
TESTS = """
import low

def test_steps():
    assert low.steps(3) == 3

def test_wait():
    low.wait(0)
"""
RUN = """
import sys
from pathlib import Path
from tests.mutation.fork_server import Server, Task
from tests.mutation.places import places_in

root, folder = map(Path, sys.argv[1:])
places = {place.after: place for place in places_in("low.py", (root / "low.py").read_text())}
changes = {"(601)": 90, "(done <= count)": 90, "(done - 1)": 90, "(seconds >= 0)": 10}
tasks = [
    Task(places[after], ["test_low.py"], (), (), budget_s=2, limit_s=4, patience_s=patience_s)
    for after, patience_s in changes.items()
]
for outcome in Server(root, folder, 1).run(tasks):
    print(outcome.verdict, outcome.goes_round)
"""


def test_what_goes_round_for_ever_is_killed_and_what_waits_for_ever_is_not_decided(
    tmp_path: Path,
) -> None:
    root, folder = tmp_path / "root", tmp_path / "folder"
    root.mkdir()
    (root / "low.py").write_text(MODULE, encoding="utf-8")
    (root / "test_low.py").write_text(TESTS, encoding="utf-8")
    told = subprocess.run(
        [sys.executable, "-c", RUN, root, folder],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    ).stdout
    assert told.splitlines() == ["lived False", "killed False", "killed True", "undecided False"]
