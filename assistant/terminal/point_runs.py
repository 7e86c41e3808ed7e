"""Names of many points in short."""

from __future__ import annotations

import re
from collections.abc import Sequence

_NAME = re.compile(r"([A-Z]{1,2})([1-9][0-9]?)")


def in_runs(points: Sequence[str]) -> str:
    """
    Points in short, those next to each other in a row as one.

    >>> in_runs(["A1", "B1", "C1", "E1", "A2", "K9"])
    'A1 to C1, E1, A2, K9'
    """
    runs: list[list[str]] = []
    for point in sorted(points, key=_along_row):
        if runs and _follows(runs[-1][-1], point):
            runs[-1].append(point)
        else:
            runs.append([point])
    return ", ".join(_run(run) for run in runs)


def _run(run: Sequence[str]) -> str:
    return f"{run[0]} to {run[-1]}" if len(run) > 2 else ", ".join(run)


def _along_row(point: str) -> tuple[int, int, str]:
    """By row, then by column as they are lettered: Z before AA."""
    match = _NAME.fullmatch(point)
    return (int(match[2]), len(match[1]), match[1]) if match else (100, 0, point)


def _follows(first: str, second: str) -> bool:
    one, other = _NAME.fullmatch(first), _NAME.fullmatch(second)
    if not one or not other or one[2] != other[2] or len(one[1]) != len(other[1]):
        return False
    return one[1][:-1] == other[1][:-1] and ord(other[1][-1]) - ord(one[1][-1]) == 1
