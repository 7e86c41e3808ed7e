"""What a file of points comes to, before it is known which of its columns is which way."""

from __future__ import annotations

from array import array
from collections.abc import Callable
from typing import TYPE_CHECKING

from assistant.errors import LeadsmanError
from grammar.frozen import frozen_identity

if TYPE_CHECKING:
    from assistant.levels.arrays import FloatArray

__all__ = ["MOST_POINTS", "PointFileError", "Points", "Seen", "as_points"]

MOST_POINTS = 5_000_000
"""Some 500 MB while they are read. Raising it needs as much more memory."""

Seen = Callable[[int], None]
"""Called with how many bytes (or points, where those are counted) were read since the last call."""


class PointFileError(LeadsmanError):
    """A file of points that cannot be used; names the row and what would be right."""


@frozen_identity
class Points:
    """Points in the order and unit of their file."""

    first: FloatArray
    """(n,) the first of both places."""
    second: FloatArray
    height: FloatArray
    named: bool
    """Whether the file, or its format, says which place is which."""
    place_unit: str | None = None
    """``m``, ``mm``, ``cm``, ``ft`` or ``in``, where the file says it."""
    height_unit: str | None = None


def as_points(
    values: array[float],
    *,
    named: bool,
    place_unit: str | None = None,
    height_unit: str | None = None,
) -> Points:
    """Points from their numbers in rows of three; raises where there are none."""
    import numpy as np

    table = np.frombuffer(values, dtype=np.float64).reshape(-1, 3)
    if not len(table):
        raise PointFileError("There is no point in the file.")
    return Points(table[:, 0], table[:, 1], table[:, 2], named, place_unit, height_unit)
