"""Trees in which one thing at a time is broken, and the tests run on them.

The libraries are imported once, the program never: each run is a fork that imports the program
anew from its tree, so that tables made on import are made of what is broken, and so do the
programs that tests start.
"""

from __future__ import annotations

import contextlib
import importlib
import os
import resource
import shutil
import signal
import sys
import time
import traceback
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from math import ceil
from pathlib import Path

from tests.mutation.passing import case_of
from tests.mutation.places import Place
from tests.mutation.processor_time import spent_s
from tests.mutation.verdicts import Verdict

LIBRARIES = ("pytest", "_pytest.assertion", "_pytest.doctest", "hypothesis", "pytest_benchmark",
             "numpy", "scipy.linalg", "scipy.spatial", "scipy.optimize", "scipy.interpolate",
             "scipy.stats", "shapely", "lark", "rapidfuzz.process", "pint", "rich.console",
             "rich.table", "prompt_toolkit.shortcuts", "platformdirs", "sqlite3")  # fmt: skip

NEW_PART = 1 / 3
"""Of the budget of a place, for tests of which it is not known where they pass."""


@dataclass(frozen=True, slots=True)
class Task:
    """A place to break, or none to see that whole code stays green, and how to look."""

    place: Place
    files: Sequence[str]
    """Test files to be collected."""
    tests: Sequence[str]
    """Those of them to be run, in this order."""
    known: Collection[str]
    """What is not among these is new, and runs first, for a part of the budget."""
    budget_s: float
    """Of a processor: once the tests have had it, no further one begins."""
    limit_s: float
    """Of a processor, for each process. What needs more goes round for ever."""
    patience_s: float
    """By the clock. What needs more was kept from its work, or waits for what never comes."""
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a task."""

    task: Task
    code: int | None
    """Of pytest: 0 green, 1 a test red, 2 not even imported, 5 no test there; the signal that
    ended it, negative; None when patience ended."""
    seconds: float
    """By the clock."""
    told: str
    """The end of what pytest printed."""

    @property
    def verdict(self) -> Verdict:
        if self.code in (1, 2) or self.goes_round or self._never_began:
            return Verdict.KILLED
        return Verdict.LIVED if self.code in (0, 5) else Verdict.UNDECIDED

    @property
    def goes_round(self) -> bool:
        """It used up its processor time."""
        return self.code == -signal.SIGXCPU

    @property
    def _never_began(self) -> bool:
        # The program broke as what the tests have in common was imported.
        return self.code == 4 and "while loading conftest" in self.told


class Server:
    """Runs tasks in forks, so many at a time, each in a tree of its own."""

    def __init__(self, root: Path, folder: Path, forks: int) -> None:
        # Compiled once in each tree, not once in each fork.
        sys.dont_write_bytecode = False
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        # As the program has it: with more threads the last digits of what it works out are others.
        os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
        for name in LIBRARIES:
            importlib.import_module(name)
        ours = [name for name in sys.modules if name.split(".")[0] in ("grammar", "assistant")]
        assert not ours, f"imported before it could be broken: {ours}"
        self._free = []
        for number in range(forks):
            tree = folder / f"tree{number}"
            shutil.copytree(root, tree, ignore=shutil.ignore_patterns(".*", "__pycache__"))
            self._free.append(tree)
        self._root = root
        self._at_work: dict[int, tuple[Task, Path, str, float]] = {}
        # What has the same second and size is taken for the same by Python's own store.
        self._stamp = int(time.time())

    def run(self, tasks: Sequence[Task]) -> Iterator[Outcome]:
        """All of them, each reported as soon as it is known."""
        waiting = list(reversed(tasks))
        try:
            while waiting or self._at_work:
                while waiting and self._free:
                    self._start(waiting.pop(), self._free.pop())
                yield from self._done()
                time.sleep(0.02)
        finally:
            for child in self._at_work:
                _kill_group(child)

    def _start(self, task: Task, tree: Path) -> None:
        target = tree / task.place.path
        source = target.read_text(encoding="utf-8")
        if not task.whole:
            self._write(target, task.place.broken(source))
        sys.stdout.flush()
        child = os.fork()
        if child == 0:
            _run_tests(task, tree, self._root)
        self._at_work[child] = task, tree, source, time.monotonic()

    def _done(self) -> Iterator[Outcome]:
        for child, (task, tree, source, begun) in list(self._at_work.items()):
            taken = time.monotonic() - begun
            ended, status = os.waitpid(child, os.WNOHANG)
            if not ended and taken < task.patience_s:
                continue
            _kill_group(child)
            if not ended:
                os.waitpid(child, 0)
            code = os.waitstatus_to_exitcode(status) if ended else None
            told = (tree / ".told").read_text(encoding="utf-8", errors="replace")[-3000:]
            self._write(tree / task.place.path, source)
            del self._at_work[child]
            self._free.append(tree)
            yield Outcome(task, code, taken, told)

    def _write(self, path: Path, source: str) -> None:
        path.write_text(source, encoding="utf-8")
        self._stamp += 2
        os.utime(path, (self._stamp, self._stamp))


def _kill_group(child: int) -> None:
    """What a test left running too."""
    with contextlib.suppress(ProcessLookupError):
        os.killpg(child, signal.SIGKILL)


def _run_tests(task: Task, tree: Path, root: Path) -> None:
    """In the fork; does not return."""
    code = 70
    try:
        os.setpgid(0, 0)
        for ending in (signal.SIGTERM, signal.SIGHUP):
            signal.signal(ending, signal.SIG_DFL)
        signal.signal(signal.SIGINT, signal.default_int_handler)
        # Inherited by the programs that tests start: each is ended by itself.
        resource.setrlimit(resource.RLIMIT_CPU, (ceil(task.limit_s), ceil(task.limit_s) + 5))
        os.chdir(tree)
        for number in (0, 1, 2):
            flags = os.O_RDONLY if number == 0 else os.O_WRONLY | os.O_CREAT | os.O_TRUNC
            os.dup2(os.open(os.devnull if number == 0 else tree / ".told", flags), number)
        os.environ.update(PYTHONPATH=str(tree))
        sys.path[:] = [str(tree), *(part for part in sys.path if Path(part or ".") != root)]
        for name in [name for name in sys.modules if name.split(".")[0] == "tests"]:
            del sys.modules[name]
        importlib.invalidate_caches()
        code = _pytest(task, tree)
    except BaseException:
        traceback.print_exc()
    finally:
        sys.stdout.flush()
        sys.stderr.flush()
        os._exit(code)


def _pytest(task: Task, tree: Path) -> int:
    if not task.files:
        return 5
    import pytest
    from hypothesis import HealthCheck, Phase, settings

    # The same examples for each, and no time spent on making a red one small. A busy machine
    # must not turn a test red either.
    settings.register_profile(
        "broken",
        derandomize=True,
        deadline=None,
        phases=[Phase.explicit, Phase.generate],
        suppress_health_check=list(HealthCheck),
    )
    settings.load_profile("broken")
    # Of the libraries that are there already nothing is asserted.
    options = [
        "-W",
        "ignore::pytest.PytestAssertRewriteWarning",
        "-x",
        "-q",
        "--no-header",
        "-p",
        "no:cacheprovider",
        f"--basetemp={tree / '.temp'}",
    ]
    return int(pytest.main([*options, *task.files], plugins=[_Chosen(task)]))


class _Chosen:
    """Leaves the tests that were chosen, in that order, while their time lasts; new ones first."""

    def __init__(self, task: Task) -> None:
        self._place = {test: row for row, test in enumerate(task.tests)}
        self._known = task.known
        self._budget_s = task.budget_s
        self._began_s = 0.0

    def pytest_collection_modifyitems(self, items: list) -> None:  # type: ignore[type-arg]
        """Pytest's own name for this."""
        place, known = self._place, self._known
        kept = [item for item in items if item.nodeid in place or case_of(item.nodeid) not in known]
        items[:] = sorted(kept, key=lambda item: place.get(item.nodeid, -1))
        # What a test takes was found where others had left it their results; here it may be first.
        self._began_s = spent_s()

    def pytest_runtest_protocol(self, item) -> bool | None:  # type: ignore[no-untyped-def]
        """The same; True says that there is nothing left to do for a test."""
        # Nobody knows what new ones take, or whether they pass there: they leave time for others.
        is_new = bool(self._place) and item.nodeid not in self._place
        budget_s = self._budget_s * (NEW_PART if is_new else 1)
        return True if spent_s() - self._began_s > budget_s else None
