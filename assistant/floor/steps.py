"""Real steps in the floor, between two columns, two rows, or two points."""

from __future__ import annotations

from typing import TYPE_CHECKING

from assistant.floor.late_numpy import np
from assistant.floor.places import grid_of, places_of
from assistant.job import Job, Layout
from grammar.frozen import frozen

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray


@frozen
class FloorStep:
    """A step in the floor, and where it lies."""

    first: str
    second: str
    line_m: FloatArray
    """(2, 2) two places on its line."""
    beside: frozenset[str]
    """Points on either side of it, whose readings are not suspect."""


def cell_of(name: str) -> tuple[str, str]:
    """
    Letters and number of a point's name; either is empty in the name of a row or column.

    >>> cell_of("AA3"), cell_of("B"), cell_of("3")
    (('AA', '3'), ('B', ''), ('', '3'))
    """
    letters = name.rstrip("0123456789")
    return letters, name[len(letters) :]


def column_number(letters: str) -> int:
    """
    A column counted from one.

    >>> column_number("A"), column_number("AA")
    (1, 27)
    """
    column = 0
    for letter in letters:
        column = column * 26 + ord(letter) - ord("A") + 1
    return column


def column_letters(column: int) -> str:
    """
    A column's letters, counted from one.

    >>> column_letters(1), column_letters(27)
    ('A', 'AA')
    """
    letters = ""
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def line_members(layout: Layout, name: str) -> tuple[str, ...]:
    """Points of a column (``B``) or row (``3``) of the grid, or the point itself."""
    letters, number = cell_of(name)
    if letters and number:
        return (name,) if name in places_of(layout).row else ()
    grid = grid_of(layout)
    names = () if grid is None else grid.names
    return tuple(n for n in names if cell_of(n)[0 if letters else 1] == (letters or number))


def step_between(layout: Layout, first: str, second: str) -> FloorStep | None:
    """A step between two columns, rows or points; None where either does not exist (any more)."""
    some, others = line_members(layout, first), line_members(layout, second)
    if not some or not others:
        return None
    at, there = _middle(layout, some), _middle(layout, others)
    half, across = (at + there) / 2, there - at
    if not np.hypot(*across):
        return None
    along = np.array([-across[1], across[0]])
    return FloorStep(first, second, np.array([half, half + along]), frozenset((*some, *others)))


def _middle(layout: Layout, names: tuple[str, ...]) -> FloatArray:
    places = places_of(layout)
    middle: FloatArray = places.xy_m[[places.row[name] for name in names]].mean(axis=0)
    first, last = places.xy_m[places.row[names[0]]], places.xy_m[places.row[names[-1]]]
    # Only a column's position counts, not which of its points are inside the outline.
    for axis in (0, 1):
        if len(names) > 1 and abs(first[axis] - last[axis]) > 1e-9:
            middle[axis] = 0.0
    return middle


def steps_of(job: Job) -> tuple[FloorStep, ...]:
    """All steps that lie on the present grid."""
    found = (step_between(job.layout, one, other) for one, other in job.survey.steps)
    return tuple(step for step in found if step is not None)
