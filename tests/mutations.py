"""Break the code on purpose, one small thing at a time, and see whether a test turns red.

``python tests/mutations.py [ROOM …] --sample 100`` takes a sample of the places where a comparison,
a number, a sign or a condition can be broken, runs the tests that pass through each, and lists
what lived: a survivor is a rule that no test holds, or a change that makes no difference. Rooms
are folders or modules (grammar, assistant/trust, assistant/tally.py); without one, all that
decides. Needs ``pip install -e '.[test,check]'`` and about ten seconds for each broken thing.
"""

from __future__ import annotations

import argparse
import ast
import os
import random
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
ROOMS = (
    "grammar",
    "assistant/decide",
    "assistant/pours",
    "assistant/record",
    "assistant/trust",
)
TESTS = ("grammar", "assistant", "tests/conversation", "tests/grammar", "tests/job", "tests/levels",
         "tests/limits", "tests/pours", "tests/site", "tests/units")  # fmt: skip
MOST_TESTS = 60
"""Of those that pass through a line, run first; most broken things fall to one of a few."""
LONGEST_S = 300
COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq, ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
COUNTED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Mutation:
    """One place and what stands there instead."""

    path: str
    line: int
    before: str
    after: str
    source: str
    """The whole module, broken."""

    def __str__(self) -> str:
        return f"{self.path}:{self.line}: {self.before} -> {self.after}"


def mutations(path: Path) -> Iterator[Mutation]:
    """Every way to break a module by one small thing."""
    source = path.read_text(encoding="utf-8")
    lines = source.splitlines(keepends=True)
    tree = ast.parse(source)
    # Before Python 3.12 what stands inside a text does not know its own place.
    inside = {
        id(part)
        for text in ast.walk(tree)
        if isinstance(text, ast.JoinedStr)
        for part in ast.walk(text)
    }
    for node in ast.walk(tree):
        for broken in _broken(node) if id(node) not in inside else ():
            if node.lineno != node.end_lineno:  # type: ignore[attr-defined]
                continue
            row = lines[node.lineno - 1].encode()  # type: ignore[attr-defined]
            start, end = node.col_offset, node.end_col_offset  # type: ignore[attr-defined]
            put = f"({ast.unparse(broken)})".encode()
            changed = (row[:start] + put + row[end:]).decode()
            yield Mutation(
                str(path.relative_to(ROOT)),
                node.lineno,  # type: ignore[attr-defined]
                row[start:end].decode(),
                put.decode(),
                "".join((*lines[: node.lineno - 1], changed, *lines[node.lineno :])),  # type: ignore[attr-defined]
            )


def _broken(node: ast.AST) -> Iterator[ast.expr]:
    if isinstance(node, ast.Compare) and len(node.ops) == 1:
        yield ast.Compare(node.left, [COMPARED[type(node.ops[0])]()], node.comparators)
    elif isinstance(node, ast.BoolOp):
        yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node.operand
    elif isinstance(node, ast.BinOp) and type(node.op) in COUNTED:
        words = any(isinstance(part, ast.JoinedStr | ast.Constant) and not _is_number(part)
                    for part in (node.left, node.right))  # fmt: skip
        if not words:
            yield ast.BinOp(node.left, COUNTED[type(node.op)](), node.right)
    elif _is_number(node):
        yield ast.Constant(node.value + 1)  # type: ignore[attr-defined]


def _is_number(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and type(node.value) in (int, float)


class Passing:
    """Which tests pass through which lines; found by running them all once."""

    def __init__(self, kept: Path) -> None:
        from coverage import CoverageData

        if not kept.is_file():
            names = [part for room in ("grammar", "assistant") for part in ("--cov", room)]
            command = [sys.executable, "-m", "pytest", "-q", "-n", "auto", *names]
            command += ["--cov-context=test", "--cov-report=", *TESTS]
            print("once: which tests pass where …", flush=True)
            subprocess.run(command, cwd=ROOT, env={**os.environ, "COVERAGE_FILE": str(kept)},
                           check=True, stdout=subprocess.DEVNULL)  # fmt: skip
        self._data = CoverageData(str(kept))
        self._data.read()
        self._of: dict[str, dict[int, list[str]]] = {}

    def through(self, path: str, line: int) -> list[str]:
        """Tests through a line; through any line of the module where it runs on import only."""
        if path not in self._of:
            self._of[path] = self._data.contexts_by_lineno(str(ROOT / path))
        lines = self._of[path]
        found = lines.get(line, [])
        if not any(found):
            found = [test for tests in lines.values() for test in tests]
        return sorted({test.split("|")[0] for test in found if test})


def lives(mutation: Mutation, passing: Passing, tree: Path) -> bool:
    """Whether no test turns red."""
    tests = passing.through(mutation.path, mutation.line)
    if not tests:
        return True
    if len(tests) > MOST_TESTS:
        tests = random.Random(mutation.line).sample(tests, MOST_TESTS)
        # What most tests pass through is told by its own files best.
        tests += sorted({test.split("::")[0] for test in tests})[:6]
    target = tree / mutation.path
    whole = target.read_text(encoding="utf-8")
    target.write_text(mutation.source, encoding="utf-8")
    command = [sys.executable, "-m", "pytest", "-x", "-q", "-p", "no:cacheprovider", *tests]
    try:
        done = subprocess.run(command, cwd=tree, timeout=LONGEST_S, capture_output=True,
                              env={**os.environ, "PYTHONPATH": str(tree),
                                   "PYTHONDONTWRITEBYTECODE": "1"})  # fmt: skip
    except subprocess.TimeoutExpired:
        return False
    finally:
        target.write_text(whole, encoding="utf-8")
    return done.returncode == 0


def main() -> int:
    """Break, run, tell."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("rooms", nargs="*", default=list(ROOMS))
    parser.add_argument("--sample", type=int, default=100)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--kept", type=Path, default=ROOT / ".mutations" / "passing")
    asked = parser.parse_args()
    found = [
        mutation
        for room in asked.rooms
        for path in sorted((ROOT / room).rglob("*.py") if (ROOT / room).is_dir() else [ROOT / room])
        for mutation in mutations(path)
    ]
    asked.kept.parent.mkdir(parents=True, exist_ok=True)
    passing = Passing(asked.kept)
    drawn = random.Random(asked.seed).sample(found, min(asked.sample, len(found)))
    with tempfile.TemporaryDirectory() as folder:
        tree = Path(folder) / "tree"
        shutil.copytree(ROOT, tree, ignore=shutil.ignore_patterns(".*", "__pycache__"))
        lived = []
        for mutation in drawn:
            if lives(mutation, passing, tree):
                lived.append(mutation)
                print(f"lives: {mutation}", flush=True)
    killed = len(drawn) - len(lived)
    print(f"{killed} of {len(drawn)} killed, of {len(found)} in all ({', '.join(asked.rooms)})")
    return 0


if __name__ == "__main__":
    sys.exit(main())
