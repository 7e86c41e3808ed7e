"""Which tests pass through which lines, found by running them all once."""

from __future__ import annotations

import hashlib
import json
import os
import re
import subprocess
import sys
import tempfile
from collections import Counter, defaultdict
from collections.abc import Collection, Sequence
from dataclasses import asdict, dataclass, field, replace
from functools import cache, cached_property
from heapq import heappop, heappush
from pathlib import Path
from xml.etree import ElementTree

from tests.mutation.constants import uses_of
from tests.mutation.named import names_around, naming_tests

TESTS = ("grammar", "assistant", "tests/conversation", "tests/floor", "tests/grammar", "tests/job",
         "tests/levels", "tests/limits", "tests/pours", "tests/site",
         "tests/speech/test_spoken_grammar.py", "tests/units")  # fmt: skip
"""All but those that need sound, packages or hours."""

LEAST_S = 0.01
"""Any test takes so long, whatever was measured."""

NEARBY = 20
"""Lines up and down; by no more a line moves as its module is mended, mostly."""

ROOT = Path(__file__).resolve().parents[2]
KEPT = ROOT / ".mutations" / "passing.json"


@dataclass(frozen=True)
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

        Of a number that is given a name, the lines that use it are meant. What else runs on import,
        or once in a process because its result is kept, is tested by others than the one that was
        found there; and where a module has changed since, by those that passed nearby, or by any
        of its tests. They take ``budget_s`` in all. A third of it is for tests in files that import
        the module themselves and name what the line stands in, as they are about that; of what is
        left, a third for others in such files, then half for those that pass through little else
        in little time, then the same time for each file.
        """
        of_module = self.lines.get(path, {})
        weights = Counter(test for found in of_module.values() for test in found)
        uses = uses_of(ROOT, path, line) or {path: frozenset([line])}
        there = {test for other, lines in uses.items() for test in self._near(other, lines)}
        weights.update(dict.fromkeys(there - weights.keys(), 1))
        about_it = _importing(path)
        own = [test for test in weights if self.tests[test].split("::")[0] in about_it]
        naming = self._naming(path, line, own)
        passing = [test for test in weights if test in there]
        chosen: list[int] = []
        for tests, pick, part in (
            (naming, self._in_turn, 1 / 3),
            ([test for test in own if test in there], self._in_turn, 1 / 3),
            (passing, self._most_telling, 0.5),
            (passing, self._in_turn, 1.0),
            (own, self._in_turn, 0.5),
            (list(weights), self._most_telling, 0.5),
            (list(weights), self._in_turn, 1.0),
        ):
            left_s = budget_s - sum(self._takes_s(test) for test in chosen)
            rest = [test for test in tests if test not in set(chosen)]
            chosen += pick(rest, weights, left_s * part)
        return [self.tests[test] for test in chosen]

    def _near(self, path: str, lines: Collection[int]) -> set[int]:
        """Tests through some lines; of a module that has changed since, through those around."""
        about = 0 if self._same(path) else NEARBY
        near = {at for line in lines for at in range(line - about, line + about + 1)}
        of_module = self.lines.get(path, {})
        return {test for at in near for test in of_module.get(str(at), [])}

    def _naming(self, path: str, line: int, own: Sequence[int]) -> list[int]:
        """Those of some tests that name what a line stands in, or else what calls that."""
        files: dict[str, dict[str, list[int]]] = {}
        for test in own:
            file, name, *_ = self.tests[test].split("[")[0].split("::")
            files.setdefault(file, {}).setdefault(name, []).append(test)
        for names in names_around(ROOT, path, line):
            found = [
                test
                for file, of_file in files.items()
                for name in sorted(naming_tests(ROOT, file, names) & of_file.keys())
                for test in of_file[name]
            ]
            if found:
                return found
        return []

    def _takes_s(self, test: int) -> float:
        return self._costs_s[test]

    @cached_property
    def _costs_s(self) -> list[float]:
        """Of each test: its own time, and as much as others of its file take on the average.

        What they share and keep is made by whichever comes first.
        """
        files = [test.split("::")[0] for test in self.tests]
        whole: Counter[str] = Counter()
        for file, taken in zip(files, self.seconds, strict=True):
            whole[file] += taken  # type: ignore[assignment]  # of seconds, not of pieces
        count = Counter(files)
        return [
            LEAST_S + max(taken, whole[file] / count[file])
            for file, taken in zip(files, self.seconds, strict=True)
        ]

    def _tells(self, test: int, weights: Counter[int]) -> float:
        return weights[test] / self.reach[test] / self._takes_s(test)

    def _most_telling(self, tests: list[int], weights: Counter[int], budget_s: float) -> list[int]:
        chosen: list[int] = []
        for test in sorted(tests, key=lambda test: self._tells(test, weights), reverse=True):
            budget_s -= self._takes_s(test)
            if budget_s < 0:
                break
            chosen.append(test)
        return chosen

    def _in_turn(self, tests: list[int], weights: Counter[int], budget_s: float) -> list[int]:
        files: dict[str, list[int]] = defaultdict(list)
        for test in tests:
            files[self.tests[test].split("::")[0]].append(test)

        def tells(test: int) -> float:
            return self._tells(test, weights)

        rows = [sorted(of_file, key=tells) for of_file in files.values()]
        rows.sort(key=lambda row: tells(row[-1]), reverse=True)
        turns = [(0.0, number) for number in range(len(rows))]
        chosen: list[int] = []
        while turns:
            spent, number = heappop(turns)
            test = rows[number].pop()
            taken = self._takes_s(test)
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
    """Digests of the files that tests stand in, modules with doctests among them."""
    files: list[Path] = []
    for name in TESTS:
        one = ROOT / name
        if not name.startswith("tests/"):
            files += [file for file in one.rglob("*.py") if ">>> " in file.read_text("utf-8")]
        else:
            files += one.rglob("test_*.py") if one.is_dir() else [one]
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


@cache
def _importing(path: str) -> frozenset[str]:
    """Test files that import a module themselves."""
    folder, _, name = path.removesuffix(".py").removesuffix("/__init__").rpartition("/")
    parent = folder.replace("/", ".")
    whole = rf"\b{re.escape(f'{parent}.{name}'.lstrip('.'))}\b"
    words = re.compile(rf"{whole}|from {re.escape(parent)} import [^)]*?\b{re.escape(name)}\b")
    return frozenset(
        file
        for file in _test_files()
        if file == path
        or (file.startswith("tests/") and words.search((ROOT / file).read_text(encoding="utf-8")))
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
