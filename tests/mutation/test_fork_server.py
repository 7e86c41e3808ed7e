"""Forks that test a broken tree: what goes round for ever, and what waits for ever."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.mutation.passing import ROOT

pytestmark = pytest.mark.slow

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


SLOW_AND_KNOWN = """
import time

def _spend(seconds):
    until = time.process_time() + seconds
    while time.process_time() < until:
        pass

def test_new_and_slow():
    _spend(0.4)

def test_new_and_never_begun():
    assert False

def test_known():
    import low
    assert low.steps(3) == 4
"""
NEW_ONES = """
import sys
from pathlib import Path
from tests.mutation.fork_server import Server, Task
from tests.mutation.places import places_in

root, folder = map(Path, sys.argv[1:])
place = next(places_in("low.py", (root / "low.py").read_text()))
known = "test_low.py::test_known"
for tests in ([known], []):
    task = Task(place, ["test_low.py"], tests, {"test_low::test_known"}, 0.9, 9, 90, whole=True)
    (outcome,) = Server(root, folder, 1).run([task])
    print(outcome.code, "test_known" in outcome.told, "never_begun" in outcome.told)
    folder = folder.with_name("other")
"""


def test_tests_that_are_not_known_leave_two_thirds_of_the_time_to_those_that_are(
    tmp_path: Path,
) -> None:
    root, folder = tmp_path / "root", tmp_path / "folder"
    root.mkdir()
    (root / "low.py").write_text(MODULE, encoding="utf-8")
    (root / "test_low.py").write_text(SLOW_AND_KNOWN, encoding="utf-8")
    told = subprocess.run(
        [sys.executable, "-c", NEW_ONES, root, folder],
        cwd=ROOT,
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    ).stdout
    # Where none is known, the new ones have it all.
    assert told.splitlines() == ["1 True False", "1 False True"]
