"""Where the code can be broken by one small thing, and how."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate
from pathlib import Path

COMPARED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq,
    ast.NotEq: ast.Eq, ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
COUNTED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult,
    ast.FloorDiv: ast.Mult,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Place:
    """One place, and what stands there instead."""

    path: str
    """Of the module, from the root of the tree."""
    line: int
    start: int
    """In the module, bytes."""
    before: str
    after: str
    text: str = ""
    """The line it begins on."""

    @property
    def name(self) -> tuple[str, str, str, str]:
        """What it is known by from one run to the next, though lines move as code is mended."""
        return self.path, self.text, self.before, self.after

    @property
    def is_number(self) -> bool:
        """Whether a number is changed, and nothing else."""
        return self.before.replace("_", "").replace(".", "").replace("e-", "").isalnum() and (
            self.before[0].isdigit()
        )

    @property
    def is_bound(self) -> bool:
        """Whether a comparison takes or leaves its bound, and nothing else."""
        whole, other = (_expression(text) for text in (self.before, self.after))
        if not isinstance(whole, ast.Compare) or not isinstance(other, ast.Compare):
            return False
        turned = {type(op) for op in (*whole.ops, *other.ops)} - {ast.Lt, ast.LtE, ast.Gt, ast.GtE}
        return not turned

    def broken(self, source: str) -> str:
        """The whole module with this one thing broken."""
        text = source.encode()
        end = self.start + len(self.before.encode())
        assert text[self.start : end].decode() == self.before, "the module is another one now"
        return (text[: self.start] + self.after.encode() + text[end:]).decode()

    def __str__(self) -> str:
        return f"{self.path}:{self.line}: {self.before} -> {self.after}"


def _expression(text: str) -> ast.expr:
    # In brackets, as a piece of a module may run over several lines.
    return ast.parse(f"({text})", mode="eval").body


def places_in(path: str, source: str) -> Iterator[Place]:
    """
    Every way to break a module by one small thing.

    A comparison takes or leaves its bound or turns round, "and" changes with "or", "not" goes,
    a sum becomes a difference and a product a quotient, a number is one more. Functions that take
    chance (``random``) are left out: they make sentences up for tests, and decide nothing.
    """
    text = source.encode()
    starts = [0, *accumulate(len(line) for line in text.splitlines(keepends=True))]
    tree, lines = ast.parse(source), source.splitlines()
    # Before Python 3.12 what stands inside a text does not know its own place.
    inside = {
        id(part)
        for node in ast.walk(tree)
        if isinstance(node, ast.JoinedStr) or _makes_samples(node)
        for part in ast.walk(node)
    }
    for node in ast.walk(tree):
        if id(node) in inside:
            continue
        for broken in _broken(node):
            start = starts[node.lineno - 1] + node.col_offset  # type: ignore[attr-defined]
            end = starts[node.end_lineno - 1] + node.end_col_offset  # type: ignore[attr-defined]
            before = text[start:end].decode()
            line = node.lineno  # type: ignore[attr-defined]
            after = f"({ast.unparse(broken)})"
            yield Place(path, line, start, before, after, lines[line - 1].strip())


def _broken(node: ast.AST) -> Iterator[ast.expr]:
    if isinstance(node, ast.Compare):
        for number, op in enumerate(node.ops):
            ops = [*node.ops[:number], COMPARED[type(op)](), *node.ops[number + 1 :]]
            yield ast.Compare(node.left, ops, node.comparators)
    elif isinstance(node, ast.BoolOp):
        yield ast.BoolOp(ast.Or() if isinstance(node.op, ast.And) else ast.And(), node.values)
    elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.Not):
        yield node.operand
    elif isinstance(node, ast.BinOp) and type(node.op) in COUNTED:
        if not any(_is_text(part) for part in (node.left, node.right)):
            yield ast.BinOp(node.left, COUNTED[type(node.op)](), node.right)
    elif isinstance(node, ast.Constant) and type(node.value) in (int, float):
        yield ast.Constant(node.value + 1)  # type: ignore[operator]


def _makes_samples(node: ast.AST) -> bool:
    return isinstance(node, ast.FunctionDef) and any(
        argument.arg == "random" for argument in node.args.args
    )


def _is_text(node: ast.AST) -> bool:
    return isinstance(node, ast.JoinedStr) or (
        isinstance(node, ast.Constant) and isinstance(node.value, str | bytes)
    )


def places_of(root: Path, room: str) -> list[Place]:
    """All places of a folder or a module."""
    folder = root / room
    paths = sorted(folder.rglob("*.py")) if folder.is_dir() else [folder]
    return [
        place
        for path in paths
        for place in places_in(path.relative_to(root).as_posix(), path.read_text(encoding="utf-8"))
    ]
