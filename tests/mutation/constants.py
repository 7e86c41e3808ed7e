"""Where a number that a module gives a name to is used: only there do tests tell of it."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator, Mapping
from functools import cache
from pathlib import Path

CODE = ("grammar", "assistant")


def uses_of(root: Path, path: str, line: int) -> Mapping[str, frozenset[int]]:
    """
    Module -> its lines that use what is given a name on a line of ``path``.

    Names made of that name count too, and so do modules that import it. Empty where the line is
    no part of such a definition.
    """
    tree = _tree(root / path)
    names = {name for begin, end, given in _given(tree) if begin <= line <= end for name in given}
    if not names:
        return {}
    found: dict[str, frozenset[int]] = {}
    names = _made_of(tree, names)
    for other, known in _importing(root, path, frozenset(names)):
        lines = frozenset(_lines(_tree(root / other), _made_of(_tree(root / other), known)))
        if lines:
            found[other] = lines
    return found


def _given(tree: ast.Module) -> Iterator[tuple[int, int, set[str]]]:
    """First and last line of each definition, fields of classes too, and the names given there."""
    fields = (each for node in tree.body if isinstance(node, ast.ClassDef) for each in node.body)
    for node in (*tree.body, *fields):
        if isinstance(node, ast.Assign | ast.AnnAssign):
            targets = node.targets if isinstance(node, ast.Assign) else [node.target]
            given = {each.id for each in targets if isinstance(each, ast.Name)}
            yield node.lineno, node.end_lineno or node.lineno, given


def _made_of(tree: ast.Module, names: set[str]) -> set[str]:
    """The names, and those that the module makes of them, and of these again."""
    known = set(names)
    while True:
        more = {
            name
            for begin, end, given in _given(tree)
            if any(begin <= used <= end for used in _lines(tree, known))
            for name in given
        }
        if more <= known:
            return known
        known |= more


def _lines(tree: ast.Module, names: set[str]) -> Iterator[int]:
    for node in ast.walk(tree):
        if not isinstance(node, ast.Name | ast.Attribute) or not isinstance(node.ctx, ast.Load):
            continue
        if (node.id if isinstance(node, ast.Name) else node.attr) in names:
            yield node.lineno


def _importing(root: Path, path: str, names: frozenset[str]) -> Iterator[tuple[str, set[str]]]:
    """The module itself and those that import one of the names, each with what it calls them."""
    yield path, set(names)
    module = path.removesuffix(".py").removesuffix("/__init__").replace("/", ".")
    words = re.compile(rf"\bfrom {re.escape(module)} import\b")
    for other in _modules(root):
        if other == path or not words.search(_text(root / other)):
            continue
        known = {
            alias.asname or alias.name
            for node in ast.walk(_tree(root / other))
            if isinstance(node, ast.ImportFrom) and node.module == module
            for alias in node.names
            if alias.name in names
        }
        if known:
            yield other, known


@cache
def _modules(root: Path) -> tuple[str, ...]:
    found = (file for name in CODE for file in sorted((root / name).rglob("*.py")))
    return tuple(file.relative_to(root).as_posix() for file in found)


@cache
def _text(file: Path) -> str:
    return file.read_text(encoding="utf-8") if file.is_file() else ""


@cache
def _tree(file: Path) -> ast.Module:
    return ast.parse(_text(file))
