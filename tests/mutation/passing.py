"""Which tests pass through which lines, found by running them all once."""

from __future__ import annotations

import hashlib
import json
import os
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from collections.abc import Collection, Sequence
from dataclasses import asdict, dataclass, field, replace
from heapq import heappop, heappush
from pathlib import Path
from xml.etree import ElementTree

TESTS = ("grammar", "assistant", "tests/conversation", "tests/grammar", "tests/job", "tests/levels",
         "tests/limits", "tests/pours", "tests/site", "tests/speech/test_spoken_grammar.py",
         "tests/units")  # fmt: skip
"""All but those that need sound, packages or hours."""

LEAST_S = 0.01
"""Any test takes so long, whatever was measured."""

QUICK = 0.05
"""Of the whole time, what a test may take that runs before the others."""

ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / ".mutations" / "passing.json"


@dataclass(frozen=True, slots=True)
class Passing:
    """The tests through each line of each module, the most telling first."""

    tests: list[str]
    seconds: list[float]
    """Of a processor, for each test."""
    lines: dict[str, dict[str, list[int]]]
    """Of each module: numbers of the tests through each line."""
    cases: list[str]
    """All tests, those too that pass through no line of ours, or in another process."""
    reach: list[int]
    """Of each test: how many lines it passes through in all."""
    digests: dict[str, str]
    """Of the modules, as they were."""
    files: dict[str, str] = field(default_factory=dict)
    """Digests of the test files, as they were."""

    def through(self, path: str, line: int, budget_s: float) -> list[str]:
        """
        Tests through a line, then others of its module, in the order in which they are to be run.

        What runs on import, or once in a process because its result is kept, is told by others
        than the one that was found there; and where a module has changed since, by any of its
        tests. First come quick ones, the same time from each file, those before that pass through
        little else; until they take ``budget_s``. Many quick tests tell more than a few long ones.
        """
        of_module = self.lines.get(path, {})
        weights = Counter(test for found in of_module.values() for test in found)
        there = of_module.get(str(line), []) if self._same(path) else []
        others = [test for test in weights if test not in set(there)]
        quick_s = budget_s * QUICK
        heaps = [
            [test for test in tests if (self.seconds[test] <= quick_s) is quick]
            for tests, quick in ((there, True), (there, False), (others, True), (others, False))
        ]
        chosen: list[int] = []
        for heap in heaps:
            left_s = budget_s - sum(self.seconds[test] + LEAST_S for test in chosen)
            chosen += self._in_turn(heap, weights, left_s)
        return [self.tests[test] for test in chosen]

    def _in_turn(self, tests: list[int], weights: Counter[int], budget_s: float) -> list[int]:
        files: dict[str, list[int]] = defaultdict(list)
        for test in tests:
            files[self.tests[test].split("::")[0]].append(test)

        def tells(test: int) -> float:
            return weights[test] / self.reach[test] / (self.seconds[test] + LEAST_S)

        rows = [sorted(of_file, key=tells) for of_file in files.values()]
        rows.sort(key=lambda row: tells(row[-1]), reverse=True)
        turns = [(0.0, number) for number in range(len(rows))]
        chosen: list[int] = []
        while turns:
            spent, number = heappop(turns)
            test = rows[number].pop()
            taken = self.seconds[test] + LEAST_S
            if taken <= budget_s:
                chosen.append(test)
                budget_s -= taken
                spent += taken
            if rows[number]:
                heappush(turns, (spent, number))
        return chosen

    @property
    def known(self) -> frozenset[str]:
        """All that were run."""
        return frozenset(self.cases)

    def without(self, files: Collection[str]) -> Passing:
        """The same, with the tests of some files forgotten."""
        left = [n for n, test in enumerate(self.tests) if test.split("::")[0] not in files]
        number = {old: new for new, old in enumerate(left)}
        gone = tuple(file.removesuffix(".py").replace("/", ".") for file in files)
        return replace(
            self,
            tests=[self.tests[old] for old in left],
            seconds=[self.seconds[old] for old in left],
            reach=[self.reach[old] for old in left],
            lines={
                path: {
                    line: [number[old] for old in through if old in number]
                    for line, through in of_module.items()
                }
                for path, of_module in self.lines.items()
            },
            cases=[case for case in self.cases if not _is_of(case, gone)],
        )

    def with_also(self, other: Passing) -> Passing:
        """Both; of a module that has changed in between, what was found first decides."""
        first = len(self.tests)
        lines = {path: dict(of_module) for path, of_module in self.lines.items()}
        for path, of_module in other.lines.items():
            mine = lines.setdefault(path, {})
            for line, through in of_module.items():
                mine[line] = mine.get(line, []) + [first + number for number in through]
        return Passing(
            self.tests + other.tests,
            self.seconds + other.seconds,
            lines,
            self.cases + other.cases,
            self.reach + other.reach,
            {**other.digests, **self.digests},
        )

    def _same(self, path: str) -> bool:
        return self.digests.get(path) == _digest(path)


