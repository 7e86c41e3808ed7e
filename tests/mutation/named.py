"""Which tests name what a line stands in: the function, class or number, or what calls it."""

from __future__ import annotations

import ast
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path


def names_around(root: Path, path: str, line: int) -> Iterator[frozenset[str]]:
    """
    What a line stands in, then what uses that in its module, and so on up.

    Each name once, where it is nearest; nothing for a line outside every definition.
    """
    using = _uses(root / path)
    spans = _spans(root / path)
    step = frozenset(name for name, begin, end in spans if begin <= line <= end)
    seen: frozenset[str] = frozenset()
    while step:
        yield step
        seen |= step
        step = frozenset(name for name, used in using.items() if used & step) - seen


def naming_tests(root: Path, file: str, names: Iterable[str]) -> frozenset[str]:
    """Test functions of a file that use one of some names, themselves or by what they call."""
    using, known = _uses(root / file), set(names)
    while True:
        more = {name for name, used in using.items() if used & known} - known
        if not more:
            return frozenset(name for name in known if name.startswith(("test_", "Test")))
        known |= more


@cache
def _spans(file: Path) -> tuple[tuple[str, int, int], ...]:
    """Each name that is defined at the top of a file, with its first and last line."""
    found = []
    for node in _tree(file).body:
        names: list[str] = []
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            names = [node.name]
        elif isinstance(node, ast.Assign):
            names = [each.id for each in node.targets if isinstance(each, ast.Name)]
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            names = [node.target.id]
        found += [(name, node.lineno, node.end_lineno or node.lineno) for name in names]
    return tuple(found)


@cache
def _uses(file: Path) -> dict[str, frozenset[str]]:
    """Each of these names, and the words that stand in what it is defined as."""
    words: dict[str, set[str]] = {}
    spans = _spans(file)
    for node in ast.walk(_tree(file)):
        word = {ast.Name: "id", ast.Attribute: "attr", ast.arg: "arg"}.get(type(node))
        if word is None:
            continue
        for name, begin, end in spans:
            if begin <= node.lineno <= end:  # type: ignore[attr-defined]
                words.setdefault(name, set()).add(getattr(node, word))
    return {name: frozenset(used - {name}) for name, used in words.items()}


@cache
def _tree(file: Path) -> ast.Module:
    return ast.parse(file.read_text(encoding="utf-8") if file.is_file() else "")