def kept_or_found(processes: int) -> Passing:
    """
    What was found before; or all tests are run once, in so many processes: minutes.

    Test files that are new or changed since are run again.
    """
    files = _test_files()
    if not KEPT.is_file():
        print("once: which tests pass where …", flush=True)
        return _keep(replace(_found(TESTS, processes), files=files))
    kept = Passing(**json.loads(KEPT.read_text(encoding="utf-8")))
    fresh = [file for file, digest in files.items() if kept.files.get(file) != digest]
    if not fresh and files.keys() == kept.files.keys():
        return kept
    print(f"which tests of {len(fresh)} new or changed files pass where …", flush=True)
    there = kept.without(kept.files.keys() - (files.keys() - set(fresh)))
    found = there.with_also(_found(fresh, processes)) if fresh else there
    return _keep(replace(found, files=files))


def _keep(found: Passing) -> Passing:
    KEPT.parent.mkdir(exist_ok=True)
    KEPT.write_text(json.dumps(asdict(found)), encoding="utf-8")
    return found


def _test_files() -> dict[str, str]:
    """Digests of the files that tests stand in; doctests stand in the modules themselves."""
    named = [ROOT / name for name in TESTS if name.startswith("tests/")]
    files = [file for one in named for file in (one.rglob("test_*.py") if one.is_dir() else [one])]
    names = sorted(file.relative_to(ROOT).as_posix() for file in files)
    return {name: _digest(name) for name in names}


def _found(tests: Sequence[str], processes: int) -> Passing:
    with tempfile.TemporaryDirectory() as folder:
        settings, lines, times = (Path(folder) / name for name in ("settings", "lines", "times"))
        settings.write_text("[run]\nrelative_files = True\n", encoding="utf-8")
        command = [sys.executable, "-m", "pytest", "-q", "-n", str(processes)]
        command += ["-p", "tests.mutation.processor_time"]
        command += ["--cov=grammar", "--cov=assistant", "--cov-context=test", "--cov-report="]
        command += [f"--cov-config={settings}", f"--junitxml={times}", *tests]
        subprocess.run(
            command,
            cwd=ROOT,
            env={**os.environ, "COVERAGE_FILE": str(lines)},
            check=False,
            stdout=subprocess.DEVNULL,
        )
        return passing_of(lines, times)


def passing_of(lines: Path, times: Path) -> Passing:
    """From coverage's file and the times; a test that was red or skipped can tell nothing."""
    from coverage import CoverageData

    cases = {
        f"{case.get('classname')}::{case.get('name')}": case
        for case in ElementTree.parse(times).iter("testcase")
    }
    green = {name: float(case.get("time", 0)) for name, case in cases.items() if not len(case)}
    data = CoverageData(str(lines))
    data.read()
    numbers: dict[str, int] = {}
    seconds: list[float] = []
    reach: Counter[int] = Counter()
    of_modules: dict[str, dict[str, list[int]]] = {}
    for path in sorted(data.measured_files()):
        of_module = of_modules.setdefault(path, {})
        for line, contexts in sorted(data.contexts_by_lineno(path).items()):
            through = of_module.setdefault(str(line), [])
            for test in sorted({context.rpartition("|")[0] for context in contexts}):
                taken = green.get(case_of(test))
                if taken is None:
                    continue
                if test not in numbers:
                    numbers[test] = len(numbers)
                    seconds.append(taken)
                reach[numbers[test]] += 1
                through.append(numbers[test])
    return Passing(
        list(numbers),
        seconds,
        of_modules,
        list(cases),
        [reach[number] for number in numbers.values()],
        {path: _digest(path) for path in of_modules},
    )


def _is_of(case: str, modules: tuple[str, ...]) -> bool:
    """Whether a test stands in one of some modules, by class and name as in :func:`case_of`."""
    place = case.partition("::")[0]
    return any(place == module or place.startswith(f"{module}.") for module in modules)


def case_of(test: str) -> str:
    """Class and name of a test, as the file of the times has them."""
    path, _, rest = test.partition("::")
    *classes, name = _parts(rest)
    return ".".join((path.removesuffix(".py").replace("/", "."), *classes)) + "::" + name


def _parts(rest: str) -> list[str]:
    # What stands in brackets is a parameter, and may hold anything.
    head, bracket, parameter = rest.partition("[")
    *classes, name = head.split("::")
    return [*classes, name + bracket + parameter]


def _digest(path: str) -> str:
    file = ROOT / path
    return hashlib.sha256(file.read_bytes()).hexdigest()[:16] if file.is_file() else ""
